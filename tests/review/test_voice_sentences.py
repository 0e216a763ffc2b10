"""What a reviewer reads about voices, from what the report says."""

from __future__ import annotations

from typing import Any

import pytest

from studio.review.sound_sentences import sound_sentences

EXCERPT = {"where": "bars 2–5", "stems": ["keys"], "starts_in_clip_s": 5.0, "length_s": 10.0}
DUCKING = {"by_dB": 15.0, "attack_s": 0.15, "release_s": 0.6}
NARRATION = {
    "kind": "narration",
    "scratch": False,
    "file": "voice/hook.wav",
    "from_s": 2.0,
    "to_s": 31.0,
    "language": None,
    "starts_in_clip_s": 1.0,
    "length_s": 29.0,
}
CAMERA = {**NARRATION, "kind": "camera", "file": "footage/desk.mp4", "starts_in_clip_s": 0.0}
SCRATCH = {**CAMERA, "kind": "scratch", "scratch": True, "file": None, "language": "en-gb"}


def said(voice: dict[str, Any] | None, **about: Any) -> tuple[str, ...]:
    return sound_sentences({"voice": voice, **about})


@pytest.mark.parametrize(
    ("voice", "words"),
    [
        (
            NARRATION,
            "A recorded narration speaks: 0:02.00 to 0:31.00 of voice/hook.wav, from 0:01.00 of the clip on.",
        ),
        (CAMERA, "The camera's own sound speaks."),
        (SCRATCH, "A scratch voice (en-gb) speaks the script; record it before you publish."),
    ],
)
def test_who_speaks_is_said_first(voice: dict[str, Any], words: str) -> None:
    assert said(voice) == (words,)
    assert said(voice, excerpt=EXCERPT, ducking=DUCKING)[0] == words
    assert said(None) == ()


def test_the_camera_beside_a_narration_and_how_all_makes_room_is_said() -> None:
    assert said(NARRATION, camera_sound="beside", excerpt=EXCERPT, ducking=DUCKING)[1:3] == (
        "The camera's own sound stands beside the narration.",
        "While the voice speaks, the camera's sound and the excerpt go down by 15 dB, over 0.15 s, and back "
        "over 0.6 s.",
    )
    assert said(NARRATION, excerpt=EXCERPT, ducking=DUCKING)[1].startswith(
        "While the voice speaks, the excerpt goes down by 15 dB"
    )


def test_music_that_does_not_make_room_is_said_too_and_music_after_the_voice_is_not_spoken_of() -> None:
    assert said(NARRATION, excerpt=EXCERPT, ducking=None)[1] == "The excerpt stays as loud under the voice."
    after = {**EXCERPT, "starts_in_clip_s": 30.0}
    for ducking in (DUCKING, None):
        assert said(NARRATION, excerpt=after, ducking=ducking)[1:] == ("The excerpt is bars 2–5: keys.",)
