"""The sound of a clip: pieces laid at their samples on silence, and added where they meet."""

from __future__ import annotations

from collections.abc import Iterable

from studio.sound.samples import Samples, silence


def lay(length: int, pieces: Iterable[tuple[Samples, int]]) -> Samples:
    """Samples of a clip, shape (length, 2): each piece, shape (n, 2), starts at its sample `at`.

    Pieces that overlap are added, and nothing clips. What lies before the clip's start or after its end is
    left out, so a piece may begin at a negative sample.
    """
    clip = silence(length)
    add(clip, pieces)
    return clip


def add(clip: Samples, pieces: Iterable[tuple[Samples, int]]) -> None:
    """Lay pieces, as `lay` does, on the samples that are in `clip` already."""
    for piece, at in pieces:
        first, last = max(at, 0), min(at + len(piece), len(clip))
        if first < last:
            clip[first:last] += piece[first - at : last - at]
