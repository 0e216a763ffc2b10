"""What one groove does that another does not, as a list of changes in the order in which they are heard."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Literal

from studio.music.groove import Groove
from studio.music.kit import BACKBEAT_VOICES
from studio.music.meter import Meter
from studio.theory.rhythm.reading import GrooveReading
from studio.theory.rhythm.timekeeping import Timekeeper

Kind = Literal[
    "meter", "time", "keeper", "rate", "value", "swing", "swaps", "moves", "adds", "drops", "thins", "same"
]


@dataclass(frozen=True, slots=True)
class Change:
    """One difference. ``voice`` is who changes, ``to`` and ``was`` are what to and from what, as the kind needs:

    "time" (to "half time"), "keeper" (from hats to ride), "rate" (``factor`` times as many strokes), "value" (to
    "triplets"), "swing" (to "triplet swing"), "swaps" (one voice for another, same places), "moves" (a stroke,
    ``left`` to ``places``), "adds" (strokes at ``places``; ``new`` for a voice that was silent), "drops" (a voice
    altogether), "thins" (strokes at ``left`` are gone), "meter".
    """

    kind: Kind
    voice: str = ""
    to: str = ""
    was: str = ""
    factor: Fraction = Fraction(1)
    places: tuple[Fraction, ...] = ()
    left: tuple[Fraction, ...] = ()
    new: bool = False


@dataclass(frozen=True, slots=True)
class GrooveDifference:
    """The changes from one groove to another, none where they are the same; ``meter`` is the second one's."""

    changes: tuple[Change, ...]
    meter: Meter
    sureness: float

    @property
    def same(self) -> bool:
        return not self.changes


def groove_difference(before: GrooveReading, after: GrooveReading) -> GrooveDifference:
    """What ``after`` does that ``before`` does not, by their typical bars. How loud strokes are does not count."""
    sure = min(before.sureness, after.sureness)
    if before.groove.meter != after.groove.meter:
        change = Change("meter", to=str(after.groove.meter), was=str(before.groove.meter))
        return GrooveDifference((change,), after.groove.meter, sure)
    changes = [
        *_time(before, after),
        *_keeping(before, after),
        *_swing(before, after),
        *_lines(before, after),
    ]
    return GrooveDifference(tuple(changes), after.groove.meter, sure)


def _time(before: GrooveReading, after: GrooveReading) -> list[Change]:
    if before.feel.time and after.feel.time and before.feel.time != after.feel.time:
        return [Change("time", to=after.feel.time, was=before.feel.time)]
    return []


def _keeping(before: GrooveReading, after: GrooveReading) -> list[Change]:
    was, now = before.timekeeper, after.timekeeper
    if was is None or now is None or (was.family == now.family and was.value == now.value):
        return []
    if was.family != now.family:
        return [Change("keeper", now.family, to=now.value, was=was.family)]
    if "off-beats" in (was.value, now.value) or was.swung != now.swung:
        return [Change("value", now.family, to=now.value, was=was.value)]
    return [Change("rate", now.family, to=now.value, was=was.value, factor=was.step / now.step)]


def _swing(before: GrooveReading, after: GrooveReading) -> list[Change]:
    was, now = before.swing, after.swing
    if was is None or now is None or was.name == now.name:
        return []
    return [Change("swing", to=now.name, was=was.name)]


def _lines(before: GrooveReading, after: GrooveReading) -> list[Change]:
    bars = lcm(before.groove.bars, after.groove.bars)
    was, now = _by_voice(before.groove, bars), _by_voice(after.groove, bars)
    told = _told(before.timekeeper, after.timekeeper)
    time_told = bool(_time(before, after))
    changes = _swaps(was, now, time_told)
    swapped = {voice for change in changes for voice in (change.voice, change.was)}
    for voice in dict.fromkeys((*BACKBEAT_VOICES, *was, *now)):
        if voice in told or voice in swapped:
            continue
        if time_told and voice in BACKBEAT_VOICES and voice in was and voice in now:
            continue  # that the backbeat has moved is said already
        changes += _line(voice, was.get(voice, frozenset()), now.get(voice, frozenset()))
    return changes


_Line = frozenset[Fraction]


def _by_voice(groove: Groove, bars: int) -> dict[str, _Line]:
    """The onsets of each voice, ghost notes left out, with the groove gone round until it fills the bars."""
    return {
        voice: frozenset(at + start for at in onsets for start in range(0, bars, groove.bars))
        for voice in groove.voices
        if (onsets := groove.onsets(voice, ghosts=False))
    }


def _told(was: Timekeeper | None, now: Timekeeper | None) -> set[str]:
    """The voices that need no more words, because what keeps time is compared by its note value."""
    if was is None or now is None:
        return set()
    return {*was.voices, *now.voices}


def _swaps(was: dict[str, _Line], now: dict[str, _Line], time_told: bool) -> list[Change]:
    """A backbeat that goes from one voice to another, such as from the side stick to the snare.

    It keeps its places, unless it is told already that the backbeat falls elsewhere.
    """
    gone = [voice for voice in BACKBEAT_VOICES if voice in was and voice not in now]
    come = [voice for voice in BACKBEAT_VOICES if voice in now and voice not in was]
    for old in gone:
        for new in come:
            if time_told or was[old] == now[new]:
                return [Change("swaps", new, was=old, places=tuple(sorted(now[new])))]
    return []


def _line(voice: str, was: _Line, now: _Line) -> list[Change]:
    added, left = tuple(sorted(now - was)), tuple(sorted(was - now))
    if was and not now:
        return [Change("drops", voice, left=left)]
    if len(added) == len(left) == 1:
        return [Change("moves", voice, places=added, left=left)]
    changes = []
    if added:
        changes.append(Change("adds", voice, places=added, new=not was))
    if left:
        changes.append(Change("thins", voice, left=left))
    return changes
