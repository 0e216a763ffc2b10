"""The stages of a build: each has one sort of thing made for every segment of a plan, and counts its steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from studio.build.made import Made
from studio.cut.rough_cut import make_rough_cut, rough_cut_chunks, rough_cut_levels, rough_cut_path
from studio.project.model import Project
from studio.render.clips import chunks_for, clip_path, make_chunks, make_clip
from studio.render.excerpts import excerpt_path, make_excerpt
from studio.render.flashes import Flashes, flashes
from studio.render.measured import Measured, measured
from studio.render.measured import excerpt_sources as sources_of_excerpts
from studio.render.moving import make_moving, moving_path
from studio.render.soundtrack import clip_track, excerpt_track
from studio.render.stills import make_still, still_path
from studio.render.wave_pictures import make_wave_picture, wave_picture_path
from studio.render.workshop import Workshop
from studio.sound.condition import Condition
from studio.sound.loudness import Levels
from studio.timeline.plan import Plan


@dataclass(frozen=True)
class Loudnesses:
    """How loud each clip is, by segment, and what was measured beside the clips."""

    clips: Mapping[str, Levels]
    beside: Measured


def stills(plan: Plan, shop: Workshop, made: Made) -> None:
    """The still of each callout."""
    wanted = [(segment, callout) for segment in plan.segments for callout in segment.callouts]
    with shop.progress.stage("stills", len(wanted)) as step:
        for segment, callout in wanted:
            made.add(still_path(segment, callout, shop), make_still(plan, segment, callout, shop))
            step(1)


def moving(plan: Plan, codec: str, shop: Workshop, made: Made) -> list[str]:
    """The moving overlay of each segment; says which segments have nothing to move."""
    bare = []
    for segment in plan.segments:
        if segment.layers:
            made.add(moving_path(segment, codec, shop), make_moving(plan, segment, codec, shop))
        else:
            bare.append(f"{segment.id}: nothing lies over its ground, so it has no moving overlay.")
    return bare


def excerpts(project: Project, plan: Plan, shop: Workshop, made: Made) -> None:
    """The excerpt of each segment that has one, and the picture of its wave."""
    wanted = [segment for segment in plan.segments if segment.excerpt]
    with shop.progress.stage("excerpts", len(wanted)) as step:
        for segment in wanted:
            made.add(excerpt_path(segment, shop), make_excerpt(plan, segment, shop))
            made.add(wave_picture_path(segment, shop), make_wave_picture(project, plan, segment, shop))
            if track := excerpt_track(plan, segment, shop):
                made.levels.append((segment.id, track.levels))
            step(1)


def excerpt_sources(plan: Plan, shop: Workshop) -> Mapping[str, Condition]:
    """The condition of each sound file that excerpts are cut from, by its path."""
    with shop.progress.stage("sources", 1) as step:
        found = sources_of_excerpts(plan, shop)
        step(1)
    return found


def sounds(plan: Plan, shop: Workshop) -> Loudnesses:
    """What is heard in each clip, and what is to be known of its sources."""
    clips = {}
    with shop.progress.stage("sound", len(plan.segments) + 1) as step:
        for segment in plan.segments:
            clips[segment.id] = clip_track(plan, segment, shop).levels
            step(1)
        beside = measured(plan, shop)
        step(1)
    return Loudnesses(clips, beside)


def chunks(plan: Plan, shop: Workshop) -> None:
    """All missing chunks of the clips in one go, so that the workers are never idle between clips."""
    make_chunks(
        [chunk for segment in plan.segments for chunk in chunks_for(plan, segment, False, shop)], shop
    )


def all_chunks(plan: Plan, burnt: bool, shop: Workshop) -> None:
    """As `chunks`, with those of the rough cut."""
    wanted = [chunk for segment in plan.segments for chunk in chunks_for(plan, segment, False, shop)]
    make_chunks([*wanted, *rough_cut_chunks(plan, burnt, shop)], shop)


def clips(plan: Plan, shop: Workshop, made: Made) -> None:
    """The clip of each segment."""
    with shop.progress.stage("clips", len(plan.segments)) as step:
        for segment in plan.segments:
            made.add(clip_path(segment, shop), make_clip(plan, segment, shop))
            step(1)


def flashing(plan: Plan, shop: Workshop) -> dict[str, Flashes]:
    """How often the overlays of each segment flash."""
    found = {}
    with shop.progress.stage("flashes", len(plan.segments)) as step:
        for segment in plan.segments:
            found[segment.id] = flashes(plan, segment, shop)
            step(1)
    return found


def rough_cut(plan: Plan, burnt: bool, shop: Workshop, made: Made) -> Levels:
    """All clips in order; returns how loud they are together."""
    with shop.progress.stage("rough cut", 1) as step:
        made.add(rough_cut_path(shop), make_rough_cut(plan, burnt, shop))
        step(1)
    return rough_cut_levels(plan, shop)
