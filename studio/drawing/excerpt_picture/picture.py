"""Drawing an excerpt like a line of a score: its wave between bar lines, brackets over passes, hairpins for fades."""

from __future__ import annotations

from math import cos, pi

from PIL import Image

from studio.drawing.excerpt_picture.marks_along import bar_lines, clicks, seconds
from studio.drawing.excerpt_picture.ribbon import ribbon
from studio.drawing.excerpt_picture.setting import CLOSING, HOOK_GAP, SIZE, TICK, Setting
from studio.drawing.excerpt_picture.shown import ExcerptShown
from studio.drawing.excerpt_picture.words import COUNTED, RINGS
from studio.drawing.lettering.outlines import CAP
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour, over
from studio.drawing.themes.theme import Theme
from studio.drawing.waves.shape import Shape, draw_full

SHADE = 0.3
"""How much of the colour of lines is in the ground of what is no music: the count-in, the tail."""

FINE_LINE, THICK_LINE, CURVE, OPEN, THINNEST, CROSS = 0.25, 0.6, 0.35, 0.3, 0.3, 0.7
"""Units: lines, the thick one at the end, a fade's curve, the ground left open around lines over a wave, a wave where
it is thinnest, half a click's cross."""

QUIETEST = 0.05
"""Of full scale: what is softer than this in all is not drawn larger, or hiss would look like music."""

SHORTEST_FADE, NARROWEST_FADE = 0.05, 0.6
"""Seconds, and units: a fade that is shorter, or narrower on paper, is a line that would be taken for an edit point."""

_TURNS = 48  # corners of a fade's curve


def draw_excerpt(shown: ExcerptShown, theme: Theme, size: tuple[int, int] = SIZE) -> Image.Image:
    """The picture: RGB, of `size` in pixels, on the theme's ground. The same facts give the same bytes."""
    sheet = Sheet(size, theme.colours.ground)
    _Page(sheet, Setting(shown, size, theme)).draw()
    return sheet.picture.convert("RGB")


class _Page:
    """One picture on one sheet."""

    def __init__(self, sheet: Sheet, setting: Setting) -> None:
        self.sheet, self.set, self.shown = sheet, setting, setting.shown
        self.colours, self.u = setting.theme.colours, setting.u

    def draw(self) -> None:
        self._heading()
        self._shades()
        self._wave()
        self._bars()
        self._fades()
        self._names()
        self._clicks()
        self._axis()

    def _heading(self) -> None:
        at = self.set.title_baseline
        self.sheet.type(self.set.title, self.set.left, at, self.colours.ink)
        self.sheet.type(self.set.levels, self.set.edge, at, self.colours.quiet, "right")

    def _shades(self) -> None:
        shade = over(self.colours.rule, SHADE, self.colours.ground)
        for start, end in ((self.shown.start, self.shown.counted), (self.shown.rings, self.shown.end)):
            if end > start:
                self.sheet.rectangle(self.set.x(start), self.set.top, self.set.x(end), self.set.bottom, shade)

    def _wave(self) -> None:
        found, thin = self.set, FINE_LINE * self.u / 2
        self.sheet.rectangle(
            found.left, found.middle - thin, found.right, found.middle + thin, self.colours.rule
        )
        loudest = max((abs(level) for pair in self.shown.wave for level in pair), default=0)
        scale = found.half / max(loudest, 1000 * QUIETEST)
        step = (found.right - found.left) / max(1, len(self.shown.wave))
        shape: Shape = []
        for number, (low, high) in enumerate(self.shown.wave):
            above, below = found.middle - scale * high, found.middle - scale * low
            lack = max(0.0, THINNEST * self.u - (below - above)) / 2
            left = found.left + number * step
            shape += [(left, above - lack, below + lack), (left + step, above - lack, below + lack)]
        if shape:
            draw_full(self.sheet, shape, self.colours.ink)

    def _bars(self) -> None:
        for x, number in bar_lines(self.set):
            self._upright(x, FINE_LINE, self.colours.rule)
            if number:
                self.sheet.type(number, x, self.set.numbers_baseline, self.colours.quiet)
        joints = [one.start for one in self.shown.passes[1:]]
        joints += [self.shown.rings] if self.shown.rings < self.shown.end else []
        for joint in joints:
            for aside in (0.0, FINE_LINE + OPEN):
                self._upright(self.set.x(joint) - aside * self.u, FINE_LINE, self.colours.quiet)
        end = self.set.right + CLOSING * self.u
        for aside, thick in ((THICK_LINE + 0.45, FINE_LINE), (0.0, THICK_LINE)):
            self._upright(end - aside * self.u, thick, self.colours.quiet)

    def _upright(self, x: float, units: float, colour: Colour) -> None:
        """A line that ends at `x`, a little of the ground left open before it: like a bar line before its note, it
        hides nothing of what begins there."""
        left, top, bottom = x - units * self.u, self.set.top - 0.6 * self.u, self.set.bottom + 0.6 * self.u
        self.sheet.rectangle(left - OPEN * self.u, self.set.top, x, self.set.bottom, self.colours.ground)
        self.sheet.rectangle(left, top, x, bottom, colour)

    def _fades(self) -> None:
        """Each fade that is wide enough, as a hairpin whose sides are the gain itself: a raised cosine, as heard."""
        shown = self.shown
        for start, length, way in (
            (shown.counted, shown.fade_in, 1),
            (shown.end, shown.fade_out, -1),
        ):
            wide = self.set.x(length) - self.set.x(0)
            if length < SHORTEST_FADE or wide < NARROWEST_FADE * self.u:
                continue
            shares = [n / _TURNS for n in range(_TURNS + 1)]
            beside = way * CURVE * self.u / 2  # outside, so that nothing of the wave is hidden
            xs = [self.set.x(start + way * share * length) - beside for share in shares]
            gains = [0.5 - 0.5 * cos(pi * share) for share in shares]
            for side in (-1, 1):
                points = [
                    (x, self.set.middle + side * gain * self.set.half)
                    for x, gain in zip(xs, gains, strict=True)
                ]
                self.sheet.polygon(ribbon(points, CURVE * self.u), self.colours.now)

    def _names(self) -> None:
        found, line = self.set, FINE_LINE * self.u
        for one in found.passes:
            hook = found.bracket + HOOK_GAP * self.u + CAP * found.small_size
            corners = [(one.right - self.u, found.bracket), (one.left, found.bracket), (one.left, hook)]
            self.sheet.stroke(corners, line, self.colours.quiet)
            if one.line:
                self.sheet.type(
                    one.line, one.left + HOOK_GAP * self.u, found.names_baseline, self.colours.ink
                )
        for name, align in ((COUNTED, "left"), (RINGS, "right")):
            if named := found.outer.get(name):
                x = found.left if name == COUNTED else found.edge
                assert named.line
                self.sheet.type(named.line, x, found.outer_baseline, self.colours.ink, align)

    def _clicks(self) -> None:
        """A cross for each click, as a stroke on the rim is written; larger on the first beat of a bar."""
        for x, strong in clicks(self.set):
            arm = CROSS * self.u * (1.35 if strong else 1.0)
            for slope in (-1, 1):
                y = self.set.clicks
                ends = [(x - arm, y - slope * arm), (x + arm, y + slope * arm)]
                self.sheet.polygon(ribbon(ends, 0.3 * self.u), self.colours.quiet)

    def _axis(self) -> None:
        found, thin = self.set, FINE_LINE * self.u
        self.sheet.stroke([(found.left, found.axis), (found.right, found.axis)], thin, self.colours.rule)
        for tick in seconds(found):
            self.sheet.stroke(
                [(tick.x, found.axis), (tick.x, found.axis + TICK * self.u)], thin, self.colours.rule
            )
            self.sheet.type(tick.line, tick.left, found.axis_baseline, self.colours.quiet)
        self.sheet.type(found.unit, found.left, found.under_baseline, self.colours.quiet)
        self.sheet.type(found.note, found.edge, found.under_baseline, self.colours.quiet, "right")
