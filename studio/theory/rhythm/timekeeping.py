"""What keeps time in a groove, in which note values, straight or swung.

Note values are common practice: the coarsest grid that holds all but a stray ornament (one stroke in eight).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from studio.music.groove import Groove
from studio.music.kit import HATS
from studio.music.meter import Meter

_KEEPERS: tuple[tuple[str, ...], ...] = (
    HATS,
    ("ride", "ride bell"),
    ("shaker",),
    ("maracas",),
    ("cabasa",),
    ("tambourine",),
    ("cowbell",),
    ("pedal hat",),
)
NOTE_VALUES = {
    Fraction(4): "whole notes", Fraction(2): "halves", Fraction(1): "quarters", Fraction(1, 2): "eighths",
    Fraction(1, 3): "triplets", Fraction(1, 4): "sixteenths", Fraction(1, 6): "sixteenth triplets",
    Fraction(1, 8): "thirty-seconds", Fraction(3, 2): "dotted quarters", Fraction(3, 4): "dotted eighths",
    Fraction(2, 3): "quarter triplets", Fraction(3, 8): "dotted sixteenths",
}  # fmt: skip
_STRAY = Fraction(1, 8)
_WHOLE = Fraction(4, 5)  # a voice that leaves out more than a fifth of its grid is broken


@dataclass(frozen=True, slots=True)
class Timekeeper:
    """The voices that keep time and how.

    ``value`` is the note value ("eighths", "off-beats", "triplets" …), ``step`` its length in quarters, ``filled``
    the share of such steps that are struck. ``swung`` says that the off-beats lie on the last third of the beat
    (or of the half beat, for sixteenths). ``opens`` are the moments, in bars, at which the hat is struck open.
    """

    voices: tuple[str, ...]
    value: str
    step: Fraction
    filled: Fraction
    swung: bool
    opens: tuple[Fraction, ...]
    reason: str
    sureness: float

    @property
    def broken(self) -> bool:
        """Whether gaps belong to the pattern: less than four fifths of the steps are struck."""
        return self.filled < _WHOLE

    @property
    def family(self) -> str:
        """Such as "hats", or the name of the voice that keeps time instead."""
        return "hats" if set(self.voices) <= set(HATS) else self.voices[0]


def timekeeper(groove: Groove) -> Timekeeper | None:
    """The voice that strikes most often of those that keep time; None where none plays.

    Hats come before the ride and the ride before shaken things; a foot on the hi-hat keeps time only when nothing
    else does.
    """
    struck = [(group, groove.onsets(*group)) for group in _KEEPERS]
    hands = [found for found in struck[:-1] if len(found[1]) > groove.bars] or [f for f in struck if f[1]]
    if not hands:
        return None
    group, onsets = max(hands, key=lambda found: len(found[1]))
    voices = tuple(voice for voice in group if voice in groove.voices)
    beats = [at * groove.meter.beats for at in onsets]
    value, step, swung, off = _value(beats, groove.meter)
    slots = groove.bars * -(-groove.meter.bar // step)
    filled = min(Fraction(1), Fraction(len(onsets) - off) / slots)
    opens = groove.onsets("open hat") if voices != ("open hat",) else ()
    sure = 0.95 if off == 0 and filled >= _WHOLE else 0.8
    return Timekeeper(voices, value, step, filled, swung, opens, _reason(voices, value, off), sure)


def _reason(voices: tuple[str, ...], value: str, off: int) -> str:
    name = "hats" if set(voices) <= set(HATS) else voices[0]
    strays = f", with {off} in between" if off else ""
    return f"The {name} {'play' if name == 'hats' else 'plays'} {value}{strays}."


def _value(beats: list[Fraction], meter: Meter) -> tuple[str, Fraction, bool, int]:
    """(name, step in quarters, swung, strokes off the grid) of strokes at these beats."""
    parts = [at % 1 for at in beats]
    if not meter.compound and all(part == Fraction(1, 2) for part in parts):
        return "off-beats", meter.beat, False, 0
    if all(at % 2 == beats[0] % 2 and part == 0 for at, part in zip(beats, parts, strict=True)):
        step = 2 * meter.beat
        if meter.beats % 2 == 0 and step in NOTE_VALUES:
            return NOTE_VALUES[step], step, False, 0
    if _short_beats(meter) and all(at % meter.beats % 2 == 0 for at in beats):
        return NOTE_VALUES[2 * meter.beat], 2 * meter.beat, False, 0
    for division in (1, 3, 2, 6, 4, 12) if meter.compound else (1, 2, 3, 4, 6, 8, 12, 24):
        off = sum((part * division).denominator != 1 for part in parts)
        if off <= _STRAY * len(parts):
            return _named(parts, division, meter, off)
    return "free time", meter.beat, False, len(parts)


def _short_beats(meter: Meter) -> bool:
    """Whether beats are an odd number of eighths or shorter: 7/8 is felt in quarters, with a half of one left over."""
    return meter.beats % 2 == 1 and meter.beat < 1 and 2 * meter.beat in NOTE_VALUES


def _named(parts: list[Fraction], division: int, meter: Meter, off: int) -> tuple[str, Fraction, bool, int]:
    step = meter.beat / division
    if not meter.compound and division == 3 and _lie_on(parts, 3, (0, 2)):
        return NOTE_VALUES.get(meter.beat / 2, "off-beats"), meter.beat / 2, True, off
    if not meter.compound and division == 6 and _lie_on(parts, 6, (0, 2, 3, 5)):
        return NOTE_VALUES.get(meter.beat / 4, "sixteenths"), meter.beat / 4, True, off
    return NOTE_VALUES.get(step, f"{division} to a beat"), step, False, off


def _lie_on(parts: list[Fraction], division: int, places: tuple[int, ...]) -> bool:
    return all(part * division in places for part in parts)
