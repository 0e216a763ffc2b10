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
    """A stretch of recording as it is heard in a clip: from `clip` seconds on, `source` to `source + length`.

    `speed` is how fast: at 4/5 a stretch of 4 s is heard for 5 s. Stretches may repeat, and may come in any
    order of the recording; in the clip they follow one another.
    """

    clip: Fraction
    source: Fraction
    length: Fraction
    speed: Fraction = Fraction(1)

    @property
    def end(self) -> Fraction:
        """The first second of the clip at which it is no longer heard."""
        return self.clip + self.length / self.speed

    def clip_time(self, source: Fraction) -> Fraction:
        """When a moment of the recording is heard, in seconds of the clip."""
        return self.clip + (source - self.source) / self.speed

    def source_time(self, clip: Fraction) -> Fraction:
        """What moment of the recording is heard, in its own seconds."""
        return self.source + (clip - self.clip) * self.speed


@dataclass(frozen=True)
class ClipClock:
    """Frames of one clip at `rate`, and the stretches of recording heard in it.

    `changed` are those stretches of its passes that sound otherwise than is written: nothing of the song is heard in
    them, though its time goes on.
    """

    rate: Fraction
    time: SongTime
    heard: tuple[Heard, ...]
    changed: tuple[Heard, ...] = ()

    def frame(self, seconds: Fraction) -> int:
        """The frame nearest to a clip time; halves go up, so a state never waits longer than half a frame."""
        return int((seconds * self.rate * 2 + 1) // 2)

    def breaks(self) -> frozenset[int]:
        """The frames at which the song breaks off: what was heard is not followed by more of it at once."""
        begun = {piece.clip for piece in self.heard}
        ended = {piece.end for piece in (*self.heard, *self.changed)}
        return frozenset(self.frame(end) for end in ended - begun)

    def spans(self, start: int, end: int) -> Iterator[Span]:
        """What of the song is heard between two clip frames, in quarters, stretch by stretch."""
        first, last = start / self.rate, end / self.rate
        for piece in self.heard:
            begin, stop = max(first, piece.clip), min(last, piece.end)
            if begin < stop:
                yield Span(*(self.time.quarters_at(piece.source_time(at)) for at in (begin, stop)))

    def frames(self, span: Span) -> Iterator[tuple[int, int]]:
        """Each time that a stretch of song (quarters) is heard in the clip, as frames from-up to."""
        for _, start, end in self.hearings(span):
            yield start, end

    def hearings(self, span: Span) -> Iterator[tuple[Span, int, int]]:
        """As `frames`, with how much of the stretch is heard each time."""
        yield from self._hearings(span, self.heard)

    def changes(self, span: Span) -> Iterator[tuple[int, int]]:
        """Each time that something else sounds in the place of a stretch of song, as frames from-up to."""
        for _, start, end in self._hearings(span, self.changed):
            yield start, end

    def _hearings(self, span: Span, pieces: tuple[Heard, ...]) -> Iterator[tuple[Span, int, int]]:
        first, last = self.time.seconds(span.start), self.time.seconds(span.end)
        for piece in pieces:
            begin, stop = max(first, piece.source), min(last, piece.source + piece.length)
            if begin < stop:
                heard = Span(
                    span.start if begin == first else self.time.quarters_at(begin),
                    span.end if stop == last else self.time.quarters_at(stop),
                )
                yield heard, self.frame(piece.clip_time(begin)), self.frame(piece.clip_time(stop))
