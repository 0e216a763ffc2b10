"""Who speaks in a clip, when, and what makes room for whom."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest

from studio.project.lengths import reading_time
from studio.project.media import Media
from studio.project.model import Camera, DuckingAsked, Narration, Segment
from studio.timeline.heard import RATE, Ducking, Source, Spoken
from studio.timeline.voices import beside_of, ducking_of, voice_of

from .long_song import excerpt_of, placed

TAKE = Camera(Media(Path("/song/take.mp4"), F(20), True, True), F(2), F(9), True)
TOLD = Narration(Media(Path("/song/voice.wav"), F(12), True, False), F(1, 2), F(6), F(1))
WORDS = "Five words and no more."
BARE = Segment("one", "One", None, WORDS, None, None, ())


def test_a_narration_is_the_voice_and_the_camera_is_heard_beside_it() -> None:
    segment = replace(BARE, camera=TAKE, narration=TOLD)
    voice, beside = voice_of(segment, WORDS, "en"), beside_of(segment)
    assert voice is not None and voice.kind == "narration" and beside is not None
    assert voice.laid.cut.passes[0].sources == (Source("/song/voice.wav"),)
    assert (voice.laid.at, voice.laid.cut.passes[0].start, voice.laid.cut.length) == (
        RATE, RATE // 2, RATE * 11 // 2,
    )  # fmt: skip
    assert (beside.at, beside.cut.passes[0].start, beside.cut.length) == (0, 2 * RATE, 7 * RATE)


def test_else_the_cameras_own_sound_is_the_voice_and_nothing_is_beside() -> None:
    segment = replace(BARE, camera=TAKE)
    voice = voice_of(segment, WORDS, "en")
    assert voice is not None and voice.kind == "camera" and beside_of(segment) is None


@pytest.mark.parametrize("camera", [None, replace(TAKE, sound=False)])
def test_else_a_scratch_voice_reads_the_script_in_its_reading_time(camera: Camera | None) -> None:
    voice = voice_of(replace(BARE, camera=camera), WORDS, "en-gb")
    assert voice is not None and voice.kind == "scratch"
    # 150 words a minute: five take two seconds.
    assert voice.laid.cut.passes[0].sources == (Spoken(WORDS, 2 * RATE, "en-gb"),)
    assert voice.laid.at == 0 and voice.laid.cut.length == 2 * RATE == reading_time(WORDS) * RATE


@pytest.mark.parametrize(("script", "language"), [("", "en"), (WORDS, "")])
def test_nobody_speaks_where_nothing_is_written_or_no_scratch_voice_is_wanted(
    script: str, language: str
) -> None:
    assert voice_of(replace(BARE, script=script), script, language) is None


def test_ducking_is_for_a_voice_and_may_be_off() -> None:
    voice = voice_of(replace(BARE, narration=TOLD), WORDS, "")
    assert ducking_of(DuckingAsked(12.0, F(1, 10), F(1, 2)), voice) == Ducking(12.0, RATE // 10, RATE // 2)
    assert ducking_of(None, voice) is None and ducking_of(DuckingAsked(), None) is None


def test_after_the_voice_is_after_the_narration_else_after_the_reading() -> None:
    excerpt = excerpt_of(F(0), F(4), F(-4), at=None)
    assert placed(excerpt, script=WORDS, narration=TOLD).start == F(13, 2)
    found = placed(excerpt, script=WORDS)
    assert found.start == 2 and found.plan.laid.at == 2 * RATE
    assert found.heard[0].clip == 2 + 2  # four beats of count-in at 120
