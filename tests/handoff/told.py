"""Reports of episodes whose segments differ only in their excerpts."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import default_theme
from studio.handoff.report import report, report_text
from studio.project.model import Excerpt, Project
from studio.timeline.planning import plan_episode

from ..timeline.long_song import project_of


def told(*excerpts: Excerpt) -> dict[str, Any]:
    """The report of an episode with a segment for each excerpt."""
    project = project_of(excerpts[0])
    segments = tuple(
        replace(project.segments[0], id=str(number), excerpt=excerpt)
        for number, excerpt in enumerate(excerpts)
    )
    return told_of(replace(project, segments=segments))


def told_of(project: Project) -> dict[str, Any]:
    """The report of a project in which nothing was measured."""
    data = report(project, plan_episode(project, {}, stage_of(default_theme())), {}, (), {})
    assert report_text(data)
    return data
