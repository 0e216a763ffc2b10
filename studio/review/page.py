"""What the review page says, as values: the template sets them and decides nothing."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from studio.project.model import Project
from studio.review.links import Link, links
from studio.review.segment import Desk, Segment, segment_of
from studio.review.sources import FileHeard, files_heard, used_rows
from studio.review.times import clock
from studio.timeline.plan import Plan


@dataclass(frozen=True)
class Page:
    """The review page of an episode. `files_heard`: each sound file that is heard, and the condition that it is in."""

    title: str
    song: str
    about: str
    made_with: str
    findings: tuple[str, ...]
    segments: tuple[Segment, ...]
    files_heard: tuple[FileHeard, ...]
    used: tuple[tuple[str, str], ...]
    care: str
    files: tuple[Link, ...]


def page_of(
    project: Project,
    plan: Plan,
    report: Mapping[str, Any],
    chapters: Sequence[tuple[int, str]],
    standing: Collection[str],
    waves: Mapping[str, str] | None = None,
) -> Page:
    """The page of an episode.

    `report` is what `report.json` says; `chapters` are (second, title); `standing` are the paths, relative to the
    build folder, of the files that there are: nothing else is linked to. `waves` has the words of excerpts' pictures,
    by segment.
    """
    written = {segment.id: segment for segment in project.segments}
    canvas = plan.canvas
    desk = Desk(project, plan, report["findings"], dict(chapters), standing, waves or {})
    return Page(
        title=plan.title,
        song=" · ".join(text for text in (project.song.title, project.song.by) if text),
        about=f"{canvas.width}×{canvas.height}, {float(canvas.rate):g} frames a second, "
        f"{clock(plan.frames / canvas.rate)}",
        made_with=report["made_with"],
        findings=tuple(report["findings"]),
        segments=tuple(
            segment_of(desk, segment, written[segment.id], about)
            for segment, about in zip(plan.segments, report["segments"], strict=True)
        ),
        files_heard=files_heard(report.get("sources") or ()),
        used=used_rows(report["used"]),
        care=report["care"],
        files=links(
            standing,
            ("Rough cut", "rough-cut.mp4"),
            ("Captions", "captions.vtt"),
            ("Chapters", "chapters.txt"),
            ("Report", "report.json"),
        ),
    )
