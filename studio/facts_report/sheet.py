"""A table of facts, before it is decided how it is written."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

Cell = str | float | int | bool
Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """``detail`` columns (sureness, reasons of plain chords) are for JSON and Markdown, not for the terminal."""

    name: str
    detail: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table with a title. A ``detail`` sheet, such as every note of a part, is not for the terminal; ``note``
    is a sentence under the table, for people."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    detail: bool = False
    note: str = ""

    @classmethod
    def of(cls, title: str, columns: str, rows: Iterable[Sequence[Cell]], detail: bool = False) -> Sheet:
        """A sheet from "bar, chord, numeral, (why), (sureness)": brackets mark the columns of detail."""
        names = [name.strip() for name in columns.split(",")]
        made = tuple(Column(name.strip("()"), detail=name.startswith("(")) for name in names)
        return cls(title, made, tuple(tuple(row) for row in rows), detail)

    def brief(self) -> Sheet:
        """The same without its columns of detail."""
        kept = [place for place, column in enumerate(self.columns) if not column.detail]
        rows = tuple(tuple(row[place] for place in kept) for row in self.rows)
        columns = tuple(self.columns[place] for place in kept)
        return Sheet(self.title, columns, rows, self.detail, self.note)
