"""Drawing one system of engraved music on a panel: chords over it, labels under it, sounding notes lit."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from PIL import Image

from studio.drawing.frame import CORNER, PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import SymbolWords, degree, symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.notation.engraving import Engraving, engrave, ink
from studio.drawing.notation.score_time import Pages, pages_of
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme

OVER = 0.62
"""Size of the chord symbols over the staff, in shares of the theme's: they explain, and do not lead."""

CHORD_ZONE, MARK_ZONE, LABEL_ZONE, FIGURE_ZONE = 6.0, 2.75, 4.25, 4.0
"""Units: chord symbols over the staff, the mark under what sounds, one line of labels, one of small print."""


LEAST = 48.0
"""Units of music that a panel is wide at least."""


@dataclass(frozen=True)
class NoteLabel:
    """What stands under a note: a degree, and the name of a figure such as `suspension 4–3`.

    `at` is where, in quarter notes from the start of the first bar engraved: a note held into another chord
    has another label there.
    """

    id: str
    at: float
    text: str
    figure: str = ""


@dataclass(frozen=True)
class ChordOver:
    """A chord symbol over the staff; `at` as for `NoteLabel`."""

    symbol: SymbolWords
    at: float


@dataclass(frozen=True)
class Staff:
    """Notation as MusicXML and the words around it.

    A system is at most `across` staff spaces wide; a staff space is `space` units.
    """

    canvas: CanvasSize
    musicxml: str
    across: float
    space: float
    labels: tuple[NoteLabel, ...] = ()
    chords: tuple[ChordOver, ...] = ()


@dataclass(frozen=True)
class Playing:
    """Which system is shown, the ids of the notes that sound, and which labels (by number) hold now."""

    page: int = 0
    lit: tuple[str, ...] = ()
    labels: tuple[int, ...] = ()


def systems(content: Staff) -> tuple[Engraving, ...]:
    """The systems that the notation breaks into; each is a page of the callout."""
    return engrave(content.musicxml, content.across)


def widest(content: Staff) -> float:
    """Staff spaces of the widest system: the panel is as wide as it needs."""
    return max(system.width for system in systems(content))


def systems_height(content: Staff) -> int:
    """Units that the tallest system takes with its words."""
    tallest = max(system.height for system in systems(content)) * content.space
    return -int(-(tallest + _words_height(content) + 2 * PADDING) // 1)


def draw_system(content: Staff, look: Playing, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The page of `look` on a panel at the left of a picture of `size`."""
    pages = systems(content)
    page = min(look.page, len(pages) - 1)
    system = _System(size, content, pages[page], theme)
    system.draw(page, look)
    return system.sheet.picture


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
    return max(Counter(label.at for label in content.labels).values(), default=1)


def places(content: Staff) -> Pages:
    """Where the moments of the notation stand in its systems."""
    return pages_of(content.musicxml, systems(content))


class _System:
    """One system on one sheet. Lengths inside are pixels."""

    def __init__(self, size: tuple[int, int], content: Staff, system: Engraving, theme: Theme) -> None:
        self.content, self.system, self.theme = content, system, theme
        self.places = places(content)
        self.u = u = content.canvas.unit
        words = _words_height(content) * u
        room_across = (size[0] - 2 * PADDING * u) / widest(content)
        room_down = (size[1] - 2 * PADDING * u - words) / system.height
        self.space = max(min(content.space * u, room_across, room_down), 1.0)
        self.left = PADDING * u
        self.right = min(size[0], 2 * self.left + max(widest(content) * self.space, LEAST * u))
        self.sheet = Sheet(size)
        panel = (0, 0, self.right, size[1])
        self.sheet.panel(theme.colours.panel, theme.panel_opacity, CORNER * u, panel)
        self.top = (size[1] - words - system.height * self.space) / 2
        if content.chords:
            self.top += CHORD_ZONE * u

    def draw(self, page: int, look: Playing) -> None:
        colours = self.theme.colours
        lit = [head for head in self.system.heads if _root(head.id) in look.lit]
        music = ink(self.system, self.space, colours.ink, (head.id for head in lit), colours.now)
        self.sheet.lay(music, round(self.left), round(self.top))
        self._chords(page)
        bottom = self.top + self.system.height * self.space
        numbered = [
            (n, label) for n, label in enumerate(self.content.labels) if self.places.page(label.at) == page
        ]
        held = [self.x(label.at) for n, label in numbered if n in look.labels]
        for x in held or [self.left + head.x * self.space for head in lit]:
            self._mark(x, bottom + 0.5 * self.u)
        self._labels(numbered, look, bottom + MARK_ZONE * self.u)

    def x(self, at: float) -> float:
        """Where a moment stands."""
        return round(self.left) + self.places.x(at) * self.space

    def _chords(self, page: int) -> None:
        size = self.content.canvas.pixels(self.theme.sizes.symbol) * OVER
        baseline = self.top - (CHORD_ZONE - 1.0) * self.u + CAP * size
        end = float("-inf")
        for chord in self.content.chords:
            if self.places.page(chord.at) != page:
                continue
            line = symbol(chord.symbol, size, self.theme.weights)
            x = max(self.x(chord.at) - 0.6 * self.space, end)
            self.sheet.type(line, x, baseline, self.theme.colours.quiet)
            end = x + line.width + 1.2 * self.u

    def _mark(self, x: float, top: float) -> None:
        """A triangle that points up at what sounds: a shape beside the colour."""
        u = self.u
        corners = [(x - 1.1 * u, top + 1.8 * u), (x + 1.1 * u, top + 1.8 * u), (x, top)]
        self.sheet.polygon(corners, self.theme.colours.now)

    def _labels(self, numbered: list[tuple[int, NoteLabel]], look: Playing, top: float) -> None:
        if not self.content.labels:
            return
        size, colours = self.content.canvas.pixels(self.theme.sizes.label), self.theme.colours
        figures: list[tuple[float, str, bool]] = []
        end, row, last = float("-inf"), 0, -1.0
        for number, label in numbered:
            row = row + 1 if label.at == last else 0
            last = label.at
            line, now = degree(label.text, size, self.theme.weights), number in look.labels
            x = self.x(label.at)
            if not row:
                x = max(x, end + line.width / 2)
            baseline = top + row * LABEL_ZONE * self.u + CAP * size + 0.5 * self.u
            self.sheet.type(line, x, baseline, colours.now if now else colours.ink, "middle")
            end = max(end, x + line.width / 2 + 0.6 * self.u)
            if label.figure:
                figures.append((x, label.figure, now))
        self._figures(figures, top + LABEL_ZONE * self.u * _pile(self.content))

    def _figures(self, figures: list[tuple[float, str, bool]], top: float) -> None:
        """Small print under a note: the figure's name, or only its numbers where the name has no room."""
        size = self.content.canvas.pixels(self.theme.sizes.small)
        edge = self.right - self.u
        for index, (x, words, now) in enumerate(figures):
            room = (figures[index + 1][0] if index + 1 < len(figures) else edge) - x
            line = self._fitting(words, size, room + 1.5 * self.u)
            start = min(x - 1.5 * self.u, edge - line.width)
            colour = self.theme.colours.now if now else self.theme.colours.quiet
            self.sheet.type(line, start, top + CAP * size + 0.5 * self.u, colour)

    def _fitting(self, words: str, size: float, room: float) -> Line:
        line = plain(words, size, self.theme.weights.regular)
        return line if line.width <= room else plain(words.split()[-1], size, self.theme.weights.regular)


def _root(identity: str) -> str:
    """The note that an engraved head belongs to: `n12` for `n12` and for the tied heads after it, `n12-2`."""
    digits = identity[1:]
    for end, character in enumerate(digits):
        if not character.isdigit():
            return identity[: end + 1]
    return identity
