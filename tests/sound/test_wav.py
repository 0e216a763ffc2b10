from __future__ import annotations

import tracemalloc
import wave
from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as arrays

from studio.sound import SoundError, wav


def read_back(path: Path) -> np.ndarray:
    return np.concatenate(list(wav.blocks(path)))


def test_soundfile_reads_what_was_written(tmp_path: Path, music_like) -> None:
    # Reference reader: libsndfile, through soundfile.
    path = tmp_path / "excerpts" / "hook.wav"
    sound = music_like(48_000, 0.5)
    wav.write(path, sound)
    info = soundfile.info(path)
    assert (info.samplerate, info.channels, info.subtype, info.format) == (48_000, 2, "PCM_24", "WAV")
    assert np.abs(soundfile.read(path)[0] - sound).max() <= 2.0**-24  # half a step: rounded, not cut off
    assert list(path.parent.iterdir()) == [path]


@given(arrays.arrays(np.int32, (7, 2), elements=st.integers(-(2**23), 2**23 - 1)))
def test_24_bits_come_back_bit_for_bit(tmp_path_factory: pytest.TempPathFactory, steps: np.ndarray) -> None:
    path = tmp_path_factory.mktemp("wav") / "exact.wav"
    samples = (steps / 2.0**23).astype(np.float32)
    wav.write(path, samples)
    assert np.array_equal(read_back(path), samples)
    assert np.array_equal(soundfile.read(path, dtype="int32")[0], steps << 8)


def test_beyond_full_scale_is_held_there(tmp_path: Path) -> None:
    wav.write(tmp_path / "loud.wav", np.array([[2.0, -2.0], [1.0, -1.0]], np.float32))
    assert soundfile.read(tmp_path / "loud.wav", dtype="int32")[0].tolist() == [[0x7FFFFF00, -0x80000000]] * 2


def test_the_same_samples_give_the_same_bytes_in_one_block_or_many(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 0.2)
    wav.write(tmp_path / "one.wav", sound)
    wav.write(tmp_path / "many.wav", (sound[at : at + 1000] for at in range(0, len(sound), 1000)))
    assert (tmp_path / "one.wav").read_bytes() == (tmp_path / "many.wav").read_bytes()


def test_a_failure_leaves_the_old_file_and_no_half_one(tmp_path: Path, music_like) -> None:
    path = tmp_path / "hook.wav"
    wav.write(path, music_like(48_000, 0.1))
    before = path.read_bytes()

    def interrupted():
        yield music_like(48_000, 0.1)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        wav.write(path, interrupted())
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_what_is_not_ours_is_refused_in_words(tmp_path: Path) -> None:
    with pytest.raises(SoundError, match="no file"):
        read_back(tmp_path / "missing.wav")
    (tmp_path / "text.wav").write_text("no sound at all")
    with pytest.raises(SoundError, match="not a whole WAV"):
        read_back(tmp_path / "text.wav")
    with wave.open(str(tmp_path / "mono.wav"), "wb") as other:
        other.setnchannels(1)
        other.setsampwidth(2)
        other.setframerate(44_100)
    with pytest.raises(SoundError, match="24-bit stereo"):
        read_back(tmp_path / "mono.wav")


@pytest.mark.parametrize("length", [1, 7, 1000, 5000])
def test_blocks_are_the_whole(tmp_path: Path, music_like, length: int) -> None:
    wav.write(tmp_path / "long.wav", music_like(48_000, 0.1))
    found = list(wav.blocks(tmp_path / "long.wav", length))
    assert all(len(block) == length for block in found[:-1])
    assert np.array_equal(np.concatenate(found), read_back(tmp_path / "long.wav"))


def test_writing_needs_no_copy_of_the_sound(tmp_path: Path) -> None:
    # Peak of NumPy's arrays and of bytes, as tracemalloc counts them, beside the sound that was there before.
    samples = np.zeros((48_000 * 60, 2), np.float32)
    tracemalloc.start()
    wav.write(tmp_path / "long.wav", samples)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 0.2 * samples.nbytes
