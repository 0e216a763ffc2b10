"""Who speaks in a clip and how the rest makes room, in words, from what the report says of the segment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from studio.review.times import exact
from studio.theory.plain_english import listed


def voice_sentences(about: Mapping[str, Any]) -> Iterator[str]:
    """Who speaks, what the camera's own sound does, and by how much the music goes down; no capitals, no full stops."""
    voice = about.get("voice")
    if voice:
        yield _voice(voice)
    if about.get("camera_sound") == "beside":
        yield "the camera's own sound stands beside the narration"
    beside = _beside(about, voice) if voice else []
    if beside and (ducking := about.get("ducking")):
        yield (
            f"while the voice speaks, {listed(beside)} {'goes' if len(beside) == 1 else 'go'} down by "
            f"{ducking['by_dB']:g} dB, over {ducking['attack_s']:g} s, and back over {ducking['release_s']:g} s"
        )
    elif beside:
        yield f"{listed(beside)} {'stays' if len(beside) == 1 else 'stay'} as loud under the voice"


def _voice(voice: Mapping[str, Any]) -> str:
    if voice["scratch"]:
        return f"a scratch voice ({voice['language']}) speaks the script; record it before you publish"
    if voice["kind"] == "camera":
        return "the camera's own sound speaks"
    stretch = f"{exact(voice['from_s'])} to {exact(voice['to_s'])} of {voice['file']}"
    start = voice["starts_in_clip_s"]
    return f"a recorded narration speaks: {stretch}" + (
        f", from {exact(start)} of the clip on" if start else ""
    )


def _beside(about: Mapping[str, Any], voice: Mapping[str, Any]) -> list[str]:
    """What sounds at the same time as the voice."""
    found = ["the camera's sound"] if about.get("camera_sound") == "beside" else []
    return [*found, "the excerpt"] if speaks_over_excerpt(about, voice) else found


def speaks_over_excerpt(about: Mapping[str, Any], voice: Mapping[str, Any]) -> bool:
    """Whether an excerpt sounds while the voice speaks."""
    excerpt = about.get("excerpt")
    if not excerpt:
        return False
    start, spoken = excerpt["starts_in_clip_s"], voice["starts_in_clip_s"]
    return bool(start < spoken + voice["length_s"] and spoken < start + excerpt["length_s"])
