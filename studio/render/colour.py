"""From drawn RGBA to video samples: BT.709, limited range, 4:2:0, alpha premultiplied.

Each picture is converted once and blended often, so the blending is prepared here: what a patch adds is
stored already multiplied by its alpha, and what it lets through as a factor in 1/256ths.

Luma weights 0.2126, 0.7152, 0.0722 (ITU-R BT.709-6, item 3.2); 8-bit ranges 16-235 and 16-240 (item 4.6).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

KR, KG, KB = 0.2126, 0.7152, 0.0722
_Samples = tuple[NDArray[np.uint16], NDArray[np.uint16], NDArray[np.uint16]]
Planes = tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]


@dataclass(frozen=True)
class Patch:
    """A picture ready to blend: for Y, U and V what it adds (0-255) and what it lets through (0-256)."""

    adds: _Samples
    through: _Samples
    opaque: bool

    def part(self, left: int, top: int, width: int, height: int) -> Patch:
        """A rectangle of the patch, even on all sides; nothing is copied."""

        def cut(planes: _Samples) -> _Samples:
            luma = planes[0][top : top + height, left : left + width]
            rows, columns = slice(top // 2, (top + height) // 2), slice(left // 2, (left + width) // 2)
            return luma, planes[1][rows, columns], planes[2][rows, columns]

        return Patch(cut(self.adds), cut(self.through), self.opaque)


def to_ycbcr(rgb: NDArray[np.floating]) -> NDArray[np.float32]:
    """(…, 3) R'G'B' in 0-1 → (…, 3) Y', Cb, Cr on the 8-bit limited scale (not rounded)."""
    red, green, blue = (rgb[..., n].astype(np.float32) for n in range(3))
    luma = KR * red + KG * green + KB * blue
    blueness = (blue - luma) / (2 * (1 - KB))
    redness = (red - luma) / (2 * (1 - KR))
    return np.stack([16 + 219 * luma, 128 + 224 * blueness, 128 + 224 * redness], axis=-1)


def _halved(plane: NDArray[np.float32]) -> NDArray[np.float32]:
    """Mean of each 2×2 block."""
    height, width = plane.shape
    blocks: NDArray[np.float32] = plane.reshape(height // 2, 2, width // 2, 2).mean(
        axis=(1, 3), dtype=np.float32
    )
    return blocks


def to_patch(rgba: NDArray[np.uint8], opacity: float = 1.0) -> Patch:
    """(height, width, 4) straight-alpha RGBA of even size → what blending needs.

    `opacity` (0-1) multiplies the alpha.
    """
    height, width = rgba.shape[:2]
    if height % 2 or width % 2:
        raise ValueError(f"a patch must have even sides, not {width}x{height}")
    alpha = rgba[..., 3].astype(np.float32) * np.float32(opacity / 255)
    samples = to_ycbcr(rgba[..., :3].astype(np.float32) / np.float32(255)) * alpha[..., None]
    half_alpha = _halved(alpha)
    luma, blueness, redness = samples[..., 0], _halved(samples[..., 1]), _halved(samples[..., 2])
    adds = tuple(np.rint(plane).astype(np.uint16) for plane in (luma, blueness, redness))
    through = tuple(np.rint(256 * (1 - part)).astype(np.uint16) for part in (alpha, half_alpha, half_alpha))
    return Patch(adds, through, bool((alpha >= 1).all()))  # type: ignore[arg-type]


def blend(planes: Planes, patch: Patch, x: int, y: int) -> None:
    """Blend a patch into Y, U and V planes in place, its upper left corner at even (x, y)."""
    for n, (plane, adds, through) in enumerate(zip(planes, patch.adds, patch.through, strict=True)):
        left, top = (x, y) if n == 0 else (x // 2, y // 2)
        height, width = adds.shape
        target = plane[top : top + height, left : left + width]
        if patch.opaque:
            target[...] = adds
        else:
            target[...] = np.minimum(((target * through + 128) >> 8) + adds, 255)
