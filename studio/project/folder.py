"""Files of a project: paths as written, relative to the project file and inside its folder."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from pathlib import Path, PurePosixPath, PureWindowsPath

from studio.project.complaints import MisfitError


@dataclass(frozen=True)
class Folder:
    """The folder of a project file; `outside` says whether files may lie elsewhere."""

    root: Path
    outside: bool = False

    def file(self, written: str) -> Path:
        """The file that a path names. Raises MisfitError: missing, a folder, or outside."""
        if not written.strip():
            raise MisfitError("this names no file; write a path such as audio/mix.flac")
        if "\\" in written:
            raise MisfitError(
                f"'{written}' has '\\' in it; write '/' between folders, on Windows too", written.index("\\")
            )
        absolute = PurePosixPath(written).is_absolute() or PureWindowsPath(written).drive != ""
        if absolute and not self.outside:
            raise MisfitError(f"'{written}' is not relative to the project file; {self._remedy}")
        path = self.root / written
        try:
            inside = path.resolve().is_relative_to(self.root.resolve())
            if not inside and not self.outside:
                raise MisfitError(f"'{written}' leads out of the project's folder; {self._remedy}")
            if path.is_dir():
                raise MisfitError(f"'{written}' is a folder, not a file")
            if not path.is_file():
                raise MisfitError(f"There is no file '{written}'{self._hint(path)}")
            with path.open("rb"):
                return path
        except (OSError, ValueError, RuntimeError) as error:
            if isinstance(error, MisfitError):
                raise
            reason = getattr(error, "strerror", None) or "the name is not one that a file can have"
            raise MisfitError(f"'{written}' cannot be read: {reason}") from None

    _remedy = "copy the file into the folder, or allow it with --allow-outside"

    def _hint(self, path: Path) -> str:
        """`; did you mean 'audio/bass.flac'?`, or the part of the path that is missing."""
        folder = path.parent
        if not folder.is_dir():
            missing = folder
            while missing.parent != missing and not missing.parent.is_dir():
                missing = missing.parent
            return f"; the folder '{missing.name}' does not exist"
        names = sorted(entry.name for entry in folder.iterdir() if entry.is_file())
        close = difflib.get_close_matches(path.name, names, n=1, cutoff=0.6)
        if not close:
            return ""
        near = folder / close[0]
        shown = near.relative_to(self.root) if near.is_relative_to(self.root) else near
        return f"; did you mean '{shown.as_posix()}'?"
