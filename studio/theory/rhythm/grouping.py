"""How the beats of an odd meter are grouped: 7/8 as 2 + 2 + 3, 5/4 as 3 + 2 (common practice)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import accumulate

from studio.music.groove import Groove
from studio.music.kit import BACKBEAT_VOICES

_FEWEST = 5  # beats of a bar that are felt in groups


def grouping_of(groove: Groove) -> tuple[int, ...]:
    """The twos and threes that the strokes show in an odd number of beats; () where they show none, or several.

    Each group begins with a stroke of the kick, the snare or what stands for it, in every bar; of several
    groupings the one that the kick marks most often is heard.
    """
    beats = groove.meter.beats
    if groove.meter.compound or beats < _FEWEST or beats % 2 == 0:
        return ()
    kicks, others = marked_beats(groove, ("kick",)), marked_beats(groove, BACKBEAT_VOICES)
    found: list[tuple[int, tuple[int, ...]]] = []
    for groups in _twos_and_threes(beats):
        starts = {1, *(1 + length for length in accumulate(groups[:-1]))}
        if starts <= kicks | others:
            found.append((len(starts & kicks), groups))
    most = max((marked for marked, _ in found), default=0)
    best = [groups for marked, groups in found if marked == most]
    return best[0] if len(best) == 1 else ()


def marked_beats(groove: Groove, voices: Sequence[str]) -> frozenset[int]:
    """The beats, counted from 1, that some voices strike in every bar; ghost notes do not count."""
    onsets = set(groove.onsets(*voices, ghosts=False)) if voices else set()
    beats = groove.meter.beats
    return frozenset(
        beat + 1
        for beat in range(beats)
        if all(bar + Fraction(beat, beats) in onsets for bar in range(groove.bars))
    )


def _twos_and_threes(count: int) -> Iterator[tuple[int, ...]]:
    if count in (2, 3):
        yield (count,)
    for first in (2, 3):
        if count - first >= 2:
            yield from ((first, *rest) for rest in _twos_and_threes(count - first))
