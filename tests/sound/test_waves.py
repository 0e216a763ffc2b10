from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.sound import source, waves
from studio.sound.waves import wave

RATE = 48_000


def written(path: Path, sound: np.ndarray, rate: int = RATE) -> Path:
    soundfile.write(path, sound, rate, subtype="FLOAT")
    return path


@pytest.fixture(scope="module")
def noise(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, np.ndarray]:
    """Three seconds of seeded noise in stereo, and its mono fold by numpy."""
    sound = np.random.default_rng(11).uniform(-0.9, 0.9, (3 * RATE, 2)).astype(np.float32)
    path = written(tmp_path_factory.mktemp("noise") / "noise.wav", sound)
    return path, sound.mean(axis=1)


def test_a_sine_swings_between_its_peaks_in_every_column(tmp_path: Path) -> None:
    # A sine of amplitude 0.5 has its extremes at ±0.5; 20 columns of 50 ms hold 22 periods of 440 Hz each.
    at = np.arange(RATE) / RATE
    path = written(tmp_path / "sine.wav", 0.5 * np.sin(2 * np.pi * 440 * at))
    found = wave(path, F(0), F(1), 20)
    assert len(found) == 20
    for low, high in found:
        assert (low, high) == pytest.approx((-0.5, 0.5), abs=2e-3)


def test_impulses_stand_in_their_columns(click_track: Callable[[int, str], Path]) -> None:
    # Clicks at 0, 0.25, 1.0, 1.5 and 2.75 s of four: with a column for each quarter of a second they are the first
    # sample of columns 0, 1, 4, 6 and 11.
    found = wave(click_track(RATE, ".flac"), F(0), F(4), 16)
    assert [n for n, (_, high) in enumerate(found) if high > 0.5] == [0, 1, 4, 6, 11]
    assert all(low == 0 for low, _ in found)


def test_a_column_holds_its_first_sample_and_not_the_next_column_s(tmp_path: Path) -> None:
    sound = np.zeros(RATE, np.float32)
    sound[4800] = 1.0
    path = written(tmp_path / "one.wav", sound)
    assert [high for _, high in wave(path, F(0), F(1), 10)] == [0, 1, 0, 0, 0, 0, 0, 0, 0, 0]


def test_the_sides_are_folded_to_their_mean(tmp_path: Path) -> None:
    left = np.full(RATE, 0.6, np.float32)
    opposed = written(tmp_path / "opposed.wav", np.stack([left, -left], axis=1))
    assert set(wave(opposed, F(0), F(1), 4)) == {(0.0, 0.0)}
    one = written(tmp_path / "one-side.wav", np.stack([left, 0 * left], axis=1))
    assert wave(one, F(0), F(1), 1)[0] == pytest.approx((0.3, 0.3))


def test_outside_the_recording_there_is_nothing(tmp_path: Path) -> None:
    path = written(tmp_path / "short.wav", np.full(RATE, 0.5, np.float32))
    assert wave(path, F(-1), F(2), 3) == ((0.0, 0.0), (0.5, 0.5), (0.0, 0.0))
    assert wave(path, F(5), F(6), 2) == ((0.0, 0.0),) * 2
    assert wave(path, F(-3), F(-1), 2) == ((0.0, 0.0),) * 2


@settings(max_examples=30, deadline=None)
@given(
    st.fractions(F(-1, 2), F(7, 2), max_denominator=RATE),
    st.fractions(F(1, RATE), F(2), max_denominator=RATE),
    st.integers(1, 700),
)
def test_every_column_has_what_numpy_finds_in_it(
    noise: tuple[Path, np.ndarray], start: F, length: F, columns: int
) -> None:
    path, mono = noise
    found = wave(path, start, start + length, columns)
    for number in range(columns):
        edges = [start + length * n / columns for n in (number, number + 1)]
        first, last = (int(np.floor(float(edge * RATE * 2 + 1) / 2)) for edge in edges)
        heard = mono[max(first, 0) : max(last, first + 1, 0)]
        wanted = (heard.min(), heard.max()) if len(heard) else (0, 0)
        assert found[number] == pytest.approx(wanted, abs=1e-6), number


def test_blocks_change_nothing_and_no_more_than_one_is_held(
    noise: tuple[Path, np.ndarray], monkeypatch: pytest.MonkeyPatch
) -> None:
    path, _ = noise
    whole = wave(path, F(1, 7), F(20, 7), 90)
    asked: list[int] = []
    read = source.read

    def watched(path: Path, start: int, count: int) -> np.ndarray:
        asked.append(count)
        return read(path, start, count)

    monkeypatch.setattr(waves, "BLOCK", 1001)
    monkeypatch.setattr(source, "read", watched)
    waves._wave.cache_clear()
    assert wave(path, F(1, 7), F(20, 7), 90) == whole
    assert max(asked) == 1001 and sum(asked) == round((20 - 1) / 7 * RATE)


def test_a_file_is_read_once_until_it_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path / "stem.wav", np.full(RATE, 0.25, np.float32))
    assert wave(path, F(0), F(1), 1) == ((0.25, 0.25),)
    with monkeypatch.context() as nothing_is_read:
        nothing_is_read.setattr(source, "read", None)
        assert wave(path, F(0), F(1), 1) == ((0.25, 0.25),)
    written(path, np.full(2 * RATE, 0.5, np.float32))
    assert wave(path, F(0), F(1), 1) == ((0.5, 0.5),)


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".ogg", ".mp3", ".m4a"])
@pytest.mark.parametrize("rate", [44_100, 48_000])
def test_any_recording_is_measured_in_its_own_time(
    click_track: Callable[[int, str], Path], rate: int, suffix: str
) -> None:
    # Lossy coders and converters smear a click by a few milliseconds, so columns are 50 ms around the clicks.
    found = wave(click_track(rate, suffix), F(-25, 1000), F(3975, 1000), 80)
    loud = [n for n, (low, high) in enumerate(found) if max(-low, high) > 0.2]
    assert loud == [0, 5, 20, 30, 55]


def test_what_cannot_be_read_is_said_plainly(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="cannot be opened: No such file"):
        wave(tmp_path / "gone.wav", F(0), F(1), 4)
    text = tmp_path / "words.wav"
    text.write_text("these are words, not sound")
    with pytest.raises(ValueError, match=r"words\.wav"):
        wave(text, F(0), F(1), 4)
    path = written(tmp_path / "fine.wav", np.zeros(RATE, np.float32))
    for start, end, columns in ((F(1), F(1), 4), (F(0), F(1), 0)):
        with pytest.raises(ValueError, match="there is no wave"):
            wave(path, start, end, columns)
