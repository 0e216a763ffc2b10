"""The report of an excerpt: what sounds, and how it is heard."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

from studio.music.place import Span
from studio.project.model import Excerpt, Featured, Instead, Play, StemLevel

from ..timeline.long_song import excerpt_of, sound
from .told import told

CHORDS = Play("chords", "chords", "sustained")


def excerpt(data: dict[str, Any], number: int = 0) -> dict[str, Any]:
    found = data["segments"][number]["excerpt"]
    assert isinstance(found, dict)
    return found


def test_how_an_excerpt_is_heard_is_told_in_numbers() -> None:
    found = excerpt(
        told(
            excerpt_of(
                F(0), F(8), F(-4), F(2), repeat=3, speed=F(4, 5), cents=F(-15), click=-6.0, at=F(1), fade_out=F(1),
                names=("drums", "keys"), sources=(sound("drums.wav"), sound("keys.wav")),
                levels={"keys": StemLevel(-3.0, 0.5)}, featured=Featured("keys", 9.0, Span(F(4), F(8))),
            )
        )
    )  # fmt: skip
    assert found["where"] == "bars 1–2" and found["stems"] == ["drums", "keys"]
    assert found["files"] == ["audio/drums.wav", "audio/keys.wav"]
    assert (found["passes"], found["speed_ratio"], found["pitch_cents"]) == (3, 0.8, -15.0)
    # Four beats of count-in at 120; bars 1 and 2 take 3 s at 120 and 1.25 s at 96; all of it at 4/5.
    assert found["count_in_s"] == 2.5 and found["tail_s"] == 1.5625
    assert found["length_s"] == 2.5 + 3 * 5.3125 + 1.5625 and found["starts_in_clip_s"] == 1
    assert (found["source_in_s"], found["source_out_s"]) == (1, 6.5)
    assert found["click"] is True and found["click_dB"] == -6 and found["fade_out_s"] == 1
    assert found["levels"] == {"keys": {"gain_dB": -3.0, "pan_left_to_right": 0.5}}
    assert found["featured"] == {"stem": "keys", "others_lower_by_dB": 9.0, "where": "bar 2"}
    assert found["played"] == [] and found["changed"] == []


def test_the_full_recording_is_called_that() -> None:
    found = excerpt(told(excerpt_of(F(0), F(8))))
    assert found["stems"] == ["full recording"] and found["levels"] == {} and found["featured"] is None
    assert found["click"] is False and found["count_in_s"] == 0


def test_a_played_example_names_what_is_played_and_what_is_changed_and_no_file() -> None:
    found = excerpt(
        told(excerpt_of(F(0), F(8), sources=(), plays=(CHORDS,), instead=(Instead(Span(F(4), F(8)), "Dm"),)))
    )
    assert found["played"] == [{"what": "chords", "sound": "sustained"}]
    assert found["stems"] == [] and found["files"] == [] and found["passes"] == 2
    assert found["changed"] == [{"where": "bar 2", "to": "Dm", "written": ["F", "G"]}]


def test_what_is_played_in_no_place_of_the_song_has_no_place_in_the_recording() -> None:
    by_itself = Excerpt(F(0), F(0), None, (), (), F(0), F(0), plays=(Play("chord", "C", tempo=F(60)),))
    found = excerpt(told(by_itself))
    assert found["where"] is None and found["source_in_s"] is None and found["length_s"] == 4


def test_every_number_has_its_unit_in_its_name_or_is_a_count() -> None:
    found = excerpt(
        told(
            excerpt_of(
                F(0), F(8), speed=F(4, 5), cents=F(-15), names=("keys",), sources=(sound("keys.wav"),),
                levels={"keys": StemLevel(-3.0, 0.5)},
            )
        )
    )  # fmt: skip
    units = ("_s", "_dB", "_cents", "_ratio", "_left_to_right")
    for key, value in {**found, **found["levels"]["keys"]}.items():
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            assert key.endswith(units) or key == "passes", key
