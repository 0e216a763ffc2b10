"""Slower or faster at the same pitch, or higher and lower at the same speed.

Why python-stretch (Signalsmith Stretch), and not the `rubberband` in the bundled ffmpeg: from 0.4 to 1.5 it keeps
sines within a hundredth of a cent and strokes within a millisecond, without an offset. `rubberband` as it comes bends
low tones by as much as a semitone; told to be smooth it keeps them, but has strokes 10 to 30 ms away from their
place, which depends on the speed, scatters them by up to 14 ms at some speeds, and lets more be heard before each.
`python -m tests.benchmarks.sound` prints the comparison.

Three of its habits are met here. Its own transposition misses low notes by up to 20 cents, so a shift is made by
stretching to another length and playing that faster or slower, which is exact. Under half speed its clicks scatter,
so such speeds are done in two equal steps. And it takes and gives whole arrays, so a long result is made in pieces,
each with some of its neighbour, and joined where the two are most alike: pieces differ in phase, as any two runs of a
phase vocoder do.

For the same reason what is soloed and what is muted add up to the mix exactly at speed 1 and no cents alone. A phase
vocoder decides from the sound that it is given where each of its partials stands, so stems that are stretched by
themselves come out with other phases than in the mix: each is right, at its pitch and in time, but their sum is not
the stretched mix, sample by sample, and a tone that two of them share may come out a decibel or two softer or louder.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from studio.sound.bed import lay
from studio.sound.error import SoundError
from studio.sound.joining import crossing
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE

SLOWEST, FASTEST = Fraction(1, 4), Fraction(2)
FARTHEST = 1200.0
"""Cents up or down."""
SEED = 1
"""The stretcher draws random numbers; with the same seed the same ones."""
CONTEXT = RATE // 2
"""Samples read before and after each piece: the stretcher's window is 120 ms, and it needs a few to settle."""
PIECE = 75 * RATE
"""Samples of the result that are made in one go at most: 75 s, about 130 MB while it runs.

Measured beyond the result: 170 MB at speed 0.8 (240 s of recording); 220 MB at speed 0.4, 235 MB for twice as much."""
OVERLAP = RATE
"""Samples of the result that two neighbours both make, to be joined somewhere inside."""
CROSSING = RATE * 40 // 1000
"""Samples of the cross-fade that joins two pieces."""

Read = Callable[[int, int], Samples]
"""`read(first, count)`: samples of shape (count, 2), from any place, also before 0 and after the end."""


def stretched(samples: Samples, speed: Fraction, cents: float, length: int) -> Samples:
    """A whole piece of sound, shape (n, 2), at `speed` and `cents` higher: shape (length, 2).

    Sample m of the result is the sound at sample m * speed; around the piece it is silent. Raises SoundError for a
    speed or a shift that nobody could mean.
    """
    result = silence(length)
    stretch_into(result, lambda first, count: lay(count, [(samples, -first)]), speed, cents)
    return result


def stretch_into(result: Samples, read: Read, speed: Fraction, cents: float = 0.0) -> None:
    """Fill `result`, shape (length, 2), from what `read` gives: sample m becomes the sound at m * speed.

    At speed 1 and no cents it is the sound itself, bit for bit. The same sound gives the same bytes. It is made piece
    by piece, at any speed, so that beyond `result` it needs no more memory for a long one. Raises SoundError like
    `stretched`.
    """
    refuse(speed, cents)
    if speed == 1 and cents == 0:
        for at in range(0, len(result), PIECE):
            count = min(PIECE, len(result) - at)
            result[at : at + count] = read(at, count)
        return
    higher = 2 ** (cents / 1200)
    at = 0
    for part in _parts(read, len(result), float(speed) / higher, higher):
        result[at : at + len(part)] = part
        at += len(part)


def refuse(speed: Fraction, cents: float) -> None:
    """Raise SoundError for a speed or a shift that is out of bounds."""
    if not SLOWEST <= speed <= FASTEST:
        raise SoundError(
            f"A speed of {float(speed * 100):g} % cannot be heard: it must be from {float(SLOWEST * 100):g} % "
            f"to {float(FASTEST * 100):g} %."
        )
    if not abs(cents) <= FARTHEST:
        raise SoundError(f"A shift of {cents:g} cents is too far: at most {FARTHEST:g} up or down.")


def _parts(read: Read, length: int, slower: float, higher: float = 1.0) -> Iterator[Samples]:
    """`length` samples, part by part, at `slower` (1/2: twice as long), in two equal steps under a half, and then
    played `higher` times as fast."""
    if slower >= 0.5:
        yield from _joined(read, length, slower, higher)
        return
    step = slower**0.5

    def earlier(first: int, count: int) -> Samples:
        return read(first - round(CONTEXT * step), count)

    half_way = _parts(earlier, round(length * higher * step) + 2 * CONTEXT, step)
    yield from _parts(_InOrder(half_way, -CONTEXT).read, length, step, higher)


class _InOrder:
    """Sound that is made part by part, the first at sample `at`, and read from its start to its end.

    What lies before the last range that was asked for is forgotten, so ranges may overlap but not go back.
    """

    def __init__(self, parts: Iterator[Samples], at: int) -> None:
        self._parts, self._at, self._held = parts, at, silence(0)

    def read(self, first: int, count: int) -> Samples:
        """Samples `first` to `first + count`, shape (count, 2); silent before the first part and after the last."""
        gone = max(first - self._at, 0)
        self._at += gone
        known = [self._held[gone:]]
        while (
            sum(map(len, known)) < first + count - self._at and (part := next(self._parts, None)) is not None
        ):
            known.append(part)
        self._held = np.concatenate(known)
        return lay(count, [(self._held, self._at - first)])


def _joined(read: Read, length: int, slower: float, higher: float) -> Iterator[Samples]:
    """One step of `_parts`: pieces, each joined to the last second of the one before."""
    pieces = -(-length // PIECE)
    edges = [number * length // pieces for number in range(pieces + 1)] if pieces else []
    held = silence(0)
    for begin, end in pairwise(edges):
        before = min(begin, OVERLAP // 2)
        after = min(length - end, OVERLAP // 2)
        piece = _piece(read, begin - before, end + after, slower, higher)
        if begin:
            _join(held, piece)
            yield held
            piece = piece[2 * before :]
        done = len(piece) - 2 * after
        yield piece[:done]
        held = piece[done:].copy()  # so that the rest of the piece need not be kept


def _piece(read: Read, begin: int, end: int, slower: float, higher: float) -> Samples:
    """Samples `begin` to `end` of the result, from a run of their own."""
    from python_stretch import Signalsmith

    speed = slower * higher
    first = round(begin * speed) - CONTEXT
    heard = read(first, round(end * speed) + CONTEXT - first)
    stretch = Signalsmith.Stretch(SEED)
    stretch.preset(2, float(RATE))
    stretch.setTimeFactor(slower)
    made: Samples = np.asarray(stretch.process(np.ascontiguousarray(heard.T))).T
    if higher != 1:
        made = _faster(made, higher)
    skipped = round(begin - first / speed)
    return made[skipped : skipped + end - begin]


def _faster(samples: Samples, times: float) -> Samples:
    """The samples played `times` as fast, and so as much higher."""
    import soxr

    result: Samples = soxr.resample(samples, times, 1.0, quality="VHQ")
    return result


def _join(old: Samples, piece: Samples) -> None:
    """Let `old` go over into the beginning of a piece (same moments, other phases), where the two are most alike.

    Where they are most alike upside down, the whole piece is turned over first: that is not heard, a hole would be.
    """
    new = piece[: len(old)]
    likeness = _likeness(old, new)
    at = int(np.argmax(np.abs(likeness)))
    if likeness[at] < 0:
        np.negative(piece, out=piece)
    inside = slice(at, at + CROSSING)
    old[inside] = crossing(old[inside], new[inside], min(abs(float(likeness[at])), 1.0))
    old[at + CROSSING :] = new[at + CROSSING :]


def _likeness(old: Samples, new: Samples) -> npt.NDArray[np.float64]:
    """How alike two sounds are, from -1 to 1, over a cross-fade that starts at each sample; 1 where it is silent."""

    def over_a_crossing(products: npt.NDArray[np.float32]) -> npt.NDArray[np.float64]:
        sums = np.concatenate([[0.0], np.cumsum(products.sum(axis=1), dtype=np.float64)])
        return np.asarray(sums[CROSSING:] - sums[:-CROSSING])

    energy = np.sqrt(np.maximum(over_a_crossing(old * old) * over_a_crossing(new * new), 0.0))
    quiet = energy <= 1e-12 * CROSSING
    return np.where(quiet, 1.0, over_a_crossing(old * new) / np.where(quiet, 1.0, energy))
