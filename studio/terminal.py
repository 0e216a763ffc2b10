"""Progress for a person: bars with the time left on a terminal, plain lines anywhere else."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from studio.progress import Progress, Step

if TYPE_CHECKING:
    from rich.progress import Progress as Bars

_LINE_EVERY_SECONDS = 10


@contextmanager
def progress_on_screen() -> Iterator[Progress]:
    """A listener that shows stages on standard error."""
    if not sys.stderr.isatty():
        yield PlainLines(lambda line: print(line, file=sys.stderr, flush=True))
        return
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn, TimeRemainingColumn
    from rich.progress import Progress as RichProgress

    columns = (TextColumn("{task.description:<9}"), BarColumn(), TextColumn("{task.percentage:>3.0f}%"))
    with RichProgress(*columns, TimeRemainingColumn(), console=Console(stderr=True)) as bars:
        yield OnTerminal(bars)


@dataclass
class OnTerminal:
    """Bars, one under the other."""

    bars: Bars

    @contextmanager
    def stage(self, words: str, total: int) -> Iterator[Step]:
        if not total:
            yield lambda done: None
            return
        task = self.bars.add_task(words, total=total)
        yield lambda done: self.bars.advance(task, done)


@dataclass
class PlainLines:
    """A line at the end of each stage, and one every ten seconds before."""

    say: Callable[[str], None]

    @contextmanager
    def stage(self, words: str, total: int) -> Iterator[Step]:
        start = said = time.monotonic()
        done = 0

        def step(more: int) -> None:
            nonlocal done, said
            done += more
            now = time.monotonic()
            if now - said >= _LINE_EVERY_SECONDS and 0 < done < total:
                said = now
                left = (now - start) * (total - done) / done
                self.say(f"{words}: {100 * done // total} %, about {left:.0f} s left")

        yield step
        if total:
            self.say(f"{words}: done, {total} in {time.monotonic() - start:.1f} s")
