"""What one groove does that another does not, as a list of changes in the order in which they are heard."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from studio.music.kit import BACKBEAT_VOICES
from studio.music.meter import Meter
from studio.theory.rhythm.reading import GrooveReading
from studio.theory.rhythm.stroke_changes import HAT_LINE, Strokes, line_of, stroke_changes

Kind = Literal[
    "meter", "time", "keeper", "rate", "value", "swing",
    "swaps", "moves", "adds", "drops", "thins", "softens", "brings out", "opens", "closes",
]  # fmt: skip

_FEW = 2  # hats that open or close and are told one by one


@dataclass(frozen=True, slots=True)
class Change:
    """One difference. ``voice`` is who changes, ``to`` and ``was`` are what to and from what, as the kind needs:

    "time" (to "half time"), "keeper" (from hats to ride), "rate" (``factor`` times as many strokes), "value" (to
    "triplets"), "swing" (to "triplet swing"), "swaps" (one voice for another, same places), "moves" (a stroke,
    ``left`` to ``places``), "adds" (strokes at ``places``; ``new`` for a voice that was silent, then ``to`` is the
    note value of one that keeps time), "drops" (a voice altogether), "thins" (strokes at ``left`` are gone),
    "softens" (strokes at ``places`` become ghost notes), "brings out" (the other way round), "opens" and "closes"
    (strokes of the hat), "meter".
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
    """The changes from one groove to another, none where they are the same but for the ``details``; ``meter`` is the
    second one's. ``details`` are told by their name and not place by place: "ghost notes", "accents", "open hats",
    "the rest of the snare", beside the backbeat that has moved."""

    changes: tuple[Change, ...]
    meter: Meter
    sureness: float
    details: tuple[str, ...] = ()

    @property
    def same(self) -> bool:
        return not self.changes and not self.details


def groove_difference(before: GrooveReading, after: GrooveReading) -> GrooveDifference:
    """What ``after`` does that ``before`` does not, by their typical bars.

    Every stroke that is otherwise is told or is one of the ``details``. Accents count where both grooves are
    written: how hard somebody plays varies from bar to bar.
    """
    sure = min(before.sureness, after.sureness)
    if before.groove.meter != after.groove.meter:
        change = Change("meter", to=str(after.groove.meter), was=str(before.groove.meter))
        return GrooveDifference((change,), after.groove.meter, sure)
    lines = strokes_between(before, after)
    swaps = _swaps(lines, bool(_time(before, after)))
    told = {voice for change in swaps for voice in (change.voice, change.was)}
    rest = {voice: strokes for voice, strokes in lines.items() if voice not in told}
    changes = [
        *_time(before, after),
        *_keeping(before, after),
        *_swing(before, after),
        *swaps,
        *(change for voice in _in_order(rest) for change in _told(voice, rest[voice], before, after)),
    ]
    details = _details(lines, before, after)
    return GrooveDifference(tuple(changes), after.groove.meter, sure, details)


def strokes_between(before: GrooveReading, after: GrooveReading) -> dict[str, Strokes]:
    """What changes on each line, stroke by stroke: what a picture of the two grooves marks."""
    return stroke_changes(before.whole, after.whole, accents=not (before.played or after.played))


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


def _swaps(lines: Mapping[str, Strokes], time_told: bool) -> list[Change]:
    """A backbeat that goes from one voice to another, such as from the side stick to the snare.

    It keeps its places, unless it is told already that the backbeat falls elsewhere.
    """
    marking = [voice for voice in BACKBEAT_VOICES if voice in lines]
    gone = [voice for voice in marking if lines[voice].was and not lines[voice].now]
    come = [voice for voice in marking if lines[voice].now and not lines[voice].was]
    for old in gone:
        for new in come:
            if time_told or lines[old].was == lines[new].now:
                return [Change("swaps", new, was=old, places=lines[new].now)]
    return []


def _in_order(lines: Mapping[str, Strokes]) -> list[str]:
    return list(dict.fromkeys((*(voice for voice in BACKBEAT_VOICES if voice in lines), *lines)))


def _told(voice: str, strokes: Strokes, before: GrooveReading, after: GrooveReading) -> list[Change]:
    """The changes of one line that are told by their places."""
    if _told_by_value(voice, before, after) or _told_by_time(voice, strokes, before, after):
        return []
    if strokes.was and not strokes.now and not strokes.softer:
        return [Change("drops", voice, left=strokes.left)]
    keeper = after.timekeeper
    if len(strokes.added) == len(strokes.left) == 1:
        return [Change("moves", voice, places=strokes.added, left=strokes.left), *_touched(voice, strokes)]
    changes = []
    if strokes.added:
        new = not strokes.was and not strokes.louder
        value = keeper.value if new and keeper is not None and keeper.family == voice else ""
        who = _struck_as(voice, after, strokes.added)
        changes.append(Change("adds", who, value, places=strokes.added, new=new))
    if strokes.left:
        changes.append(Change("thins", _struck_as(voice, before, strokes.left), left=strokes.left))
    return [*changes, *_touched(voice, strokes)]


def _touched(voice: str, strokes: Strokes) -> list[Change]:
    """What becomes of strokes that both grooves have."""
    changes = []
    if voice != HAT_LINE and strokes.softer:
        changes.append(Change("softens", voice, places=strokes.softer))
    if voice != HAT_LINE and strokes.louder:
        changes.append(Change("brings out", voice, places=strokes.louder))
    if 0 < len(strokes.opened) <= _FEW:
        changes.append(Change("opens", voice, places=strokes.opened))
    if 0 < len(strokes.closed) <= _FEW:
        changes.append(Change("closes", voice, places=strokes.closed))
    return changes


def _told_by_value(voice: str, before: GrooveReading, after: GrooveReading) -> bool:
    """Whether what a line does is said by the note value in which it keeps time, or by its swing."""
    was, now = before.timekeeper, after.timekeeper
    if was is None or now is None or voice not in {line_of(each) for each in (*was.voices, *now.voices)}:
        return False
    return bool(_keeping(before, after)) or (was.swung != now.swung and bool(_swing(before, after)))


def _told_by_time(voice: str, strokes: Strokes, before: GrooveReading, after: GrooveReading) -> bool:
    """Whether a line only carries the backbeat to where it is said to be already."""
    carries = voice in BACKBEAT_VOICES and bool(strokes.was) and bool(strokes.now)
    return carries and bool(_time(before, after))


def _struck_as(line: str, reading: GrooveReading, places: Sequence[Fraction]) -> str:
    """The line, or the open hat where only that is struck at these places."""
    if line != HAT_LINE:
        return line
    groove = reading.whole
    closed = {at % groove.bars for at in groove.onsets("hat")}
    return "open hat" if not any(at % groove.bars in closed for at in places) else line


def _details(lines: Mapping[str, Strokes], before: GrooveReading, after: GrooveReading) -> tuple[str, ...]:
    """What differs besides all that is told by its places."""
    found = [
        f"the rest of the {voice}"
        for voice, strokes in lines.items()
        if _told_by_time(voice, strokes, before, after) and _beside_backbeat(strokes, before, after)
    ]
    hats = lines.get(HAT_LINE)
    soft = bool(hats and (hats.softer or hats.louder))
    if soft or any(strokes.ghosts or strokes.ghosts_left for strokes in lines.values()):
        found.append("ghost notes")
    if any(strokes.accents for strokes in lines.values()):
        found.append("accents")
    told = hats is not None and not _told_by_value(HAT_LINE, before, after)
    if hats is not None and any(len(p) > (_FEW if told else 0) for p in (hats.opened, hats.closed)):
        found.append("open hats")
    return tuple(found)


def _beside_backbeat(strokes: Strokes, before: GrooveReading, after: GrooveReading) -> bool:
    """Whether a line that carries the backbeat changes elsewhere as well; in double time it is everywhere."""
    if not before.feel.beats or not after.feel.beats:
        return False
    beats = {
        Fraction(beat - 1, before.groove.meter.beats) for beat in (*before.feel.beats, *after.feel.beats)
    }
    changed = (*strokes.added, *strokes.left, *strokes.louder, *strokes.softer)
    return any(at % 1 not in beats for at in changed)
