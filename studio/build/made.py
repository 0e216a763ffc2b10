"""What a command left, for its summary."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from studio.sound.loudness import Levels


@dataclass
class Made:
    """What a command left, for its summary: (path, whether it had to be made) in order, how loud excerpts are (segment,
    levels), and what to know."""

    results: list[tuple[Path, bool]] = field(default_factory=list)
    levels: list[tuple[str, Levels]] = field(default_factory=list)
    findings: list[str] = field(default_factory=list)
    encoded: int = 0

    def add(self, path: Path, written: bool) -> None:
        self.results.append((path, written))
