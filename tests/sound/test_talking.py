"""Where somebody talks: words are found, and breaths, rooms, hum and clicks are not."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from studio.sound.samples import silence
from studio.sound.talking import HOP, Talk, frame_levels, gated_level, talks
from tests.sound.a_voice import RATE, band_noise, sentence, words

SAID = [*sentence(1.0), *sentence(6.0)]
EARLY, LATE = 0.06, 0.03  # seconds that an edge may be off


def seconds(found: list[Talk]) -> list[tuple[float, float]]:
    return [(talk.start / RATE, talk.end / RATE) for talk in found]


def assert_finds_the_words(voice: np.ndarray) -> None:
    found = seconds(talks(voice))
    for start, end in SAID:
        assert any(a <= start + 0.005 and b >= end - 0.035 for a, b in found), (
            f"a word at {start:.2f} s is lost"
        )
    quiet = [(0.0, 1.0 - EARLY), (SAID[5][1] + LATE, 6.0 - EARLY), (SAID[-1][1] + LATE, 10.0)]
    assert not any(a < last and b > first for a, b in found for first, last in quiet), "nobody talks there"


@pytest.mark.parametrize("room", [None, -80.0, -60.0, -45.0, -35.0])
def test_words_are_found_in_a_silent_room_and_in_a_noisy_one(room: float | None) -> None:
    assert_finds_the_words(words(10, SAID, room=room))


@pytest.mark.parametrize("level", [-40.0, -26.0, -12.0, 0.0])
def test_words_are_found_however_loud_the_voice_is(level: float) -> None:
    assert_finds_the_words(words(10, SAID, level=level, room=level - 40))


@pytest.mark.parametrize("hertz", [50, 60, 100])
def test_hum_of_the_mains_as_loud_as_the_voice_is_no_talk(hertz: int) -> None:
    hum = 0.14 * np.sin(2 * np.pi * hertz * np.arange(10 * RATE) / RATE)
    assert_finds_the_words(words(10, SAID, room=-60) + hum[:, None].astype(np.float32))


def test_a_breath_before_a_sentence_is_no_talk() -> None:
    """A breath lies some 20 dB under the voice and lasts about 400 ms (common practice)."""
    voice = words(10, SAID, room=-60)
    first, length = round(4.6 * RATE), round(0.4 * RATE)
    breath = band_noise(length, 500, 6000) * np.hanning(length) * 10 ** (-40 / 20)
    voice[first : first + length] += breath[:, None].astype(np.float32)
    assert_finds_the_words(voice)


def test_a_click_of_the_tongue_is_no_talk() -> None:
    voice = words(10, SAID, room=-60)
    first, length = round(4.6 * RATE), round(0.008 * RATE)
    voice[first : first + length] += (0.2 * band_noise(length, 500, 6000))[:, None].astype(np.float32)
    assert_finds_the_words(voice)


def test_a_voice_on_one_side_or_out_of_phase_talks_too() -> None:
    voice = words(10, SAID)
    one_side, turned = voice * [1, 0], voice * [1, -1]
    assert_finds_the_words(one_side.astype(np.float32))
    assert_finds_the_words(turned.astype(np.float32))


def test_a_softer_sentence_by_the_same_voice_is_talk() -> None:
    loud, soft = words(10, SAID[:6], level=-20), words(10, SAID[6:], level=-30)
    assert_finds_the_words(loud + soft)


@pytest.mark.parametrize(
    "sound",
    [
        silence(0),
        silence(7),
        silence(3 * RATE),
        words(3, [], room=-50),
        words(3, [], room=-30),
        words(3, [(1.0, 1.02)]),
        np.full((2 * RATE, 2), 0.5, np.float32),
        words(3, sentence(0.5), level=-95),
    ],
    ids=["nothing", "a few samples", "silence", "a room", "a loud room", "a click", "an offset", "too quiet"],
)
def test_nobody_talks_in_what_is_no_voice(sound: np.ndarray) -> None:
    assert talks(sound) == []


def test_talk_lies_inside_the_recording_and_apart() -> None:
    voice = words(4, [(0.0, 0.4), (0.5, 0.9), (3.5, 4.0)], room=-60)
    found = talks(voice)
    assert found[0].start == 0 and found[-1].end <= len(voice)
    assert all(one.start < one.end for one in found)
    assert all(one.end < two.start for one, two in pairwise(found))


def test_a_sine_reads_its_root_mean_square() -> None:
    tone = np.sin(2 * np.pi * 1000 * np.arange(RATE) / RATE).astype(np.float32)
    levels = frame_levels(np.stack([tone, np.zeros_like(tone)], 1))
    assert len(levels) == RATE // HOP
    assert levels[2:-2] == pytest.approx(-3.01, abs=0.05)
    assert gated_level(levels) == pytest.approx(-3.01, abs=0.05)


def test_where_it_is_cut_into_blocks_does_not_matter(monkeypatch: pytest.MonkeyPatch) -> None:
    voice = words(5, sentence(1.0), room=-50)
    whole = frame_levels(voice)
    monkeypatch.setattr("studio.sound.talking._AT_ONCE", 37)
    assert frame_levels(voice) == pytest.approx(whole, abs=1e-3)
