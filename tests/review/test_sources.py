"""Where picture and sound come from, and what is used of the recording, as a reviewer reads it."""

from __future__ import annotations

from studio.review.sources import files_heard, files_heard_in, sources, used_rows

USED = {
    "excerpts": 2,
    "played_s": 20.0,
    "heard_s": 25.0,
    "longest_excerpt_s": 15.0,
    "different_parts_of_the_recording_s": 8.0,
    "share_of_episode_percent": 40.0,
    "share_of_recording_percent": None,
}


def test_sources_are_said_with_their_stretch_where_they_have_one() -> None:
    camera = {"take": "footage/a.mp4", "from_s": 0.5, "to_s": 62.0}
    excerpt = {"files": ["a.wav", "b.wav"], "source_in_s": 2.886, "source_out_s": 15.0}
    voice = {"kind": "narration", "file": "voice/a.wav", "from_s": 2.0, "to_s": 31.25}
    assert sources({"camera": camera, "voice": voice, "excerpt": excerpt}) == (
        "Camera: 0:00.50 to 1:02.00 of footage/a.mp4.",
        "Narration: 0:02.00 to 0:31.25 of voice/a.wav.",
        "Excerpt: 0:02.89 to 0:15.00 of a.wav, b.wav.",
    )
    nowhere = {"files": ["a.wav"], "source_in_s": None, "source_out_s": None}
    assert sources({"excerpt": nowhere}) == ("Excerpt: a.wav.",)
    assert sources({"excerpt": {"files": []}}) == ()


def test_the_condition_of_files_is_a_row_each() -> None:
    (one, two) = files_heard(
        [
            {"file": "a.wav", "true_peak_dBTP": -3.21, "clipped_places": 0},
            {"file": "b.wav", "true_peak_dBTP": None, "clipped_places": 3},
        ]
    )
    assert (one.name, one.peak, one.clipped) == ("a.wav", "−3.2", "none")
    assert (two.peak, two.clipped) == ("–", "3")


def test_what_is_used_tells_seconds_of_the_recording_from_seconds_as_heard() -> None:
    rows = dict(used_rows(USED))
    assert rows["Seconds of it, counting repeats"] == "20.0 s"
    assert rows["Heard for, at the speed of each"] == "25.0 s"
    assert "Share of the recording" not in rows
    assert dict(used_rows({**USED, "played_examples": 3}))["Examples that the program plays by itself"] == "3"


def test_files_that_are_heard_in_a_segment_are_those_of_voice_camera_and_excerpt() -> None:
    take, narration, excerpt = (
        {"take": "footage/a.mp4"},
        {"file": "voice/a.wav"},
        {"files": ["song/a.wav", "b.wav"]},
    )
    about = {"camera": take, "voice": narration, "excerpt": excerpt}
    assert files_heard_in({**about, "camera_sound": "off"}) == ("voice/a.wav", "song/a.wav", "b.wav")
    assert "footage/a.mp4" in files_heard_in({**about, "camera_sound": "beside"})
    assert files_heard_in({"voice": {"file": "footage/a.mp4"}, "camera": take, "camera_sound": "voice"}) == (
        "footage/a.mp4",
    )
    assert files_heard_in({"voice": None, "excerpt": {"files": []}}) == ()
