"""Where a clip's picture and sound come from, and what of the recording an episode plays, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from studio.review.levels import level_words
from studio.review.times import exact


@dataclass(frozen=True)
class FileHeard:
    """A sound file: its true peak in dBTP, and at how many places it is clipped, of what is heard of it."""

    name: str
    peak: str
    clipped: str


def sources(about: Mapping[str, Any]) -> tuple[str, ...]:
    """Where picture and sound come from, a sentence each. `about` is what the report says of the segment."""
    found = []
    if camera := about.get("camera"):
        take, begin, end = camera["take"], camera["from_s"], camera["to_s"]
        found.append(f"Camera: {exact(begin)} to {exact(end)} of {take}.")
    voice = about.get("voice") or {}
    if voice.get("kind") == "narration":
        found.append(f"Narration: {exact(voice['from_s'])} to {exact(voice['to_s'])} of {voice['file']}.")
    excerpt = about.get("excerpt") or {}
    if files := excerpt.get("files"):
        begin, end = excerpt.get("source_in_s"), excerpt.get("source_out_s")
        stretch = f"{exact(begin)} to {exact(end)} of " if begin is not None and end is not None else ""
        found.append(f"Excerpt: {stretch}{', '.join(files)}.")
    return tuple(found)


def files_heard_in(about: Mapping[str, Any]) -> tuple[str, ...]:
    """Paths, from the project's folder on, of the sound files that are heard in a segment, each once."""
    camera, voice, excerpt = (about.get(key) or {} for key in ("camera", "voice", "excerpt"))
    beside = camera.get("take") if about.get("camera_sound") == "beside" else None
    found = (voice.get("file"), beside, *(excerpt.get("files") or ()))
    return tuple(dict.fromkeys(file for file in found if file))


def used_rows(used: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
    """What of the recording the episode plays, as (what, how much)."""
    examples = used.get("played_examples") or 0
    rows = [
        ("Excerpts of the recording", str(used["excerpts"])),
        ("Seconds of it, counting repeats", f"{used['played_s']:.1f} s"),
        ("Heard for, at the speed of each", f"{used.get('heard_s', used['played_s']):.1f} s"),
        ("Longest single excerpt, as heard", f"{used['longest_excerpt_s']:.1f} s"),
        ("Different parts of the recording", f"{used['different_parts_of_the_recording_s']:.1f} s"),
        ("Share of the episode", _percent(used["share_of_episode_percent"])),
        ("Share of the recording", _percent(used["share_of_recording_percent"])),
        ("Examples that the program plays by itself", str(examples) if examples else ""),
    ]
    return tuple(row for row in rows if row[1])


def files_heard(found: Iterable[Mapping[str, Any]]) -> tuple[FileHeard, ...]:
    """The sound files of the report, each with its true peak and at how many places it is clipped."""
    return tuple(
        FileHeard(
            about["file"],
            level_words(about.get("true_peak_dBTP")),
            str(about.get("clipped_places") or "none"),
        )
        for about in found
    )


def _percent(share: float | None) -> str:
    return "" if share is None else f"{share:.1f} %"
