"""A tune in ABC, followed sign by sign: which voice has the sign, and how long and how high it sounds.

Section numbers are those of the standard, ABC 2.1.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TypeVar

from studio.project.abc_fields import Staff, key_of, meter_of, staff_of, unit_of, usual_unit
from studio.project.abc_tokens import Token, tokens
from studio.project.complaints import MisfitError
from studio.project.written_part import ClefName

Value = TypeVar("Value")

_IN_THE_TIME_OF = {2: 3, 3: 2, 4: 3, 6: 2, 8: 3}
"""How many take the time of a tuplet (4.13); for 5, 7 and 9 it is 3 in a compound meter, else 2."""


@dataclass(frozen=True)
class Sign:
    """A token where it stands: its voice, the time it takes in `quarters` (0 for what takes none), and how many
    `octaves` it sounds above what is written."""

    token: Token
    voice: str
    quarters: Fraction = Fraction(0)
    octaves: int = 0
    in_head: bool = False


@dataclass
class Tune:
    """`unit` is its unit length in quarters. `complaints` are about fields, each at its place in the text."""

    unit: Fraction
    signs: list[Sign] = field(default_factory=list)
    clefs: dict[str, ClefName | None] = field(default_factory=dict)
    complaints: list[MisfitError] = field(default_factory=list)


@dataclass
class _Voice:
    unit: Fraction
    meter: str | None
    staff: Staff
    share: Fraction = Fraction(1)  # of the tuplet that is open
    left: int = 0  # of its notes
    broken: Fraction = Fraction(1)  # what the sign before left for the next note
    last: int | None = None


def follow(text: str) -> Tune:
    """The tune, from its first sign to its last."""
    every = list(tokens(text))
    tune = Tune(_unit(every))
    follower = _Follower(tune)
    for token in every:
        follower.take(token)
    tune.clefs = {name: voice.staff.clef for name, voice in follower.sounding.items()}
    return tune


def _unit(every: Iterable[Token]) -> Fraction:
    """The unit length of the head."""
    meter: str | None = None
    unit: Fraction | None = None
    for token in every:
        if token.letter == "K":
            break
        try:
            meter = meter_of(token.value) if token.letter == "M" else meter
            unit = unit_of(token.value) if token.letter == "L" else unit
        except MisfitError:
            continue  # said where the field is followed
    return unit or usual_unit(meter)


class _Follower:
    def __init__(self, tune: Tune) -> None:
        self._tune = tune
        self._in_head = True
        self._common = _Voice(tune.unit, None, Staff())
        self._staves: dict[str, Staff] = {}
        self._name = ""
        self.sounding: dict[str, _Voice] = {}

    def take(self, token: Token) -> None:
        if token.kind in ("field", "line field"):
            in_head = self._in_head
            self._field(token)
            self._tune.signs.append(Sign(token, self._name, in_head=in_head))
        elif token.kind in ("note", "chord", "rest"):
            self._sound(token)
        else:
            if token.kind == "tuplet":
                self._tuplet(token)
            elif token.kind == "broken":
                self._broken(token)
            self._tune.signs.append(Sign(token, self._name))

    def _voice(self) -> _Voice:
        if self._name not in self.sounding:
            staff = _over(self._common.staff, self._staves.get(self._name, Staff()))
            self.sounding[self._name] = replace(self._common, staff=staff)
        return self.sounding[self._name]

    def _try(self, token: Token, read: Callable[[str], Value]) -> Value | None:
        try:
            return read(token.value)
        except MisfitError as misfit:
            self._tune.complaints.append(MisfitError(misfit.sentence, token.at))
            return None

    def _field(self, token: Token) -> None:
        if token.letter == "V":
            self._name = token.value.split()[0] if token.value else ""
            said = self._try(token, staff_of) or Staff()
            self._staves[self._name] = _over(self._staves.get(self._name, Staff()), said)
            if self._name in self.sounding:
                self._voice().staff = _over(self._voice().staff, said)
            return
        if token.letter == "m" or (token.letter == "P" and self._in_head and len(token.value) > 1):
            what = "a macro" if token.letter == "m" else "an order in which to play the parts of the tune"
            sentence = f"'{token.letter}:' gives {what}, which is not read here; write the music out"
            self._tune.complaints.append(MisfitError(sentence, token.at))
            return
        voice = self._common if self._in_head else self._voice()
        if token.letter == "L":
            voice.unit = self._try(token, unit_of) or voice.unit
        elif token.letter == "M":
            voice.meter = self._try(token, meter_of)
        elif token.letter == "K":
            self._try(token, key_of)
            voice.staff = _over(voice.staff, self._try(token, staff_of) or Staff())
            if self._in_head:
                self._in_head, self._name = False, ""

    def _sound(self, token: Token) -> None:
        voice = self._voice()
        over, under = token.share
        if token.kind == "chord":  # 4.17: its length is that of its first note, times the chord's own
            first = token.first_inside
            over, under = over * first[0], under * first[1]
        quarters = voice.unit * over / max(under, 1) * voice.broken
        if voice.left:
            quarters *= voice.share
            voice.left -= 1
        voice.broken = Fraction(1)
        voice.last = len(self._tune.signs)
        self._tune.signs.append(Sign(token, self._name, quarters, voice.staff.octaves or 0))

    def _tuplet(self, token: Token) -> None:
        voice = self._voice()
        notes, time, of = (*(int(part) if part else 0 for part in token.text[1:].split(":")), 0, 0)[:3]
        if notes < 2:
            return
        compound = voice.meter in ("6/8", "9/8", "12/8")
        time = time or _IN_THE_TIME_OF.get(notes, 3 if compound else 2)
        voice.share, voice.left = Fraction(time, notes), of or notes

    def _broken(self, token: Token) -> None:
        """The note before and the note after a sign such as > share their time unevenly (4.4)."""
        voice = self._voice()
        if voice.last is None:
            return
        short = Fraction(1, 2 ** len(token.text))
        first, second = (2 - short, short) if token.text[0] == ">" else (short, 2 - short)
        before = self._tune.signs[voice.last]
        self._tune.signs[voice.last] = replace(before, quarters=before.quarters * first)
        voice.broken = second


def _over(under: Staff, said: Staff) -> Staff:
    return Staff(said.clef or under.clef, under.octaves if said.octaves is None else said.octaves)
