"""Drawing a page of engraved music on a panel: chords over it, labels under it, sounding notes lit."""

from __future__ import annotations

from PIL import Image

from studio.drawing.frame import CORNER, PADDING
from studio.drawing.lettering.outlines import CAP, DESCENDER
from studio.drawing.lettering.symbols import degree, symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.notation.engraved_ink import ink
from studio.drawing.notation.engraving import Engraving
from studio.drawing.notation.line_names import name_middles
from studio.drawing.notation.system import (
    CHORD_GAP,
    ChordOver,
    NoteLabel,
    Playing,
    Staff,
    Tallness,
    label_size,
    least_space,
    names_width,
    page_height,
    page_zones,
    pile,
    places,
    row_height,
    stand,
    systems,
    widest,
    words_height,
)
from studio.drawing.notation.zones import chord_size, name_pitch
from studio.drawing.paging import page_dots
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme

LEAST_WIDTH = 48.0
"""Units of music that a panel is wide at least."""


def draw_system(content: Staff, look: Playing, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The page of `look` on a panel at the left of a picture of `size`."""
    drawing = _Page(size, content, look, theme)
    drawing.draw()
    return drawing.sheet.picture


class _Page:
    """One page on one sheet. Lengths inside are pixels."""

    def __init__(self, size: tuple[int, int], content: Staff, look: Playing, theme: Theme) -> None:
        self.content, self.look, self.theme = content, look, theme
        self.systems, self.places = systems(content), places(content)
        self.u = u = content.canvas.unit
        self.pages = -(-len(self.systems) // content.rows)
        self.page = min(look.page, self.pages - 1)
        names, wide = names_width(content, theme), widest(content)
        self.tall = Tallness.of(self.systems)
        least, wanted = least_space(content, theme), content.space
        low, high = page_height(content, theme, least, 0.0), page_height(content, theme, wanted)
        ease = min(1.0, max(0.0, (size[1] / u - low) / (high - low)))
        self.zones = page_zones(content, theme, ease)
        across = (size[0] - 2 * PADDING * u - names) / wide
        self.space = max(min((least + (wanted - least) * ease) * u, across), 1.0)
        self.left = round(PADDING * u + names)
        self.right = float(size[0])
        if self.pages == 1:
            self.right = min(self.right, self.left + max(self._widest(wide), LEAST_WIDTH * u) + PADDING * u)
        self.label_size = label_size(content, self.space, theme)
        self.sheet = Sheet(size)
        panel = (0, 0, self.right, size[1])
        self.sheet.panel(theme.colours.panel, theme.panel_opacity, CORNER * u, panel)

    def draw(self) -> None:
        content, u, zones = self.content, self.u, self.zones
        row = row_height(content, self.theme, zones, self.tall.all * self.space / u) * u
        spare = row - words_height(content, zones) * u - self.tall.all * self.space
        first = self.page * content.rows
        shown = range(first, min(first + content.rows, len(self.systems)))
        rows = min(content.rows, len(self.systems))
        top = (self.sheet.height - rows * (row + zones.between * u) + zones.between * u) / 2
        for number in shown:
            staff = (
                top + spare / 2 + (zones.chords * u if content.chords else 0) + self.tall.over * self.space
            )
            self._row(number, staff, (top, top + row))
            top += row + zones.between * u
        page_dots(self.sheet, self.pages, self.page, content.canvas, self.theme)

    def _row(self, number: int, staff: float, limits: tuple[float, float]) -> None:
        """One system whose top line is at `staff`; all of it stands within the `limits`, top and bottom."""
        system, colours, zones = self.systems[number], self.theme.colours, self.zones
        bottom = staff + self.tall.under * self.space
        lit = [place for place in system.places if _root(place.id) in self.look.lit]
        music = ink(system, self.space, colours.ink, (place.id for place in lit), colours.now)
        top = round(staff - system.lines[0] * self.space)
        self.sheet.lay(music, self.left, top)
        self._frets(system, top)
        self._names(system, top, limits)
        self._chords(number, staff - self.tall.over * self.space)
        numbered = [
            (n, label) for n, label in enumerate(self.content.labels) if self.places.page(label.at) == number
        ]
        held = [self.x(label) for n, label in numbered if n in self.look.labels and label.since is None]
        for x in self._apart(held or [self.left + place.x * self.space for place in lit]):
            self._mark(x, bottom + (zones.mark - 2.25) * self.u)
        self._labels(numbered, bottom + zones.mark * self.u)

    def x(self, label: NoteLabel) -> float:
        """Where a label stands."""
        return self.left + stand(self.places, (label.at, label.since)) * self.space

    def _apart(self, places: list[float]) -> list[float]:
        """Places of marks; heads of one chord that stand beside one another have one mark between them."""
        groups: list[list[float]] = []
        for x in sorted(places):
            if groups and x - groups[-1][0] < 1.5 * self.space:
                groups[-1].append(x)
            else:
                groups.append([x])
        return [(group[0] + group[-1]) / 2 for group in groups]

    def _frets(self, system: Engraving, top: int) -> None:
        """The numbers of tablature, in the gaps that the engraving leaves for them; in brackets what only goes on."""
        for fret in system.frets:
            size = fret.size * self.space
            said = f"({fret.text})" if fret.id.endswith("-held") else fret.text
            line = plain(said, size, self.theme.weights.strong)
            lit = _root(fret.id) in self.look.lit
            colour = self.theme.colours.now if lit else self.theme.colours.ink
            baseline = top + fret.y * self.space + CAP * size / 2
            self.sheet.type(line, self.left + fret.x * self.space, baseline, colour, "middle")

    def _names(self, system: Engraving, top: int, limits: tuple[float, float]) -> None:
        """What lines and spaces stand for, at the left."""
        size = self.content.canvas.pixels(self.theme.sizes.small)
        lowest, step = system.lines[-1], (system.lines[-1] - system.lines[0]) / 8
        names = sorted(self.content.names, key=lambda name: -name.line)
        wished = [top + (lowest - name.line * step) * self.space for name in names]
        pitch = name_pitch(self.theme) * self.u
        for name, middle in zip(names, name_middles(wished, pitch, limits), strict=True):
            line = plain(name.text, size, self.theme.weights.regular)
            baseline = middle + CAP * size / 2
            self.sheet.type(line, self.left - 1.5 * self.u, baseline, self.theme.colours.quiet, "right")

    def _chords(self, number: int, top: float) -> None:
        size = self.content.canvas.pixels(chord_size(self.theme))
        baseline = top - 0.55 * (self.zones.chords * self.u - CAP * size)
        end = float("-inf")
        for chord in self.content.chords:
            if self.places.page(chord.at) != number:
                continue
            line = symbol(chord.symbol, size, self.theme.weights)
            x = self._chord_left(chord)
            x = max(min(x, self.right - PADDING * self.u - line.width), end)
            self.sheet.type(line, x, baseline, self.theme.colours.quiet)
            end = x + line.width + CHORD_GAP * self.u / 2

    def _chord_left(self, chord: ChordOver) -> float:
        return self.left + (self.places.x(chord.at) - 0.6) * self.space

    def _widest(self, wide: float) -> float:
        """Pixels of the music, and of a chord symbol that goes on beyond it."""
        size = self.content.canvas.pixels(chord_size(self.theme))
        ends = (
            self._chord_left(chord) + symbol(chord.symbol, size, self.theme.weights).width - self.left
            for chord in self.content.chords
        )
        return max(wide * self.space, *ends, 0.0)

    def _mark(self, x: float, top: float) -> None:
        """A triangle that points up at what sounds: a shape beside the colour."""
        u = self.u
        corners = [(x - 1.3 * u, top + 2.0 * u), (x + 1.3 * u, top + 2.0 * u), (x, top)]
        self.sheet.polygon(corners, self.theme.colours.now)

    def _labels(self, numbered: list[tuple[int, NoteLabel]], top: float) -> None:
        if not self.content.labels:
            return
        size, colours, zone = self.label_size, self.theme.colours, self.zones.label * self.u
        figures: list[tuple[float, str, bool]] = []
        row, last = 0, -1.0
        for number, label in numbered:
            row = row + 1 if label.at == last else 0
            last = label.at
            line, now = degree(label.text, size, self.theme.weights), number in self.look.labels
            x = self.x(label)
            baseline = top + (row + 0.5) * zone + CAP * size / 2
            self.sheet.type(line, x, baseline, colours.now if now else colours.ink, "middle")
            if label.figure:
                figures.append((x, label.figure, now))
        self._figures(figures, top + zone * pile(self.content))

    def _figures(self, figures: list[tuple[float, str, bool]], top: float) -> None:
        """Small print under a note: the figure's name, or only its numbers where the name has no room."""
        size = self.content.canvas.pixels(self.theme.sizes.small)
        edge = self.right - self.u
        for index, (x, words, now) in enumerate(figures):
            room = (figures[index + 1][0] if index + 1 < len(figures) else edge) - x
            line = self._fitting(words, size, room + 1.5 * self.u)
            start = min(x - 1.5 * self.u, edge - line.width)
            colour = self.theme.colours.now if now else self.theme.colours.quiet
            gap = self.zones.figure * self.u - (CAP + DESCENDER) * size
            self.sheet.type(line, start, top + gap / 2 + CAP * size, colour)

    def _fitting(self, words: str, size: float, room: float) -> Line:
        line = plain(words, size, self.theme.weights.regular)
        return line if line.width <= room else plain(words.split()[-1], size, self.theme.weights.regular)


def _root(identity: str) -> str:
    """The note that an engraved head belongs to: `n12` for `n12`, for the tied heads after it (`n12-t1`), and for
    its fret (`n12-f`)."""
    return identity.partition("-")[0]
