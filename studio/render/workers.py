"""Chunks made by a pool of processes, one encoder thread each."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from contextlib import contextmanager
from pathlib import Path

from studio.drawing.themes.theme import Theme
from studio.render.chunks import Chunk
from studio.render.compositor import frames
from studio.render.encoder import encode
from studio.render.painter import Painter

Job = tuple[Chunk, Path]

_MOST_WORKERS = 61  # Windows waits for no more processes than these
_painter: Painter | None = None


def cores() -> int:
    """Processors that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def make(jobs: Sequence[Job], theme: Theme, workers: int, done: Callable[[int], None]) -> None:
    """Encode each chunk to its path; `done` is told its frames."""
    if workers <= 1 or len(jobs) <= 1:
        painter = Painter(theme)
        for chunk, path in jobs:
            encode(frames(chunk, painter), chunk.canvas, path)
            done(chunk.frames)
        return
    # A fresh interpreter on every system: a forked one would share open files and locks with this one.
    start = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(min(workers, len(jobs), _MOST_WORKERS), start, _begin, (theme,)) as pool:
        try:
            with _deaf_to_interrupts():
                waiting = [pool.submit(_make_one, job) for job in jobs]
            for finished in as_completed(waiting):
                done(finished.result())
        except BaseException:
            pool.shutdown(wait=True, cancel_futures=True)
            raise


@contextmanager
def _deaf_to_interrupts() -> Iterator[None]:
    """Ctrl-C waits while workers are started: they inherit that it waits, until they know to ignore it; here it is
    heard once they are there."""
    if threading.current_thread() is not threading.main_thread() or not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin(theme: Theme) -> None:
    global _painter
    # Ctrl-C reaches every process; the one that was asked decides, and a worker ends with its chunk whole.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    _painter = Painter(theme)


def _make_one(job: Job) -> int:
    chunk, path = job
    assert _painter
    encode(frames(chunk, _painter), chunk.canvas, path)
    return chunk.frames
