"""The report of voices: who speaks, from which second of which file, and how the rest makes room."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from studio.project.model import Camera, DuckingAsked, Excerpt, Narration

from ..timeline.long_song import excerpt_of, project_of, sound
from .told import told_of

NARRATION = Narration(sound("voice.wav"), F(2), F(13, 2), F(1))
TAKE = replace(sound("take.mp4"), has_picture=True)
SCRIPT = "Nine steps up and nine steps down again."


def segment(
    narration: Narration | None = None,
    camera: Camera | None = None,
    excerpt: Excerpt | None = None,
    script: str = "",
    **episode: Any,
) -> dict[str, Any]:
    found = told_of(project_of(excerpt, (), script, narration, camera, **episode))["segments"][0]
    assert isinstance(found, dict)
    return found


def test_a_narration_is_told_with_its_file_and_range() -> None:
    assert segment(NARRATION)["voice"] == {
        "kind": "narration",
        "scratch": False,
        "file": "audio/voice.wav",
        "from_s": 2.0,
        "to_s": 6.5,
        "language": None,
        "starts_in_clip_s": 1.0,
        "length_s": 4.5,
    }


def test_a_scratch_voice_is_told_with_its_language_and_no_file() -> None:
    voice = segment(script=SCRIPT, scratch_voice="en-gb")["voice"]
    assert (voice["kind"], voice["scratch"], voice["language"], voice["file"]) == (
        "scratch",
        True,
        "en-gb",
        None,
    )
    assert voice["from_s"] is None and voice["length_s"] == 3.2  # eight words at 150 a minute


@pytest.mark.parametrize(
    ("narration", "on", "said", "kind"),
    [
        (None, True, "voice", "camera"),
        (NARRATION, True, "beside", "narration"),
        (NARRATION, False, "off", "narration"),
        (None, False, "off", None),
    ],
)
def test_what_the_camera_s_own_sound_is(
    narration: Narration | None, on: bool, said: str, kind: str | None
) -> None:
    found = segment(narration, Camera(TAKE, F(3), F(15), on))
    assert found["camera_sound"] == said
    assert (found["voice"] or {"kind": None})["kind"] == kind
    if kind == "camera":
        assert (found["voice"]["file"], found["voice"]["from_s"], found["voice"]["to_s"]) == (
            "audio/take.mp4",
            3,
            15,
        )


def test_without_a_camera_nothing_is_said_of_its_sound() -> None:
    assert segment(NARRATION)["camera_sound"] is None


def test_ducking_is_told_where_something_makes_room_and_only_there() -> None:
    music = excerpt_of(F(0), F(8))
    own = DuckingAsked(9.0, F(1, 4), F(1, 2))
    assert segment(NARRATION, excerpt=music)["ducking"] == {"by_dB": 15.0, "attack_s": 0.15, "release_s": 0.6}
    assert segment(NARRATION)["ducking"] is None and segment(excerpt=music)["ducking"] is None
    project = project_of(music, narration=NARRATION)
    for asked, by in ((own, {"by_dB": 9.0, "attack_s": 0.25, "release_s": 0.5}), (None, None)):
        changed = replace(project, segments=(replace(project.segments[0], ducking=asked),))
        assert told_of(changed)["segments"][0]["ducking"] == by
