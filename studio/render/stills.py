"""Stills: each callout as a picture of its own, on the full canvas, straight alpha."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PIL import Image
from PIL.PngImagePlugin import PngInfo

from studio.drawing.draw import draw
from studio.drawing.themes.theme import Theme
from studio.project.episode_values import Canvas
from studio.render.hashing import code_digest, name_of
from studio.render.workshop import Workshop
from studio.timeline.plan import CalloutPlan, Plan, SegmentPlan
from studio.timeline.state import Box, Layer
from studio.whole_file import whole_file


def still_path(segment: SegmentPlan, callout: CalloutPlan, shop: Workshop) -> Path:
    return shop.build / "overlays" / segment.id / f"{callout.name}.png"


def make_still(plan: Plan, segment: SegmentPlan, callout: CalloutPlan, shop: Workshop) -> bool:
    """Write one callout's still; says whether it had to be written."""
    layer = callout.layer
    name = name_of(
        layer.kind,
        layer.content,
        layer.box,
        callout.still,
        tuple(zip((mark.content for mark in callout.marks), callout.still_marks, strict=True)),
        callout.alt,
        plan.canvas,
        shop.theme_name,
        code_digest("drawing", "render", "timeline"),
    )
    path = still_path(segment, callout, shop)
    return shop.ledger.make(path, name, lambda: _write(callout, plan.canvas, shop, path))


def still(callout: CalloutPlan, canvas: Canvas, theme: Theme) -> Image.Image:
    """The still of a callout: RGBA, straight alpha, of the canvas's size."""
    whole = Image.new("RGBA", (canvas.width, canvas.height), (0, 0, 0, 0))
    layer = callout.layer
    whole.paste(_picture(layer, layer.box, callout.still, theme), (layer.box.x, layer.box.y))
    for mark, box in zip(callout.marks, callout.still_marks, strict=True):
        if box is not None:
            whole.alpha_composite(_picture(mark, box, None, theme), (box.x, box.y))
    return whole


def _picture(layer: Layer, box: Box, look: Any, theme: Theme) -> Image.Image:
    return draw(layer.kind, layer.content, look, (box.width, box.height), theme)


def _write(callout: CalloutPlan, canvas: Canvas, shop: Workshop, path: Path) -> None:
    with whole_file(path) as part:
        still(callout, canvas, shop.theme).save(part, "PNG", pnginfo=_described(callout))


def _described(callout: CalloutPlan) -> PngInfo:
    """What the still shows, in words, as PNG keeps it (W3C PNG, third edition, 11.3.3: "Description")."""
    about = PngInfo()
    about.add_itxt("Description", callout.alt, "en")
    return about
