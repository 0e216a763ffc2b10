"""Which sections repeat which: the same chords, the same until the ending, longer, shorter, or in another key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.bar_chords import BarChords, bar_chords, first_root, moved
from studio.theory.form.section_name import called
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import capital, counted

Likeness = Literal["same", "changed ending", "longer", "shorter", "varied"]
_ALIKE = 0.75  # a section with so many of its bars in place is a variation of the other

NamedSpan = tuple[str, Span]


@dataclass(frozen=True, slots=True)
class Repeat:
    """A section whose chords come from an earlier one.

    ``section`` and ``of`` are indexes into the sections, ``span`` is the later one's. ``alike`` of its ``bars`` bars
    are the earlier one's, which has ``of_bars``; ``semitones`` (0 to 11) is how far up they are moved.
    """

    section: int
    of: int
    span: Span
    likeness: Likeness
    semitones: int
    alike: int
    bars: int
    of_bars: int
    reason: str
    sureness: float
    runner_up: str = ""


def repeats(sections: Sequence[NamedSpan], readings: Sequence[Reading], time: SongTime) -> tuple[Repeat, ...]:
    """For each section that repeats an earlier one, the nearest such; of equals, the first. Others are left out."""
    bars = [bar_chords(readings, span, time) for _, span in sections]
    found = []
    for later, own in enumerate(bars):
        candidates = [
            repeat
            for earlier in range(later)
            if (repeat := _compared(sections, later, earlier, own, bars[earlier])) is not None
        ]
        if candidates:
            found.append(max(candidates, key=lambda repeat: (repeat.sureness, -repeat.of)))
    return tuple(found)


def _compared(
    sections: Sequence[NamedSpan],
    later: int,
    earlier: int,
    own: Sequence[BarChords],
    other: Sequence[BarChords],
) -> Repeat | None:
    first, second = first_root(other), first_root(own)
    if first is None or second is None:
        return None
    tries = dict.fromkeys((0, (second - first) % 12))
    for semitones in tries:
        there = [moved(bar, semitones) for bar in other]
        same = [mine == theirs for mine, theirs in zip(own, there, strict=False)]
        likeness = _likeness(same, len(own), len(there))
        if likeness is not None:
            reason = _reason(
                sections[later][0], sections[earlier][0], likeness, semitones, same, len(own), len(there)
            )
            sure = 0.95 if likeness == "same" else 0.6 + 0.3 * sum(same) / max(len(own), len(there))
            sure -= 0.1 * bool(semitones) + 0.2 * (len(own) < 4)
            return Repeat(
                later, earlier, sections[later][1], likeness, semitones, sum(same), len(own), len(there), reason,
                round(sure, 2),
            )  # fmt: skip
    return None


def _likeness(same: list[bool], own: int, other: int) -> Likeness | None:
    agreeing = next((index for index, alike in enumerate(same) if not alike), len(same))
    if agreeing == own == other:
        return "same"
    if agreeing == other < own and 2 * other >= own:
        return "longer"
    if agreeing == own < other and 2 * own >= other:
        return "shorter"
    if agreeing >= 2 and 2 * agreeing >= max(own, other):
        return "changed ending"
    return "varied" if sum(same) >= _ALIKE * max(own, other) else None


def _reason(
    name: str, other_name: str, likeness: Likeness, semitones: int, same: list[bool], own: int, other: int
) -> str:
    of = called(other_name)
    moved_up = f", {_moved(semitones)}" if semitones else ""
    more = own - other
    length = "" if not more else f", and has {counted(abs(more), 'bar')} {'more' if more > 0 else 'fewer'}"
    agreeing = next((index for index, alike in enumerate(same) if not alike), len(same))
    like = f"has the chords of {of}{moved_up}"
    said = {
        "same": like,
        "changed ending": f"{like} for {counted(agreeing, 'bar')}, then another ending{length}",
        "longer": f"{like}, then {counted(more, 'bar')} more",
        "shorter": f"has the first {counted(own, 'bar')} of {of}{moved_up}",
        "varied": f"has {sum(same)} of the {counted(other, 'bar')} of {of}{moved_up}{length}",
    }[likeness]
    return f"{capital(called(name))} {said}."


def _moved(semitones: int) -> str:
    up = semitones <= 6
    half_steps = semitones if up else 12 - semitones
    return f"{counted(half_steps, 'half step')} {'up' if up else 'down'}"
