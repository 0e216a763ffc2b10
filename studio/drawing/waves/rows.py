"""Drawing the waves of stems, one row each, over the bars that they play: what sounds is full, what is muted hollow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from PIL import Image

from studio.drawing.frame import PADDING, panelled
from studio.drawing.lettering.type import Line, plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.drawing.waves.setting import HEAD_GAP, MUTED, UNDER_NAME, Setting, setting
from studio.drawing.waves.shape import Shape, draw_full, draw_hollow
from studio.drawing.waves.stem_rows import StemRow, Waves
from studio.timeline.kind import Mark

PLAYHEAD, WALL, THINNEST, OVER = 0.8, 0.28, 0.25, 0.6
"""Units: the playhead, the outline of a hollow wave, a wave where it is thinnest, and how far lines reach over rows."""


def draw_rows(content: Waves, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The waves on a panel."""
    sheet = panelled(size, content.canvas, theme)
    _Rows(sheet, setting(content, size, theme)).draw()
    return sheet.picture


def playhead(content: Waves, size: tuple[int, int], theme: Theme) -> Mark:
    """The line that moves over all rows."""
    found = setting(content, size, theme)
    top, bottom = found.top - OVER * found.u, found.bottom + OVER * found.u
    legs = content.ruler.legs(content.ruler.span, found.left, found.right - found.left, (top + bottom) / 2)
    return Mark("line", (round(PLAYHEAD * found.u), round(bottom - top)), legs)


class _Rows:
    """Rows on one sheet."""

    def __init__(self, sheet: Sheet, found: Setting) -> None:
        self.sheet, self.found, self.theme, self.u = sheet, found, found.theme, found.u
        self.regular = found.theme.weights.regular

    def draw(self) -> None:
        rows, found = self.found.content.rows, self.found
        for number, row in enumerate(rows):
            self._wave(row, found.row_top(number))
        self._bars()
        for number, row in enumerate(rows):
            self._name(row, found.names[number], found.row_top(number))
            if row.silent:
                middle = found.row_top(number) + found.row / 2
                left = found.silence[0] + 0.8 * self.u
                self.sheet.type(found.silent, left, middle + found.silent.cap / 2, self.theme.colours.quiet)

    def _wave(self, row: StemRow, top: float) -> None:
        found, colours = self.found, self.theme.colours
        middle, half = top + found.row / 2, found.row / 2
        thin = 0.125 * self.u
        for left, right in self._open(row, found.left, found.right):
            self.sheet.rectangle(left, middle - thin, right, middle + thin, colours.rule)
        if row.silent:
            return
        step = (found.right - found.left) / len(row.wave)
        shape: Shape = []
        for number, (low, high) in enumerate(row.wave):
            above, below = middle - half * high / 1000, middle - half * low / 1000
            lack = max(0.0, THINNEST * self.u - (below - above)) / 2
            shape.append((found.left + (number + 0.5) * step, above - lack, below + lack))
        shape = [(found.left, *shape[0][1:]), *shape, (found.right, *shape[-1][1:])]
        if row.sounds:
            draw_full(self.sheet, shape, colours.ink)
        else:
            draw_hollow(self.sheet, shape, WALL * self.u, colours.rule)

    def _open(self, row: StemRow, left: float, right: float) -> Iterator[tuple[float, float]]:
        """A level stretch of a row, less what its words take."""
        if not row.silent:
            yield left, right
            return
        begin, end = self.found.silence
        yield from ((one, two) for one, two in ((left, begin), (end, right)) if two > one)

    def _bars(self) -> None:
        found, content, colours = self.found, self.found.content, self.theme.colours
        thin, baseline = 0.125 * self.u, found.top - HEAD_GAP * self.u
        note = plain(content.note, found.small, self.regular)
        self.sheet.type(note, PADDING * self.u, baseline, colours.quiet)
        lines = [plain(str(number), found.small, self.regular) for number, _ in content.bars]
        every = self._every(lines)
        for number, share in content.bars:
            x = found.x(share)
            if every > 4 and (number - 1) % every:
                continue  # so many bars that lines for all of them would be a fence
            for top, bottom in self._upright(x):
                self.sheet.rectangle(x - thin, top, x + thin, bottom, colours.rule)
            if number and (number - 1) % every == 0:
                line = plain(str(number), found.small, self.regular)
                if x + line.width <= found.right + PADDING * self.u:
                    self.sheet.type(line, x, baseline, colours.quiet)

    def _upright(self, x: float) -> Iterator[tuple[float, float]]:
        """A bar line from over the first row to the end of the last, less the words of silent rows."""
        found, top = self.found, self.found.top - OVER * self.u
        begin, end = found.silence
        for number, row in enumerate(found.content.rows):
            if row.silent and begin <= x <= end:
                middle, half = found.row_top(number) + found.row / 2, 0.6 * found.small
                yield top, middle - half
                top = middle + half
        yield top, found.bottom

    def _every(self, lines: Sequence[Line]) -> int:
        """One bar in so many has its number: as many as have room."""
        shares = [share for _, share in self.found.content.bars]
        if len(shares) < 2:
            return 1
        widest = max(line.width for line in lines) + 1.5 * self.u
        apart = (self.found.x(shares[-1]) - self.found.x(shares[0])) / (len(shares) - 1)
        every = 1
        while every * apart < widest:
            every *= 2
        return every

    def _name(self, row: StemRow, line: Line, top: float) -> None:
        found, colours, left = self.found, self.theme.colours, PADDING * self.u
        middle = top + found.row / 2
        muted = plain(MUTED, found.small, self.regular)
        ink = colours.ink if row.sounds else colours.quiet
        if row.sounds or not found.stacked:
            self.sheet.type(line, left, middle + line.cap / 2, ink)
            if not row.sounds:
                self.sheet.type(muted, left + line.width + self.u, middle + line.cap / 2, colours.quiet)
            return
        gap = UNDER_NAME * self.u
        tall = line.cap + gap + muted.cap
        self.sheet.type(line, left, middle - tall / 2 + line.cap, ink)
        self.sheet.type(muted, left, middle + tall / 2, colours.quiet)
