"""Counting flashes in pictures, by the definition of "general flash and red flash thresholds" of WCAG 2.2.

A general flash is a pair of opposing changes in relative luminance of 10 % or more where the darker image is below
0.80. A red flash is a pair of opposing changes to and from a saturated red, R/(R+G+B) ≥ 0.8, of more than 0.2 in
the CIE 1976 UCS chromaticity diagram. Either counts where flashes that occur together take more than a quarter
of a field of 10 degrees, which is 341 by 256 pixels of a screen of 1024 by 768.

The exception for fine balanced patterns is not made use of: a checkerboard counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

SCREEN = (1024, 768)
FIELD = (341, 256)
MOST = 3
"""Flashes in one second that pass."""

_STEP, _BRIGHT = np.float32(0.1 - 1e-6), np.float32(0.8)
_RED, _RED_STEP_SQUARED = np.float32(0.8 - 1e-6), np.float32(0.2**2)
_TOGETHER_SECONDS = Fraction(1, 6)  # half of a flash, at three flashes a second
# Linear RGB of BT.709 to CIE XYZ, white D65 (IEC 61966-2-1).
_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], np.float32)
# What a dark screen still gives off, white, as a share of its white: black is a colour then, and noise is none.
_GLOW = np.float32(0.001)

Picture = NDArray[np.float32]
_Mask = NDArray[np.bool_]
_UP, _DOWN, _BOTH = 1, -1, 0


@dataclass(frozen=True)
class Worst:
    """The most flashes in any one second, and the frame at which that second begins."""

    count: int = 0
    frame: int = 0


class FlashCounter:
    """Watches pictures of one size and counts their flashes.

    `pixels_a_screen_pixel`: how many pixels of a picture a pixel of the screen of 1024 by 768 is wide.
    """

    def __init__(self, rate: Fraction, pixels_a_screen_pixel: float = 1.0) -> None:
        self._rate = rate
        field = [side * pixels_a_screen_pixel for side in FIELD]
        self._luminance = _Luminance()
        self._redness = _Redness()
        self._general, self._red = (_Transitions(rate, (field[0], field[1])) for _ in range(2))

    def see(self, frame: int, rgb: Picture) -> None:
        """The picture from `frame` on: (height, width, 3), linear light from 0 to 1, ITU-R BT.709 primaries.

        Frames in which nothing changes need not be shown.
        """
        self._general.add(frame, *self._luminance.changed(rgb))
        self._red.add(frame, *self._redness.changed(rgb))

    def general(self) -> Worst:
        return worst(self._general.frames, self._rate)

    def red(self) -> Worst:
        return worst(self._red.frames, self._rate)


def worst(frames: Sequence[int], rate: Fraction) -> Worst:
    """The most flashes in any one second, of opposing changes at these frames: two changes are a flash."""
    found, last = Worst(), 0
    for first, frame in enumerate(frames):
        while last < len(frames) and frames[last] - frame < rate:
            last += 1
        if (count := (last - first) // 2) > found.count:
            found = Worst(count, frame)
    return found


class _Luminance:
    """Opposing changes of relative luminance, each pixel by itself, between its peaks and valleys."""

    def __init__(self) -> None:
        self._high: Picture | None = None

    def changed(self, rgb: Picture) -> tuple[_Mask, _Mask]:
        """Where the luminance has now gone up, and where down."""
        now = rgb @ _XYZ[1]
        if self._high is None:
            self._high, self._low = now.copy(), now.copy()
            self._way = np.zeros(now.shape, np.int8)
        up = (self._way != _UP) & (now - self._low >= _STEP) & (self._low < _BRIGHT)
        down = (self._way != _DOWN) & (self._high - now >= _STEP) & (now < _BRIGHT)
        self._way[up], self._way[down] = _UP, _DOWN
        # After a change up only the peak matters, from which the next change down is measured; and the reverse.
        self._high = np.where(down | up, now, np.maximum(self._high, now))
        self._low = np.where(down | up, now, np.minimum(self._low, now))
        return up, down


class _Redness:
    """Opposing changes to and from a saturated red, each pixel by itself."""

    def __init__(self) -> None:
        self._red: _Mask | None = None

    def changed(self, rgb: Picture) -> tuple[_Mask, _Mask]:
        """Where a pixel has now become a saturated red, and where it has ceased to be."""
        now, red = _chromaticity(rgb + _GLOW), rgb[..., 0]
        saturated = (red > _GLOW) & (red >= _RED * rgb.sum(axis=2))
        far = _apart(now, _REDDEST)
        if self._red is None:
            self._red = saturated.copy()
            self._reddest, self._least, self._near, self._far = now, now, far, far
        apart = np.where(self._red, _apart(now, self._reddest), _apart(now, self._least)) > _RED_STEP_SQUARED
        became, ceased = ~self._red & saturated & apart, self._red & apart
        self._red = (self._red | became) & ~ceased
        # The reddest state of a red, and of all else the state that is farthest from red, are what is left behind.
        redder = became | (self._red & (far < self._near))
        paler = ceased | (~self._red & ~saturated & (far > self._far))
        self._reddest, self._near = _where(redder, now, self._reddest), np.where(redder, far, self._near)
        self._least, self._far = _where(paler, now, self._least), np.where(paler, far, self._far)
        return became, ceased


def _chromaticity(rgb: Picture) -> Picture:
    """(…, 3) linear RGB → (…, 2) u' and v' of CIE 1976 UCS."""
    x, y, z = np.moveaxis(rgb @ _XYZ.T, -1, 0)
    whole = x + 15 * y + 3 * z
    return np.stack([4 * x / whole, 9 * y / whole], axis=-1)


def _apart(one: Picture, other: Picture) -> Picture:
    """How far chromaticities are apart, squared."""
    across, up = one[..., 0] - other[..., 0], one[..., 1] - other[..., 1]
    apart: Picture = across * across + up * up
    return apart


def _where(mask: _Mask, one: Picture, other: Picture) -> Picture:
    return np.where(mask[..., None], one, other)


_REDDEST = _chromaticity(np.array([1, 0, 0], np.float32))


class _Transitions:
    """Opposing changes of the picture as a whole: of enough pixels at once, close enough together."""

    def __init__(self, rate: Fraction, field: tuple[float, float]) -> None:
        self.frames: list[int] = []
        self._field = (max(1, round(field[1])), max(1, round(field[0])))
        self._least = field[0] * field[1] / 4
        self._together = max(1, round(rate * _TOGETHER_SECONDS))
        self._since: dict[int, NDArray[np.int64]] = {}
        self._way: int | None = None

    def add(self, frame: int, up: _Mask, down: _Mask) -> None:
        """Which pixels have changed at a frame, and which way."""
        ways = [way for way, changed in ((_UP, up), (_DOWN, down)) if self._enough(frame, way, changed)]
        if len(ways) == 2:  # here up and there down: it opposes whatever went before
            self._oppose(frame, -self._way if self._way else _BOTH)
        elif ways and (not self._way or self._way != ways[0]):
            self._oppose(frame, ways[0])

    def _oppose(self, frame: int, way: int) -> None:
        self.frames.append(frame)
        self._way = way

    def _enough(self, frame: int, way: int, changed: _Mask) -> bool:
        """Whether with this frame enough pixels of one field have gone one way, almost together.

        Those of the last sixth of a second count too: the edges of what fades change later than its middle.
        """
        since = self._since.setdefault(way, np.full(changed.shape, -self._together, np.int64))
        if not changed.any():
            return False
        since[changed] = frame
        if _most(frame - since < self._together, self._field) <= self._least:
            return False
        since[...] = frame - self._together
        return True


def _most(mask: _Mask, field: tuple[int, int]) -> int:
    """The most pixels of a mask in any rectangle of the field's height and width."""
    if not mask.any():
        return 0
    height, width = (min(side, whole) for side, whole in zip(field, mask.shape, strict=True))
    sums = np.zeros((mask.shape[0] + 1, mask.shape[1] + 1), np.int64)
    np.cumsum(np.cumsum(mask, axis=0), axis=1, out=sums[1:, 1:])
    inside = sums[height:, width:] - sums[:-height, width:] - sums[height:, :-width] + sums[:-height, :-width]
    return int(inside.max())
