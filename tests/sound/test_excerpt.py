from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound import SoundError, source
from studio.sound.excerpt import faded, render, rise
from studio.timeline.heard import Cut, Source


def _cut(*paths: Path, start: int = 0, length: int = 4800, fades: tuple[int, int] = (0, 0)) -> Cut:
    return Cut(tuple(Source(str(path)) for path in paths), start, length, *fades)


@pytest.mark.parametrize("rate", [44_100, 48_000])
@pytest.mark.parametrize("suffix", [".wav", ".flac", ".ogg"])
def test_the_start_is_within_one_sample_of_the_asked_time(click_track, rate: int, suffix: str) -> None:
    # The project's own requirement. The cut begins on the click at 1.5 s, so the click is its first sample.
    heard = render(_cut(click_track(rate, suffix), start=72_000))
    assert int(np.argmax(np.abs(heard[:, 0]))) <= 1


@pytest.mark.parametrize("suffix", [".wav", ".flac"])
def test_without_fades_it_is_ffmpegs_own_cut(tmp_path: Path, music_like, decoded, suffix: str) -> None:
    # Reference: ffmpeg's atrim, at most one step of 24 bits away.
    path = tmp_path / f"sound{suffix}"
    soundfile.write(path, music_like(48_000, 2), 48_000, subtype="PCM_24")
    reference = decoded(path, "-af", "atrim=start_sample=12345:end_sample=54321")
    ours = render(_cut(path, start=12_345, length=54_321 - 12_345))
    assert ours.dtype == np.float32 and ours.shape == reference.shape
    assert np.abs(ours - reference).max() <= 2.0**-23


def test_stems_add_up_at_their_gains(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 1)
    soundfile.write(tmp_path / "one.wav", sound, 48_000, subtype="FLOAT")
    soundfile.write(tmp_path / "two.wav", sound[::-1], 48_000, subtype="FLOAT")
    stems = (Source(str(tmp_path / "one.wav"), -6.0), Source(str(tmp_path / "two.wav")))
    heard = render(Cut(stems, 100, 1000, 0, 0))
    assert heard == pytest.approx(
        sound[100:1100] * 0.501187 + sound[::-1][100:1100], abs=1e-6
    )  # -6 dB is 0.501187


def test_a_stem_and_its_opposite_leave_silence(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 1)
    soundfile.write(tmp_path / "one.wav", sound, 48_000, subtype="FLOAT")
    soundfile.write(tmp_path / "two.wav", -sound, 48_000, subtype="FLOAT")
    assert not render(_cut(tmp_path / "one.wav", tmp_path / "two.wav", fades=(240, 240))).any()


def test_fades_begin_and_end_without_a_click(tmp_path: Path) -> None:
    # A constant is the worst case: cut hard, it steps by its full level.
    soundfile.write(tmp_path / "constant.wav", np.full((48_000, 2), 0.5), 48_000, subtype="FLOAT")
    heard = render(_cut(tmp_path / "constant.wav", length=4800, fades=(240, 480)))[:, 0]
    steps = np.abs(np.diff(np.concatenate([[0.0], heard, [0.0]])))
    assert (
        steps.max() < 0.5 * np.pi / 2 / 240 * 1.01
    )  # the steepest slope of a raised cosine is pi/2 over its length
    assert steps[0] < 1e-4 and steps[-1] < 1e-4
    assert np.all(heard[240:-480] == np.float32(0.5))


def test_a_fade_in_and_the_mirrored_fade_out_add_up_to_one() -> None:
    assert rise(480) + rise(480)[::-1] == pytest.approx(np.ones(480), abs=1e-6)
    assert np.all(np.diff(rise(480)) > 0)


def test_fading_leaves_its_input_alone() -> None:
    sound = np.ones((100, 2), np.float32)
    faded(sound, 50, 50)
    assert np.all(sound == 1)


def test_what_cannot_be_cut_is_refused_in_words(click_track) -> None:
    path = click_track(48_000, ".wav")
    with pytest.raises(SoundError, match="fade is longer"):
        render(_cut(path, length=100, fades=(101, 0)))
    with pytest.raises(SoundError, match="needs a length"):
        render(_cut(path, length=0))
    with pytest.raises(SoundError, match="ends at 4 s"):
        render(_cut(path, start=source.length(path) - 10, length=20))
