"""The overlays of a clip over nothing: one straight-alpha picture of the canvas, changed where it changes."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from studio.drawing.themes.theme import Theme
from studio.project.episode_values import Canvas
from studio.render.extended_colours import extended
from studio.render.painter import Kept, Painter
from studio.timeline.state import Box, Layer

MARGIN = 16
"""Pixels around each layer into which its colours are extended: a block of any codec used here."""

_ROOM_BYTES = 64 << 20
_Pixels = NDArray[np.uint8]


@dataclass(frozen=True)
class Shown:
    """A layer, by its number, as it is seen in a frame."""

    layer: int
    look: Any
    opacity: float
    box: Box


def runs(layers: Sequence[Layer], frames: int) -> Iterator[tuple[tuple[Shown, ...], int]]:
    """What is seen, lowest first, and for how many frames: neighbouring frames that look the same are one run."""
    starts = [[state.start for state in layer.states] for layer in layers]

    def seen(frame: int) -> tuple[Shown, ...]:
        return tuple(shown for number in range(len(layers)) if (shown := one(number, frame)))

    def one(number: int, frame: int) -> Shown | None:
        layer, nearest = layers[number], bisect_right(starts[number], frame) - 1
        if nearest < 0 or (state := layer.states[nearest]).end <= frame:
            return None
        return Shown(number, state.look, state.opacity, layer.box_at(state, frame))

    found, since = seen(0), 0
    for frame in sorted({at for layer in layers for at in _changes(layer) if 0 < at < frames}):
        now = seen(frame)
        if now != found:
            yield found, frame - since
            found, since = now, frame
    yield found, frames - since


def _changes(layer: Layer) -> Iterator[int]:
    """Frames at which a layer may look other than in the frame before."""
    for state in layer.states:
        yield from range(state.start, state.end) if state.glide else (state.start,)
        yield state.end


class OverlayPicture:
    """Layers composed over nothing. `pixels`: (height, width, 4), straight alpha, written over as it changes."""

    def __init__(self, canvas: Canvas, layers: Sequence[Layer], theme: Theme) -> None:
        self._whole = Box(0, 0, canvas.width, canvas.height)
        self._layers, self._ground = layers, theme.colours.panel
        self._painter, self._extended = Painter(theme), Kept(_ROOM_BYTES)
        self._shown: tuple[Shown, ...] | None = None
        self.pixels: _Pixels = np.empty((canvas.height, canvas.width, 4), np.uint8)
        self.pixels[...] = (*self._ground, 0)

    def show(self, shown: tuple[Shown, ...]) -> Box | None:
        """Compose what a frame shows; gives the rectangle outside which no pixel changed, None if none did."""
        before, self._shown = self._shown, shown
        if before is None:
            self._composed(self._whole)
            return self._whole
        changed = dict.fromkeys(one.box for one in (*before, *shown) if (one in shown) != (one in before))
        found = [box for place in changed if (box := self._composed(self._with_margin(place)))]
        return _hull(found)

    def _with_margin(self, box: Box) -> Box:
        wide = Box(box.x - MARGIN, box.y - MARGIN, box.width + 2 * MARGIN, box.height + 2 * MARGIN)
        return wide.shared(self._whole) or Box(0, 0, 0, 0)

    def _composed(self, box: Box) -> Box | None:
        """Compose a rectangle anew; gives the part of it that is not what it was."""
        target = self.pixels[box.y : box.bottom, box.x : box.right]
        before = target.copy()
        target[...] = (*self._ground, 0)
        shown = self._shown or ()
        for number, one in enumerate(shown):
            # What stands on something else, as a mark does, has that beside it and not nothing.
            alone = not any(one.box.overlaps(lower.box) for lower in shown[:number])
            if part := (self._with_margin(one.box) if alone else one.box).shared(box):
                self._lay(one, part)
        return _differing(before, target, box)

    def _lay(self, one: Shown, part: Box) -> None:
        """Lay what of a layer falls within `part` of the canvas over what is there."""
        picture = self._picture(one)
        x, y = part.x - one.box.x + MARGIN, part.y - one.box.y + MARGIN
        source = picture[y : y + part.height, x : x + part.width]
        alpha = source[..., 3]
        if one.opacity < 1:
            alpha = np.rint(alpha * np.float32(one.opacity)).astype(np.uint8)
        over(self.pixels[part.y : part.bottom, part.x : part.right], source[..., :3], alpha)

    def _picture(self, one: Shown) -> _Pixels:
        layer = self._layers[one.layer]
        picture: _Pixels = self._extended.get(
            (one.layer, one.look),
            lambda: extended(self._painter.rgba(layer, one.look), MARGIN, self._ground),
            lambda made: made.nbytes,
        )
        return picture


def over(target: _Pixels, colour: _Pixels, alpha: _Pixels) -> None:
    """Lay straight-alpha `colour` with `alpha` over `target`, in place. Where both are empty, colour is laid
    under nothing, so that edges have it beside them."""
    empty = target[..., 3] == 0
    if empty.all():
        target[..., :3], target[..., 3] = colour, alpha
        return
    seen = (alpha > 0) & ~empty
    blended = _blended(target[seen], colour[seen], alpha[seen])
    target[empty, :3], target[empty, 3] = colour[empty], alpha[empty]
    target[seen] = blended


def _blended(under: _Pixels, colour: _Pixels, alpha: _Pixels) -> _Pixels:
    """(n, 4) straight-alpha pixels over others: Porter and Duff's "over", 1984."""
    upper = alpha.astype(np.float32)[:, None] / np.float32(255)
    lower = under[:, 3:].astype(np.float32) / np.float32(255) * (1 - upper)
    whole = upper + lower
    mixed = (colour * upper + under[:, :3] * lower) / whole
    pixels: _Pixels = np.rint(np.concatenate([mixed, whole * 255], axis=1)).astype(np.uint8)
    return pixels


def _differing(before: _Pixels, after: _Pixels, box: Box) -> Box | None:
    """The least rectangle, even on all sides, outside which two pictures of `box` are the same."""
    differs = before.view(np.uint32)[..., 0] != after.view(np.uint32)[..., 0]
    rows, columns = np.flatnonzero(differs.any(axis=1)), np.flatnonzero(differs.any(axis=0))
    if not rows.size:
        return None
    top, left = int(rows[0]) // 2 * 2, int(columns[0]) // 2 * 2
    bottom, right = int(rows[-1]) // 2 * 2 + 2, int(columns[-1]) // 2 * 2 + 2
    return Box(box.x + left, box.y + top, right - left, bottom - top)


def _hull(boxes: Sequence[Box]) -> Box | None:
    """The least rectangle around all of them."""
    if not boxes:
        return None
    x, y = min(box.x for box in boxes), min(box.y for box in boxes)
    return Box(x, y, max(box.right for box in boxes) - x, max(box.bottom for box in boxes) - y)
