"""Where the files that come with the program are, from a checkout and from an installed wheel alike."""

from __future__ import annotations

from pathlib import Path


def templates() -> Path:
    """The folder of templates: themes, starter projects."""
    package = Path(__file__).resolve().parent
    installed = package / "templates"
    return installed if installed.is_dir() else package.parent / "templates"
