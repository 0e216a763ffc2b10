from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import soundfile
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.sound.fading import SHORTEST
from studio.sound.mixing import at_gain, balance, dip_gains, mixed
from studio.timeline.heard import Dip, Source
from tests.sound.hearing import steps, tone


def _written(path: Path, sound: np.ndarray, rate: int = 48_000) -> str:
    soundfile.write(path, sound, rate, subtype="FLOAT")
    return str(path)


def test_the_middle_leaves_both_sides_untouched() -> None:
    assert balance(0.0) == (1.0, 1.0)


@given(st.floats(-1, 1))
def test_the_near_side_stays_and_the_two_differ_as_in_the_constant_power_law(pan: float) -> None:
    # Reference: the law of sine and cosine, common practice in mixing desks: sides at cos and sin of 0 to 90 degrees.
    angle = (1 + pan) * np.pi / 4
    left, right = balance(pan)
    assert max(left, right) == 1.0
    assert left * np.sin(angle) == pytest.approx(right * np.cos(angle), abs=1e-12)
    assert balance(-pan) == (right, left)


def test_a_pan_is_heard_and_at_the_end_the_far_side_is_silent() -> None:
    assert 20 * np.log10(balance(-0.4)[1]) == pytest.approx(-5.86, abs=0.01)  # the tangent of 27 degrees
    assert 20 * np.log10(balance(0.5)[0]) == pytest.approx(-7.66, abs=0.01)  # of 22.5
    assert balance(1.0) == (0.0, 1.0) and balance(-1.0) == (1.0, 0.0)
    assert balance(7.0) == balance(1.0)


def test_gain_and_pan_are_factors(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 1)
    path = _written(tmp_path / "stem.wav", sound)
    heard = mixed([Source(path, gain_db=6.0, pan=-0.5)], 100, 5000)
    wanted = sound[100:5100] * [1.995262, 1.995262 * 0.4142136]  # +6 dB, and tan 22.5 degrees
    assert heard == pytest.approx(wanted, abs=1e-6)


def test_a_dip_goes_down_by_its_decibels_and_back() -> None:
    gains = dip_gains(Dip(3000, 7000, 9.0, 2000), np.arange(10_000.0))
    decibels = 20 * np.log10(gains)
    assert np.all(decibels[:1000] == 0) and np.all(decibels[9000:] == 0)
    assert decibels[3000:7000] == pytest.approx(-9.0, abs=1e-5)
    assert decibels[2000] == pytest.approx(-4.5, abs=0.01)  # half of it half way
    assert gains == pytest.approx(
        np.concatenate([gains[:1000], gains[1000:9000][::-1], gains[9000:]]), abs=1e-6
    )
    slope = np.abs(np.diff(decibels))
    assert (
        slope.max() < 9 * np.pi / 2 / 2000 * 1.01
    )  # the steepest of a raised cosine, and flat where it ends
    assert max(slope[998:1010].max(), slope[2990:3000].max()) < slope.max() / 50


@pytest.mark.parametrize("over", [0, 480, 24_000])
def test_a_dip_is_at_its_depth_from_its_first_sample_to_its_last(over: int) -> None:
    # What is featured there is heard whole, its first note too: all else goes down before, and comes back after.
    samples = np.ones((60_000, 2), np.float32)
    at_gain(samples, Source("", dips=(Dip(30_000, 33_000, 12.0, over),)), 0)
    assert samples[30_000:33_000] == pytest.approx(10 ** (-12 / 20), rel=1e-5)
    glide = max(over, SHORTEST)
    assert np.all(samples[: 30_000 - glide] == 1) and np.all(samples[33_000 + glide :] == 1)
    assert np.all(samples[30_000 - glide // 2] < 1) and np.all(samples[33_000 + glide // 2] < 1)
    inside = np.ones((100, 2), np.float32)  # a pass that begins in the dip has no glide into it
    at_gain(inside, Source("", dips=(Dip(30_000, 33_000, 12.0, over),)), 30_000)
    assert np.array_equal(inside, samples[30_000:30_100])


def test_a_dip_lies_in_recording_time_wherever_reading_begins_and_however_slow_it_is() -> None:
    dip = Dip(1000, 9000, 6.0, 1000)
    whole = np.ones((12_000, 2), np.float32)
    at_gain(whole, Source("", dips=(dip,)), 0)
    part = np.ones((3000, 2), np.float32)
    at_gain(part, Source("", dips=(dip,)), 500)
    assert np.array_equal(part, whole[500:3500])
    slow = np.ones((24_000, 2), np.float32)
    at_gain(slow, Source("", dips=(dip,)), 0, 0.5)
    assert slow[::2] == pytest.approx(whole, abs=1e-6)


def test_a_dip_without_glides_makes_no_step(tmp_path: Path) -> None:
    path = _written(tmp_path / "tone.wav", tone(440, 1))
    heard = mixed(
        [Source(path, dips=(Dip(10_011, 20_022, 40.0, 0), Dip(30_000, 30_001, 40.0, 0)))], 0, 48_000
    )
    assert np.abs(np.diff(heard, axis=0)).max() <= np.abs(np.diff(tone(440, 1), axis=0)).max() + 1e-3
    assert np.abs(heard[12_000:18_000]).max() == pytest.approx(0.003, rel=0.01)  # 40 dB under 0.3


def test_complementary_stems_add_up_to_the_mix(tmp_path: Path, music_like) -> None:
    # The project's own requirement: what is soloed and what is then muted sum to the mix within -90 dBFS.
    stems = tuple(
        Source(
            _written(tmp_path / f"{number}.wav", np.roll(music_like(48_000, 2), 1000 * number, axis=0)),
            gain_db=3.0 - 2 * number,
            pan=(number - 2) / 2.5,
            dips=(Dip(20_000, 60_000, 9.0, 4800),) if number % 2 else (),
        )
        for number in range(5)
    )
    mix = mixed(stems, 1234, 90_000)
    for chosen in ({0}, {1, 3}, {0, 2, 4}):
        solo = mixed([one for number, one in enumerate(stems) if number in chosen], 1234, 90_000)
        rest = mixed([one for number, one in enumerate(stems) if number not in chosen], 1234, 90_000)
        assert np.abs(solo + rest - mix).max() < 10 ** (-90 / 20)
        assert np.abs(solo).max() > 0.1


@pytest.mark.parametrize("rate", [22_050, 44_100, 96_000])
def test_stems_of_other_rates_keep_their_place(tmp_path: Path, rate: int) -> None:
    # Reference: the sine itself, at the time of each sample.
    sound = 0.3 * np.sin(2 * np.pi * 440 * np.arange(rate * 2) / rate)
    path = _written(tmp_path / "other.wav", sound, rate)
    assert mixed([Source(path)], 30_000, 40_000) == pytest.approx(tone(440, 2)[30_000:70_000], abs=2e-4)


def test_a_stem_that_ends_sooner_is_silent_from_there_and_ends_softly(tmp_path: Path) -> None:
    long, short = tone(440, 2), np.full((48_000, 2), 0.5, np.float32)
    sources = [Source(_written(tmp_path / "long.wav", long)), Source(_written(tmp_path / "short.wav", short))]
    heard = mixed(sources, 24_000, 60_000)
    assert np.array_equal(heard[24_000:], long[48_000:84_000])
    assert heard[: 24_000 - SHORTEST] == pytest.approx(long[24_000 : 48_000 - SHORTEST] + 0.5, abs=1e-6)
    assert np.abs(np.diff(heard[20_000:], axis=0)).max() < 0.5 / SHORTEST * 1.6 + steps(long[:480])
    assert np.array_equal(mixed(sources[1:], 60_000, 100), np.zeros((100, 2)))
    # a range that ends with the file has the same samples
    assert np.array_equal(mixed(sources[1:], 40_000, 8_000), mixed(sources[1:], 40_000, 20_000)[:8_000])


@settings(max_examples=40, deadline=None)
@given(cuts=st.lists(st.integers(47_000, 49_000), min_size=1, max_size=5))
@pytest.mark.parametrize("rate", [44_100, 48_000])
def test_any_range_is_cut_from_the_same_samples_where_a_stem_ends(
    tmp_path_factory: pytest.TempPathFactory, rate: int, cuts: list[int]
) -> None:
    path = tmp_path_factory.getbasetemp() / f"short-{rate}.wav"
    if not path.exists():
        _written(path, np.full((rate, 2), 0.5, np.float32), rate)
    whole = mixed([Source(str(path))], 40_000, 10_000)
    edges = [40_000, *sorted(cuts), 50_000]
    parts = [mixed([Source(str(path))], first, end - first) for first, end in pairwise(edges)]
    assert np.array_equal(np.concatenate(parts), whole)
    assert np.abs(np.diff(whole[100:], axis=0)).max() < 0.5 / SHORTEST * 1.6


def test_a_file_that_guesses_its_length_is_heard_to_its_end(
    tmp_path: Path, music_like, ffmpeg, decoded
) -> None:
    # A variable-bit-rate MP3 without its Xing header; reference: ffmpeg's own decode of it.
    master, path = tmp_path / "master.wav", tmp_path / "sound.mp3"
    soundfile.write(master, music_like(48_000, 6), 48_000, subtype="PCM_24")
    ffmpeg("-i", master, "-c:a", "libmp3lame", "-q:a", "2", "-write_xing", "0", path)
    whole = decoded(path)
    heard = mixed([Source(str(path))], 0, len(whole) + 20_000)
    assert np.abs(heard[: len(whole)] - whole).max() < 1e-4
    assert not heard[len(whole) :].any()


def test_before_the_recording_it_is_silent(tmp_path: Path) -> None:
    path = _written(tmp_path / "tone.wav", tone(440, 1))
    heard = mixed([Source(path)], -700, 2000)
    assert not heard[:700].any()
    assert np.array_equal(heard[700:], tone(440, 1)[:1300])
    assert not mixed([Source(path)], -700, 600).any()


def test_a_constant_in_a_recording_stays_as_it_is(tmp_path: Path) -> None:
    # A DC offset is the recording's own: it is reported where files are checked, and not filtered away here.
    path = _written(tmp_path / "offset.wav", tone(440, 2) + np.float32(0.1))
    assert mixed([Source(path)], 0, 48_000).mean() == pytest.approx(0.1, abs=1e-4)


def test_blocks_fit_together(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, music_like) -> None:
    from studio.sound import source

    path = _written(tmp_path / "sound.wav", music_like(44_100, 2), 44_100)
    sources = [Source(path, -3.0, 0.3, (Dip(10_000, 50_000, 6.0, 4800),))]
    whole = mixed(sources, 1000, 80_000)
    monkeypatch.setattr(source, "BLOCK", 7_001)
    assert np.array_equal(mixed(sources, 1000, 80_000), whole)
