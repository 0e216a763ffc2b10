"""Pictures on demand: each look of each layer is drawn once, converted once, and kept while there is room."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from studio.drawing.draw import draw
from studio.drawing.themes.theme import Theme
from studio.render.colour import Patch, to_patch
from studio.timeline.state import Layer, State

_ROOM_BYTES = 192 << 20


class Kept:
    """Made things by key, the least recently used dropped when they outgrow the room (in bytes)."""

    def __init__(self, room: int) -> None:
        self._room = room
        self._used = 0
        self._things: OrderedDict[Any, tuple[Any, int]] = OrderedDict()

    def get(self, key: Any, make: Callable[[], Any], size: Callable[[Any], int]) -> Any:
        if key in self._things:
            self._things.move_to_end(key)
            return self._things[key][0]
        made = make()
        self._things[key] = (made, size(made))
        self._used += size(made)
        while self._used > self._room and len(self._things) > 1:
            _, (_, freed) = self._things.popitem(last=False)
            self._used -= freed
        return made


class Painter:
    """Draws looks with one theme. Not shared between processes: each worker has its own."""

    def __init__(self, theme: Theme) -> None:
        self._theme = theme
        self._pictures = Kept(_ROOM_BYTES // 3)
        self._patches = Kept(_ROOM_BYTES)

    def rgba(self, layer: Layer, look: Any) -> NDArray[np.uint8]:
        """(height, width, 4) straight-alpha picture of one look, of the layer's size."""
        size = (layer.box.width, layer.box.height)
        key = (layer.kind, layer.content, look, size)
        picture: NDArray[np.uint8] = self._pictures.get(
            key,
            lambda: np.asarray(draw(layer.kind, layer.content, look, size, self._theme)),
            lambda made: made.nbytes,
        )
        return picture

    def patch(self, layer: Layer, state: State) -> Patch:
        """What blending needs for one state."""
        key = (layer.kind, layer.content, state.look, layer.box.width, layer.box.height, state.opacity)
        patch: Patch = self._patches.get(
            key,
            lambda: to_patch(self.rgba(layer, state.look), state.opacity),
            lambda made: sum(plane.nbytes for plane in (*made.adds, *made.through)),
        )
        return patch
