"""The fretboard callout: boxes of the chords as they come, or notes and scales along the neck."""

from __future__ import annotations

from dataclasses import replace

from PIL import Image

from studio.drawing.fretting.along_neck import compose_part, compose_scale, compose_shapes
from studio.drawing.fretting.boxes import compose_boxes
from studio.drawing.fretting.options import FretboardOptions
from studio.drawing.instruments.box_grid import Boxes, Shown, boxes_extent, draw_boxes
from studio.drawing.instruments.neck import Lit, Neck, neck_extent
from studio.drawing.instruments.neck_drawing import draw_neck
from studio.drawing.themes.theme import Theme
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind


class FretboardKind(Kind):
    """See the module."""

    name = "fretboard"
    says = "chord boxes as they come, or notes along the neck, in any tuning and with a capo"
    slots = ("lower", "left", "right", "card")
    Options = FretboardOptions
    example = "{kind: fretboard}"

    def compose(self, options: FretboardOptions, ask: Ask) -> Composed:
        _refuse_contradictions(options, ask)
        if options.part is not None:
            return compose_part(options, ask)
        if options.scale is not None:
            return compose_scale(options, ask)
        if options.view == "neck":
            return compose_shapes(options, ask)
        return compose_boxes(options, ask, options.slot or self.slot(ask.canvas))

    def extent(self, content: Boxes | Neck, width: int, theme: Theme) -> Extent:
        return (
            boxes_extent(content, width, theme) if isinstance(content, Boxes) else neck_extent(content, theme)
        )

    def draw(
        self, content: Boxes | Neck, look: Shown | Lit, size: tuple[int, int], theme: Theme
    ) -> Image.Image:
        if isinstance(content, Boxes):
            assert isinstance(look, Shown)
            return draw_boxes(content, look, size, theme)
        assert isinstance(look, Lit)
        return draw_neck(content, look, size, theme)

    def last(self, look: Shown | Lit) -> Shown | Lit:
        if isinstance(look, Shown):
            return replace(look, next=None)
        return replace(look, dots=tuple(dot for dot in look.dots if dot.role != "next"))

    def quiet(self, look: Shown | Lit, default: Shown | Lit) -> Shown | Lit:
        return Shown(after=look.at) if isinstance(look, Shown) else default


def _refuse_contradictions(options: FretboardOptions, ask: Ask) -> None:
    if options.part is not None and options.scale is not None:
        ask.refuse("scale", "a neck shows a part or a scale, not both; leave one out")
    if options.part is None and options.scale is None:
        return
    shown = "part" if options.part is not None else "scale"
    if options.view == "box":
        ask.refuse(
            "view", f"a {shown} is shown along the neck; leave 'view' out, or '{shown}' for chord boxes"
        )
    for key in ("shape", "shapes"):
        if getattr(options, key):
            ask.refuse(key, f"a fingering is for chords; leave it out, or '{shown}'")


KIND = FretboardKind()
