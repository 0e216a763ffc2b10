"""The sound of clips: what stands beside what, how loud, and what is left quiet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.build import open_project
from studio.build.opening import Opened
from studio.render.clip_sound import clip_samples
from studio.sound.levelling import MOST_LIMITED
from studio.sound.loudness import Quiet, measure
from studio.timeline.heard import RATE, Click, Cut, Ducking, Laid, Source
from studio.timeline.plan import SegmentPlan, Voice
from tests.loud_episode import write_loud_episode
from tests.render.spoken_clip import spoken_over, whole, write_voice
from tests.sound.a_voice import sentence, words


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    return open_project(write_loud_episode(tmp_path_factory.mktemp("loud") / "episode"))


@pytest.fixture(scope="module")
def voice_file(opened: Opened) -> Path:
    return write_voice(opened.project.root / "audio/voice.flac")


def level(samples: np.ndarray) -> float:
    return float(10 * np.log10((samples.astype(np.float64) ** 2).mean() + 1e-12))


def test_music_makes_room_for_a_voice_and_both_are_at_the_target(opened: Opened, voice_file: Path) -> None:
    ducked, _ = clip_samples(opened.plan, spoken_over(opened, voice_file, Ducking(by_db=40.0)))
    alone = replace(spoken_over(opened, voice_file, None), excerpt=None)
    voice, _ = clip_samples(opened.plan, alone)
    words, music = slice(4 * RATE, 6 * RATE), slice(int(8.5 * RATE), int(9.5 * RATE))
    # With the music 40 dB down, what is left under the words is the voice, at the level that it has alone.
    assert level(ducked[words]) == pytest.approx(level(voice[words]), abs=1.5)
    assert measure(ducked[words]).integrated == pytest.approx(measure(ducked[music]).integrated, abs=2)
    plain, _ = clip_samples(opened.plan, spoken_over(opened, voice_file, None))
    # Without it, the words stand out of the music by what both are together.
    assert level(plain[words]) - level(plain[music]) > level(ducked[words]) - level(ducked[music]) + 1


def test_a_clip_is_at_the_target_and_its_peaks_are_held_once(opened: Opened, voice_file: Path) -> None:
    samples, levels = clip_samples(opened.plan, spoken_over(opened, voice_file, Ducking()))
    heard = measure(samples)
    assert levels.after == heard and heard.integrated == pytest.approx(-14, abs=0.05)
    assert heard.true_peak is not None and heard.true_peak <= -1
    assert 0 < levels.limited_by_db <= MOST_LIMITED + 0.02
    assert len(samples) == 10 * RATE


def test_the_camera_s_own_sound_stands_beside_the_music(opened: Opened, voice_file: Path) -> None:
    chart = spoken_over(opened, voice_file, Ducking(by_db=40.0))
    room = opened.project.root / "audio/room.flac"
    soundfile.write(room, np.random.default_rng(1).normal(0, 0.1, 10 * RATE), RATE, subtype="PCM_24")
    beside = replace(chart, camera_sound=whole(room))
    with_room, _ = clip_samples(opened.plan, beside)
    without, _ = clip_samples(opened.plan, chart)
    before, words = slice(0, RATE // 2), slice(4 * RATE, 6 * RATE)
    assert level(with_room[before]) > level(without[before]) + 20  # nothing else is heard yet
    assert level(with_room[words]) == pytest.approx(level(without[words]), abs=2)  # it ducks too


@pytest.mark.parametrize("bars", [0, 4])
def test_a_count_in_does_not_make_the_music_of_a_clip_louder(opened: Opened, bars: int) -> None:
    chart, lead = opened.plan.segments[1], 2 * bars * RATE
    assert chart.excerpt is not None
    clicks = tuple(Click(beat * RATE // 2, beat % 4 == 0) for beat in range(4 * bars))
    music = Cut.of((Source(str(opened.project.root / "audio/click.flac")),), 2 * RATE, 10 * RATE, 480, 480)
    excerpt = replace(chart.excerpt, laid=Laid(replace(music, lead=lead, clicks=clicks), 0))
    clip = replace(chart, frames=round((lead / RATE + 10) * 30), excerpt=excerpt)
    samples, levels = clip_samples(opened.plan, clip)
    assert measure(samples[lead:]).integrated == pytest.approx(-14, abs=0.3)
    assert levels.after.integrated == pytest.approx(-14, abs=0.05)
    assert measure(samples).true_peak <= -1  # type: ignore[operator]
    assert not bars or 20 * np.log10(np.abs(samples[:2880]).max()) == pytest.approx(-5, abs=0.5)


def test_clicks_make_room_for_a_voice_as_the_music_does(opened: Opened, voice_file: Path) -> None:
    chart = spoken_over(opened, voice_file, Ducking(by_db=40.0))
    assert chart.excerpt is not None
    clicks = tuple(Click(round(at * RATE), True) for at in (1.0, 5.0))
    music = replace(chart.excerpt.laid.cut, clicks=clicks, lead=0)
    clicking = replace(chart, excerpt=replace(chart.excerpt, laid=Laid(music, 0)))
    silent = replace(clicking, excerpt=replace(chart.excerpt, laid=Laid(replace(music, clicks=()), 0)))
    (with_clicks, _), (without, _) = (clip_samples(opened.plan, one) for one in (clicking, silent))
    beside, under = (np.abs((with_clicks - without)[at * RATE : at * RATE + 960]).max() for at in (1, 5))
    assert beside > 0.3 and under < beside / 50


# --- The camera's own sound ---


def camera_take(folder: Path, sound: np.ndarray) -> Laid:
    soundfile.write(folder / "take.wav", sound, RATE, subtype="PCM_24")
    return whole(folder / "take.wav")


def hiss(level: float) -> np.ndarray:
    """Ten seconds of a room, at a level in LUFS within 2 LU."""
    noise = np.random.default_rng(3).normal(0, 1, (10 * RATE, 2))
    return noise * 10 ** ((level - 6) / 20)


def on_camera(opened: Opened, take: Laid) -> SegmentPlan:
    return replace(opened.plan.segments[1], frames=300, voice=Voice(take, "camera"), ducking=Ducking())


@pytest.mark.parametrize("beside_music", [True, False])
def test_a_silent_take_as_voice_stays_a_quiet_room(
    opened: Opened, tmp_path: Path, beside_music: bool
) -> None:
    room = hiss(-60)
    clip = on_camera(opened, camera_take(tmp_path, room))
    if not beside_music:
        clip = replace(clip, excerpt=None)
    samples, levels = clip_samples(opened.plan, clip)
    before = samples[: RATE // 2]  # the music starts at 0.75 s
    assert level(before) == pytest.approx(level(room), abs=1.5)
    assert levels.quiet_camera == Quiet(pytest.approx(-60, abs=2), 0.0)
    assert not levels.held_by_peak
    if beside_music:
        assert levels.after.integrated == pytest.approx(-14, abs=0.05)
    else:
        assert levels.gain_db == 0 and levels.after.integrated == pytest.approx(-60, abs=2)


def test_room_tone_under_a_narration_stays_where_it_is(
    opened: Opened, voice_file: Path, tmp_path: Path
) -> None:
    room = hiss(-60)
    clip = spoken_over(opened, voice_file, Ducking())
    clip = replace(clip, excerpt=None, camera_sound=camera_take(tmp_path, room))
    samples, levels = clip_samples(opened.plan, clip)
    assert level(samples[: 2 * RATE]) == pytest.approx(level(room), abs=1)  # nobody talks yet
    assert levels.quiet_camera is not None and levels.quiet_camera.lifted_db == 0


@pytest.mark.parametrize("beside_music", [True, False])
def test_a_voice_far_from_the_camera_is_lifted_by_20_db_at_most(
    opened: Opened, tmp_path: Path, beside_music: bool
) -> None:
    take = words(10, [*sentence(1), *sentence(5)], level=-52, room=-75)
    clip = on_camera(opened, camera_take(tmp_path, take))
    samples, levels = clip_samples(opened.plan, clip if beside_music else replace(clip, excerpt=None))
    assert levels.quiet_camera is not None and levels.quiet_camera.lifted_db == 20
    if not beside_music:
        assert level(samples) == pytest.approx(level(take) + 20, abs=0.1)


def test_a_voice_and_music_that_are_recorded_well_come_to_the_target(opened: Opened, tmp_path: Path) -> None:
    at = np.arange(10 * RATE) / RATE
    organ = sum(np.sin(2 * np.pi * hertz * at) for hertz in (220, 277, 330)) * 0.015  # nobody talks so evenly
    for take in (words(10, [*sentence(1), *sentence(5)], level=-30, room=-70), np.stack([organ, organ], 1)):
        clip = replace(on_camera(opened, camera_take(tmp_path, take)), excerpt=None)
        _, levels = clip_samples(opened.plan, clip)
        assert levels.quiet_camera is None
        assert levels.after.integrated == pytest.approx(-14, abs=0.05) or levels.held_by_peak


def test_a_take_without_any_sound_is_silence_and_no_finding(opened: Opened, tmp_path: Path) -> None:
    clip = on_camera(opened, camera_take(tmp_path, np.zeros((10 * RATE, 2))))
    samples, levels = clip_samples(opened.plan, replace(clip, excerpt=None))
    assert not samples.any() and levels.quiet_camera is None


@pytest.mark.parametrize("kind", ["narration", "camera", "scratch"])
def test_a_voice_that_is_longer_than_its_clip_ends_without_a_step(
    opened: Opened, tmp_path: Path, kind: str
) -> None:
    tone = 0.3 * np.sin(2 * np.pi * 100 * np.arange(10 * RATE) / RATE)
    voice = Voice(camera_take(tmp_path, tone), kind)  # type: ignore[arg-type]
    clip = replace(opened.plan.segments[1], frames=95, voice=voice, excerpt=None)
    samples, _ = clip_samples(opened.plan, clip)
    assert np.abs(samples[-3:]).max() < 1e-3
    assert np.abs(samples[-RATE // 50 : -RATE // 100]).max() > 0.1  # and not long before
