"""Opening a project: read, planned, and found right before anything is made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import Theme, ThemeError, read_theme, theme_path
from studio.progress import Progress
from studio.project.loader import load
from studio.project.model import Project
from studio.render.moviepy_clips import ReadySegment
from studio.render.workers import cores
from studio.render.workshop import Workshop
from studio.sound.waves import wave
from studio.timeline.plan import Plan
from studio.timeline.planning import plan_episode


@dataclass(frozen=True)
class Opened:
    """A project that was read, planned, and found right."""

    project: Project
    plan: Plan
    theme: Theme

    @property
    def build(self) -> Path:
        return self.project.root / "build"

    def segment(self, wanted: str) -> ReadySegment:
        """One segment by its id, ready for `studio.render.as_moviepy`. Raises UnknownSegmentError."""
        (segment,) = chosen(self, (wanted,)).segments
        return ReadySegment(self.plan, segment, self.theme)


class UnknownSegmentError(ValueError):
    """A segment was asked for by a name that the project does not have."""


def open_project(path: Path, allow_outside: bool = False) -> Opened:
    """Read and plan. Raises ProjectError with every complaint; nothing is rendered."""
    options = {name: kind.Options for name, kind in KINDS.items()}
    project = load(path, options, allow_outside, _wrong_with_theme)
    theme = read_theme(theme_path(project.episode.theme, project.root))
    return Opened(project, plan_episode(project, KINDS, stage_of(theme), wave), theme)


def chosen(opened: Opened, ids: Sequence[str]) -> Plan:
    """The plan with the segments that were asked for, or all. Raises UnknownSegmentError."""
    known = [segment.id for segment in opened.plan.segments]
    for wanted in ids:
        if wanted not in known:
            raise UnknownSegmentError(f"there is no segment '{wanted}'; there are {', '.join(known)}")
    return opened.plan.only(tuple(ids))


def workshop(opened: Opened, progress: Progress, workers: int | None) -> Workshop:
    """Where an opened project's results are made, with as many workers as cores if not said."""
    return Workshop(opened.build, opened.theme, workers or cores(), progress)


def _wrong_with_theme(name: str, beside: Path) -> tuple[str, ...]:
    try:
        read_theme(theme_path(name, beside))
    except ThemeError as error:
        return error.complaints
    return ()
