"""Clip time: when a moment of the song is heard in a clip, and what is heard at a frame.

All that moves with the sound goes through this one mapping, so a picture cannot disagree with its excerpt.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from studio.music.place import Span
from studio.music.songtime import SongTime


@dataclass(frozen=True)
class Heard:
    """A stretch of recording as it is heard in a clip: from `clip` seconds on, `source` to `source + length`."""

    clip: Fraction
    source: Fraction
    length: Fraction


@dataclass(frozen=True)
class ClipClock:
    """Frames of one clip at `rate`, and the stretches of recording heard in it."""

    rate: Fraction
    time: SongTime
    heard: tuple[Heard, ...]

    def frame(self, seconds: Fraction) -> int:
        """The frame nearest to a clip time; halves go up, so a state never waits longer than half a frame."""
        return int((seconds * self.rate * 2 + 1) // 2)

    def spans(self, start: int, end: int) -> Iterator[Span]:
        """What of the song is heard between two clip frames, in quarters, stretch by stretch."""
        first, last = start / self.rate, end / self.rate
        for piece in self.heard:
            begin, stop = max(first, piece.clip), min(last, piece.clip + piece.length)
            if begin < stop:
                offset = piece.source - piece.clip
                yield Span(self.time.quarters_at(begin + offset), self.time.quarters_at(stop + offset))

    def frames(self, span: Span) -> Iterator[tuple[int, int]]:
        """Each time that a stretch of song (quarters) is heard in the clip, as frames from-up to."""
        first, last = self.time.seconds(span.start), self.time.seconds(span.end)
        for piece in self.heard:
            begin, stop = max(first, piece.source), min(last, piece.source + piece.length)
            if begin < stop:
                offset = piece.clip - piece.source
                yield self.frame(begin + offset), self.frame(stop + offset)
