"""How the off-beats of a pattern are written: straight, or on the last triplet of the beat."""

from __future__ import annotations

from fractions import Fraction

from studio.music.groove import Groove
from studio.theory.rhythm.named_patterns import NamedPattern
from studio.theory.rhythm.swing import Level, Swing
from studio.theory.rhythm.timekeeping import Timekeeper

SWUNG = ("shuffle", "swing ride")
"""Names that say by themselves that the off-beats swing."""

_THIRD = Fraction(2, 3)
_SIXTEENTHS = frozenset({Fraction(1, 4), Fraction(3, 4)})


def written_swing(keeper: Timekeeper | None, groove: Groove) -> Swing | None:
    """The swing that a pattern writes: 2 to 1 where off-beats lie on the last triplet, 1 to 1 half-way.

    What keeps time tells; where it has no off-beats, whatever plays them does, and beside straight eighths the straight
    sixteenths of any voice do. None where nothing tells, where the beat is in triplets throughout, and in compound
    meters, whose beats do not divide in two.
    """
    if groove.meter.compound:
        return None
    parts = {at * groove.meter.beats % 1 for at in groove.onsets(*groove.voices)} - {Fraction(0)}
    in_sixteenths = bool(parts & _SIXTEENTHS) and all(part.denominator in (2, 4) for part in parts)
    if keeper is not None and in_sixteenths and not keeper.swung:
        return _swing("sixteenths", False, groove, groove.voices)
    if keeper is not None and keeper.value in ("eighths", "sixteenths", "off-beats"):
        level: Level = "sixteenths" if keeper.value == "sixteenths" else "eighths"
        return _swing(level, keeper.swung, groove, keeper.voices)
    if parts == {_THIRD}:
        return _swing("eighths", True, groove, groove.voices)
    if not parts or any(part.denominator not in (2, 4) for part in parts):
        return None
    return _swing("sixteenths" if in_sixteenths else "eighths", False, groove, groove.voices)


def _swing(level: Level, swung: bool, groove: Groove, voices: tuple[str, ...]) -> Swing:
    ratio, where = (2.0, "on the last triplet") if swung else (1.0, "half-way")
    count = sum((at * groove.meter.beats).denominator != 1 for at in groove.onsets(*voices))
    return Swing(level, ratio, 0.0, count, f"The off-beat {level} are written {where}.", 1.0)


def swung_pattern(keeper: Timekeeper | None, groove: Groove) -> NamedPattern | None:
    """What swung eighths are called: a swing ride skips between quarters, a shuffle plays every off-beat."""
    if keeper is None or not keeper.swung or keeper.step != groove.meter.beat / 2:
        return None
    skips = keeper.broken and keeper.family.startswith("ride")
    return NamedPattern("swing ride" if skips else "shuffle", keeper.voices)
