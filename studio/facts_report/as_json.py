"""Facts as JSON, for programs."""

from __future__ import annotations

import json
from collections.abc import Iterable

from studio import __version__
from studio.facts_report.sheet import Sheet


def as_json(title: str, sheets: Iterable[Sheet]) -> str:
    """One object; under "facts", each sheet by its title as a list of rows, each an object by column names."""
    facts = {sheet.title: [_row(sheet, row) for row in sheet.rows] for sheet in sheets if sheet.rows}
    made = {"made_with": f"Stave & Slate {__version__}", "song": title, "facts": facts}
    return json.dumps(made, indent=2, ensure_ascii=False) + "\n"


def _row(sheet: Sheet, row: tuple[object, ...]) -> dict[str, object]:
    names = (column.name for column in sheet.columns)
    return dict(zip(names, row, strict=True))
