"""Music that makes room for a voice: down before the words begin, and up again some time after they end.

The voice is known beforehand, so nothing reacts: the way down ends where a stretch of talk starts. Gaps in which
the music could not come all the way up, stand there for a while and go down again are not worth coming up for: it
does not flutter between words, nor pop up between two sentences. Both ways are a raised cosine in decibels, without
a corner.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from studio.sound.fading import SHORTEST, raised_cosine
from studio.sound.samples import Samples
from studio.sound.talking import Talk, talks
from studio.timeline.heard import RATE, Ducking

HOLD = RATE // 2
"""Samples that music stays down after the last word: a breath between two sentences is no end of the talk."""

OVERLAP = RATE // 20
"""Samples of a voice's last sound that music may begin under and still be called music after the talk, 50 ms."""

STAND = RATE * 6 // 5
"""Samples that music stands at its own level between two stretches of talk at least, 1.2 s: half a bar at 100 beats
a minute is heard as music, and less as a swell (common practice, by ear)."""


def ducked(music: Samples, voice: Samples, ducking: Ducking) -> Samples:
    """The music, `by_db` softer where somebody talks in the voice; both of shape (length, 2), laid in one clip.

    It comes down over `attack` samples before the talk, stays down over gaps in which it could not stand up for
    `STAND` samples, and from `HOLD` samples after the talk on comes back over `release`; no quicker than 5 ms, which
    would click. Where nobody talks no sample is touched.
    """
    result = music.copy()
    duck(result, 0, talk_under(voice, ducking), ducking)
    return result


def talk_under(voice: Samples, ducking: Ducking) -> list[Talk]:
    """The stretches of a voice, shape (length, 2), under which music stays down: its talk, with the gaps that are not
    worth coming up for."""
    attack, release = _ways(ducking)
    return _joined(talks(voice), attack + HOLD + release + STAND)


def duck(music: Samples, at: int, talk: Sequence[Talk], ducking: Ducking, begun: int | None = None) -> None:
    """What `ducked` does, in place, with music of shape (n, 2) whose first sample is sample `at` of the voice.

    What the music belongs to has `begun` at that sample of the voice, or with the music itself. If that is when a talk
    is over, the talk does not touch it: nobody speaks over its first beat.
    """
    attack, release = _ways(ducking)
    down = np.float32(10 ** (-ducking.by_db / 20))
    begun = at if begun is None else begun
    for one in talk:
        if begun >= one.end - OVERLAP:
            continue
        start, end = one.start - at, one.end + HOLD - at
        _way(music, start - attack, falling(attack, ducking.by_db))
        music[max(start, 0) : max(end, 0)] *= down
        _way(music, end, falling(release, ducking.by_db)[::-1])


def _ways(ducking: Ducking) -> tuple[int, int]:
    """Samples of the way down and of the way back."""
    return max(ducking.attack, SHORTEST), max(ducking.release, SHORTEST)


def falling(length: int, by_db: float) -> npt.NDArray[np.float32]:
    """Gains on the way down by `by_db`, shape (length,): a raised cosine in decibels."""
    phase = (np.arange(length) + 0.5) / length
    gain: npt.NDArray[np.float64] = 10 ** (-by_db / 20 * raised_cosine(phase))
    return gain.astype(np.float32)


def _joined(found: list[Talk], least: int) -> list[Talk]:
    """Stretches of talk, those with less than `least` samples between them as one."""
    gaps = [(one, two) for one, two in pairwise(found) if two.start - one.end >= least]
    starts = [*found[:1], *(two for _, two in gaps)]
    ends = [*(one for one, _ in gaps), *found[-1:]]
    return [Talk(first.start, last.end) for first, last in zip(starts, ends, strict=True)]


def _way(music: Samples, at: int, gains: npt.NDArray[np.float32]) -> None:
    """Lay gains on the music from sample `at` on, as far as there is music."""
    first, last = max(at, 0), min(at + len(gains), len(music))
    if first < last:
        music[first:last] *= gains[first - at : last - at, None]
