"""`report.json`: what was computed, measured and used. Every number says its unit in its name."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from fractions import Fraction
from typing import Any

from studio import __version__
from studio.handoff.excerpt_report import excerpt_about
from studio.handoff.figures import relative, seconds
from studio.handoff.sound_report import sound_of, sources_of
from studio.handoff.used_report import used
from studio.handoff.voice_report import camera_sound_about, ducking_about, voice_about
from studio.music.timecode import can_drop, timecode
from studio.project.model import Project
from studio.render.flashes import Flashes
from studio.render.measured import Measured
from studio.sound.loudness import Levels
from studio.timeline.plan import CalloutPlan, Plan, SegmentPlan

CARE = (
    "No number of seconds makes a use of a recording or a composition lawful: exceptions such as fair use and "
    "quotation depend on the country and the case. Ask a lawyer."
)


def report(
    project: Project,
    plan: Plan,
    levels: Mapping[str, Levels],
    findings: Sequence[str],
    flashes: Mapping[str, Flashes],
    measured: Measured | None = None,
    rough_cut: Levels | None = None,
) -> dict[str, Any]:
    """The report as plain data. `levels` of each clip's sound and `flashes` of its overlays, by segment id; what was
    `measured` beside the clips, and how loud the rough cut is, where there is one."""
    song = project.song
    alone = measured.excerpts if measured else {}
    return {
        "made_with": f"Stave & Slate {__version__}",
        "episode": {
            "title": plan.title,
            "canvas": plan.canvas.text,
            "length_s": seconds(plan.frames / plan.canvas.rate),
            "length_frames": plan.frames,
            "loudness_target_LUFS": plan.loudness,
            "true_peak_ceiling_dBTP": plan.ceiling,
            "rough_cut_sound": sound_of(rough_cut) if rough_cut else None,
        },
        "song": {
            "title": song.title,
            "by": song.by,
            "recording": song.rights.recording,
            "composition": song.rights.composition,
            "licence": song.rights.licence,
            "keys": [{"from": str(song.time.place(at)), "key": str(key)} for at, key in plan.keys],
            "keys_inferred": not song.keys,
        },
        "facts": [asdict(answer) for answer in plan.answers],
        "segments": [
            _segment(project, plan, segment, levels.get(segment.id), alone.get(segment.id))
            | _flashing(flashes.get(segment.id))
            for segment in plan.segments
        ],
        "sources": sources_of({relative(project, path): found for path, found in measured.sources.items()})
        if measured
        else [],
        "used": used(project, plan),
        "findings": list(findings),
        "care": CARE,
    }


def report_text(data: Mapping[str, Any]) -> str:
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def _segment(
    project: Project, plan: Plan, segment: SegmentPlan, levels: Levels | None, alone: Levels | None
) -> dict[str, Any]:
    rate = plan.canvas.rate
    about: dict[str, Any] = {
        "id": segment.id,
        "title": segment.title,
        "start": timecode(segment.start, rate, can_drop(rate)),
        "start_s": seconds(segment.start / rate),
        "length_s": seconds(segment.frames / rate),
        "length_frames": segment.frames,
        "reading_s": seconds(segment.reading),
        "callouts": [_callout(project, callout, rate) for callout in segment.callouts],
        "voice": voice_about(project, segment),
        "camera_sound": camera_sound_about(segment),
        "ducking": ducking_about(segment),
    }
    if segment.camera:
        about["camera"] = {
            "take": relative(project, segment.camera.path),
            "from_s": seconds(segment.camera.start),
            "to_s": seconds(segment.camera.end),
        }
    excerpt = project.segments[segment.number - 1].excerpt
    if segment.excerpt and excerpt:
        about["excerpt"] = excerpt_about(project, excerpt, segment.excerpt)
        if alone:
            about["excerpt"]["sound"] = sound_of(alone)
    if levels:
        about["sound"] = sound_of(levels)
    return about


def _flashing(flashes: Flashes | None) -> dict[str, Any]:
    """Flashes in the worst second of a clip's overlays; where they were not counted, there are fewer changes than
    four flashes take, and this is the most that they can be."""
    if not flashes:
        return {}
    return {
        "flashes": {
            "in_worst_second": flashes.general.count,
            "red_in_worst_second": flashes.red.count,
            "counted_on_frames": flashes.drawn,
            "checked": "overlays over the theme's ground, WCAG 2.2, 2.3.1; camera takes are not checked",
        }
    }


def _callout(project: Project, callout: CalloutPlan, rate: Fraction) -> dict[str, Any]:
    time, span = project.song.time, callout.span
    return {
        "name": callout.name,
        "kind": callout.layer.kind,
        "from_s": seconds(callout.layer.start / rate),
        "to_s": seconds(callout.layer.end / rate),
        "shown_s": [[seconds(at / rate) for at in ends] for ends in callout.layer.times],
        "where": time.words(span) if span else None,
        "alt_text": callout.alt,
    }
