"""The one gain that brings a sound to its target while a limiter holds its peaks.

A sound may have clicks over it, of a count-in or of a metronome. They are a guide and no music: the target is for what
is heard without them, they come up with it by as much, and only then the peaks of both together are held.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import inf

import numpy as np

from studio.sound.bed import add
from studio.sound.limiter import Limiter
from studio.sound.loudness import Levels, Loudness, judged, measure, measure_without_clicks
from studio.sound.samples import Samples, in_blocks
from studio.timeline.heard import RATE

MOST_LIMITED = 6.0
"""Decibels of gain reduction that a limiter may need for a peak; more is heard as damage, so a sound stays under its
target instead. Common practice: mixing engineers let a limiter take 2 to 6 dB."""
CLOSE = 0.02
"""LU from the target at which the search for a gain ends."""
TRIES = 8
"""Gains that the search tries at most; with a limiter at work it takes two or three."""

Click = tuple[Samples, int]
"""The sound of a click, shape (n, 2), and the sample of what it lies over where it starts."""


def no_clicks(loudness: float | None) -> Iterable[Click]:
    """The clicks of a sound without any."""
    return ()


def to_target(
    samples: Samples,
    target: float,
    ceiling: float = -1.0,
    clicks: Callable[[float | None], Iterable[Click]] = no_clicks,
    lead: int = 0,
    most_lift: float = inf,
) -> Levels:
    """Bring samples, shape (length, 2), to `target` LUFS by one gain, in place, with no true peak over `ceiling` dBTP.

    A limiter holds the peaks, and the gain makes up for what it takes. Where it would have to take more than
    `MOST_LIMITED`, or the gain were more than `most_lift` dB, the result stays below the target. Silence stays as it
    is. A piece shorter than 400 ms is judged as if it went on. `clicks` gives those that lie over a sound of a
    loudness, which is that of the samples in LUFS; they are in the result and count for its peaks alone. `lead`: the
    samples at the start in which nothing but clicks sounds. Beyond the samples it needs constant memory. Raises
    SoundError when ffmpeg fails.
    """
    before = measure(samples[lead:])
    integrated = judged(samples[lead:], before)
    over = tuple(clicks(integrated))
    if before.true_peak is None and not over:
        return Levels(before, 0.0, before, False)
    click_db = gain_to(before, integrated, target, ceiling, most_lift)

    def play(gain_db: float, limiter: Limiter) -> Iterator[Samples]:
        if not over:
            return louder(in_blocks(samples), gain_db, limiter)
        return limiter.over(_under_clicks(samples, gain_db, over, click_db))

    def at(gain_db: float) -> tuple[Loudness, float]:
        limiter = Limiter(ceiling)
        blocks = play(gain_db, limiter)
        return measure_without_clicks(blocks, lead) if over else measure(blocks), limiter.most_db

    levels = levelled(before, integrated, target, ceiling, at, most_lift)
    if not over and not levels.limited_by_db:
        samples *= factor_of(levels.gain_db)
        return levels
    done = 0
    for block in play(levels.gain_db, Limiter(ceiling)):  # it has read what is written over here
        samples[done : done + len(block)] = block[:, :2]
        done += len(block)
    return levels


def levelled(
    before: Loudness,
    integrated: float | None,
    target: float,
    ceiling: float,
    at: Callable[[float], tuple[Loudness, float]],
    most_lift: float = inf,
    most: float = MOST_LIMITED,
) -> Levels:
    """Find the gain that takes a sound, which is `before` and to be judged by `integrated` LUFS, to `target` LUFS.

    `at` makes the sound at a gain in dB, its peaks held at `ceiling` dBTP, and gives its loudness and the largest gain
    reduction, which may be `most` dB; its last call is the one that counts. The gain is `most_lift` dB at most. Errors
    are those of `at`.
    """
    gain = gain_to(before, integrated, target, ceiling, most_lift, most)
    after, limited = at(gain)
    if before.true_peak is None:
        return Levels(before, gain, after, False, limited)
    by_peak = ceiling - before.true_peak + most
    highest = min(by_peak, most_lift)
    slope = 1.0
    for _ in range(TRIES):
        if after.integrated is None or abs(short := target - after.integrated) <= CLOSE:
            break
        # A limiter eats a part of each decibel; and a louder copy lifts more of its quiet parts over the gates.
        better = min(gain + short / slope, highest)
        if abs(better - gain) < CLOSE / 10:
            break
        known, tried = after.integrated, gain
        gain = better
        after, limited = at(gain)
        if after.integrated is not None:
            slope = min(max((after.integrated - known) / (gain - tried), 0.1), 1.0)
    held = integrated is not None and gain >= by_peak - CLOSE / 10
    missed = after.integrated is None or target - after.integrated > CLOSE
    return Levels(before, gain, after, held and missed, limited)


def gain_to(
    found: Loudness,
    integrated: float | None,
    target: float,
    ceiling: float,
    most_lift: float = inf,
    most: float = MOST_LIMITED,
) -> float:
    """The gain in dB from a sound, which is `found` and to be judged by `integrated` LUFS, to `target` LUFS: as far as
    a limiter may hold its peaks at `ceiling` dBTP with `most` dB of gain reduction, and `most_lift` at most. What is no
    louder than the gate stays as it is, or goes down to the ceiling."""
    if found.true_peak is None:
        return 0.0
    room = ceiling - found.true_peak
    return min(target - integrated, room + most, most_lift) if integrated is not None else min(room, 0.0)


def louder(blocks: Iterable[Samples], gain_db: float, limiter: Limiter) -> Iterator[Samples]:
    """The blocks, each of shape (any length, 2), at a gain, through the limiter."""
    factor = factor_of(gain_db)
    return limiter.over(block * factor for block in blocks)


def factor_of(gain_db: float) -> np.float32:
    """The factor of a gain in dB."""
    return np.float32(10 ** (gain_db / 20))


def _under_clicks(
    samples: Samples, gain_db: float, clicks: Sequence[Click], click_db: float
) -> Iterator[Samples]:
    """Blocks of shape (n, 4): the samples at their gain with the clicks over them at theirs, and without."""
    factor, click_factor = factor_of(gain_db), factor_of(click_db)
    for number, block in enumerate(in_blocks(samples)):
        begin, end = number * RATE, number * RATE + len(block)
        both = np.tile(block * factor, (1, 2))
        near = ((sound, at) for sound, at in clicks if at < end and at + len(sound) > begin)
        add(both[:, :2], ((sound * click_factor, at - begin) for sound, at in near))
        yield both
