"""Rows of the review page's tables of loudness, from what the report says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from studio.drawing.excerpt_picture.words import signed

_UNKNOWN = "–"

_MEASURED = ("integrated_LUFS", "short_term_maximum_LUFS", "loudness_range_LU", "true_peak_dBTP")


@dataclass(frozen=True)
class LevelRow:
    """How loud one thing is: integrated (LUFS), in its loudest three seconds (LUFS), from soft to loud (LU), and its
    true peak (dBTP)."""

    of: str
    levels: tuple[str, ...]


def level_rows(about: Mapping[str, Any]) -> tuple[LevelRow, ...]:
    """The levels of a clip and of its excerpt by itself, where there is anything to measure."""
    found = (("Clip", about.get("sound")), ("Excerpt", (about.get("excerpt") or {}).get("sound")))
    rows = (level_row(of, levels or {}) for of, levels in found)
    return tuple(row for row in rows if set(row.levels) != {_UNKNOWN})


def level_row(of: str, levels: Mapping[str, Any]) -> LevelRow:
    """One row of a table of levels; what cannot be measured, as the range of a short sound, is a dash."""
    return LevelRow(of, tuple(level_words(levels.get(key)) for key in _MEASURED))


def level_words(level: float | None) -> str:
    """A level to a tenth, without its unit; a dash where there is none, as in silence."""
    return _UNKNOWN if level is None else signed(level)
