"""Stills: each callout as a picture of its own, on the full canvas, straight alpha."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from studio.drawing.draw import draw
from studio.project.episode_values import Canvas
from studio.render.hashing import code_digest, name_of
from studio.render.workshop import Workshop
from studio.timeline.plan import CalloutPlan, Plan, SegmentPlan
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
        plan.canvas,
        shop.theme_name,
        code_digest("drawing"),
    )
    path = still_path(segment, callout, shop)
    return shop.ledger.make(path, name, lambda: _write(callout, plan.canvas, shop, path))


def _write(callout: CalloutPlan, canvas: Canvas, shop: Workshop, path: Path) -> None:
    box = callout.layer.box
    picture = draw(
        callout.layer.kind, callout.layer.content, callout.still, (box.width, box.height), shop.theme
    )
    whole = Image.new("RGBA", (canvas.width, canvas.height), (0, 0, 0, 0))
    whole.paste(picture, (box.x, box.y))
    with whole_file(path) as part:
        whole.save(part, "PNG")
