"""Chapter marks in the plain form that video sites read: the first at 0:00, at least 10 s each (common practice)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.timeline.plan import Plan

SHORTEST_SECONDS = 10
FEWEST = 3


@dataclass(frozen=True)
class Chapter:
    """A chapter's start in whole seconds of the episode, and its title."""

    start: int
    title: str


def chapters(plan: Plan) -> tuple[Chapter, ...]:
    """A chapter for each segment; segments too short for one belong to the chapter before."""
    rate, found = plan.canvas.rate, list[Chapter]()
    for segment in plan.segments:
        start = int(segment.start / rate) if found else 0
        left = plan.frames / rate - start
        if found and (start - found[-1].start < SHORTEST_SECONDS or left < SHORTEST_SECONDS):
            continue
        found.append(Chapter(start, segment.title or segment.id))
    return tuple(found)


def chapter_text(marks: Sequence[Chapter]) -> str:
    """One line each: `1:03 Title`."""
    return "".join(f"{_clock(mark.start)} {' '.join(mark.title.split())}\n" for mark in marks)


def _clock(seconds: int) -> str:
    minutes, second = divmod(seconds, 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours}:{minute:02}:{second:02}" if hours else f"{minute}:{second:02}"
