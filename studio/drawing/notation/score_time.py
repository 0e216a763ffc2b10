"""When the notes of a MusicXML text sound, so that words can stand over and under moments of engraving."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from operator import itemgetter

from studio.drawing.notation.engraving import Engraving


@dataclass(frozen=True)
class ScoreTime:
    """Quarter notes from the first bar: where bars start and the last one ends, and each note's onset."""

    bars: tuple[float, ...]
    onsets: tuple[tuple[str, float], ...]


@lru_cache(maxsize=64)
def score_time(musicxml: str) -> ScoreTime:
    """Read the times of a score in parts (MusicXML `score-partwise`)."""
    root = ElementTree.fromstring(musicxml)
    bars: list[float] = [0.0]
    onsets: dict[str, float] = {}
    for part in root.findall("part"):
        divisions, start, bars = 1.0, 0.0, [0.0]
        for measure in part.findall("measure"):
            at = end = onset = start
            for element in measure:
                if element.tag == "attributes":
                    divisions = float(element.findtext("divisions") or divisions)
                length = float(element.findtext("duration") or 0) / divisions
                if element.tag == "note":
                    if element.find("chord") is None:
                        onset, at = at, at + length
                    if identity := element.get("id"):
                        onsets[identity] = onset
                elif element.tag in ("backup", "forward"):
                    at += length if element.tag == "forward" else -length
                end = max(end, at)
            start = end
            bars.append(start)
    return ScoreTime(tuple(bars), tuple(onsets.items()))


@dataclass(frozen=True)
class Pages:
    """Where moments stand in systems of engraved music. Build with `pages_of`."""

    starts: tuple[float, ...]  # of each system, and the end of the last
    anchors: tuple[tuple[tuple[float, float], ...], ...]  # (quarters, staff spaces) of each system, ascending

    def page(self, at: float) -> int:
        """The system that holds a moment."""
        return max(0, min(bisect_right(self.starts, at + 1e-6) - 1, len(self.anchors) - 1))

    def x(self, at: float) -> float:
        """Staff spaces from the left of its system to where a moment stands, between the notes and bars around it."""
        anchors = self.anchors[self.page(at)]
        after = bisect_right(anchors, at + 1e-6, key=itemgetter(0))
        if not 0 < after < len(anchors):
            return anchors[min(after, len(anchors) - 1)][1]
        (left_at, left), (right_at, right) = anchors[after - 1], anchors[after]
        return left + (right - left) * (at - left_at) / (right_at - left_at)


def pages_of(musicxml: str, systems: tuple[Engraving, ...]) -> Pages:
    """Where the moments of `musicxml` stand in the `systems` that it was engraved in."""
    times = score_time(musicxml)
    onsets = dict(times.onsets)
    starts, anchors, bar = [], [], 0
    for system in systems:
        starts.append(times.bars[min(bar, len(times.bars) - 1)])
        first, bar = bar, bar + system.bars
        known = {onsets[head.id]: head.x for head in reversed(system.places) if head.id in onsets}
        for at, x in zip(times.bars[first:bar], system.starts, strict=False):
            known.setdefault(at, x)
        known.setdefault(times.bars[min(bar, len(times.bars) - 1)], system.width)
        anchors.append(tuple(sorted(known.items())))
    return Pages((*starts, times.bars[-1]), tuple(anchors))
