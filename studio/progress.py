"""How long work tells that it goes on, without knowing who listens."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Protocol

Step = Callable[[int], None]


class Progress(Protocol):
    """A listener to long stages."""

    def stage(self, words: str, total: int) -> AbstractContextManager[Step]:
        """Begin a stage of `total` things; call what it yields with how many more are done."""
        ...


class Quiet:
    """Tells nobody."""

    @contextmanager
    def stage(self, words: str, total: int) -> Iterator[Step]:
        yield lambda done: None
