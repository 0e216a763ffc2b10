"""Figures and paths as the report prints them."""

from __future__ import annotations

from fractions import Fraction

from studio.project.model import Project


def relative(project: Project, path: str) -> str:
    """A path from the project's folder on."""
    root = project.root.as_posix().rstrip("/") + "/"
    return path.removeprefix(root)


def percent(part: Fraction, whole: Fraction) -> float | None:
    """A share in percent; None of nothing."""
    return round(float(100 * part / whole), 2) if whole else None


def seconds(length: Fraction) -> float:
    """Seconds to the millionth."""
    return round(float(length), 6)
