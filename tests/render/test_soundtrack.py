"""The sound of excerpts, the names of all that is heard, and tracks one after the other."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.build import open_project
from studio.build.opening import Opened
from studio.render import hashing, sound_names
from studio.render.soundtrack import Track, blocks_of, clip_name, excerpt_name, excerpt_samples
from studio.render.workshop import Workshop
from studio.sound import wav
from studio.sound.ffmpeg import Said
from studio.sound.loudness import Levels, Loudness, measure
from studio.timeline.heard import RATE, Click, Cut, Ducking, Source, Spoken
from studio.timeline.plan import Plan, SegmentPlan
from tests.loud_episode import write_loud_episode
from tests.render.spoken_clip import spoken_over, write_voice


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    return open_project(write_loud_episode(tmp_path_factory.mktemp("loud") / "episode"))


@pytest.fixture(scope="module")
def voice_file(opened: Opened) -> Path:
    return write_voice(opened.project.root / "audio/voice.flac")


def counted_in(opened: Opened, bars: int) -> Cut:
    """Ten seconds of the recording with bars of clicks before them, half a second from beat to beat."""
    clicks = tuple(Click(beat * RATE // 2, beat % 4 == 0) for beat in range(4 * bars))
    path = str(opened.project.root / "audio/click.flac")
    cut = Cut.of((Source(path),), 2 * RATE, 10 * RATE, RATE // 100, RATE // 100)
    return replace(cut, lead=2 * bars * RATE, clicks=clicks)


def named(plan: Plan, segment: SegmentPlan, shop: Workshop) -> tuple[str, str]:
    assert segment.excerpt is not None
    return excerpt_name(plan, segment.excerpt.laid.cut, shop), clip_name(plan, segment, shop)


@pytest.mark.parametrize("bars", [0, 1, 4])
def test_a_count_in_does_not_make_the_music_louder(opened: Opened, bars: int) -> None:
    # Ten seconds of music, and up to eight seconds of clicks before it.
    cut = counted_in(opened, bars)
    samples, levels = excerpt_samples(opened.plan, cut)
    assert measure(samples[cut.lead :]).integrated == pytest.approx(-14, abs=0.05)
    assert levels.after.integrated == pytest.approx(-14, abs=0.05)
    assert levels.after.true_peak == pytest.approx(measure(samples).true_peak, abs=1e-4)
    assert levels.after.true_peak is not None and levels.after.true_peak <= -1
    if bars:  # a click's peak is 9 dB over the loudness of the music
        assert 20 * np.log10(np.abs(samples[: cut.lead]).max()) == pytest.approx(-5, abs=0.2)


def test_clicks_under_the_music_leave_it_at_the_target(opened: Opened) -> None:
    cut = replace(
        counted_in(opened, 0), clicks=tuple(Click(at, True) for at in range(0, 9 * RATE, RATE // 2))
    )
    samples, levels = excerpt_samples(opened.plan, cut)
    assert levels.after.integrated == pytest.approx(-14, abs=0.05)
    assert measure(samples).true_peak <= -1  # type: ignore[operator]


def test_names_do_not_depend_on_where_the_files_lie(opened: Opened, tmp_path: Path) -> None:
    moved = tmp_path / "moved"
    shutil.copytree(opened.project.root, moved, ignore=shutil.ignore_patterns("build"))
    other = open_project(moved)
    here, there = (Workshop(one.build, one.theme, 1) for one in (opened, other))
    assert named(opened.plan, opened.plan.segments[1], here) == named(
        other.plan, other.plan.segments[1], there
    )


def test_names_depend_on_all_that_is_heard(opened: Opened, voice_file: Path, tmp_path: Path) -> None:
    plan, shop = opened.plan, Workshop(tmp_path / "build", opened.theme, 1)
    chart = spoken_over(opened, voice_file, Ducking())
    assert chart.excerpt is not None
    cut = chart.excerpt.laid.cut
    louder = replace(cut.passes[0].sources[0], gain_db=3.0)
    changed = replace(cut, passes=(replace(cut.passes[0], sources=(louder,)),))
    later = replace(chart.excerpt, laid=replace(chart.excerpt.laid, at=chart.excerpt.laid.at + 1))
    clips = [
        chart,
        replace(chart, ducking=None),
        replace(chart, ducking=Ducking(by_db=12.0)),
        replace(chart, voice=None),
        replace(chart, camera_sound=chart.voice.laid, voice=None),  # type: ignore[union-attr]
        replace(chart, frames=301),
        replace(chart, excerpt=later),
        replace(chart, excerpt=replace(chart.excerpt, laid=replace(chart.excerpt.laid, cut=changed))),
    ]
    names = [clip_name(plan, clip, shop) for clip in clips]
    names += [clip_name(replace(plan, loudness=-16.0), chart, shop)]
    names += [clip_name(replace(plan, ceiling=-2.0), chart, shop)]
    assert len(set(names)) == len(names)


def test_another_file_under_the_same_name_is_another_sound(opened: Opened, tmp_path: Path) -> None:
    copied = tmp_path / "copied"
    shutil.copytree(opened.project.root, copied, ignore=shutil.ignore_patterns("build"))
    other = open_project(copied)
    shop = Workshop(other.build, other.theme, 1)
    before = named(other.plan, other.plan.segments[1], shop)
    sound, rate = soundfile.read(copied / "audio/click.flac")
    soundfile.write(copied / "audio/click.flac", sound * 0.9, rate, subtype="PCM_24")
    after = named(other.plan, other.plan.segments[1], shop)
    assert before[0] != after[0] and before[1] != after[1]


def test_tracks_stand_at_their_samples_however_long_they_are(tmp_path: Path) -> None:
    nothing = Loudness(None, None, None, None)
    tracks = []
    for number, length in enumerate((3 * RATE, 9 * RATE + 7, 5)):
        path = tmp_path / f"{number}.wav"
        wav.write(path, np.full((length, 2), (number + 1) / 8, np.float32))
        tracks.append(Track(str(number), path, Levels(nothing, 0.0, nothing, False), -1.0))
    places = [(tracks[0], 100), (tracks[1], 2 * RATE), (tracks[2], 20 * RATE)]
    whole = np.concatenate(list(blocks_of(places, 21 * RATE)))[:, 0]
    expected = np.zeros(21 * RATE, np.float32)
    expected[100 : 2 * RATE] = 1 / 8  # the first ends where the second begins
    expected[2 * RATE : 11 * RATE + 7] = 2 / 8
    expected[20 * RATE : 20 * RATE + 5] = 3 / 8
    assert np.array_equal(whole, expected)


def test_names_depend_on_the_module_that_says_what_is_heard(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "studio"
    shutil.copytree(hashing.PACKAGE, package, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(hashing, "PACKAGE", package)

    def name() -> str:
        hashing.code_digest.cache_clear()
        return sound_names.sound_code()

    before = name()
    assert name() == before
    for module in ("timeline/heard.py", "sound/limiter.py", "render/clip_sound.py"):
        with (package / module).open("a", encoding="utf-8") as file:
            file.write("# changed\n")
        assert name() != before
        before = name()
    with (package / "timeline/callouts.py").open("a", encoding="utf-8") as file:
        file.write("# changed\n")
    assert name() == before
    hashing.code_digest.cache_clear()


def test_names_depend_on_an_ffmpeg_of_one_s_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("IMAGEIO_FFMPEG_EXE", raising=False)
    bundled = sound_names.sound_code()
    monkeypatch.setenv("IMAGEIO_FFMPEG_EXE", str(tmp_path / "ffmpeg"))
    sound_names._said_of_itself.cache_clear()
    monkeypatch.setattr(sound_names, "run_ffmpeg", lambda _: Said(b"ffmpeg version 5", ""))
    five = sound_names.sound_code()
    sound_names._said_of_itself.cache_clear()
    monkeypatch.setattr(sound_names, "run_ffmpeg", lambda _: Said(b"ffmpeg version 6", ""))
    assert len({bundled, five, sound_names.sound_code()}) == 3
    sound_names._said_of_itself.cache_clear()


def test_a_scratch_voice_is_named_with_the_libraries_that_it_goes_through(
    opened: Opened, tmp_path: Path
) -> None:
    shop = Workshop(tmp_path / "build", opened.theme, 1)
    _, needed = sound_names.about_cut(Cut.of((Spoken("Hello.", RATE),), 0, RATE, 0, 0), shop)
    assert [one.split()[0] for one in needed] == ["espeakng-loader", "python-stretch"]  # it may be hurried
