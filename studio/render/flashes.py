"""Whether the overlays of a clip flash: WCAG 2.2, success criterion 2.3.1, counted on the frames that are drawn.

Only seconds are drawn in which enough changes for more than three flashes: elsewhere there is nothing to count.
Camera takes are not looked at; their overlays are, over the theme's bare ground.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from itertools import pairwise

import numpy as np
from PIL import Image

from studio.drawing.themes.contrast import luminance
from studio.project.episode_values import Canvas
from studio.render.chunks import Chunk
from studio.render.compositor import frames
from studio.render.flash_counter import FIELD, MOST, SCREEN, FlashCounter, Picture, Worst, worst
from studio.render.hashing import code_digest, name_of
from studio.render.painter import Painter
from studio.render.workshop import Workshop
from studio.timeline.plan import Plan, SegmentPlan
from studio.timeline.state import Box, Layer
from studio.whole_file import whole_file

_CHANGES = 2 * (MOST + 1)
_LINEAR = np.array([luminance((level, level, level)) for level in range(256)], np.float32)
Range = tuple[int, int]


@dataclass(frozen=True)
class Flashes:
    """Flashes in the worst second of a clip. `drawn`: counted on its frames; else no more than these are
    possible, as there are no more changes."""

    general: Worst
    red: Worst
    drawn: bool = False


def flashes(plan: Plan, segment: SegmentPlan, shop: Workshop) -> Flashes:
    """The flashes of a segment's overlays. What was counted before is remembered."""
    canvas, layers = plan.canvas, _large(segment, plan.canvas)
    changes = sorted({frame for layer in layers for frame in _changes(layer)})
    busy = list(_busy(changes, canvas, segment.frames))
    if not busy:
        possible = worst(changes, canvas.rate)
        return Flashes(possible, possible)
    name = name_of(
        *("flashes", canvas, segment.ground, segment.layers, segment.frames, shop.theme_name),
        code_digest("drawing", "render", "timeline"),
    )
    path = shop.store.path(name, ".flashes")
    if shop.store.has(name, ".flashes") and (known := _remembered(path.read_text("utf-8"))):
        return known
    counted = [_counted(segment, canvas, layers, span, Painter(shop.theme)) for span in busy]
    found = Flashes(
        max((one.general for one in counted), key=lambda one: one.count),
        max((one.red for one in counted), key=lambda one: one.count),
        drawn=True,
    )
    with whole_file(path) as part:
        part.write_text(json.dumps(asdict(found)), "utf-8")
    return found


def flash_findings(plan: Plan, found: Mapping[str, Flashes]) -> Iterator[str]:
    """A sentence for each segment that flashes too often: where, how often, and what would help."""
    for segment in plan.segments:
        one = found.get(segment.id)
        for what, most in (("flash", one.general), ("flash red", one.red)) if one else ():
            if most.count > MOST:
                yield (
                    f"{segment.id}: its overlays {what} {most.count} times in the second from "
                    f"{float(most.frame / plan.canvas.rate):.1f} s of the clip; more than {MOST} can trigger seizures "
                    "(WCAG 2.2, 2.3.1). Show that passage with another kind of callout or in a smaller slot, or "
                    "leave that second out with 'when'."
                )


def _remembered(text: str) -> Flashes | None:
    try:
        known = json.loads(text)
        return Flashes(Worst(**known["general"]), Worst(**known["red"]), known["drawn"])
    except (ValueError, TypeError, KeyError):
        return None


def _large(segment: SegmentPlan, canvas: Canvas) -> list[Layer]:
    """The ground and the layers without which not enough of any field can change: the rest, all together, are
    smaller than that. Marks and the strip are among the rest."""
    field = [round(side / _screen_pixels(canvas)) for side in FIELD]

    def most(layer: Layer) -> int:
        return min(layer.box.width, field[0]) * min(layer.box.height, field[1])

    room, large = field[0] * field[1] // 4, [segment.ground]
    for layer in sorted(segment.layers, key=most):
        if (room := room - most(layer)) < 0:
            large.append(layer)
    return large


def _screen_pixels(canvas: Canvas) -> float:
    """Pixels of a screen of 1024 by 768, which the canvas fills as far as it goes, for each of the canvas."""
    return min(SCREEN[0] / canvas.width, SCREEN[1] / canvas.height)


def _changes(layer: Layer) -> Iterator[int]:
    """Frames at which a layer begins to look otherwise. A fade is one change, as it goes one way."""
    way = 0
    for one, two in pairwise([None, *layer.states, None]):
        if two is None or one is None or two.start > one.end:
            if one and way >= 0:
                yield one.end
            if two:
                yield two.start
            way = 1
            continue
        turned = (two.opacity > one.opacity) - (two.opacity < one.opacity)
        if two.look != one.look or (turned and turned != way):
            yield two.start
        way = turned or way


def _busy(changes: Sequence[int], canvas: Canvas, length: int) -> Iterator[Range]:
    """Stretches in which enough changes within a second, with half a second around for fades."""
    around, found = round(canvas.rate / 2), None
    for first, last in zip(changes, changes[_CHANGES - 1 :], strict=False):
        if last - first >= canvas.rate:
            continue
        start, end = max(0, first - around), min(length, last + around)
        if found and start <= found[1]:
            found = (found[0], end)
        else:
            if found:
                yield found
            found = (start, end)
    if found:
        yield found


def _counted(
    segment: SegmentPlan, canvas: Canvas, layers: Sequence[Layer], span: Range, painter: Painter
) -> Flashes:
    """Draw a stretch of a clip and count, where a large layer changes."""
    start, end = span
    ground, *drawn = (_part(layer, span) for layer in (segment.ground, *segment.layers))
    chunk = Chunk(canvas, end - start, ground, None, tuple(layer for layer in drawn if layer.states))
    parts = [_part(layer, span) for layer in layers]
    changing = {0, *(edge for layer in parts for state in layer.states for edge in (state.start, state.end))}
    still = len(ground.states) == 1
    region = _hull([layer.box for layer in ((*drawn,) if still else (ground,)) if layer.states])
    scale = min(1.0, _screen_pixels(canvas))
    counter = FlashCounter(canvas.rate, scale / _screen_pixels(canvas))
    for number, frame in enumerate(frames(chunk, painter)):
        if number in changing:
            whole = frame.reformat(format="rgb24", src_colorspace="itu709").to_ndarray()
            counter.see(
                start + number, _linear(whole[region.y : region.bottom, region.x : region.right], scale)
            )
    return Flashes(counter.general(), counter.red(), drawn=True)


def _part(layer: Layer, span: Range) -> Layer:
    """What a layer shows in a stretch, counted from the stretch's start."""
    start, end = span
    shown = [state for state in layer.states if state.start < end and state.end > start]
    return replace(layer, states=tuple(state.part(start, end).later(-start) for state in shown))


def _linear(rgb: np.ndarray, scale: float) -> Picture:
    """(height, width, 3) of 8 bits → linear light, made smaller by the mean over the area, in light: as a screen
    of that size shows it."""
    size = (max(1, round(rgb.shape[1] * scale)), max(1, round(rgb.shape[0] * scale)))
    planes = [Image.fromarray(_LINEAR[rgb[..., n]]).resize(size, Image.Resampling.BOX) for n in range(3)]
    return np.stack([np.asarray(plane) for plane in planes], axis=-1)


def _hull(boxes: Sequence[Box]) -> Box:
    """The least rectangle around boxes."""
    x, y = min(box.x for box in boxes), min(box.y for box in boxes)
    return Box(x, y, max(box.right for box in boxes) - x, max(box.bottom for box in boxes) - y)
