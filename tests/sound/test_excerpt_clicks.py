"""What is counted in, and clicked under the music: where, how loud, and how it ends."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound.bed import add
from studio.sound.clicks import ABOVE_LOUDNESS, LENGTH, tick
from studio.sound.excerpt import clicks_of, music, render
from studio.sound.fading import SHORTEST
from studio.sound.loudness import measure
from studio.timeline.heard import Click, Cut, Pass, Played, Source
from tests.sound.hearing import tone


def _written(path: Path, sound: np.ndarray) -> Source:
    soundfile.write(path, sound, 48_000, subtype="FLOAT")
    return Source(str(path))


def test_fades_are_for_the_music_and_clicks_lie_over_it(tmp_path: Path) -> None:
    stem = _written(tmp_path / "tone.wav", tone(220, 2))
    plain = Cut((Pass((stem,), 0, 48_000),), 4800, 4800, lead=24_000)
    clicked = replace(plain, clicks=(Click(0, True), Click(12_000, False), Click(24_000, True)))
    music, heard = render(plain), render(clicked)
    assert not music[:24_000].any() and music[24_000, 0] == pytest.approx(0, abs=1e-6)
    for click in clicked.clicks:
        assert not np.array_equal(heard[click.at], music[click.at])  # the very sample
        assert np.array_equal(heard[click.at + LENGTH :][:9000], music[click.at + LENGTH :][:9000])


def test_clicks_go_by_the_loudness_of_the_music(tmp_path: Path) -> None:
    peaks = []
    for level in (0.1, 0.2):
        stem = _written(tmp_path / f"{level}.wav", tone(997, 3, level))
        cut = Cut((Pass((stem,), 0, 96_000),), 0, 0, lead=48_000, clicks=(Click(0, True),), click_db=-6.0)
        heard = render(cut)
        peaks.append(float(np.abs(heard[:48_000]).max()))
        loudness = measure(heard[48_000:]).integrated
        assert 20 * np.log10(peaks[-1]) == pytest.approx(loudness + ABOVE_LOUDNESS - 6, abs=0.1)
    assert peaks[1] == pytest.approx(2 * peaks[0], rel=0.02)  # 6.02 dB


def test_the_music_is_there_without_its_clicks(tmp_path: Path) -> None:
    # A programme brings the music to its loudness and lays the clicks over it: a count-in must not count for it.
    stem = _written(tmp_path / "tone.wav", tone(220, 2))
    clicks = (Click(0, True), Click(12_000, False), Click(24_000, True))
    cut = Cut((Pass((stem,), 0, 48_000),), 4800, 4800, lead=24_000, clicks=clicks, click_db=-3.0)
    plain = music(cut)
    assert plain.shape == (cut.length, 2) and not plain[: cut.lead].any()
    assert np.array_equal(plain, render(replace(cut, clicks=())))
    found = list(clicks_of(cut, -14.0))
    assert [at for _, at in found] == [0, 12_000, 24_000]
    for sound, _ in found:
        assert 20 * np.log10(np.abs(sound).max()) == pytest.approx(-14 - 3 + ABOVE_LOUDNESS, abs=1e-3)
    add(plain, clicks_of(cut, measure(plain[cut.lead :]).integrated))
    assert np.array_equal(plain, render(cut))


def test_clicks_without_music_are_at_a_usual_level() -> None:
    cut = Cut((Pass((Played(()),), 0, 48_000),), 0, 0, clicks=(Click(0, True),))
    ((sound, _),) = clicks_of(cut, None)
    assert 20 * np.log10(np.abs(sound).max()) == pytest.approx(-20 + ABOVE_LOUDNESS, abs=1e-3)
    assert np.array_equal(render(cut)[:LENGTH], sound)


@pytest.mark.parametrize("before", [100, 300, 1000, LENGTH - 1])
def test_a_click_that_would_ring_on_ends_with_the_excerpt_softly(before: int) -> None:
    cut = Cut(
        (Pass((Played(()),), 0, 48_000),), 0, 0, clicks=(Click(48_000 - before, True), Click(48_000, True))
    )
    heard = render(cut)[:, 0]
    whole = tick(True)[:, 0] * 10 ** ((-20 + ABOVE_LOUDNESS) / 20)
    assert heard[48_000 - before] != 0 and np.abs(heard[-2:]).max() < np.abs(whole).max() / 1000
    untouched = max(before - SHORTEST, 0)
    assert heard[48_000 - before :][:untouched] == pytest.approx(whole[:untouched], abs=1e-6)
