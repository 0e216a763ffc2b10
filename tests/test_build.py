"""A whole build of a small episode, read back with other people's readers."""

from __future__ import annotations

import json
import re
import shutil
from fractions import Fraction as F
from itertools import pairwise
from pathlib import Path

import av
import numpy as np
import pysubs2
import pytest
from av.video.reformatter import ColorRange, Colorspace
from PIL import Image

from studio.build import Opened, build_all, open_project
from studio.sound.ffmpeg import run_ffmpeg
from tests.click_episode import RATE, click_time, write_episode

pytestmark = pytest.mark.slow

BT709 = 1


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    opened = open_project(write_episode(tmp_path_factory.mktemp("episode") / "clicks"))
    build_all(opened, (), workers=2)
    return opened


def movies(opened: Opened) -> list[tuple[Path, int]]:
    clips = [(opened.build / "clips" / f"{s.id}.mp4", s.frames) for s in opened.plan.segments]
    return [*clips, (opened.build / "rough-cut.mp4", opened.plan.frames)]


def pictures(path: Path) -> list[av.VideoFrame]:
    with av.open(path.as_posix()) as container:
        return list(container.decode(video=0))


def sound(path: Path) -> np.ndarray:
    """(samples, 2) as a player hears it: what the edit list leaves out is left out."""
    with av.open(path.as_posix()) as container:
        blocks = [(frame.pts, frame.to_ndarray().T) for frame in container.decode(audio=0)]
    return np.concatenate([block for _, block in blocks])


def test_every_movie_is_what_an_editor_asks_for(built: Opened) -> None:
    # Read back with PyAV: length, frame count, constant rate, BT.709 tags (ITU-T H.273), both streams from 0.
    for path, frames in movies(built):
        with av.open(path.as_posix()) as container:
            video, audio = container.streams.video[0], container.streams.audio[0]
            assert (video.codec_context.name, audio.codec_context.name) == ("h264", "aac")
            assert video.frames == frames and video.average_rate == 30 and video.start_time == 0
            assert video.duration * video.time_base == F(frames, 30)
            context = video.codec_context
            assert (context.color_primaries, context.color_trc) == (BT709, BT709)
            assert (context.colorspace, context.color_range) == (Colorspace.ITU709, ColorRange.MPEG)
            assert audio.start_time == 0 and audio.rate == RATE
            assert abs(float(audio.duration * audio.time_base) - frames / 30) < 1e-3
        assert [frame.pts for frame in pictures(path)] == [n * 512 for n in range(frames)]


def test_every_movie_plays_without_complaint_and_before_it_is_loaded(built: Opened) -> None:
    for path, _ in movies(built):
        run_ffmpeg(["-v", "warning", "-xerror", "-i", str(path), "-f", "null", "-"])
        data = path.read_bytes()
        assert data.index(b"moov") < data.index(b"mdat")


def changes(frames: list[np.ndarray]) -> list[int]:
    """Frames at which something in the picture changes at once."""
    steps = [float(np.abs(b.astype(int) - a).max()) for a, b in pairwise(frames)]
    return [n + 1 for n, step in enumerate(steps) if step > 60]


def test_the_lit_chord_changes_on_the_click(built: Opened) -> None:
    segment = built.plan.segments[1]
    box = segment.callouts[0].layer.box
    path = built.build / "clips" / "chart.mp4"
    lit = [f.to_ndarray()[box.y : box.bottom, box.x : box.right] for f in pictures(path)]
    edges = {segment.callouts[0].layer.start, segment.callouts[0].layer.end}
    moves = [n for n in changes(lit) if all(abs(n - edge) > 6 for edge in edges)]

    heard = np.abs(sound(path)).max(axis=1)
    loud = np.flatnonzero(heard > 0.4 * heard.max())
    clicks = [int(n) for n, before in zip(loud, [-RATE, *loud[:-1]], strict=True) if n - before > RATE // 4]
    laid = segment.excerpt.laid  # type: ignore[union-attr]
    start = laid.at - laid.cut.passes[0].start
    bars = [(start + round(click_time(beat) * RATE)) / RATE for beat in range(8, 20, 4)]
    downbeats = [min(clicks, key=lambda n: abs(n / RATE - at)) / RATE for at in bars]
    for heard_at, at in zip(downbeats, bars, strict=True):
        assert abs(heard_at - at) < 0.002
        assert min(abs(n / 30 - heard_at) for n in moves) <= 1 / 30
    assert len({min(moves, key=lambda n: abs(n / 30 - at)) for at in downbeats}) == 3


def test_a_click_is_heard_where_the_plan_says(built: Opened) -> None:
    laid = built.plan.segments[1].excerpt.laid  # type: ignore[union-attr]
    expected = [
        laid.at + round(click_time(beat) * RATE) - laid.cut.passes[0].start for beat in range(8, 20, 4)
    ]
    heard = np.abs(sound(built.build / "clips" / "chart.mp4")).max(axis=1)
    for at in expected:
        assert heard[at - 200 : at - 24].max() < 0.1 * heard[at : at + 200].max()


def test_the_rough_cut_keeps_sound_and_picture_together(built: Opened) -> None:
    segment = built.plan.segments[1]
    laid = segment.excerpt.laid  # type: ignore[union-attr]
    start = segment.start * RATE // 30
    heard = np.abs(sound(built.build / "rough-cut.mp4")).max(axis=1)
    for beat in range(8, 20, 4):
        at = start + laid.at + round(click_time(beat) * RATE) - laid.cut.passes[0].start
        assert heard[at - 200 : at - 24].max() < 0.1 * heard[at : at + 200].max()


def test_colours_on_screen_are_the_theme_s(tmp_path: Path) -> None:
    # Decoded as BT.709 by swscale at the canvas that most episodes have, in flat parts of the picture.
    opened = open_project(write_episode(tmp_path / "clicks", "1920x1080 @ 30"))
    build_all(opened, ("keys",), workers=1)
    callout = opened.plan.segments[2].callouts[0]
    still = np.asarray(Image.open(opened.build / "overlays/keys" / f"{callout.name}.png")).astype(int)
    state = next(s for s in callout.layer.states if s.look == callout.still and s.opacity == 1)
    frame = pictures(opened.build / "clips" / "keys.mp4")[(state.start + state.end) // 2]
    shown = frame.reformat(format="rgb24", src_colorspace=Colorspace.ITU709).to_ndarray().astype(int)
    assert np.abs(shown[1040:1070, 100:900] - opened.theme.colours.ground).max() <= 3
    for role in ("now", "light_key"):
        colour = getattr(opened.theme.colours, role)
        flat = (still[..., 3] == 255) & (still[..., :3] == colour).all(axis=-1)
        inner = np.logical_and.reduce([np.roll(flat, n, axis) for n in range(-6, 7) for axis in (0, 1)])
        assert inner.sum() > 500, role
        assert np.abs(np.median(shown[inner], axis=0) - colour).max() <= 3, role


def test_the_take_is_seek_exact_and_keeps_its_own_clock(built: Opened) -> None:
    # 25 frames a second shown at 30, from half a second in: brightness tells which frame is shown.
    for number, frame in enumerate(pictures(built.build / "clips" / "take.mp4")):
        luma = int(np.median(frame.to_ndarray()[40:80, 100:200]))
        expected = int((F(1, 2) + F(number, 30)) * 25)
        assert abs(luma - (40 + 2 * expected)) <= 1


def test_excerpts_are_cut_on_the_music_and_at_the_target(built: Opened) -> None:
    from studio.sound.loudness import measure
    from studio.sound.wav import blocks

    for segment in built.plan.segments:
        if segment.excerpt:
            samples = np.concatenate(list(blocks(built.build / "excerpts" / f"{segment.id}.wav")))
            assert len(samples) == segment.excerpt.laid.cut.length
            loudness = measure(samples)
            assert loudness.integrated is not None and loudness.integrated <= built.plan.loudness + 0.1
            assert loudness.true_peak is not None and loudness.true_peak <= built.plan.ceiling + 0.01


def test_each_excerpt_has_a_picture_of_its_wave(built: Opened) -> None:
    shown = {path.name for path in (built.build / "waves").iterdir()}
    assert shown == {f"{segment.id}.png" for segment in built.plan.segments if segment.excerpt}
    picture = Image.open(built.build / "waves" / "chart.png")
    assert "of bars 2–5" in picture.text["Description"]  # type: ignore[attr-defined]


def test_stills_are_whole_canvases_with_straight_alpha(built: Opened) -> None:
    for segment in built.plan.segments:
        for callout in segment.callouts:
            picture = Image.open(built.build / "overlays" / segment.id / f"{callout.name}.png")
            assert picture.mode == "RGBA" and picture.size == (640, 360)
            box = callout.layer.box
            assert picture.getbbox() is not None
            alpha = np.asarray(picture)[..., 3]
            outside = alpha.copy()
            outside[box.y : box.bottom, box.x : box.right] = 0
            assert not outside.any()


def test_papers_say_what_was_made(built: Opened) -> None:
    report = json.loads((built.build / "report.json").read_text("utf-8"))
    assert [segment["id"] for segment in report["segments"]] == ["words", "chart", "keys", "take"]
    assert report["episode"]["length_frames"] == built.plan.frames
    assert report["used"]["excerpts"] == 2 and "lawful" in report["care"]
    for segment in report["segments"]:
        alone = segment.get("excerpt", {"sound": None})["sound"]
        assert (alone is not None) == (segment["id"] in ("chart", "keys"))
        assert alone is None or alone["true_peak_dBTP"] <= report["episode"]["true_peak_ceiling_dBTP"] + 0.05
    assert report["episode"]["rough_cut_sound"]["integrated_LUFS"] < 0
    assert {about["file"] for about in report["sources"]} == {"audio/click.flac"}
    assert all(callout["alt_text"] for segment in report["segments"] for callout in segment["callouts"])
    captions = pysubs2.load(str(built.build / "captions.srt"))
    assert captions[0].plaintext.startswith("One two three")
    assert re.match(r"0:00 ", (built.build / "chapters.txt").read_text("utf-8"))


def test_a_second_build_encodes_nothing_and_touches_no_file(built: Opened) -> None:
    before = {path: path.stat().st_mtime_ns for path in built.build.glob("[!.]*/*")}
    made = build_all(open_project(built.project.root), (), workers=2)
    assert made.encoded == 0
    assert not [path for path, written in made.results if written]
    assert before == {path: path.stat().st_mtime_ns for path in built.build.glob("[!.]*/*")}


def test_one_edit_makes_again_only_what_shows_it(built: Opened, tmp_path: Path) -> None:
    folder = tmp_path / "edited"
    shutil.copytree(built.project.root, folder)
    file = folder / "project.yaml"
    file.write_text(file.read_text("utf-8").replace("A take that counts", "A take that tells"), "utf-8")
    made = build_all(open_project(folder), (), workers=1)
    again = {path.name for path, written in made.results if written}
    assert {"take.mp4", "01-text.png", "rough-cut.mp4", "report.json"} <= again
    assert made.encoded == 2  # the chunk of the clip, and the chunk with its name burnt in


def test_what_a_plan_no_longer_has_is_removed(built: Opened, tmp_path: Path) -> None:
    folder = tmp_path / "edited"
    shutil.copytree(built.project.root, folder)
    assert (folder / "build/waves/keys.png").is_file() and (folder / "build/excerpts/keys.wav").is_file()
    file = folder / "project.yaml"
    text = file.read_text("utf-8").replace("    callouts: [{kind: keyboard, part: line}]\n", "")
    file.write_text(text.replace("excerpt: {where: 3.1-4.3}", "script: Bare."), "utf-8")
    build_all(open_project(folder), (), workers=1)
    left = {path.name for room in ("waves", "excerpts") for path in (folder / "build" / room).iterdir()}
    assert left == {"chart.png", "chart.wav"}


def test_one_worker_and_two_write_the_same_bytes(built: Opened, tmp_path: Path) -> None:
    folder = tmp_path / "clicks"
    shutil.copytree(built.project.root, folder, ignore=shutil.ignore_patterns("build"))
    build_all(open_project(folder), (), workers=1)
    for path in sorted(built.build.glob("[!.]*/**/*.*")) + sorted(built.build.glob("*.*")):
        if path.is_file():
            assert (folder / "build" / path.relative_to(built.build)).read_bytes() == path.read_bytes(), (
                path.name
            )


def test_a_segment_becomes_a_moviepy_clip(built: Opened) -> None:
    from studio.render import as_moviepy, overlays_as_moviepy

    ready = built.segment("keys")
    segment, clip = ready.segment, as_moviepy(ready)
    assert clip.fps == 30 and abs(clip.duration - segment.frames / 30) < 1e-9
    later, first = clip.get_frame(0.5), clip.get_frame(0)
    assert first.shape == (360, 640, 3) and np.abs(later.astype(int) - first).max() > 60
    drawn = pictures(built.build / "clips" / "keys.mp4")[15].reformat(
        format="rgb24", src_colorspace=Colorspace.ITU709
    )
    assert np.abs(drawn.to_ndarray().astype(int) - later).mean() < 2
    assert clip.audio.duration == pytest.approx(segment.frames / 30, abs=1e-3)
    placed = overlays_as_moviepy(ready)
    assert placed and all(part.mask is not None for part in placed)


@pytest.mark.parametrize("rate", ["29.97", "23.976", "25", "60"])
def test_a_gap_and_a_rate_off_the_second_keep_sound_and_picture_together(tmp_path: Path, rate: str) -> None:
    folder = write_episode(tmp_path / "clicks", f"320x240 @ {rate}")
    file = folder / "project.yaml"
    file.write_text(file.read_text("utf-8").replace("title: A chord to a bar", "at: 0:05.5"), "utf-8")
    opened = open_project(folder)
    build_all(opened, (), workers=1)
    exact, segment = opened.plan.canvas.rate, opened.plan.segments[1]
    assert segment.start == round(F(11, 2) * exact) > opened.plan.segments[0].end
    path = opened.build / "rough-cut.mp4"
    with av.open(str(path)) as container:
        video, audio = container.streams.video[0], container.streams.audio[0]
        assert video.frames == opened.plan.frames and video.average_rate == exact
        assert abs(video.duration * video.time_base - audio.duration * audio.time_base) < F(1, 1000)
    heard = np.abs(sound(path)).max(axis=1)
    laid = segment.excerpt.laid  # type: ignore[union-attr]
    for beat in range(8, 20, 4):
        at = (
            round(segment.start * RATE / exact)
            + laid.at
            + round(click_time(beat) * RATE)
            - laid.cut.passes[0].start
        )
        assert heard[at - 200 : at - 24].max() < 0.1 * heard[at : at + 200].max()
