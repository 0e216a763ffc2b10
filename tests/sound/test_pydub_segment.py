from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from studio.sound.ffmpeg import ffmpeg_path
from studio.sound.pydub_segment import as_pydub, audio_segment, from_pydub


def test_there_and_back_loses_nothing_that_24_bits_keep(music_like) -> None:
    sound = (np.rint(music_like(48_000, 0.5) * 2.0**23) / 2.0**23).astype(np.float32)
    segment = as_pydub(sound)
    assert (segment.frame_rate, segment.channels, segment.sample_width) == (48_000, 2, 4)
    assert len(segment) == 500  # pydub counts milliseconds
    assert np.array_equal(from_pydub(segment), sound)


def test_pydubs_own_words_work_on_it(music_like) -> None:
    sound = music_like(48_000, 1)
    louder = from_pydub(as_pydub(sound)[250:750] - 6)
    assert louder == pytest.approx(sound[12_000:36_000] * 0.501187, abs=1e-6)  # -6 dB is 0.501187
    joined = from_pydub(as_pydub(sound[:24_000]) + as_pydub(sound[24_000:]))
    assert joined == pytest.approx(sound, abs=1e-7)


def test_a_script_can_export_through_the_bundled_ffmpeg(tmp_path: Path, music_like, decoded) -> None:
    as_pydub(music_like(48_000, 1)).export(tmp_path / "hook.mp3", format="mp3").close()
    assert audio_segment().converter == ffmpeg_path()
    assert abs(len(decoded(tmp_path / "hook.mp3")) - 48_000) < 2400


def test_segments_of_other_kinds_come_back_as_48_khz_stereo() -> None:
    at = np.arange(44_100) / 44_100
    tone = np.rint(0.5 * np.sin(2 * np.pi * 440 * at) * 32_767).astype("<i2")
    segment = audio_segment()(data=tone.tobytes(), sample_width=2, frame_rate=44_100, channels=1)
    sound = from_pydub(segment)
    expected = 0.5 * np.sin(2 * np.pi * 440 * np.arange(48_000) / 48_000)
    assert sound.shape == (48_000, 2)
    assert sound[1000:-1000, 0] == pytest.approx(expected[1000:-1000], abs=1e-3)


def test_a_machine_without_ffmpeg_sees_no_warning(tmp_path: Path) -> None:
    # A fresh process with an empty PATH, and warnings as errors: pydub looks for ffmpeg on import.
    script = "from studio.sound.pydub_segment import audio_segment; audio_segment()"
    run = subprocess.run(
        [sys.executable, "-W", "error::RuntimeWarning", "-c", script],
        env={"PATH": str(tmp_path), "IMAGEIO_FFMPEG_EXE": ffmpeg_path()},
        capture_output=True,
        text=True,
    )
    assert run.returncode == 0 and run.stderr == ""
