"""Passes with and without something, brought to one loudness."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound.excerpt import render
from studio.sound.loudness import measure
from studio.timeline.heard import Cut, Pass, Played, Source
from tests.sound.hearing import tone


def _written(path: Path, sound: np.ndarray) -> Source:
    soundfile.write(path, sound, 48_000, subtype="FLOAT")
    return Source(str(path))


def test_passes_are_matched_to_the_first(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 4)
    stem = _written(tmp_path / "stem.wav", sound)
    loud, soft = Pass((stem,), 48_000, 96_000), Pass((replace(stem, gain_db=-7.0),), 48_000, 96_000)
    cut = Cut((loud, soft), 0, 0, F(4, 5), matched=True)
    heard = render(cut)
    first, second = (measure(heard[cut.at(at) : cut.at(at + 96_000)]).integrated for at in (0, 96_000))
    assert first is not None and second == pytest.approx(first, abs=0.1)  # the step of a loudness meter
    apart = render(replace(cut, matched=False))
    assert measure(apart[cut.at(96_000) :]).integrated == pytest.approx(first - 7, abs=0.1)
    assert np.array_equal(heard[: cut.at(90_000)], apart[: cut.at(90_000)])  # the first stays as it is


@pytest.mark.parametrize("length", [4800, 9600, 19_199])
def test_passes_too_short_for_a_loudness_meter_are_matched_too(tmp_path: Path, length: int) -> None:
    stem = _written(tmp_path / "stem.wav", tone(440, 2))
    loud, soft = Pass((stem,), 24_000, length), Pass((replace(stem, gain_db=-7.0),), 24_000, length)
    heard = render(Cut((loud, soft), 0, 0, matched=True))
    whole = slice(1000, length - 1000)
    first, second = (np.sqrt(np.mean(one[whole] ** 2)) for one in (heard[:length], heard[length:]))
    assert 20 * np.log10(second / first) == pytest.approx(0, abs=0.15)


def test_next_to_nothing_is_not_blown_up(tmp_path: Path, music_like) -> None:
    stem = _written(tmp_path / "stem.wav", music_like(48_000, 3))
    loud, silent = Pass((stem,), 48_000, 48_000), Pass((replace(stem, gain_db=-50.0),), 48_000, 48_000)
    heard = render(Cut((loud, silent), 0, 0, matched=True))
    assert np.abs(heard[48_000:]).max() == pytest.approx(
        np.abs(heard[:40_000]).max() * 10 ** (-38 / 20), rel=0.1
    )
    nothing = Pass((Played(()),), 48_000, 48_000)
    assert not render(Cut((loud, nothing), 0, 0, matched=True))[48_000:].any()
