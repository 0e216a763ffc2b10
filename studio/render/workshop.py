"""The workshop: where things are made, what they are made with, and what has been made before."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from studio.drawing.themes.theme import Theme
from studio.progress import Progress, Quiet
from studio.render.hashing import file_digest, theme_digest
from studio.render.store import Store
from studio.whole_file import whole_file


@dataclass
class Ledger:
    """Which results stand in the build folder, and what each was made from.

    A result is made again when what it depends on has another name, or when somebody changed or removed it.
    """

    folder: Path
    file: Path
    _known: dict[str, list[str | int]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        try:
            known = json.loads(self.file.read_text("utf-8"))
        except (OSError, ValueError):
            return
        if isinstance(known, dict):
            self._known = {place: about for place, about in known.items() if self._ours(place, about)}

    def _ours(self, place: str, about: object) -> bool:
        """Whether an entry is one that this program writes: a ledger that came with somebody's project must
        not be able to name a file outside the build folder."""
        path = (self.folder / place).resolve()
        inside = path.is_relative_to(self.folder.resolve()) and ".cache" not in Path(place).parts
        return inside and isinstance(about, list) and len(about) == 3

    def make(self, path: Path, name: str, write: Callable[[], None]) -> bool:
        """Have `path` written unless it stands there under the same name. Says whether it was written."""
        if self.stands(path, name):
            return False
        write()
        self._known[path.relative_to(self.folder).as_posix()] = [name, *_state(path)]
        self.save()
        return True

    def stands(self, path: Path, name: str) -> bool:
        """Whether `path` stands there, made under that name and touched by nobody since."""
        return self._known.get(path.relative_to(self.folder).as_posix()) == [name, *_state(path)]

    def drop(self, place: str) -> None:
        """Forget a result that is no longer wanted, and remove its file."""
        self._known.pop(place, None)
        (self.folder / place).unlink(missing_ok=True)

    @property
    def places(self) -> tuple[str, ...]:
        """Paths of the results, relative to the build folder."""
        return tuple(self._known)

    def save(self) -> None:
        with whole_file(self.file) as part:
            part.write_text(json.dumps(self._known, indent=0, sort_keys=True), "utf-8")


def _state(path: Path) -> tuple[int, int]:
    try:
        about = path.stat()
    except OSError:
        return (-1, -1)
    return about.st_size, about.st_mtime_ns


@dataclass
class Workshop:
    """All that rendering needs beside the plan. `build` is the folder that results go to."""

    build: Path
    theme: Theme
    workers: int
    progress: Progress = field(default_factory=Quiet)
    encoded: int = 0  # pictures and sounds that this run had to encode

    def __post_init__(self) -> None:
        self.store = Store(self.build / ".cache")
        self.ledger = Ledger(self.build, self.build / ".cache" / "ledger.json")
        self.theme_name = theme_digest(self.theme)

    def digest(self, path: str) -> str:
        """The digest of a source file."""
        return file_digest(Path(path))
