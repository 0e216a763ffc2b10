"""Amounts of sound as people write them: decibels, cents, per cents, places between left and right.

Each is read from its own text, and refused with a sentence that says what would be right. What is a ratio or a
time is exact.
"""

from __future__ import annotations

import re
from fractions import Fraction

from studio.project.complaints import MisfitError, unknown_name
from studio.project.number_words import number_meant
from studio.project.times import needs_rewriting, read_length

QUIETER, LOUDER = -60, 24
"""Decibels between which a gain lies."""
SLOWEST, FASTEST = Fraction(4, 10), Fraction(15, 10)
MOST_REPEATS = 8
FURTHEST_CENTS = 1200
LONGEST_GLIDE = 10
PROGRAMS = 128
"""Sounds of a General MIDI bank, which musicians count from 1 (General MIDI System Level 1, MMA)."""

SOUNDS = ("plucked", "struck", "sustained")
OFF = ("off", "no", "false")
ON = ("on", "yes", "true")

_NUMBER = r"([+−-]?)\s*(\d{1,4}(?:\.\d{1,4})?)"
_DECIBELS = re.compile(rf"{_NUMBER}\s*dB", re.ASCII | re.IGNORECASE)
_PITCH = re.compile(
    rf"{_NUMBER}\s*(cents?|half[ -]?steps?|semitones?|(?:whole )?tones?|whole[ -]?steps?|ct)",
    re.ASCII | re.IGNORECASE,
)
_BARE = re.compile(_NUMBER, re.ASCII)
_PERCENT = re.compile(r"(\d{1,4}(?:\.\d{1,4})?)\s*%", re.ASCII)
_PLAIN = re.compile(r"\d{1,4}(?:\.\d{1,6})?", re.ASCII)
_SIDE = re.compile(r"(left|right)(?:\s+(\d{1,4}(?:\.\d{1,4})?)\s*(%?))?", re.ASCII | re.IGNORECASE)
_SOUNDFONT = re.compile(r"soundfont(?:\s+(\S+))?", re.IGNORECASE)


def _signed(sign: str, number: str) -> Fraction:
    return -Fraction(number) if sign in ("-", "−") and sign else Fraction(number)


def _misread(text: str, sentence: str) -> MisfitError:
    """What is said of a text that is no amount: how its number is written, where that is all, or the sentence."""
    number = needs_rewriting(text)
    return MisfitError(number or sentence)


def read_decibels(
    text: str, lowest: float = QUIETER, highest: float = LOUDER, remedy: str = "write decibels, as -3 dB"
) -> float:
    """Decibels from `-3 dB`. Raises MisfitError, with a remedy where it is no level at all.

    >>> read_decibels("−4.5 dB")
    -4.5
    """
    text = text.strip()
    found = _DECIBELS.fullmatch(text)
    if found is None:
        if _BARE.fullmatch(text):
            raise MisfitError(f"'{text}' has no unit; write {text} dB")
        raise _misread(text, f"'{text}' is not a level; {remedy}")
    level = float(_signed(found[1], found[2]))
    if not lowest <= level <= highest:
        raise MisfitError(f"'{text}' is out of range; this goes from {lowest:g} to {highest:g} dB")
    return level


def read_lowering(text: str, remedy: str = "write decibels, as 9 dB") -> float:
    """By how many decibels something goes down: `9 dB`, always more than 0. Raises MisfitError."""
    text = text.strip()
    found = _DECIBELS.fullmatch(text) or _BARE.fullmatch(text)
    if found and found[1] in ("-", "−") and found[1]:
        sentence = f"'{text}' says by how much something goes down, so it has no minus"
        raise MisfitError(f"{sentence}; write {found[2]} dB")
    by = read_decibels(text, 0, -QUIETER, remedy)
    if by == 0:
        raise MisfitError(f"'{text}' lowers nothing; write more than 0 dB, or leave it out")
    return by


def read_ducking(text: str) -> float | bool:
    """By how many decibels music goes down under a voice: `15 dB`; False for `off`, True for `on`, which is as usual.

    Raises MisfitError.
    """
    if text.strip().lower() in OFF:
        return False
    if text.strip().lower() in ON:
        return True
    return read_lowering(text, "write decibels, as 15 dB, or off")


def read_glide(text: str) -> Fraction:
    """Seconds over which a level moves: `0.15` or `0.15 s`. Raises MisfitError."""

    def no_rate() -> Fraction:
        raise MisfitError(f"'{text}' is timecode; write seconds, as 0.15")

    seconds = read_length(text, no_rate)
    if seconds > LONGEST_GLIDE:
        sentence = f"'{text}' is too slow to be heard as one move; the most is {LONGEST_GLIDE} s"
        if seconds >= 20 and text.strip().isdecimal():  # so many milliseconds, to a person who mixes
            sentence += f", and a bare number is seconds: did you mean {float(seconds / 1000):g}?"
        raise MisfitError(sentence)
    return seconds


def read_click(text: str) -> float | None:
    """How loud a click is against the music, from `yes` (0 dB), `no` (None) or `-6 dB`. Raises MisfitError."""
    if text.strip().lower() in ON:
        return 0.0
    if text.strip().lower() in OFF:
        return None
    if not _DECIBELS.fullmatch(text.strip()) and not _BARE.fullmatch(text.strip()):
        sentence = f"'{text}' is no way to click; write yes, or its level against the music, as -6 dB"
        raise _misread(text, sentence)
    return read_decibels(text, QUIETER, 12)


def read_speed(text: str) -> Fraction:
    """A speed from `0.8` or `80 %`. Raises MisfitError.

    >>> read_speed("80 %")
    Fraction(4, 5)
    """
    text = text.strip()
    if found := _PERCENT.fullmatch(text):
        speed = Fraction(found[1]) / 100
    elif _PLAIN.fullmatch(text):
        speed = Fraction(text)
    else:
        raise _misread(text, f"'{text}' is not a speed; write 0.8 or 80 %, pitch is kept")
    if speed == 0:
        raise MisfitError(f"At a speed of {text} nothing would ever be heard; speeds go from 40 % to 150 %")
    if not SLOWEST <= speed <= FASTEST:
        meant = f"; did you mean {text} %?" if "%" not in text and SLOWEST <= speed / 100 <= FASTEST else ""
        raise MisfitError(f"'{text}' is out of range: speeds go from 0.4 to 1.5, or 40 % to 150 %{meant}")
    return speed


def read_repeat(text: str) -> int:
    """How often something is heard, from 1 to 8. Raises MisfitError."""
    text = text.strip()
    if not re.fullmatch(r"-?\d{1,6}", text, re.ASCII):
        remedy = f"as {number_meant(text) or 2}"
        raise MisfitError(f"'{text}' is not a whole number; write how often it is heard in all, {remedy}")
    times = int(text)
    if not 1 <= times <= MOST_REPEATS:
        few = "too few" if times < 1 else "too many"
        sentence = f"'{text}' is {few}: this says how often it is heard in all"
        raise MisfitError(f"{sentence}; write 1 to {MOST_REPEATS}")
    return times


def read_cents(text: str) -> Fraction:
    """A shift of pitch in cents, from `-15 cents` or `2 half steps`; a semitone is a half step. Raises MisfitError.

    >>> read_cents("-2 half steps")
    Fraction(-200, 1)
    """
    text = text.strip()
    found = _PITCH.fullmatch(text)
    if found is None:
        if bare := _BARE.fullmatch(text):
            raise MisfitError(f"'{text}' has no unit; write {text} {_cents(bare[2])}, or half steps")
        raise _misread(text, f"'{text}' is no shift of pitch; write it as -15 cents or 2 half steps")
    unit, number = found[3].lower(), _signed(found[1], found[2])
    if unit.startswith(("tone", "whole")):
        size = 200
    elif unit.startswith("c"):
        size = 1
    else:
        size = 100
    cents = number * size
    if abs(cents) > FURTHEST_CENTS:
        raise MisfitError(
            f"'{text}' is out of range; pitch moves by an octave at most, 12 half steps up or down"
        )
    if size == 200:
        steps = "half step" if abs(number) * 2 == 1 else "half steps"
        raise MisfitError(f"'{text}' is written {float(number * 2):g} {steps} here")
    if unit == "ct":
        raise MisfitError(f"'{text}' is written {float(number):g} {_cents(found[2])} here")
    return cents


def _cents(number: str) -> str:
    return "cent" if Fraction(number) == 1 else "cents"


def read_pan(text: str) -> float:
    """A place between left (-1) and right (1), from `left 40 %`, `right` or `middle`. Raises MisfitError.

    >>> read_pan("left 40 %")
    -0.4
    """
    text = text.strip()
    if text.lower() == "middle":
        return 0.0
    if text.lower() in ("centre", "center", "c", "mid"):
        raise MisfitError(f"'{text}' is written middle here")
    found = _SIDE.fullmatch(text)
    if found is None:
        raise _misread(
            text, f"'{text}' is no place between left and right; write left 40 %, right 20 % or middle"
        )
    if found[2] and not found[3]:
        raise MisfitError(f"'{text}' has no unit; write {text} %")
    share = Fraction(found[2] or 100) / 100
    if share > 1:
        raise MisfitError(f"'{text}' is further out than a side; the most is {found[1].lower()} 100 %")
    return float(-share if found[1].lower() == "left" else share) + 0.0


def read_played_sound(text: str) -> str:
    """The sound of the program's own instrument: `struck`, or `soundfont 12` for a General MIDI program.

    Raises MisfitError.
    """
    text = " ".join(text.split())
    if text.lower() in SOUNDS:
        return text.lower()
    found = _SOUNDFONT.fullmatch(text)
    if found is None:
        raise MisfitError(unknown_name("a sound", text, (*SOUNDS, "soundfont 1")))
    number = found[1] or ""
    if not re.fullmatch(r"\d{1,3}", number, re.ASCII) or not 1 <= int(number) <= PROGRAMS:
        raise MisfitError(
            f"'{text}' names no program; they count from 1 to {PROGRAMS}, and soundfont 1 is a grand piano"
        )
    return f"soundfont {int(number)}"
