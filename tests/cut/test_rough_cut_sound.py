"""The rough cut's sound against the target, as the bundled ffmpeg measures the file that a player would play."""

from __future__ import annotations

import tracemalloc
from dataclasses import replace
from pathlib import Path

import pytest

from studio.build import build_all, open_project
from studio.build.opening import Opened
from studio.cut.rough_cut import make_rough_cut, rough_cut_levels, rough_cut_path
from studio.cut.rough_cut_sound import rough_cut_sound
from studio.render.clip_sound import samples_at
from studio.render.clips import clip_path
from studio.render.soundtrack import clip_track, excerpt_track
from studio.render.workshop import Workshop
from studio.sound.loudness import measure_file
from tests.click_episode import write_episode
from tests.loud_episode import printed_by_ffmpeg, write_loud_episode


@pytest.fixture(scope="module")
def loud(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    return open_project(write_loud_episode(tmp_path_factory.mktemp("loud") / "episode"))


@pytest.fixture(scope="module")
def shop(loud: Opened) -> Workshop:
    return Workshop(loud.build, loud.theme, 1)


def test_the_whole_is_at_the_target_with_its_peaks_held(loud: Opened, shop: Workshop) -> None:
    path, levels = rough_cut_sound(loud.plan, shop)
    integrated, peak = printed_by_ffmpeg(path)
    assert integrated == pytest.approx(-14, abs=0.1)
    assert peak <= -1.0
    assert levels.after == measure_file(path)
    assert levels.after.integrated == pytest.approx(-14, abs=0.1) and levels.after.true_peak <= -1.0
    assert not levels.held_by_peak


def test_each_clip_and_excerpt_is_too_and_its_limiter_had_work(loud: Opened, shop: Workshop) -> None:
    for segment in loud.plan.segments:
        if segment.excerpt:
            track = excerpt_track(loud.plan, segment, shop)
            assert track is not None
            for one in (track, clip_track(loud.plan, segment, shop)):
                integrated, peak = printed_by_ffmpeg(one.path)
                assert integrated == pytest.approx(-14, abs=0.1) and peak <= -1.0
                assert one.levels.limited_by_db > 1 and not one.levels.held_by_peak


def test_it_is_made_once_and_known_after(loud: Opened, shop: Workshop) -> None:
    path, levels = rough_cut_sound(loud.plan, shop)
    made, changed = shop.encoded, path.stat().st_ino
    assert rough_cut_levels(loud.plan, shop) == levels
    assert shop.encoded == made and path.stat().st_ino == changed
    path.with_suffix(".json").write_text("{", "utf-8")
    assert rough_cut_levels(loud.plan, shop) == levels


@pytest.mark.slow
def test_another_target_is_another_sound(loud: Opened, shop: Workshop) -> None:
    softer = replace(loud.plan, loudness=-23.0)
    path, levels = rough_cut_sound(softer, shop)
    assert path != rough_cut_sound(loud.plan, shop)[0]
    assert levels.after.integrated == pytest.approx(-23, abs=0.1) and levels.limited_by_db == 0


@pytest.mark.slow
def test_hard_hits_are_not_limited_again_in_the_whole(tmp_path: Path) -> None:
    # Bare clicks have so little between their peaks that no limiter may bring them to the target.
    opened = open_project(write_episode(tmp_path / "clicks"))
    _, levels = rough_cut_sound(opened.plan, Workshop(opened.build, opened.theme, 1))
    assert levels.held_by_peak and levels.after.integrated < -15
    assert levels.limited_by_db < 1.3  # the clips' own limiters took 6 dB before


@pytest.mark.slow
def test_a_long_episode_needs_no_more_memory_than_a_short_one(loud: Opened, shop: Workshop) -> None:
    # Peak of NumPy's arrays, as tracemalloc counts them, while the whole is levelled and encoded: a few blocks of 4 s.
    segment = loud.plan.segments[1]
    clip_track(loud.plan, segment, shop)  # is in the store then
    many = tuple(replace(segment, start=segment.frames * number) for number in range(8))
    tracemalloc.start()
    rough_cut_sound(replace(loud.plan, segments=many), shop)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 16e6 < 0.5 * samples_at(many[-1].end, loud.plan.canvas.rate) * 8  # bytes of a stereo sample


@pytest.mark.slow
def test_the_files_of_a_build_are_at_the_target(loud: Opened, shop: Workshop) -> None:
    make_rough_cut(loud.plan, True, shop)
    build_all(loud, (), workers=2)
    integrated, peak = printed_by_ffmpeg(rough_cut_path(shop))
    assert integrated == pytest.approx(-14, abs=0.5) and peak <= -1.0
    for segment in loud.plan.segments:
        if segment.excerpt:
            integrated, peak = printed_by_ffmpeg(clip_path(segment, shop))
            assert integrated == pytest.approx(-14, abs=0.5) and peak <= -1.0
