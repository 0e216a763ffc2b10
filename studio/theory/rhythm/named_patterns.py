"""Rhythms that have a name in the trade, where a line of the groove is exactly that rhythm.

The claves, tresillo and cinquillo are those of G. T. Toussaint, "The Euclidean Algorithm Generates Traditional
Musical Rhythms" (BRIDGES 2005) and "The Geometry of Musical Rhythm"; habanera, train beat, one drop, dembow and blast
beat are common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from studio.music.groove import Groove
from studio.music.kit import BACKBEAT_VOICES


@dataclass(frozen=True, slots=True)
class NamedPattern:
    """A rhythm by name, and the voices that play it."""

    name: str
    voices: tuple[str, ...]

    @property
    def reason(self) -> str:
        """What makes it that rhythm, in a sentence; "" where its name says it."""
        return _REASONS.get(self.name, "")


_LATE = {
    "son": "",
    "rumba": "; the last of the three comes late",
    "bossa": "; the last of the two comes late",
}
_REASONS = {
    "tresillo": "Three strokes to eight steps, as 3 + 3 + 2.",
    "habanera": "Three strokes to eight steps, as 3 + 3 + 2, and one half-way.",
    "cinquillo": "Five strokes to eight steps: long, short, long, short, long.",
    **{f"{clave} clave 3–2": f"Five strokes, three then two{late}." for clave, late in _LATE.items()},
    **{f"{clave} clave 2–3": f"Five strokes, two then three{late}." for clave, late in _LATE.items()},
    "dembow": "The snare falls between four even kicks, on 1a, 2&, 3a and 4&.",
    "train beat": "The snare never stops and is accented on the off-beats.",
    "blast beat": "Kick and snare strike by turns, in sixteenths.",
}

_LINES = {
    "tresillo": "x..x..x.",
    "habanera": "x..xx.x.",
    "cinquillo": "x.xx.xx.",
    "son clave 3–2": "x..x..x...x.x...",
    "son clave 2–3": "..x.x...x..x..x.",
    "rumba clave 3–2": "x..x...x..x.x...",
    "rumba clave 2–3": "..x.x...x..x...x",
    "bossa clave 3–2": "x..x..x...x..x..",
    "bossa clave 2–3": "..x..x..x..x..x.",
}


def _places(text: str) -> frozenset[Fraction]:
    return frozenset(Fraction(step, len(text)) for step, sign in enumerate(text) if sign == "x")


_BY_PLACES = {_places(text): name for name, text in _LINES.items()}


def rhythm_name(onsets: tuple[Fraction, ...], length: Fraction) -> str:
    """The name of a rhythm that repeats every ``length``, "" if it has none. Onsets from 0 up to ``length``.

    A rhythm that goes round several times in that length is looked up once round: tresillo may fill a bar or
    half of one. Where it starts matters: son clave 2–3 is not son clave 3–2.
    """
    places = frozenset(at / length for at in onsets)
    for times in (8, 4, 2, 1):
        unit = Fraction(1, times)
        once = frozenset(at for at in places if at < unit)
        if len(once) * times == len(places) and all((at + unit) % 1 in places for at in places):
            return _BY_PLACES.get(frozenset(at / unit for at in once), "")
    return ""


def named_patterns(groove: Groove) -> tuple[NamedPattern, ...]:
    """Every name that the groove earns, whole-kit patterns first, then one voice at a time in kit order.

    Rhythms of eight or sixteen steps are sought in meters whose beats divide in two and pair up.
    """
    found = [NamedPattern(name, voices) for name, voices in _kit_patterns(groove)]
    if groove.meter.compound or groove.meter.beats % 2:
        return tuple(found)
    by_name: dict[str, list[str]] = {}
    for voice in groove.voices:
        name = rhythm_name(groove.onsets(voice), Fraction(groove.bars))
        if name:
            by_name.setdefault(name, []).append(voice)
    return (*found, *(NamedPattern(name, tuple(voices)) for name, voices in by_name.items()))


def _kit_patterns(groove: Groove) -> list[tuple[str, tuple[str, ...]]]:
    if groove.meter.beats != 4 or groove.meter.compound:
        return []
    found: list[tuple[str, tuple[str, ...]]] = []
    kick = _each_bar(groove, "kick")
    back = _each_bar(groove, *BACKBEAT_VOICES)
    played = tuple(voice for voice in groove.voices if voice in BACKBEAT_VOICES)
    beats = _quarters(0, 1, 2, 3)
    if kick == _quarters(2) and back == kick:
        found.append(("one drop", ("kick", *played)))
    if kick == beats and back == frozenset(Fraction(step, 16) for step in (3, 6, 11, 14)):
        found.append(("dembow", ("kick", *played)))
    if kick == frozenset(Fraction(step, 8) for step in range(8)) and back == frozenset(
        Fraction(2 * step + 1, 16) for step in range(8)
    ):
        found.append(("blast beat", ("kick", *played)))
    if is_train_beat(groove) and kick in (beats, _quarters(0, 2)):
        found.append(("train beat", ("kick", "snare")))
    return found


def _quarters(*beats: int) -> frozenset[Fraction]:
    return frozenset(Fraction(beat, 4) for beat in beats)


def _each_bar(groove: Groove, *voices: str) -> frozenset[Fraction] | None:
    """What these voices strike in a bar if every bar is the same, else None. Ghost notes do not count."""
    onsets = groove.onsets(*voices, ghosts=False)
    bars = [frozenset(at - bar for at in onsets if bar <= at < bar + 1) for bar in range(groove.bars)]
    return bars[0] if all(bar == bars[0] for bar in bars) else None


def is_train_beat(groove: Groove) -> bool:
    """A snare that never stops, in sixteenths or eighths, accented on 2 and 4 or on every off-beat eighth."""
    bars = {bar.hits("snare") for bar in groove.each_bar()}
    if len(bars) != 1:
        return False
    (snare,) = bars
    accents = frozenset(hit.at for hit in snare if hit.touch == "accent")
    running = frozenset(hit.at for hit in snare)
    for steps in (8, 16):
        if running == frozenset(Fraction(step, steps) for step in range(steps)):
            return accents in (_quarters(1, 3), frozenset(Fraction(step, 8) for step in (1, 3, 5, 7)))
    return False
