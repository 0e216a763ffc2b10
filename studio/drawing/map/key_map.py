"""What a map of keys holds: a block for each stretch in one key, and how each key is reached."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import CanvasSize
from studio.drawing.map.block import Block
from studio.drawing.map.ruler import Ruler


@dataclass(frozen=True)
class Change:
    """A change of key, into the block of that number. `place` says where in the song, `key` to what, `how` the two
    keys are related, `way` which chord leads there; the last two may be empty."""

    block: int
    place: str
    key: str
    how: str
    way: str

    @property
    def words(self) -> str:
        """All in one sentence."""
        said = [f"{self.place}: {self.key}", *([self.how] if self.how else [])]
        return "; ".join([", ".join(said), *([self.way] if self.way else [])])


@dataclass(frozen=True)
class KeyMap:
    """Two keys or more. `plan` is all of it in a few words, the fullest first; `note` says how the keys are known, if
    that is not from the project."""

    canvas: CanvasSize
    ruler: Ruler
    blocks: tuple[Block, ...]
    changes: tuple[Change, ...]
    plan: tuple[str, ...]
    note: str
