"""What a limiter may do to sound, and what it may not."""

from __future__ import annotations

import re
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.sound.ffmpeg import run_ffmpeg
from studio.sound.limiter import MARGIN_DB, Limiter, limited
from studio.sound.loudness import measure

RATE = 48_000
CEILING = -1.0


def both(line: np.ndarray) -> np.ndarray:
    return np.stack([line, line], 1).astype(np.float32)


def ebur128_peak(samples: np.ndarray) -> float:
    """The true peak in dBTP that the bundled ffmpeg's ebur128=peak=true finds, of 1.0 in thousandths."""
    said = run_ffmpeg(
        ["-f", "f32le", "-ar", "48000", "-ac", "2", "-i", "pipe:0", "-af",
         "apad=pad_len=9600,ebur128=peak=true:metadata=1:framelog=quiet,ametadata=mode=print:file=-",
         "-f", "null", "-"],
        [samples.astype("<f4").tobytes()],
    )  # fmt: skip
    found = re.findall(r"true_peaks_ch\d=(\S+)", said.out.decode())
    return 20 * np.log10(max(float(peak) for peak in found))


@st.composite
def loud_sounds(draw: st.DrawFn) -> np.ndarray:
    """Up to a second of noise, steps, clicks and tones up to 18 dB over full scale, the worst that there is."""
    random = np.random.default_rng(draw(st.integers(0, 2**32)))
    length = draw(st.integers(1, RATE))
    kind = draw(st.sampled_from(["noise", "steps", "clicks", "tone", "bursts"]))
    at = np.arange(length)
    if kind == "noise":
        sound = random.normal(0, 0.4, (length, 2))
    elif kind == "steps":
        sound = np.sign(random.normal(size=(length, 2)))
    elif kind == "clicks":
        sound = (random.random((length, 2)) < 0.001) * random.normal(0, 1, (length, 2))
    elif kind == "tone":
        sound = np.sin(at * random.uniform(0.001, np.pi))[:, None] * random.uniform(0.3, 1, 2)
    else:
        sound = random.normal(0, 0.4, (length, 2)) * (np.sin(at * random.uniform(1e-4, 0.01)) > 0.7)[:, None]
    return (sound * 10 ** (draw(st.floats(-20, 18)) / 20)).astype(np.float32)


@settings(max_examples=40)
@given(loud_sounds())
def test_no_true_peak_is_over_the_ceiling(sound: np.ndarray) -> None:
    held, most = limited(sound, CEILING)
    peak = measure(held).true_peak
    assert held.shape == sound.shape and most >= 0
    assert peak is None or peak <= CEILING
    assert not held.any() or ebur128_peak(held) <= CEILING + 0.005  # of its last digit


@settings(max_examples=20)
@given(loud_sounds(), st.lists(st.integers(1, 20_000) | st.integers(1, 40), min_size=1, max_size=5))
def test_a_stream_is_limited_like_the_whole(sound: np.ndarray, sizes: list[int]) -> None:
    limiter, edges = Limiter(CEILING), [0]
    while edges[-1] < len(sound):
        edges.append(edges[-1] + sizes[len(edges) % len(sizes)])
    streamed = limiter.over(sound[a:b] for a, b in pairwise(edges))
    whole, most = limited(sound, CEILING)
    assert np.array_equal(np.concatenate(list(streamed)), whole)
    assert limiter.most_db == most


@settings(max_examples=20)
@given(loud_sounds())
def test_sound_under_the_ceiling_stays_bit_for_bit(sound: np.ndarray) -> None:
    peak = measure(sound).true_peak
    quiet = sound * np.float32(10 ** (min(CEILING - MARGIN_DB - 0.01 - (peak or 0), 0) / 20))
    held, most = limited(quiet, CEILING)
    assert most == 0 and np.array_equal(held, quiet)


@settings(max_examples=20)
@given(loud_sounds())
def test_sound_is_only_ever_turned_down_and_both_sides_alike(sound: np.ndarray) -> None:
    held, _ = limited(sound, CEILING)
    assert (np.abs(held) <= np.abs(sound)).all() and (np.sign(held) * np.sign(sound) >= 0).all()
    heard = np.abs(sound) > 1e-3
    gains = np.divide(held, sound, out=np.zeros_like(sound), where=heard)
    here = heard.all(axis=1)
    assert np.allclose(gains[here, 0], gains[here, 1], atol=1e-4)


def test_nothing_goes_through_as_nothing() -> None:
    assert limited(np.zeros((0, 2), np.float32), CEILING)[0].shape == (0, 2)
    assert list(Limiter(CEILING).over([])) == []


def test_around_a_hit_all_else_is_untouched() -> None:
    sound = both(0.2 * np.sin(np.arange(RATE * 2) * 0.03))
    sound[RATE // 2] = 1.5
    held, _ = limited(sound, CEILING)
    touched = np.flatnonzero((held != sound).any(axis=1))
    assert touched[0] >= RATE // 2 - 0.009 * RATE  # 6 ms of glide and less than 3 ms of steps
    assert touched[-1] < RATE * 3 // 2


# --- Distortion ---


def harmonics(line: np.ndarray, frequency: float) -> float:
    """Power of all but the tone itself, in dB of the tone: total harmonic distortion with noise."""
    spectrum = np.abs(np.fft.rfft(line * np.blackman(len(line)) ** 2)) ** 2
    near = np.abs(np.fft.rfftfreq(len(line), 1 / RATE) - frequency) < 6
    return float(10 * np.log10(spectrum[~near].sum() / spectrum[near].sum()))


# E1, the lowest string of a bass, B0 of one with five strings, and two above; ISO 16.
@pytest.mark.parametrize("frequency", [30.87, 41.20, 55.0, 110.0])
def test_a_low_note_6_db_over_keeps_its_shape(frequency: float) -> None:
    tone = both(2 * 10 ** (CEILING / 20) * np.sin(2 * np.pi * frequency * np.arange(4 * RATE) / RATE))
    held, most = limited(tone, CEILING)
    assert 6.02 < most < 7  # where it breaks off in the middle of a wave, its peak is higher
    assert harmonics(held[2 * RATE :, 0], frequency) < -100


def test_a_low_note_that_swells_over_the_ceiling_keeps_its_shape() -> None:
    # The gain follows the swell: what it adds lies close to the tone, and overtones stay under a thousandth of it.
    at = np.arange(4 * RATE) / RATE
    tone = both(1.6 * np.sin(2 * np.pi * 55 * at) * (0.5 - 0.5 * np.cos(2 * np.pi * at / 4)))
    line = limited(tone, CEILING)[0][:, 0]
    spectrum = np.abs(np.fft.rfft(line * np.hanning(len(line)))) ** 2
    hertz = np.fft.rfftfreq(len(line), 1 / RATE)
    over = spectrum[hertz > 100].sum() / spectrum[hertz <= 100].sum()
    assert 10 * np.log10(over) < -60


# --- Pumping ---
# A limiter pumps when something that is held dips audibly with each hit over it. A hit hides what follows it for
# about 200 ms (forward masking), and a held tone has to change by about 1 dB before one hears that it did (Zwicker
# and Fastl, Psychoacoustics; both from memory). So: within 1 dB by 200 ms after the hit.
MASKED, HEARD_DB = 0.2, 1.0
HIT = 2000.0 * np.arange(RATE // 50) / RATE


def pad_under_hits(times: list[float], over_db: float) -> tuple[np.ndarray, float]:
    """A held chord tone of 440 Hz at -18 dBFS, with hits of 20 ms at 2 kHz over it, and the length of a hit."""
    line = 0.126 * np.sin(2 * np.pi * 440 * np.arange(5 * RATE) / RATE)
    hit = np.sin(2 * np.pi * HIT) * np.hanning(len(HIT)) * 10 ** ((CEILING + over_db) / 20)
    for time in times:
        line[int(time * RATE) :][: len(hit)] += hit
    return both(line), len(hit) / RATE


def pad_level(line: np.ndarray) -> np.ndarray:
    """The level of the 440 Hz tone over time, in dB of where it starts, from a window of 20 ms."""
    turned = line * np.exp(-2j * np.pi * 440 * np.arange(len(line)) / RATE)
    level = np.abs(np.convolve(turned, np.hanning(RATE // 50), "same"))
    return 20 * np.log10(level / level[RATE // 10])


def test_after_one_hit_a_held_chord_is_back_before_anyone_can_hear() -> None:
    sound, length = pad_under_hits([1.0], 6)
    level = pad_level(limited(sound, CEILING)[0][:, 0])
    assert level[int(1.03 * RATE)] < -5  # it was turned down with the hit
    assert level[int((1 + length + MASKED) * RATE) : 4 * RATE].min() > -HEARD_DB
    assert np.abs(level[RATE // 10 : int(0.98 * RATE)]).max() < 0.01  # and nothing before it but the glide


@pytest.mark.parametrize("gap", [0.5, 0.25])
def test_under_hits_on_each_beat_a_held_chord_does_not_breathe(gap: float) -> None:
    times = list(np.arange(0.5, 5, gap))
    sound, length = pad_under_hits(times, 6)
    level = pad_level(limited(sound, CEILING)[0][:, 0])
    for time, following in pairwise(times[4:-1]):
        between = level[int((time + length + MASKED) * RATE) : int((following - 0.02) * RATE)]
        if len(between):
            assert between.max() - between.min() < HEARD_DB
            assert between.min() > -3


def test_a_long_loud_part_is_turned_down_as_a_whole() -> None:
    line = 0.3 * np.sin(2 * np.pi * 440 * np.arange(5 * RATE) / RATE)
    line[RATE : 3 * RATE] *= 5
    held = limited(both(line), CEILING)[0][:, 0]
    loud = pad_level(np.where(np.abs(held) > 0, held, 0))[int(1.1 * RATE) : int(2.9 * RATE)]
    assert loud.max() - loud.min() < 0.02
