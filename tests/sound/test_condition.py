"""The condition of sound files whose flaws are known, because they were made here."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound import source
from studio.sound.condition import Condition, condition
from studio.sound.error import SoundError, SourceError
from studio.sound.loudness import measure

FILE_RATE, RATE = 44_100, 48_000
SECONDS = 12
WHOLE = [(0, SECONDS * RATE)]


def tone(height: float = 0.3) -> np.ndarray:
    line = height * np.sin(2 * np.pi * 97 * np.arange(SECONDS * FILE_RATE) / FILE_RATE)
    return np.stack([line, line], 1)


def look(
    path: Path, sound: np.ndarray, subtype: str, parts: list[tuple[int, int]] | None = None
) -> Condition:
    soundfile.write(path, sound, FILE_RATE, subtype=subtype)
    return condition(str(path), parts or WHOLE)


def flat_tops(times: list[float], samples: int, side: int = 0) -> np.ndarray:
    sound = tone()
    for time in times:
        at = round(time * FILE_RATE)
        sound[at : at + samples, side] = 1.0
    return sound


@pytest.mark.parametrize(
    ("name", "subtype"),
    [("a.wav", "PCM_16"), ("a.wav", "PCM_24"), ("a.wav", "PCM_32"), ("a.flac", "PCM_24"), ("a.aiff", "PCM_16"),
     ("a.wav", "FLOAT")],
)  # fmt: skip
@pytest.mark.parametrize("side", [0, 1])
def test_flat_tops_are_found_in_each_format(tmp_path: Path, name: str, subtype: str, side: int) -> None:
    # 10.0 s is where a block of the reading ends.
    found = look(tmp_path / name, flat_tops([2.5, 9.9999, 11.2], 9, side), subtype)
    assert found.clipped == pytest.approx((2.5, 9.9999, 11.2), abs=0.001)
    assert found.sample_peak == pytest.approx(0, abs=0.001)
    assert found.true_peak is not None and found.true_peak > 0.1


def test_the_bottoms_of_waves_are_cut_too(tmp_path: Path) -> None:
    assert len(look(tmp_path / "a.wav", -flat_tops([2.5], 9), "PCM_16").clipped) == 1


def test_two_samples_in_a_row_are_no_flat_top(tmp_path: Path) -> None:
    assert look(tmp_path / "a.wav", flat_tops([1.0, 2.0, 3.0], 2), "PCM_24").clipped == ()
    assert len(look(tmp_path / "a.wav", flat_tops([1.0, 2.0, 3.0], 3), "PCM_24").clipped) == 3


def test_a_loud_hit_is_one_place_and_two_sides_are_too(tmp_path: Path) -> None:
    sound = flat_tops([1.0, 1.02, 1.05, 1.12], 5) + flat_tops([1.01], 5, side=1) - tone()
    assert look(tmp_path / "a.wav", np.clip(sound, -1, 1), "PCM_24").clipped == pytest.approx((1.0,))


def test_what_is_not_heard_is_not_looked_at(tmp_path: Path) -> None:
    sound = flat_tops([1.0, 5.0], 9)
    found = look(tmp_path / "a.wav", sound, "PCM_24", [(2 * RATE, 4 * RATE), (6 * RATE, 8 * RATE)])
    assert found.clipped == () and found.sample_peak == pytest.approx(20 * np.log10(0.3), abs=0.01)


def test_floating_point_numbers_may_be_over_full_scale(tmp_path: Path) -> None:
    # Nothing is cut: the numbers of the format go on.
    found = look(tmp_path / "a.wav", tone(1.7), "FLOAT")
    assert found.clipped == () and found.sample_peak == pytest.approx(20 * np.log10(1.7), abs=0.01)


@pytest.mark.parametrize("subtype", ["VORBIS", "MPEG_LAYER_III"])
def test_a_lossy_copy_of_something_clipped_is_told(tmp_path: Path, subtype: str) -> None:
    sound = np.clip(tone(2.0), -1, 1)
    assert look(tmp_path / ("a.ogg" if subtype == "VORBIS" else "a.mp3"), sound, subtype).clipped


@pytest.mark.parametrize("offset", [0.02, -0.3, 0.0])
def test_an_offset_is_measured_on_the_worse_side(tmp_path: Path, offset: float) -> None:
    sound = tone()
    sound[:, 1] += offset
    assert look(tmp_path / "a.wav", sound, "PCM_24").offset == pytest.approx(offset, abs=5e-4)


def test_a_short_stretch_says_nothing_of_an_offset(tmp_path: Path) -> None:
    assert look(tmp_path / "a.wav", tone() + 0.1, "PCM_24", [(0, RATE)]).offset is None


@pytest.mark.parametrize("rate", [44_100, 48_000, 96_000])
def test_the_true_peak_is_that_of_a_meter(tmp_path: Path, rate: int) -> None:
    # ffmpeg's meter on the same tones at 48 kHz. Their samples miss their tops by up to 0.7 dB.
    at = np.arange(3 * rate) / rate
    line = sum(np.sin(2 * np.pi * hertz * at + 1) for hertz in (441, 5003, 11_003)) * np.hanning(3 * rate) / 4
    soundfile.write(tmp_path / "a.wav", line, rate, subtype="FLOAT")
    found = condition(str(tmp_path / "a.wav"), [(0, 3 * RATE)])
    expected = measure(source.read(tmp_path / "a.wav", 0, 3 * RATE)).true_peak
    assert found.true_peak == pytest.approx(expected, abs=0.03)


def test_silence_mono_and_stretches_beyond_the_end(tmp_path: Path) -> None:
    silent = look(tmp_path / "s.wav", tone(0), "PCM_16")
    assert silent == Condition(None, None, (), 0.0)
    soundfile.write(tmp_path / "m.flac", tone()[:, 0], FILE_RATE)
    mono = condition(str(tmp_path / "m.flac"), [(0, 99 * RATE)])
    assert mono.sample_peak == pytest.approx(20 * np.log10(0.3), abs=0.01)


def test_what_only_ffmpeg_opens_is_looked_at_too(tmp_path: Path, ffmpeg) -> None:
    soundfile.write(tmp_path / "a.wav", np.clip(tone(3.0), -1, 1), FILE_RATE, subtype="PCM_24")
    ffmpeg("-i", tmp_path / "a.wav", "-c:a", "aac", tmp_path / "a.m4a")
    found = condition(str(tmp_path / "a.m4a"), WHOLE)
    assert found.true_peak is not None and found.true_peak > 0 and found.clipped
    with pytest.raises(SoundError):
        condition(str(tmp_path / "none.wav"), WHOLE)


@pytest.mark.parametrize("name", ["s.wav", "s.flac"])
@pytest.mark.parametrize("channel", [2, 3, 4])
def test_each_channel_of_surround_is_looked_at_as_it_is(tmp_path: Path, name: str, channel: int) -> None:
    # Order of WAVE_FORMAT_EXTENSIBLE: FL FR FC LFE BL BR. Folded, the centre is 3 dB down and the LFE left out.
    at = np.arange(3 * RATE) / RATE
    sound = np.zeros((3 * RATE, 6))
    sound[:, channel] = 0.4 * np.sin(2 * np.pi * 200 * at) + 0.02
    sound[RATE : RATE + 20, channel] = 1.0
    soundfile.write(tmp_path / name, sound, RATE, subtype="PCM_24")
    found = condition(str(tmp_path / name), [(0, 3 * RATE)])
    assert found.clipped == pytest.approx((1.0,), abs=0.001)
    assert found.sample_peak == pytest.approx(0, abs=0.001)
    assert found.offset == pytest.approx(0.02, abs=5e-4)


def test_channels_that_add_up_over_full_scale_are_not_clipped(tmp_path: Path) -> None:
    line = 0.8 * np.sin(2 * np.pi * 200 * np.arange(3 * RATE) / RATE)
    sound = np.zeros((3 * RATE, 6))
    sound[:, 0] = sound[:, 2] = line
    soundfile.write(tmp_path / "s.wav", sound, RATE, subtype="PCM_24")
    found = condition(str(tmp_path / "s.wav"), [(0, 3 * RATE)])
    assert found.clipped == () and found.sample_peak == pytest.approx(20 * np.log10(0.8), abs=0.01)


def test_an_mp3_without_its_header_is_looked_at_to_its_end(tmp_path: Path, ffmpeg) -> None:
    # Without the Xing header libsndfile takes its length from the bit rate of the first frames, which are silent here.
    sound = tone(0)
    sound[-5 * FILE_RATE :] = np.clip(np.random.default_rng(1).normal(0, 1, (5 * FILE_RATE, 2)), -1, 1)
    soundfile.write(tmp_path / "a.wav", sound, FILE_RATE, subtype="PCM_24")
    ffmpeg("-i", tmp_path / "a.wav", "-write_xing", "0", "-q:a", "2", tmp_path / "a.mp3")
    read = source.read(tmp_path / "a.mp3", 8 * RATE, 3 * RATE)
    found = condition(str(tmp_path / "a.mp3"), [(8 * RATE, 11 * RATE)])
    assert np.abs(read).max() > 0.9
    assert found.sample_peak is not None and found.sample_peak > -1


def test_what_is_empty_or_no_file_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "empty.wav").write_bytes(b"")
    with pytest.raises(SourceError, match="is empty"):
        condition(str(tmp_path / "empty.wav"), WHOLE)
    with pytest.raises(SourceError, match="is a folder"):
        condition(str(tmp_path), WHOLE)
