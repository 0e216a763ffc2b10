"""What each command does: read the project, plan the episode, have things made, and say what was made."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from studio.cut.rough_cut import make_rough_cut, rough_cut_chunks, rough_cut_path
from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import Theme, ThemeError, read_theme, theme_path
from studio.findings import findings
from studio.handoff.captions import cues, subrip, webvtt
from studio.handoff.chapters import chapter_text, chapters
from studio.handoff.report import report, report_text
from studio.progress import Progress, Quiet
from studio.project.loader import load
from studio.project.model import Project
from studio.render.clips import chunks_for, clip_path, make_chunks, make_clip
from studio.render.excerpts import excerpt_path, make_excerpt
from studio.render.flashes import Flashes, flash_findings, flashes
from studio.render.moviepy_clips import ReadySegment
from studio.render.moving import make_moving, moving_overlays, moving_path, stale_overlays
from studio.render.soundtrack import clip_track
from studio.render.stills import make_still, still_path
from studio.render.workers import cores
from studio.render.workshop import Workshop
from studio.review.html import html
from studio.review.page import page_of
from studio.sound.loudness import Levels
from studio.sound.waves import wave
from studio.timeline.plan import Plan
from studio.timeline.planning import plan_episode
from studio.whole_file import whole_file

_OF_THE_WHOLE = ("rough-cut.mp4", "captions.vtt", "chapters.txt", "report.json")


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


@dataclass
class Made:
    """What a command left, for its summary: (path, whether it had to be made) in order, and what to know."""

    results: list[tuple[Path, bool]] = field(default_factory=list)
    findings: list[str] = field(default_factory=list)
    encoded: int = 0

    def add(self, path: Path, written: bool) -> None:
        self.results.append((path, written))


class UnknownSegmentError(ValueError):
    """A segment was asked for by a name that the project does not have."""


def open_project(path: Path, allow_outside: bool = False) -> Opened:
    """Read and plan. Raises ProjectError with every complaint; nothing is rendered."""
    options = {name: kind.Options for name, kind in KINDS.items()}
    project = load(path, options, allow_outside, _wrong_with_theme)
    theme = read_theme(theme_path(project.episode.theme, project.root))
    return Opened(project, plan_episode(project, KINDS, stage_of(theme), wave), theme)


def _wrong_with_theme(name: str, beside: Path) -> tuple[str, ...]:
    try:
        read_theme(theme_path(name, beside))
    except ThemeError as error:
        return error.complaints
    return ()


def workshop(opened: Opened, progress: Progress, workers: int | None) -> Workshop:
    return Workshop(opened.build, opened.theme, workers or cores(), progress)


def chosen(opened: Opened, ids: Sequence[str]) -> Plan:
    """The plan with the segments that were asked for, or all. Raises UnknownSegmentError."""
    known = [segment.id for segment in opened.plan.segments]
    for wanted in ids:
        if wanted not in known:
            raise UnknownSegmentError(f"there is no segment '{wanted}'; there are {', '.join(known)}")
    return opened.plan.only(tuple(ids))


def build_overlays(
    opened: Opened,
    ids: Sequence[str],
    progress: Progress | None = None,
    moving: str | None = None,
) -> Made:
    """Write the still of each callout, and with `moving`, the name of a codec, each segment's moving overlay."""
    shop = workshop(opened, progress or Quiet(), None)
    plan, made = chosen(opened, ids), Made()
    _overlays(plan, shop, made)
    bare = []
    for segment in plan.segments if moving else ():
        if moving and segment.layers:
            made.add(moving_path(segment, moving, shop), make_moving(plan, segment, moving, shop))
        else:
            bare.append(f"{segment.id}: nothing lies over its ground, so it has no moving overlay.")
    made.findings = [*bare, *flash_findings(plan, _flashes(plan, shop)), *stale_overlays(plan, shop)]
    made.encoded = shop.encoded
    return made


def build_excerpts(opened: Opened, ids: Sequence[str], progress: Progress | None = None) -> Made:
    """Write the excerpt of each segment that has one."""
    shop = workshop(opened, progress or Quiet(), 1)
    made = Made()
    _excerpts(chosen(opened, ids), shop, made)
    made.encoded = shop.encoded
    return made


def build_all(
    opened: Opened,
    ids: Sequence[str],
    progress: Progress | None = None,
    workers: int | None = None,
    burnt: bool = True,
) -> Made:
    """Everything: overlays, excerpts, clips; and, when no segments are named, the rough cut and its papers."""
    shop = workshop(opened, progress or Quiet(), workers)
    plan, made = chosen(opened, ids), Made()
    _overlays(plan, shop, made)
    _excerpts(plan, shop, made)
    levels = _sounds(plan, shop)
    _pictures(plan, shop, burnt, whole=not ids)
    _clips(plan, shop, made)
    flashing = _flashes(plan, shop)
    made.findings = _findings(opened, plan, levels, flashing, shop)
    if not ids:
        with shop.progress.stage("rough cut", 1) as step:
            made.add(rough_cut_path(shop), make_rough_cut(plan, burnt, shop))
            step(1)
        _papers(opened, shop, levels, flashing, made)
        _clear(plan, shop, made)
    shop.store.clean()
    made.encoded = shop.encoded
    return made


def build_review(opened: Opened, progress: Progress | None = None, workers: int | None = None) -> Made:
    """The review page, and what it shows: stills, excerpts and clips. A rough cut is linked to where there is one."""
    shop = workshop(opened, progress or Quiet(), workers)
    plan, made = opened.plan, Made()
    _overlays(plan, shop, made)
    _excerpts(plan, shop, made)
    levels = _sounds(plan, shop)
    make_chunks(
        [chunk for segment in plan.segments for chunk in chunks_for(plan, segment, False, shop)], shop
    )
    _clips(plan, shop, made)
    flashing = _flashes(plan, shop)
    made.findings = _findings(opened, plan, levels, flashing, shop)
    _review(opened, shop, report(opened.project, plan, levels, made.findings, flashing), made)
    shop.store.clean()
    made.encoded = shop.encoded
    return made


def _overlays(plan: Plan, shop: Workshop, made: Made) -> None:
    wanted = [(segment, callout) for segment in plan.segments for callout in segment.callouts]
    with shop.progress.stage("stills", len(wanted)) as step:
        for segment, callout in wanted:
            made.add(still_path(segment, callout, shop), make_still(plan, segment, callout, shop))
            step(1)


def _excerpts(plan: Plan, shop: Workshop, made: Made) -> None:
    wanted = [segment for segment in plan.segments if segment.excerpt]
    with shop.progress.stage("excerpts", len(wanted)) as step:
        for segment in wanted:
            made.add(excerpt_path(segment, shop), make_excerpt(plan, segment, shop))
            step(1)


def _clips(plan: Plan, shop: Workshop, made: Made) -> None:
    with shop.progress.stage("clips", len(plan.segments)) as step:
        for segment in plan.segments:
            made.add(clip_path(segment, shop), make_clip(plan, segment, shop))
            step(1)


def _flashes(plan: Plan, shop: Workshop) -> dict[str, Flashes]:
    found = {}
    with shop.progress.stage("flashes", len(plan.segments)) as step:
        for segment in plan.segments:
            found[segment.id] = flashes(plan, segment, shop)
            step(1)
    return found


def _findings(
    opened: Opened, plan: Plan, levels: Mapping[str, Levels], flashing: Mapping[str, Flashes], shop: Workshop
) -> list[str]:
    return [
        *findings(opened.project, plan, levels),
        *flash_findings(plan, flashing),
        *stale_overlays(plan, shop),
    ]


def _sounds(plan: Plan, shop: Workshop) -> dict[str, Levels]:
    levels = {}
    with shop.progress.stage("sound", len(plan.segments)) as step:
        for segment in plan.segments:
            levels[segment.id] = clip_track(plan, segment, shop).levels
            step(1)
    return levels


def _pictures(plan: Plan, shop: Workshop, burnt: bool, whole: bool) -> None:
    """Make all missing chunks of a run in one go, so that the workers are never idle between clips."""
    chunks = [chunk for segment in plan.segments for chunk in chunks_for(plan, segment, False, shop)]
    if whole:
        chunks += rough_cut_chunks(plan, burnt, shop)
    make_chunks(chunks, shop)


def _papers(
    opened: Opened,
    shop: Workshop,
    levels: Mapping[str, Levels],
    flashing: Mapping[str, Flashes],
    made: Made,
) -> None:
    plan, shown = opened.plan, cues(opened.plan)
    about = report(opened.project, plan, levels, made.findings, flashing)
    papers = {
        "captions.srt": subrip(shown),
        "captions.vtt": webvtt(shown),
        "chapters.txt": chapter_text(chapters(plan)),
        "report.json": report_text(about),
    }
    for name, text in papers.items():
        made.add(shop.build / name, _write(shop.build / name, text))
    _review(opened, shop, about, made)


def _review(opened: Opened, shop: Workshop, about: Mapping[str, Any], made: Made) -> None:
    """Write the review page, with links to what this run made, and to what stands from others and is kept."""
    plan, path = opened.plan, shop.build / "review" / "index.html"
    kept = [path for _, path in moving_overlays(plan, shop)]
    kept += [file for name in _OF_THE_WHOLE if (file := shop.build / name).is_file()]
    standing = {
        file.relative_to(shop.build).as_posix() for file in (*kept, *(file for file, _ in made.results))
    }
    marks = [(mark.start, mark.title) for mark in chapters(plan)]
    made.add(path, _write(path, html(page_of(opened.project, plan, about, marks, standing))))


def _write(path: Path, text: str) -> bool:
    """Write a text unless it stands there already; says whether it was written."""
    data = text.encode("utf-8")
    if path.is_file() and path.read_bytes() == data:
        return False
    with whole_file(path) as part:
        part.write_bytes(data)
    return True


def _clear(plan: Plan, shop: Workshop, made: Made) -> None:
    """Remove results of earlier builds that this plan no longer has: a renamed segment's clip, say.

    Moving overlays, which somebody asked for, stay while their segment is there.
    """
    kept = [*(path for path, _ in made.results), *(path for _, path in moving_overlays(plan, shop))]
    wanted = {path.relative_to(shop.build).as_posix() for path in kept}
    for place in shop.ledger.places:
        if place not in wanted:
            shop.ledger.drop(place)
