"""Chapter marks in the plain form that video sites read: the first at 0:00, at least 10 s each (common practice)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.timeline.plan import Plan, SegmentPlan

SHORTEST_SECONDS = 10
FEWEST = 3


@dataclass(frozen=True)
class Chapter:
    """A chapter's start in whole seconds of the episode, and its title."""

    start: int
    title: str


def chapters(plan: Plan) -> tuple[Chapter, ...]:
    """A chapter for each segment; one too short for a chapter of its own shares that of its neighbour, under the title
    of the first of them: that is what a viewer who jumps there meets."""
    rate, shortest = plan.canvas.rate, SHORTEST_SECONDS * plan.canvas.rate
    groups: list[list[SegmentPlan]] = []
    for segment in plan.segments:
        open_ = groups[-1] if groups else []
        enough = open_ and segment.start - (open_[0].start if len(groups) > 1 else 0) >= shortest
        if not groups or (enough and plan.frames - segment.start >= shortest):
            groups.append([segment])
        else:
            open_.append(segment)
    return tuple(
        Chapter(int(group[0].start / rate) if number else 0, group[0].title or group[0].id)
        for number, group in enumerate(groups)
    )


def chapter_text(marks: Sequence[Chapter]) -> str:
    """One line each: `1:03 Title`."""
    return "".join(f"{_clock(mark.start)} {' '.join(mark.title.split())}\n" for mark in marks)


def _clock(seconds: int) -> str:
    minutes, second = divmod(seconds, 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours}:{minute:02}:{second:02}" if hours else f"{minute}:{second:02}"
