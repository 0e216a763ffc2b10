"""The notes of a tune beside one or more scales, as data: columns of notes, a row for each scale, what decides."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from studio.drawing.frame import CanvasSize
from studio.music.key import MAJOR_SCALE
from studio.music.pitch import NoteName, accidental_text
from studio.theory.melody.scales import Scale
from studio.theory.melody.scales_weighed import Telling

Cell = Literal["heard", "missing", "foreign", ""]
"""A note of the scale that sounds, one that does not, one that sounds and is not of the scale, or none of these."""


@dataclass(frozen=True)
class Column:
    """A note: its degrees above the tonic ("♯4", or "♯4/♭5") and its names, whether it sounds in the tune, and
    whether it tells the scales apart."""

    degree: str
    name: str
    heard: bool
    telling: Telling


@dataclass(frozen=True)
class ScaleRow:
    """A scale by name, with a cell for each column; `answer` is whether the tune may be in it."""

    name: str
    cells: tuple[Cell, ...]
    answer: bool


@dataclass(frozen=True)
class Comparison:
    """A tune beside scales on one tonic. `says` is the sentence, longest first; the longest that fits is set."""

    canvas: CanvasSize
    tonic: str
    columns: tuple[Column, ...]
    rows: tuple[ScaleRow, ...]
    says: tuple[str, ...]


def columns_of(
    tonic: NoteName, scales: Sequence[Scale], heard: Mapping[int, NoteName], telling: Mapping[int, Telling]
) -> tuple[Column, ...]:
    """The notes that belong to one of the scales or sound in the tune, from the tonic up.

    `heard` are the names as they are written, by half steps (0 to 11) above the tonic; so are the keys of
    `telling`, the notes that tell the scales apart.
    """
    found = []
    for place in places_of(scales, heard):
        names = [scale.note_at(tonic, place) for scale in scales]
        spelled = list(dict.fromkeys(name for name in names if name is not None))
        if not spelled:
            spelled = [heard[place]]
        spelled.sort(key=lambda name: tonic.interval_to(name)[0])
        degrees = "/".join(degree_label(tonic, name) for name in spelled)
        found.append(Column(degrees, "/".join(map(str, spelled)), place in heard, telling.get(place, "")))
    return tuple(found)


def row_of(name: str, scale: Scale, places: Sequence[int], heard: Iterable[int], answer: bool) -> ScaleRow:
    """The row of a scale over columns that stand so many half steps above the tonic."""
    sounding = set(heard)
    return ScaleRow(name, tuple(_cell(scale.holds(place), place in sounding) for place in places), answer)


def places_of(scales: Sequence[Scale], heard: Iterable[int]) -> tuple[int, ...]:
    """The half steps above the tonic at which the columns stand."""
    return tuple(sorted({place for scale in scales for place in scale.semitones} | set(heard)))


def degree_label(tonic: NoteName, name: NoteName) -> str:
    """A note's degree as counted in the major scale on the tonic: "♭3"."""
    letters, semitones = tonic.interval_to(name)
    return f"{accidental_text(semitones - MAJOR_SCALE[letters])}{letters + 1}"


def _cell(held: bool, heard: bool) -> Cell:
    if held:
        return "heard" if heard else "missing"
    return "foreign" if heard else ""
