"""Facts for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterable

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from studio.facts_report.sheet import Sheet
from studio.theory.wording import spaced


def print_sheets(sheets: Iterable[Sheet], console: Console) -> None:
    """Print each sheet as a table, without what is detail. Words that could be markup are not taken for it."""
    for sheet in sheets:
        if sheet.rows and not sheet.detail:
            console.print(_table(sheet.brief()))
            if sheet.note:
                console.print(Text(f"{sheet.note}\n"))


def _table(sheet: Sheet) -> Table:
    table = Table(title=Text(sheet.title), title_justify="left", box=SIMPLE_HEAD, title_style="bold")
    for column in sheet.columns:
        table.add_column(column.name, overflow="fold")
    for row in sheet.rows:
        table.add_row(*(Text(spaced(str(cell))) for cell in row))
    return table
