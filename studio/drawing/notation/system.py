"""What a staff callout shows: notation, and the words over, under and beside it; and how much room that takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, pairwise

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.symbols import SymbolWords, degree, symbol
from studio.drawing.lettering.type import plain
from studio.drawing.notation.engraving import Engraving, engrave
from studio.drawing.notation.score_time import Pages, pages_of
from studio.drawing.notation.zones import Zones, chord_size, name_pitch, zones
from studio.drawing.themes.theme import Theme

LABEL_GAP, CHORD_GAP = 0.8, 1.2
"""Units between neighbouring labels, and between chord symbols."""

LEAST_SPACE = 2.0
"""Units between two staff lines at least."""

FRET_SIZE = 1.75
"""Size of the type of fret numbers, in staff spaces: at 2 units they are as tall as words of 28."""


@dataclass(frozen=True)
class NoteLabel:
    """What stands under a note: a degree, and the name of a figure such as `suspension 4–3`.

    `at` is where, in quarter notes from the start of the first bar engraved: a note held into another chord
    has another label there. A label with `since` stands half-way from that moment to its own.
    """

    id: str
    at: float
    text: str
    figure: str = ""
    since: float | None = None


@dataclass(frozen=True)
class ChordOver:
    """A chord symbol over the staff; `at` as for `NoteLabel`."""

    symbol: SymbolWords
    at: float


@dataclass(frozen=True)
class LineName:
    """What a line or space of the staff stands for, written beside it: steps above the lowest line."""

    text: str
    line: int


@dataclass(frozen=True)
class Staff:
    """Notation as MusicXML and the words around it.

    A system is `across` staff spaces wide; a staff space is `space` units. `bars` is how many bars stand in each
    system (empty: as many as fit), `rows` how many systems stand under one another on a page.
    """

    canvas: CanvasSize
    musicxml: str
    across: float
    space: float
    labels: tuple[NoteLabel, ...] = ()
    chords: tuple[ChordOver, ...] = ()
    bars: tuple[int, ...] = ()
    rows: int = 1
    names: tuple[LineName, ...] = ()


@dataclass(frozen=True)
class Playing:
    """Which page is shown, the ids of the notes that sound, and which labels (by number) hold now."""

    page: int = 0
    lit: tuple[str, ...] = ()
    labels: tuple[int, ...] = ()


def systems(content: Staff) -> tuple[Engraving, ...]:
    """The systems that the notation breaks into."""
    return engrave(content.musicxml, content.across, content.bars)


def places(content: Staff) -> Pages:
    """Where the moments of the notation stand in its systems."""
    return _places(content.musicxml, content.across, content.bars)


@lru_cache(maxsize=64)
def _places(musicxml: str, across: float, bars: tuple[int, ...]) -> Pages:
    return pages_of(musicxml, engrave(musicxml, across, bars))


def page_of(content: Staff, at: float) -> int:
    """The page that a moment stands on."""
    return places(content).page(at) // content.rows


def widest(content: Staff) -> float:
    """Staff spaces of the widest system: the panel is as wide as it needs."""
    return max(system.width for system in systems(content))


@dataclass(frozen=True)
class Tallness:
    """Staff spaces of ink over and under the top line of the staff, in the systems where they are most."""

    over: float
    under: float

    @classmethod
    def of(cls, found: Sequence[Engraving]) -> Tallness:
        return cls(
            max(system.lines[0] for system in found), max(system.height - system.lines[0] for system in found)
        )

    @property
    def all(self) -> float:
        return self.over + self.under


def words_height(content: Staff, room: Zones) -> float:
    """Units of words and marks over and under one system."""
    height = room.mark + (room.chords if content.chords else 0)
    if content.labels:
        height += room.label * pile(content)
    if any(label.figure for label in content.labels):
        height += room.figure
    return height


def row_height(content: Staff, theme: Theme, room: Zones, music: float) -> float:
    """Units of one system with its words, where the engraving is `music` units tall; the names beside it may need
    more than it does."""
    return max(words_height(content, room) + music, len(content.names) * name_pitch(theme))


def page_zones(content: Staff, theme: Theme, ease: float) -> Zones:
    """The zones on each of the content's pages; `ease` as for `zones`."""
    return zones(theme, ease, paged=len(systems(content)) > content.rows)


def page_height(content: Staff, theme: Theme, space: float, ease: float = 1.0) -> float:
    """Units that a page takes with `space` units between two staff lines; `ease` as for `zones`."""
    found, room = systems(content), page_zones(content, theme, ease)
    rows = min(content.rows, len(found))
    row = row_height(content, theme, room, Tallness.of(found).all * space)
    return 2 * room.edge + rows * row + (rows - 1) * room.between


def least_height(content: Staff, theme: Theme) -> float:
    """Units under which something on a page could no longer be read."""
    return page_height(content, theme, least_space(content, theme), 0.0)


def pile(content: Staff) -> int:
    """The most labels that stand under one another."""
    return max(Counter(label.at for label in content.labels).values(), default=1)


def names_width(content: Staff, theme: Theme) -> float:
    """Pixels that the names of lines take at the left of the staff."""
    size = content.canvas.pixels(theme.sizes.small)
    widths = [plain(name.text, size, theme.weights.regular).width for name in content.names]
    return max(widths) + 1.5 * content.canvas.unit if widths else 0.0


@dataclass(frozen=True)
class Neighbours:
    """Two words beside one another: where they stand, in quarters, and the pixels that their middles or starts
    must be apart: `wide` for each pixel of type size, and `gap` besides."""

    one: tuple[float, float | None]
    two: tuple[float, float | None]
    wide: float
    gap: float


def label_neighbours(content: Staff, theme: Theme) -> Iterator[Neighbours]:
    """Labels that stand beside one another; those under one another count as one."""
    if not content.labels:
        return
    gap = LABEL_GAP * content.canvas.unit
    widths: dict[tuple[float, float | None], float] = {}
    for label in content.labels:
        place = (label.at, label.since)
        widths[place] = max(widths.get(place, 0.0), degree(label.text, 100, theme.weights).width / 100)
    for one, two in pairwise(sorted(widths, key=lambda place: place[0])):
        yield Neighbours(one, two, (widths[one] + widths[two]) / 2, gap)


def chord_neighbours(content: Staff, theme: Theme) -> Iterator[Neighbours]:
    """Chord symbols beside one another; their size does not change."""
    unit, size = content.canvas.unit, content.canvas.pixels(chord_size(theme))
    for one, two in pairwise(content.chords):
        wide = symbol(one.symbol, size, theme.weights).width
        yield Neighbours((one.at, None), (two.at, None), 0.0, wide + CHORD_GAP * unit)


def stand(where: Pages, place: tuple[float, float | None]) -> float:
    """Staff spaces from the left of its system to the middle of a word."""
    at, since = place
    if since is None or where.page(since) != where.page(at):
        return where.x(at)
    return (where.x(since) + where.x(at)) / 2


def label_size(content: Staff, space: float, theme: Theme) -> float:
    """Pixels of type in which no label touches its neighbour, with `space` pixels between two staff lines."""
    where, most = places(content), content.canvas.pixels(theme.sizes.label)
    for pair in label_neighbours(content, theme):
        if where.page(pair.one[0]) == where.page(pair.two[0]):
            apart = (stand(where, pair.two) - stand(where, pair.one)) * space - pair.gap
            most = min(most, apart / pair.wide)
    return most


def least_space(content: Staff, theme: Theme) -> float:
    """Units between two staff lines under which a label or a fret number falls below the smallest type, or chord
    symbols touch."""
    unit, small = content.canvas.unit, content.canvas.pixels(theme.sizes.small)
    where, least = places(content), smallest_space(systems(content), theme)
    for pair in chain(label_neighbours(content, theme), chord_neighbours(content, theme)):
        apart = stand(where, pair.two) - stand(where, pair.one)
        if where.page(pair.one[0]) == where.page(pair.two[0]) and apart > 0:
            least = max(least, (pair.wide * small + pair.gap) / apart / unit)
    return min(least, content.space)


def smallest_space(found: Sequence[Engraving], theme: Theme) -> float:
    """Units between two staff lines at least, whatever stands under them."""
    fretted = any(system.frets for system in found)
    return max(LEAST_SPACE, theme.sizes.small / 8 / FRET_SIZE) if fretted else LEAST_SPACE
