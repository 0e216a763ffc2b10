"""Passes one after the other as one piece of sound, without a seam.

At a joint the old pass is faded out and the new one faded in over what sounds before its start, and the cross-fade
ends on the joint: the first beat of the new pass comes whole, and at its sample. Its gains must not depend on what
sounds, or stems on their own would no longer add up to the mix. So they are made for sounds that are half alike
(`ALIKE`), which repeats are: where two are the same (a sustained note, a loop) the level rises by 1.2 dB, where they
have nothing in common it sinks by 1.8 dB, while the equal-power law rises by 3 dB and the linear one sinks by as much.
Over 10 ms nobody hears that: the ear adds up level over a tenth of a second or more, where it makes a tenth of a
decibel. Where the new pass goes on just where the old one ends, the gains add up to 1, and nothing is heard at all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np
import numpy.typing as npt

from studio.sound import source
from studio.sound.fading import SHORTEST
from studio.sound.mixing import mixed
from studio.sound.samples import Samples, silence
from studio.timeline.heard import Pass, Played, Source

ALIKE = 0.5
"""The correlation of the two sounds at a joint that its gains are made for, from 0 to 1."""


@dataclass(frozen=True)
class Joint:
    """A cross-fade: its sound, shape (n, 2), and the sample of the joined passes where it starts."""

    at: int
    sound: Samples

    @property
    def end(self) -> int:
        """The first sample of the joined passes after the cross-fade."""
        return self.at + len(self.sound)


class Joined:
    """The files of passes (what the program plays is not in it), each at its gain, joined edge to edge.

    `over`: samples of recording time that a cross-fade takes at most. `gains`: one factor for each pass. What sounds
    at the joints is read at once; raises SoundError when a file cannot be read.
    """

    def __init__(self, passes: Sequence[Pass], over: int, gains: Sequence[float]) -> None:
        self._passes = tuple(passes)
        self._gains = tuple(gains)
        self._starts = tuple(accumulate((one.length for one in passes), initial=0))
        self._joints = tuple(self._joint(number, over) for number in range(1, len(self._passes)))

    @property
    def sounds(self) -> bool:
        """Whether there is any file in it."""
        return any(not isinstance(each, Played) for one in self._passes for each in one.sources)

    def read(self, first: int, count: int) -> Samples:
        """Samples `first` to `first + count` of the passes together, shape (count, 2), counted in recording time from
        the start of the first pass.

        Before 0 and after the end comes what the recording has there: a stretcher wants to know it. Any range has
        the same samples, whatever else is read. Raises SoundError when a file cannot be read.
        """
        result = silence(count)
        ends = [first, *(edge for one in self._joints for edge in (one.at, one.end)), first + count]
        for number in range(len(self._passes)):
            begin, end = max(ends[2 * number], first), min(ends[2 * number + 1], first + count)
            if begin < end:
                result[begin - first : end - first] = self._sound(number, begin, end - begin)
        for joint in self._joints:
            begin, end = max(joint.at, first), min(joint.end, first + count)
            if begin < end:
                result[begin - first : end - first] = joint.sound[begin - joint.at : end - joint.at]
        return result

    def _sound(self, number: int, at: int, count: int) -> Samples:
        """What a pass, or its recording around it, sounds like from sample `at` of the joined passes on."""
        one, gain = self._passes[number], self._gains[number]
        sources = [each for each in one.sources if not isinstance(each, Played)]
        samples = mixed(sources, one.start + at - self._starts[number], count)
        return samples if gain == 1 else samples * np.float32(gain)

    def _joint(self, number: int, over: int) -> Joint:
        """The cross-fade from pass `number - 1` into pass `number`."""
        old, new, at = self._passes[number - 1], self._passes[number], self._starts[number]
        over = min(over, old.length // 2, new.length // 2)
        if new.start >= min(over, SHORTEST):
            over = min(over, new.start)
            ends, begins = (self._sound(each, at - over, over) for each in (number - 1, number))
            return Joint(at - over, crossing(ends, begins, 1.0 if new.start == old.end else ALIKE))
        if _goes_on(old, over):
            # Nothing comes before the new pass: it starts as its file does, over the last of the old one.
            sound = self._sound(number, at, over)
            sound += self._sound(number - 1, at, over) * _quarter(over)[::-1, None]
            return Joint(at, sound)
        over = min(over, SHORTEST)
        return Joint(at - over, self._sound(number - 1, at - over, over) * _quarter(over)[::-1, None])


def crossing(old: Samples, new: Samples, likeness: float) -> Samples:
    """A cross-fade of two sounds of one shape (n, 2) from the one to the other, that keeps their power.

    `likeness`: their correlation, from 0 to 1. With gains g and h they have g² + h² + 2·g·h·likeness of their power,
    and its root divides the gains of the equal-power law: at 0 they are that law's, at 1 they add up to 1.
    """
    rise = _quarter(len(old)).astype(np.float64)
    fall = rise[::-1]
    power = np.sqrt(1 + 2 * rise * fall * likeness)
    return (old * (fall / power)[:, None] + new * (rise / power)[:, None]).astype(np.float32)


def _quarter(length: int) -> npt.NDArray[np.float32]:
    """The rising gains of an equal-power cross-fade: a quarter of a sine."""
    return np.sin((np.arange(length) + 0.5) / length * np.pi / 2).astype(np.float32)


def _goes_on(one: Pass, over: int) -> bool:
    """Whether a recording in it lasts for `over` samples after the pass."""
    return any(source.reaches(each.path, one.end + over) for each in one.sources if isinstance(each, Source))
