"""`report.json`: what was computed, measured and used. Every number says its unit in its name."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from fractions import Fraction
from typing import Any

from studio import __version__
from studio.music.timecode import can_drop, timecode
from studio.project.model import Project
from studio.render.flashes import Flashes
from studio.sound.loudness import Levels
from studio.timeline.heard import RATE
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
) -> dict[str, Any]:
    """The report as plain data. `levels` of each clip's sound and `flashes` of its overlays, by segment id."""
    song = project.song
    return {
        "made_with": f"Stave & Slate {__version__}",
        "episode": {
            "title": plan.title,
            "canvas": plan.canvas.text,
            "length_s": _seconds(plan.frames / plan.canvas.rate),
            "length_frames": plan.frames,
            "loudness_target_LUFS": plan.loudness,
            "true_peak_ceiling_dBTP": plan.ceiling,
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
            _segment(project, plan, segment, levels.get(segment.id)) | _flashing(flashes.get(segment.id))
            for segment in plan.segments
        ],
        "used": _used(project, plan),
        "findings": list(findings),
        "care": CARE,
    }


def report_text(data: Mapping[str, Any]) -> str:
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def _segment(project: Project, plan: Plan, segment: SegmentPlan, levels: Levels | None) -> dict[str, Any]:
    rate = plan.canvas.rate
    about: dict[str, Any] = {
        "id": segment.id,
        "title": segment.title,
        "start": timecode(segment.start, rate, can_drop(rate)),
        "start_s": _seconds(segment.start / rate),
        "length_s": _seconds(segment.frames / rate),
        "length_frames": segment.frames,
        "reading_s": _seconds(segment.reading),
        "callouts": [_callout(project, callout, rate) for callout in segment.callouts],
    }
    if segment.camera:
        about["camera"] = {
            "take": _relative(project, segment.camera.path),
            "from_s": _seconds(segment.camera.start),
            "to_s": _seconds(segment.camera.end),
        }
    if segment.excerpt:
        cut, span = segment.excerpt.laid.cut, segment.excerpt.span
        about["excerpt"] = {
            "where": project.song.time.words(span),
            "stems": list(segment.excerpt.names) or ["full recording"],
            "files": [_relative(project, source.path) for source in cut.sources],
            "source_in_s": _seconds(Fraction(cut.start, RATE)),
            "source_out_s": _seconds(Fraction(cut.end, RATE)),
            "length_s": _seconds(Fraction(cut.length, RATE)),
            "starts_in_clip_s": _seconds(Fraction(segment.excerpt.laid.at, RATE)),
        }
    if levels:
        about["sound"] = {
            "integrated_LUFS": levels.after.integrated,
            "short_term_maximum_LUFS": levels.after.short_term_max,
            "loudness_range_LU": levels.after.range,
            "true_peak_dBTP": levels.after.true_peak,
            "gain_dB": levels.gain_db,
            "held_by_peaks": levels.held_by_peak,
        }
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
        "from_s": _seconds(callout.layer.start / rate),
        "to_s": _seconds(callout.layer.end / rate),
        "where": time.words(span) if span else None,
        "alt_text": callout.alt,
    }


def _used(project: Project, plan: Plan) -> dict[str, Any]:
    """Seconds of the recording that the episode plays: all told, counting repeats, and the longest at once."""
    cuts = [segment.excerpt.laid.cut for segment in plan.segments if segment.excerpt]
    played = Fraction(sum(cut.length for cut in cuts), RATE)
    covered, reach = 0, 0
    for cut in sorted(cuts, key=lambda cut: cut.start):
        covered += max(0, cut.end - max(cut.start, reach))
        reach = max(reach, cut.end)
    recording = project.song.recording
    episode = plan.frames / plan.canvas.rate
    return {
        "excerpts": len(cuts),
        "played_s": _seconds(played),
        "longest_excerpt_s": _seconds(Fraction(max((cut.length for cut in cuts), default=0), RATE)),
        "different_parts_of_the_recording_s": _seconds(Fraction(covered, RATE)),
        "share_of_episode_percent": _percent(played, episode),
        "share_of_recording_percent": _percent(Fraction(covered, RATE), recording.seconds)
        if recording
        else None,
    }


def _relative(project: Project, path: str) -> str:
    root = project.root.as_posix().rstrip("/") + "/"
    return path.removeprefix(root)


def _percent(part: Fraction, whole: Fraction) -> float | None:
    return round(float(100 * part / whole), 2) if whole else None


def _seconds(seconds: Fraction) -> float:
    return round(float(seconds), 6)
