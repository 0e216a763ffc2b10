"""Drawing one system of engraved music on a panel: chord symbols over it, labels under it, sounding notes lit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image

from studio.drawing.engraving import Engraving, NoteHead, engrave, ink
from studio.drawing.frame import PADDING, CanvasSize, panelled
from studio.drawing.outlines import CAP
from studio.drawing.paint import Sheet
from studio.drawing.symbols import SymbolWords, degree, symbol
from studio.drawing.theme import Theme
from studio.drawing.type import Line, plain

OVER = 0.62
"""Size of the chord symbols over the staff, in shares of the theme's: they explain, and do not lead."""

CHORD_ZONE, MARK_ZONE, LABEL_ZONE, FIGURE_ZONE = 6.0, 2.75, 4.25, 4.0
"""Units: chord symbols over the staff, the mark under what sounds, one line of labels, one of small print."""


@dataclass(frozen=True)
class NoteLabel:
    """What stands under a note: a degree, and the name of a figure such as `suspension 4–3`."""

    id: str
    text: str
    figure: str = ""


@dataclass(frozen=True)
class ChordOver:
    """A chord symbol over the staff, `share` of the way from one note to another."""

    symbol: SymbolWords
    left: str
    right: str
    share: float = 0.0


@dataclass(frozen=True)
class Staff:
    """Notation as MusicXML, how many staff spaces wide a system is, and the words around it."""

    canvas: CanvasSize
    musicxml: str
    across: float
    labels: tuple[NoteLabel, ...] = ()
    chords: tuple[ChordOver, ...] = ()


@dataclass(frozen=True)
class Playing:
    """Which system is shown, and the ids of the notes that sound."""

    page: int = 0
    lit: tuple[str, ...] = ()


def systems(content: Staff) -> tuple[Engraving, ...]:
    """The systems that the notation breaks into; each is a page of the callout."""
    return engrave(content.musicxml, content.across)


def systems_height(content: Staff, space: float, theme: Theme) -> int:
    """Units that the tallest system takes with its words, `space` units between two staff lines."""
    tallest = max(system.height for system in systems(content)) * space
    return -int(-(tallest + _words_height(content) + 2 * PADDING) // 1)


def draw_system(
    content: Staff, look: Playing, size: tuple[int, int], space: float, theme: Theme
) -> Image.Image:
    """The page of `look` on a panel of `size`."""
    sheet = panelled(size, content.canvas, theme)
    pages = systems(content)
    system = pages[min(look.page, len(pages) - 1)]
    _System(sheet, content, system, space * content.canvas.unit, theme).draw(look)
    return sheet.picture


def _words_height(content: Staff) -> float:
    height = MARK_ZONE
    if content.chords:
        height += CHORD_ZONE
    if content.labels:
        height += LABEL_ZONE * _pile(content)
    if any(label.figure for label in content.labels):
        height += FIGURE_ZONE
    return height


def _pile(content: Staff) -> int:
    """The most labels that stand under one another."""
    labelled = {label.id for label in content.labels}
    piles = (
        sum(1 for head in group if _root(head.id) in labelled)
        for system in systems(content)
        for group in _groups(system.heads)
    )
    return max(piles, default=1)


class _System:
    """One system on one sheet. Lengths inside are pixels."""

    def __init__(self, sheet: Sheet, content: Staff, system: Engraving, space: float, theme: Theme) -> None:
        self.sheet, self.content, self.system, self.theme = sheet, content, system, theme
        self.u = u = content.canvas.unit
        words = _words_height(content) * u
        room_across = (sheet.width - 2 * PADDING * u) / content.across
        room_down = (sheet.height - 2 * PADDING * u - words) / system.height
        self.space = max(min(space, room_across, room_down), 1.0)
        self.left = (sheet.width - content.across * self.space) / 2
        self.top = (sheet.height - words - system.height * self.space) / 2
        if content.chords:
            self.top += CHORD_ZONE * u

    def draw(self, look: Playing) -> None:
        colours = self.theme.colours
        lit = {head.id for head in self.system.heads if _root(head.id) in look.lit}
        music = ink(self.system, self.space, colours.ink, lit, colours.now)
        self.sheet.lay(music, round(self.left), round(self.top))
        self._chords()
        bottom = self.top + self.system.height * self.space
        self._marks(lit, bottom)
        self._labels(look, bottom + MARK_ZONE * self.u)

    def x(self, head: NoteHead) -> float:
        return round(self.left) + head.x * self.space

    def _chords(self) -> None:
        size = self.content.canvas.pixels(self.theme.sizes.symbol) * OVER
        places = {_root(head.id): self.x(head) for head in reversed(self.system.heads)}
        end = self.left + self.system.width * self.space
        half = 0.6 * self.space
        for chord in self.content.chords:
            if chord.left not in places:
                continue
            start = places[chord.left]
            x = start + chord.share * (places.get(chord.right, end) - start) - half
            self.sheet.type(
                symbol(chord.symbol, size, self.theme.weights),
                x,
                self.top - (CHORD_ZONE - 1.0) * self.u + CAP * size,
                self.theme.colours.quiet,
            )

    def _marks(self, lit: set[str], top: float) -> None:
        """A triangle that points up at each column of sounding notes: a shape beside the colour."""
        u = self.u
        for group in _groups(self.system.heads):
            if any(head.id in lit for head in group):
                x = self.x(group[0])
                y = top + 0.5 * u
                self.sheet.polygon(
                    [(x - 1.1 * u, y + 1.8 * u), (x + 1.1 * u, y + 1.8 * u), (x, y)], self.theme.colours.now
                )

    def _labels(self, look: Playing, top: float) -> None:
        if not self.content.labels:
            return
        labels = {label.id: label for label in self.content.labels}
        size = self.content.canvas.pixels(self.theme.sizes.label)
        figures: list[tuple[float, str, bool]] = []
        end = float("-inf")
        for group in _groups(self.system.heads):
            shown = [labels[_root(head.id)] for head in group if _root(head.id) in labels]
            lines = [degree(label.text, size, self.theme.weights) for label in shown]
            x = max(self.x(group[0]), end + max((line.width for line in lines), default=0) / 2)
            for row, (label, line) in enumerate(zip(shown, lines, strict=True)):
                now = label.id in look.lit
                baseline = top + row * LABEL_ZONE * self.u + CAP * size + 0.5 * self.u
                self.sheet.type(
                    line, x, baseline, self.theme.colours.now if now else self.theme.colours.ink, "middle"
                )
                end = x + line.width / 2 + 0.6 * self.u
                if label.figure:
                    figures.append((x, label.figure, now))
        self._figures(figures, top + LABEL_ZONE * self.u * _pile(self.content))

    def _figures(self, figures: list[tuple[float, str, bool]], top: float) -> None:
        """Small print under a note: the figure's name, or only its numbers where the name has no room."""
        size = self.content.canvas.pixels(self.theme.sizes.small)
        edge = self.sheet.width - self.u
        for index, (x, words, now) in enumerate(figures):
            room = (figures[index + 1][0] if index + 1 < len(figures) else edge) - x
            line = self._fitting(words, size, room + 1.5 * self.u)
            start = min(x - 1.5 * self.u, edge - line.width)
            colour = self.theme.colours.now if now else self.theme.colours.quiet
            self.sheet.type(line, start, top + CAP * size + 0.5 * self.u, colour)

    def _fitting(self, words: str, size: float, room: float) -> Line:
        line = plain(words, size, self.theme.weights.regular)
        return line if line.width <= room else plain(words.split()[-1], size, self.theme.weights.regular)


def _groups(heads: tuple[NoteHead, ...]) -> Iterator[list[NoteHead]]:
    """Notes that stand over one another, from left to right; each group from the top down."""
    group: list[NoteHead] = []
    for head in sorted(heads, key=lambda head: (head.x, head.y)):
        if group and head.x - group[0].x > 0.9:
            yield sorted(group, key=lambda head: head.y)
            group = []
        group.append(head)
    if group:
        yield sorted(group, key=lambda head: head.y)


def _root(identity: str) -> str:
    """The note that an engraved head belongs to: `n12` for `n12` and for the tied heads after it, `n12-2`."""
    digits = identity[1:]
    for end, character in enumerate(digits):
        if not character.isdigit():
            return identity[: end + 1]
    return identity
