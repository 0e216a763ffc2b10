"""The cache: files named by what they were made from, each whole or not there."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

LIMIT_BYTES = 4 << 30


@dataclass(frozen=True)
class Store:
    """A folder of made things. Names carry their content, so a file that is there is right."""

    root: Path

    def path(self, name: str, ending: str) -> Path:
        return self.root / name[:2] / f"{name}{ending}"

    def has(self, name: str, ending: str) -> bool:
        """Whether it is there; asking marks it as used, so that clean-up takes what is used least."""
        path = self.path(name, ending)
        try:
            os.utime(path)
        except OSError:
            return False
        return path.stat().st_size > 0

    def clean(self, limit: int = LIMIT_BYTES) -> None:
        """Remove what was used longest ago until all fits in `limit` bytes."""
        kept = sorted((p for p in self.root.rglob("*") if p.is_file()), key=lambda p: p.stat().st_mtime)
        size = sum(path.stat().st_size for path in kept)
        for path in kept:
            if size <= limit:
                return
            size -= path.stat().st_size
            path.unlink(missing_ok=True)
