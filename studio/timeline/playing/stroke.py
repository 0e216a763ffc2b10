"""Keys that go down and come up again, on the song's own clock, and the tones that they make."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.timeline.heard import Tone, nearest_sample


@dataclass(frozen=True, slots=True)
class Stroke:
    """One key held over `span` (quarters), `loud` from 0 to 1."""

    span: Span
    midi: int
    loud: float


def tones(strokes: Iterable[Stroke], within: Span, time: SongTime) -> tuple[Tone, ...]:
    """The strokes as tones in recording time, cut to a stretch of the song, in order of time and then of height.

    Each end is rounded to a sample by itself, so that a tone ends on the very sample on which the next one starts.
    """
    found = []
    for stroke in strokes:
        both = stroke.span.intersection(within)
        if both is None or not both.length:
            continue
        start, end = (nearest_sample(time.seconds(quarters)) for quarters in (both.start, both.end))
        found.append(Tone(start, max(end - start, 1), stroke.midi, stroke.loud))
    return tuple(sorted(found, key=lambda tone: (tone.start, tone.midi, tone.length)))
