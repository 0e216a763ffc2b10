"""Sources added together: each at its gain, at its place between left and right, and softer where it dips.

The pan law is a balance, and here is why. A stem has a left and a right side already, and its reverb with them.
Panning turns the far side down and leaves the near side as it was recorded: in the middle both gains are exactly 1,
and no setting makes any sample louder than it is in the file, so what fits under full scale still does. How far down
is what the constant-power law (cosine and sine of an angle from 0 to 90 degrees) has between its two sides: at `pan`
p the far side is at tan((1 - p) * 45 degrees) of the near one, 5.9 dB down at 40 %, 7.7 dB at half way, silent at the
end. So a stem stands where musicians who know that law expect it; the law itself would lift the near side by up to
3 dB. The price: what a stem holds on its far side alone grows soft too, as with any balance.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, pi, tan

import numpy as np
import numpy.typing as npt

from studio.sound import source
from studio.sound.bed import add
from studio.sound.fading import SHORTEST, raised_cosine
from studio.sound.samples import Samples, silence
from studio.timeline.heard import Dip, Played, Source, Spoken

Gains = npt.NDArray[np.float32]


def mixed(sources: Sequence[Source | Spoken], start: int, count: int) -> Samples:
    """Samples `start` to `start + count` of the sources' recording time, added up, shape (count, 2).

    Outside of a source it is silent, so stems may differ in length. A file is faded over its own last 5 ms, as its
    neighbours may go on; one that is longer than its header estimates is not. Any range has the same samples,
    whatever else is read. Nothing clips. Raises SoundError when a file cannot be read.
    """
    mix = silence(count)
    for one in sources:
        if isinstance(one, Spoken):
            add(mix, [(_spoken(one), -start)])
        else:
            _add_file(mix, one, start)
    return mix


def at_gain(samples: Samples, one: Source | Played, start: float, step: float = 1.0) -> None:
    """Bring samples of a source, shape (n, 2), to its gain, pan and dips, in place.

    Sample i stands at `start + i * step` in recording time.
    """
    level = 10 ** (one.gain_db / 20)
    for side, gain in enumerate(balance(one.pan)):
        if level * gain != 1:
            samples[:, side] *= np.float32(level * gain)
    for dip in one.dips:
        _dip(samples, dip, start, step)


def _dip(samples: Samples, dip: Dip, start: float, step: float) -> None:
    """Let samples dip, in place; what lies between the glides is as deep everywhere, and need not be worked out."""
    over = max(dip.over, SHORTEST)
    for first, end in ((dip.start - over, dip.start), (dip.end, dip.end + over)):
        inside, at = _within(first, end, len(samples), start, step)
        samples[inside] *= dip_gains(dip, at)[:, None]
    inside, _ = _within(dip.start, dip.end, len(samples), start, step)
    samples[inside] *= np.float32(10 ** (-dip.by_db / 20))


def balance(pan: float) -> tuple[float, float]:
    """Gains of the left and right side at `pan`, from -1 (left) to 1 (right); beyond is as far as it goes."""
    pan = min(max(pan, -1.0), 1.0)
    if pan == 0:
        return 1.0, 1.0  # the tangent of 45 degrees is not quite 1 in floating point
    far = tan((1 - abs(pan)) * pi / 4)
    return (far, 1.0) if pan > 0 else (1.0, far)


def dip_gains(dip: Dip, at: npt.NDArray[np.float64]) -> Gains:
    """Gains of a dip at the samples `at` of recording time, one for each: its decibels glide as a raised cosine,
    down before its start and back after its end. A glide that is shorter than 5 ms takes 5 ms."""
    over = max(dip.over, SHORTEST)
    into = raised_cosine((at - (dip.start - over) + 0.5) / over)
    out_of = raised_cosine((dip.end + over - at - 0.5) / over)
    gains: Gains = (10 ** (-dip.by_db * into * out_of / 20)).astype(np.float32)
    return gains


def _within(
    first: float, end: float, count: int, start: float, step: float = 1.0
) -> tuple[slice, npt.NDArray[np.float64]]:
    """Which of `count` samples stand from `first` up to `end` of recording time, and where each stands."""
    begin = min(max(ceil((first - start) / step), 0), count)
    stop = min(max(ceil((end - start) / step), begin), count)
    return slice(begin, stop), start + step * np.arange(begin, stop, dtype=np.float64)


def _add_file(mix: Samples, one: Source, start: int) -> None:
    ending = _ending(one.path, start, len(mix))
    at = 0
    for block in source.blocks(one.path, start, len(mix)):
        at_gain(block, one, start + at)
        if ending is not None:
            inside, place = _within(ending - SHORTEST, ending, len(block), start + at)
            block[inside] *= raised_cosine((ending - place - 0.5) / SHORTEST)[:, None].astype(np.float32)
            block[inside.stop :] = 0  # where a rate converter still rings
        mix[at : at + len(block)] += block
        at += len(block)


def _ending(path: str, start: int, count: int) -> int | None:
    """The sample where a file ends, if the range has anything of its last 5 ms or of what comes after; None where it
    has not, and for a file that goes on after the length that it estimates."""
    length = source.length(path)
    return length if length - SHORTEST < start + count and not source.reaches(path, length + 1) else None


@lru_cache(maxsize=1)
def _spoken(one: Spoken) -> Samples:
    """What the scratch voice says; kept, because a range is asked for in parts."""
    from studio.sound.scratch import spoken

    return spoken(one)
