"""The cache: files named by what they were made from, each whole or not there."""

from __future__ import annotations

import os
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

LIMIT_BYTES = 4 << 30
_ABANDONED_SECONDS = 3600
_MOVIES = (".mp4", ".m4a")


@dataclass(frozen=True)
class Store:
    """A folder of made things. Names carry their content, so a file that is there and whole is right."""

    root: Path
    began: float = field(default_factory=time.time)

    def path(self, name: str, ending: str) -> Path:
        return self.root / name[:2] / f"{name}{ending}"

    def has(self, name: str, ending: str) -> bool:
        """Whether it is there and whole; asking marks it as used, so that clean-up takes what is used least."""
        path = self.path(name, ending)
        try:
            if not path.stat().st_size or (ending in _MOVIES and not _closed(path)):
                return False
            os.utime(path)
        except OSError:
            return False
        return True

    def clean(self, limit: int = LIMIT_BYTES) -> None:
        """Remove what earlier runs left, the longest unused first, until the rest fits in `limit` bytes; and what
        a killed run left unfinished. What this run used stays, however much it is."""
        for left in self.root.rglob("*.unfinished"):
            with suppress(OSError):
                if left.stat().st_mtime < self.began - _ABANDONED_SECONDS:
                    left.unlink()
        kept = sorted(_files(self.root), key=lambda file: file[1])
        size = sum(bytes_ for _, _, bytes_ in kept)
        for path, used, bytes_ in kept:
            if size <= limit or used >= self.began - 1:
                return
            with suppress(OSError):
                path.unlink()
                size -= bytes_


def _files(root: Path) -> list[tuple[Path, float, int]]:
    """(path, time of last use, bytes) of each made thing; another build may be removing some meanwhile."""
    found = []
    for path in root.glob("??/*"):
        with suppress(OSError):
            about = path.stat()
            found.append((path, about.st_mtime, about.st_size))
    return found


def _closed(path: Path) -> bool:
    """Whether an MP4's outermost boxes (ISO/IEC 14496-12, 4.2) end just where the file does."""
    size, at = path.stat().st_size, 0
    with path.open("rb") as file:
        while at < size:
            file.seek(at)
            head = file.read(16)
            length = int.from_bytes(head[:4], "big")
            if length == 1:
                length = int.from_bytes(head[8:16], "big")
            if length < 8:
                return False
            at += length
    return at == size
