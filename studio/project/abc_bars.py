"""Whether a tune in ABC says what can be read, and says it in the song's own bars."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.abc_fields import meter_of
from studio.project.abc_tokens import Token
from studio.project.abc_tune import Sign, Tune
from studio.project.complaints import MisfitError

_PARTS = {4: "quarters", 8: "eighths", 16: "sixteenths", 32: "thirty-seconds"}


@dataclass(frozen=True)
class Fitting:
    """What a tune has to fit: the part's name and the song's bars. `end` is where the song ends, in quarters; a part
    that is written for this song alone (`whole`) may not go on after it."""

    name: str
    time: SongTime
    end: Fraction
    whole: bool


def misreadings(tune: Tune, fitting: Fitting) -> Iterator[MisfitError]:
    """What is wrong with a tune, each at its place in the text."""
    yield from tune.complaints
    if tune.complaints:  # lengths and bars may hang on them
        return
    for sign in tune.signs:
        if sign.token.kind == "early":
            sentence = (
                "This stands before the key; K: is the last line before the music, and the key of all of it"
            )
            yield MisfitError(sentence, sign.token.at)
            return
    voices = list(dict.fromkeys(sign.voice for sign in tune.signs if not sign.in_head))
    for voice in voices:
        of = f"{fitting.name}, voice {voice}" if len(tune.clefs) > 1 else fitting.name
        yield from _Voice(fitting, of).misreadings(
            [sign for sign in tune.signs if sign.in_head or sign.voice == voice]
        )


@dataclass
class _Bar:
    at: int
    length: Fraction = Fraction(0)
    unread: bool = False  # something in it cannot be read, so that its length is not known


@dataclass(frozen=True)
class _Short:
    """A bar that lacks something, which what comes next may bring."""

    missing: Fraction
    misfit: MisfitError


class _Voice:
    """One voice on its way through the song's bars."""

    def __init__(self, fitting: Fitting, of: str) -> None:
        self._fitting = fitting
        self._time = fitting.time
        self._of = of
        self._number = 1
        self._begun = False
        self._bar: _Bar | None = None
        self._meter: tuple[Meter, Token] | None = None
        self._past = False
        self._upbeat = Fraction(0)  # what its section began with, before a bar line
        self._short: _Short | None = None
        self._own_meter: Meter | None = (
            None  # where bars cannot be counted in the song: repeats come before them
        )

    def misreadings(self, signs: list[Sign]) -> Iterator[MisfitError]:
        repeats = any(sign.token.kind == "bar" and ":" in sign.token.text for sign in signs)
        if repeats and len(self._time.meters) > 1:
            self._own_meter = self._time.meter(1)
        last = max((n for n, sign in enumerate(signs) if sign.quarters), default=-1)
        for n, sign in enumerate(signs):
            token = sign.token
            if token.letter == "M":
                self._state_meter(token)
            elif token.kind == "stray":
                self._bar = self._bar or _Bar(token.at)
                self._bar.unread = True
                yield _stray(token, f"bar {self._number} of {self._of}")
            elif sign.quarters:
                if self._bar is None:
                    self._bar = _Bar(token.at)
                    yield from self._begin()
                self._bar.length += sign.quarters
            elif token.kind == "bar" and self._bar is not None:
                yield from self._close(self._bar, token.text, n > last)
        if self._bar is not None:
            yield from self._close(self._bar, "", True)
        if self._short is not None and self._short.missing != self._upbeat:
            yield self._short.misfit

    def _state_meter(self, token: Token) -> None:
        try:
            written = meter_of(token.value)
            self._meter = (Meter.parse(written), token) if written else None
        except ValueError:  # complained of already
            self._meter = None

    def _begin(self) -> Iterator[MisfitError]:
        """A bar that is past the song's end, or in another meter than the tune says."""
        fitting, time = self._fitting, self._time
        if fitting.whole and not self._past and 0 < fitting.end <= time.bar_start(self._number):
            self._past = True
            last = time.bar_at(fitting.end)
            last -= time.bar_start(last) == fitting.end
            assert self._bar is not None
            yield MisfitError(
                f"Bar {self._number} of {self._of} is past the end of the song, whose last bar is {last}; "
                "take it away, or add bars to the song's sections or chords",
                self._bar.at,
            )
        if self._meter is not None:
            stated, token = self._meter
            self._meter = None
            if self._own_meter is not None:
                self._own_meter = stated
            elif stated != time.meter(self._number):
                yield MisfitError(
                    f"The meter here is {stated} at bar {self._number} of {self._of}, and the song's is "
                    f"{time.meter(self._number)}; correct one of them",
                    token.at,
                )

    def _close(self, bar: _Bar, sign: str, final: bool) -> Iterator[MisfitError]:
        """Count a bar, and complain where it is not as long as the song's. What a pickup takes before the bar lines
        of a section, its last bar may lack; a repeat may stand within a bar."""
        self._bar = None
        meter = self._own_meter or self._time.meter(self._number)
        first, self._begun = not self._begun, True
        if first and bar.length < meter.bar and bar.length <= self._time.pickup:
            self._upbeat = bar.length
            return
        missing = meter.bar - bar.length
        short, self._short = self._short, None
        if short is not None:
            if bar.length == short.missing:
                self._upbeat = bar.length
                return
            if short.missing != self._upbeat:
                yield short.misfit
        if missing and not bar.unread:
            misfit = MisfitError(self._odd(bar.length, meter, sign, first), bar.at)
            if missing > 0 and not first and (final or _divides(sign)):
                self._short = _Short(missing, misfit)
            else:
                yield misfit
        self._number += 1

    def _odd(self, length: Fraction, meter: Meter, sign: str, first: bool) -> str:
        short = length < meter.bar
        remedy = self._remedy(length, sign, first) if short else "take some of it out, or set a bar line |"
        return (
            f"Bar {self._number} of {self._of} holds {_count(length, meter)}, and {meter} has "
            f"{_number(meter.bar, meter)}; {remedy}"
        )

    def _remedy(self, length: Fraction, sign: str, first: bool) -> str:
        if first:
            beats = _number(length, self._time.meter(1), counted=True).replace(" ", "+")
            return f"fill it with a rest such as z, or, if it is a pickup before bar 1, write pickup: {beats} in song"
        if ":" in sign:
            return "fill it with a rest such as z; where a repeat divides a bar, write the repeat out"
        return "fill it with notes or with a rest such as z"


def _divides(sign: str) -> bool:
    """Whether a bar sign may stand within a bar, as repeats and double bars do."""
    return ":" in sign or "||" in sign or "|]" in sign


def _stray(token: Token, where: str) -> MisfitError:
    text = token.text
    if text[0] in "#♯♭♮":
        said = "is no sign of ABC: accidentals stand before the note, ^F for F♯, _B for B♭, =F for F♮"
    elif text.endswith(":"):
        said = "begins a field at the start of a line, not music; move it onto the line before"
    elif text[0] in "^_=":
        said = "has no note after it that is read here; write one accidental and its note, as ^F, _B or =F"
    elif text[0] == "H":
        said = "is no note of ABC, which has A to G: the German H is B, and B is _B"
    elif text[0] in "ZX":
        said = "is a rest of whole bars, which is not read here; write each bar's own rest, as z4 |"
    elif text[0].isalpha():
        said = "is no note of ABC: notes are A to G and a to g, and a rest is z"
    elif text[0].isdigit() or text[0] == "/":
        said = "belongs to no note; a length follows its note at once, as A2"
    elif text[0] == "&":
        said = (
            "writes two voices into one bar, which is not read here; write V:1 and V:2 on lines of their own"
        )
    elif text[0] in '[]{}"':
        said = "has no other half on its line; close what is opened, as [CEG]"
    else:
        said = "means nothing in ABC; take it out"
    return MisfitError(f"'{text}' in {where} {said}", token.at)


def _number(length: Fraction, meter: Meter, counted: bool = False) -> str:
    """A length in the meter's own parts: `3`, `2 1/2`; in counted beats if so asked."""
    whole, rest = divmod(length / (meter.beat if counted else Fraction(4, meter.unit)), 1)
    return " ".join(str(part) for part in (whole, rest) if part) or "0"


def _count(length: Fraction, meter: Meter) -> str:
    number = _number(length, meter)
    one = length <= Fraction(4, meter.unit)
    what = _PARTS.get(meter.unit, "beats") if meter.compound else "beats"
    return f"{number} {what.removesuffix('s') if one else what}"
