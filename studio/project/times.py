"""Times as people write them, to exact seconds and back."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from studio.music.timecode import frames
from studio.project.complaints import MisfitError, UnknowableError

_FORMS = "a time is written 1:03.25, 63.25s, or as timecode 00:01:03:12"
_DIGITS = r"\d{1,6}"
_PART = r"(?:\.\d{1,9})?"
_CLOCK = re.compile(rf"(?:({_DIGITS}):)?({_DIGITS}):(\d{{2}}{_PART})", re.ASCII)
_SECONDS = re.compile(rf"({_DIGITS}{_PART}) ?s", re.ASCII)
_TIMECODE = re.compile(r"\d{1,2}:\d{2}:\d{2}[:;]\d{2}", re.ASCII)
_NUMBER = re.compile(rf"{_DIGITS}{_PART}", re.ASCII)
_MILLISECONDS = re.compile(r"(\d{1,6}(?:\.\d{1,3})?) ?ms", re.ASCII | re.IGNORECASE)
_DASH = re.compile(r"\s*[-–—]\s*")


def read_time(text: str, rate: Callable[[], Fraction] | None = None) -> Fraction:
    """Seconds from `1:03.25`, `0:01:03.250`, `63.25s` or timecode, which needs the canvas's frame rate.

    Raises MisfitError, or what `rate` raises when timecode asks for it.

    >>> read_time("1:03.25")
    Fraction(253, 4)
    """
    text = text.strip()
    if found := _SECONDS.fullmatch(text):
        return Fraction(found[1])
    if _TIMECODE.fullmatch(text):
        if rate is None:
            raise UnknowableError
        frame_rate = rate()
        try:
            return frames(text, frame_rate) / frame_rate
        except ValueError as error:
            raise MisfitError(str(error)) from None
    found = _CLOCK.fullmatch(text)
    if found is None:
        if _NUMBER.fullmatch(text):
            raise MisfitError(
                f"'{text}' has no unit; write {text}s, or {time_text(Fraction(text))} as minutes and seconds"
            )
        if text.startswith(("-", "–")):
            raise MisfitError(f"'{text}' is before the start; times count up from 0:00")
        raise MisfitError(f"'{text}' is not a time; {_FORMS}")
    hours, minutes, seconds = Fraction(found[1] or 0), Fraction(found[2]), Fraction(found[3])
    if seconds >= 60 or (found[1] and minutes >= 60):
        raise MisfitError(f"'{text}' is not a time: minutes and seconds go up to 59")
    return (hours * 60 + minutes) * 60 + seconds


def read_length(text: str, rate: Callable[[], Fraction] | None = None) -> Fraction:
    """Seconds of a length of time, for which a bare number is seconds too: `0.05`."""
    if _NUMBER.fullmatch(text.strip()):
        return Fraction(text.strip())
    if sentence := needs_rewriting(text):
        raise MisfitError(sentence)
    return read_time(text, rate)


def needs_rewriting(text: str) -> str | None:
    """What is said of a text whose number is right but written otherwise: `3,5`, `.8` or `50 ms`; None for others."""
    text = text.strip()
    if re.search(r"\d,\d", text):
        return f"'{text}' has a comma in it; numbers take a point, as in {text.replace(',', '.')}"
    if re.match(r"[+−-]?\.\d", text):
        return f"'{text}' begins with its point; write {text.replace('.', '0.', 1)}"
    if found := _MILLISECONDS.fullmatch(text):
        return f"'{text}' is written {float(Fraction(found[1]) / 1000):g} here; a bare number is seconds"
    return None


def read_time_range(text: str, rate: Callable[[], Fraction] | None = None) -> tuple[Fraction, Fraction]:
    """(start, end) in seconds from `0:04-0:12`. Raises MisfitError."""
    ends = _DASH.split(text.strip())
    if len(ends) != 2 or not all(ends):
        raise MisfitError(f"'{text}' is not a stretch of time; write from and up to, as 0:04-0:12")
    start, end = (read_time(side, rate) for side in ends)
    if end <= start:
        raise MisfitError(f"'{text}' ends before it starts; write the earlier time first")
    return start, end


def is_time_range(text: str) -> bool:
    """Whether a text is meant as a stretch of time (`1:03-1:20`, `3s-5s`) rather than a place in the song."""
    first = _DASH.split(text.strip())[0]
    return bool(_CLOCK.fullmatch(first) or _SECONDS.fullmatch(first) or _TIMECODE.fullmatch(first))


def time_text(seconds: Fraction) -> str:
    """A time as people say it, to the millisecond and without idle zeros: `1:03.25`."""
    thousandths = round(seconds * 1000)
    whole, rest = divmod(thousandths, 1000)
    minutes, second = divmod(whole, 60)
    hours, minute = divmod(minutes, 60)
    clock = f"{hours}:{minute:02}:{second:02}" if hours else f"{minute}:{second:02}"
    return clock + (f".{rest:03}".rstrip("0") if rest else "")
