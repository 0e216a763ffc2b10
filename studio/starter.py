"""A project to start from."""

from __future__ import annotations

import shutil
from pathlib import Path

from studio.places import templates


class FolderInUseError(ValueError):
    """The folder holds something already; nothing there is touched."""


def start(folder: Path) -> Path:
    """Copy the starter project into a folder that is new or empty; returns the project file.

    Raises FolderInUseError.
    """
    if any(parent.is_file() for parent in folder.parents):
        raise FolderInUseError(f"{folder} lies inside a file; name a new folder")
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderInUseError(f"{folder} is not empty; name a new folder")
    shutil.copytree(templates() / "starter", folder, dirs_exist_ok=True)
    return folder / "project.yaml"
