"""Where somebody talks in a recording of a voice, from the recording's own level.

The level is that of frames of 20 ms, every 10 ms, between 250 Hz and 8 kHz: there words are, and hum and rumble
are not. How loud the voice is says what counts as talking, and the quietest tenth of its frames what the room
sounds like. Talking is what rises clearly over the room for as long as a short word takes; the soft ends of
words go with it. A breath is some 20 dB and more under the words (common practice), and so is left out, and a
click of the tongue is too short. The decibels below are common practice, tried with voices, rooms and breaths
made for the tests.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from studio.sound.samples import Samples
from studio.timeline.heard import RATE

HOP, FRAME = RATE // 100, RATE // 50
"""Samples from one frame to the next, and in a frame."""

SILENT = -70.0
"""Decibels of full scale under which nothing is a voice."""

_LOWEST, _HIGHEST = 250, 8_000  # Hz
_WORD, _SOFT = 15.0, 24.0  # dB under the voice: what a word reaches at least, and where its ends are lost
_OVER_ROOM, _SOFT_OVER_ROOM = 9.0, 6.0  # dB over the room: the same
_SURELY, _SOFT_SURELY = 5.0, 8.0  # dB under the voice: what is a word, and part of one, in whatever room
_STEADY, _LONG = 4.0, 100  # dB and frames: nobody talks so evenly for a second
_GATE = 10.0  # dB: frames that far under the mean are no words (as the relative gate of ITU-R BS.1770)
_SHORTEST = 5  # frames at the level of a word: shorter sounds are clicks
_EARLY = 3 * HOP  # samples before what is heard: soft consonants begin a word
_AT_ONCE = 512  # frames in one go, so that memory stays small


@dataclass(frozen=True)
class Talk:
    """Somebody talks from sample `start` up to `end`."""

    start: int
    end: int


def talks(voice: Samples) -> list[Talk]:
    """The stretches in which somebody talks, in order, apart from each other; none where nobody does.

    `voice` has shape (length, 2). A sound that never pauses, as of a machine, is a room and not a voice.
    """
    levels = frame_levels(voice)
    heard = np.flatnonzero(levels > SILENT)
    if not len(heard):
        return []
    recorded = levels[heard[0] : heard[-1] + 1]  # what lies around it in its clip is no room
    voiced, room = gated_level(recorded), float(np.quantile(recorded, 0.1))
    if len(recorded) > _LONG and room > voiced - _STEADY:
        return []
    word = max(voiced - _WORD, min(room + _OVER_ROOM, voiced - _SURELY), SILENT)
    soft = max(voiced - _SOFT, min(room + _SOFT_OVER_ROOM, voiced - _SOFT_SURELY), SILENT)
    runs = _runs(levels > soft)
    reached = np.concatenate([[0], np.cumsum(levels > word)])
    kept = [(first, last) for first, last in runs if reached[last] - reached[first] >= _SHORTEST]
    return _apart(kept, len(voice))


def gated_level(levels: npt.NDArray[np.float64]) -> float:
    """Decibels of the voice while it speaks: the mean power of the frames that are not far under the mean."""
    power = 10 ** (levels / 10)
    kept = power[power >= power.mean() * 10 ** (-_GATE / 10)]
    return 10 * math.log10(float(kept.mean()))


def frame_levels(voice: Samples) -> npt.NDArray[np.float64]:
    """Decibels of full scale of each frame, both channels together; frame n is about sample n·HOP.

    A sine at full scale on one channel is -3 dB, as its root mean square is.
    """
    count = -(-len(voice) // HOP)
    window = np.hanning(FRAME + 1)[:-1].astype(np.float32)
    bins = slice(_LOWEST * FRAME // RATE, _HIGHEST * FRAME // RATE + 1)
    power = np.zeros(count)
    for first in range(0, count, _AT_ONCE):
        near = _around(voice, first, min(_AT_ONCE, count - first))
        for channel in (near[:, 0], near[:, 1]):
            frames = np.lib.stride_tricks.sliding_window_view(channel, FRAME)[::HOP]
            spectrum = np.fft.rfft(frames * window, axis=1)[:, bins]
            found = (spectrum.real**2 + spectrum.imag**2).sum(axis=1)
            power[first : first + len(found)] += found
    power *= 2 / (FRAME * float(np.square(window, dtype=np.float64).sum()))
    return 10 * np.log10(np.maximum(power, 1e-12))


def _around(voice: Samples, first: int, count: int) -> Samples:
    """The samples under `count` frames from frame `first` on, with silence outside of the voice."""
    begin = first * HOP - FRAME // 2
    end = begin + (count - 1) * HOP + FRAME
    inside = voice[max(begin, 0) : end]
    before = max(-begin, 0)
    return np.pad(inside, ((before, end - begin - before - len(inside)), (0, 0)))


def _runs(on: npt.NDArray[np.bool_]) -> list[tuple[int, int]]:
    """The runs of True as (first, after the last)."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], on, [False]])))
    return list(zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True))


def _apart(runs: list[tuple[int, int]], length: int) -> list[Talk]:
    """Frames as samples, a little early; stretches that meet are one."""
    found: list[Talk] = []
    for first, last in runs:
        start, end = max(first * HOP - FRAME // 2 - _EARLY, 0), min(last * HOP, length)
        if found and start <= found[-1].end:
            found[-1] = Talk(found[-1].start, end)
        else:
            found.append(Talk(start, end))
    return found
