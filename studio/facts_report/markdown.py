"""Facts as Markdown tables, for notes and for the episode's own pages."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from studio.facts_report.sheet import Cell, Sheet

_ESCAPED = str.maketrans({"|": r"\|", "*": r"\*", "_": r"\_", "<": "&lt;", "`": r"\`", "\n": " "})


def markdown(title: str, sheets: Iterable[Sheet]) -> str:
    """The sheets under one heading, detail and all."""
    parts = [f"# {_cell(title)}", *(_sheet(sheet) for sheet in sheets if sheet.rows)]
    return "\n\n".join(parts) + "\n"


def _sheet(sheet: Sheet) -> str:
    names = [column.name for column in sheet.columns]
    lines = [_row(names), _row(["---"] * len(names)), *(_row(row) for row in sheet.rows)]
    below = ["", _cell(sheet.note)] if sheet.note else []
    return "\n".join([f"## {_cell(sheet.title)}", "", *lines, *below])


def _row(cells: Sequence[Cell]) -> str:
    return "| " + " | ".join(_cell(cell) for cell in cells) + " |"


def _cell(cell: Cell) -> str:
    return str(cell).translate(_ESCAPED)
