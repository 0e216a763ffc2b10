"""The demo's sound and its camera take, read back with soundfile (libsndfile) and PyAV (FFmpeg).

Pitches are checked against ISO 16 (A4 = 440 Hz) and equal temperament, f = 440 * 2 ** ((n - 69) / 12) for MIDI note n.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import av
import numpy as np
import pytest
import soundfile

from tests.demo.conftest import DEMO, Song, read_part

STEMS = ("drums", "bass", "keys", "guitar", "lead")
RATE = 48_000


def _file(name: str) -> Path:
    return DEMO / "audio" / f"{name}.ogg"


@lru_cache(maxsize=8)
def _whole(name: str) -> np.ndarray:
    """(samples, channels)"""
    sound, _ = soundfile.read(_file(name), dtype="float32", always_2d=True)
    return np.asarray(sound)


def _cut(name: str, start: float, seconds: float) -> np.ndarray:
    """Mono, from a time on."""
    first = round(start * RATE)
    return _whole(name)[first : first + round(seconds * RATE)].mean(axis=1).astype(np.float64)


def _level(sound: np.ndarray) -> float:
    """Root mean square in dBFS."""
    return float(10 * np.log10((sound.astype(np.float64) ** 2).mean() + 1e-12))


def test_files_are_small_alike_and_at_48_khz() -> None:
    found = [soundfile.info(_file(name)) for name in (*STEMS, "mix")]
    assert {info.samplerate for info in found} == {RATE}
    assert len({info.frames for info in found}) == 1
    assert sum(path.stat().st_size for path in (DEMO / "audio").iterdir()) <= 8_000_000
    assert 135 <= found[0].frames / RATE <= 160


@pytest.mark.parametrize("name", [*STEMS, "mix"])
@pytest.mark.slow
def test_no_clipping_no_dc_and_silent_ends(name: str) -> None:
    sound = _whole(name)
    assert np.abs(sound).max() < 10 ** (-1 / 20)
    assert np.abs(sound.mean(axis=0)).max() < 1e-3
    assert _level(sound[: RATE // 4]) < -60
    assert _level(sound[-RATE // 20 :]) < -55


def test_stems_are_balanced() -> None:
    levels = {name: _level(_whole(name)) for name in STEMS}
    assert max(levels.values()) - min(levels.values()) < 8
    assert -20 < _level(_whole("mix")) < -14


def test_stems_add_up_to_the_mix_without_an_offset() -> None:
    """Vorbis keeps no waveform exactly, so the difference is judged by its level and by where the two agree best."""
    start, seconds = 62.0, 8.0
    total = sum((_cut(name, start, seconds) for name in STEMS), np.zeros(round(seconds * RATE)))
    mix = _cut("mix", start, seconds)
    assert _level(total - mix) < _level(mix) - 15
    agreement = np.fft.irfft(np.fft.rfft(total) * np.conj(np.fft.rfft(mix)))
    assert int(np.argmax(agreement)) == 0


def _strongest(sound: np.ndarray, low: float, high: float) -> float:
    """Frequency of the strongest partial between two frequencies, in hertz."""
    size = 1 << 18
    spectrum = np.abs(np.fft.rfft(sound * np.hanning(len(sound)), size))
    hertz = np.fft.rfftfreq(size, 1 / RATE)
    inside = (hertz > low) & (hertz < high)
    return float(hertz[inside][np.argmax(spectrum[inside])])


@pytest.mark.parametrize(
    ("bar", "beat"),
    [(5, 1), (7, 1), (7, 2), (7, 3), (10, 3), (13, 1), (13, 2), (15, 1), (15, 2), (27, 1), (36, 2), (43, 1), (59, 1)],
)  # fmt: skip
def test_the_written_note_is_heard_when_the_anchors_say(song: Song, bar: int, beat: float) -> None:
    place = song.at(bar, beat)
    note = next(n for n in read_part("lead") if n.onset <= place < n.end)
    written = 440 * 2 ** ((note.midi - 69) / 12)
    heard = _strongest(_cut("lead", song.seconds(place) + 0.09, 0.30), 200, 900)
    assert abs(1200 * np.log2(heard / written)) < 25


@pytest.mark.parametrize("bar", [1, 13, 29, 38, 46, 58])
def test_the_kick_marks_each_anchor(song: Song, bar: int) -> None:
    at = song.seconds(song.at(bar))
    assert at == pytest.approx(float(song.anchors[bar]))
    before, after = _cut("drums", at - 0.02, 0.018), _cut("drums", at, 0.018)
    assert _level(after) > _level(before) + 10


def test_hand_claps_are_heard_alone_in_the_short_bar(song: Song) -> None:
    """The clap's band, 1 to 2.5 kHz, at beats 2 and 2.5 of bar 37 against the moment just before each."""
    for beat in (2, 2.5):
        at = song.seconds(song.at(37, beat))
        levels = []
        for start in (at - 0.06, at + 0.005):
            spectrum = np.fft.rfft(_cut("drums", start, 0.05))
            hertz = np.fft.rfftfreq(round(0.05 * RATE), 1 / RATE)
            levels.append(
                10 * np.log10((np.abs(spectrum[(hertz > 1000) & (hertz < 2500)]) ** 2).sum() + 1e-12)
            )
        assert levels[1] > levels[0] + 10


# ---- the camera take


TAKE = DEMO / "footage" / "desk.mp4"


def test_the_take_is_small_and_tagged() -> None:
    """Colour codes are those of ITU-T H.273: 1 is BT.709 in each table, range 1 is limited (FFmpeg's numbering)."""
    assert TAKE.stat().st_size < 1_000_000
    with av.open(str(TAKE)) as file:
        video, audio = file.streams.video[0], file.streams.audio[0]
        context = video.codec_context
        assert (context.name, context.width, context.height, context.pix_fmt) == (
            "h264",
            1280,
            720,
            "yuv420p",
        )
        assert (context.colorspace, context.color_primaries, context.color_trc, context.color_range) == (
            1,
            1,
            1,
            1,
        )
        assert video.average_rate == 30 and video.frames == 360
        assert (audio.codec_context.name, audio.codec_context.sample_rate) == ("aac", RATE)


def _take_pictures(first: int, last: int) -> list[np.ndarray]:
    with av.open(str(TAKE)) as file:
        frames = []
        for n, frame in enumerate(file.decode(video=0)):
            if n > last:
                break
            if n >= first:
                frames.append(frame.to_ndarray(format="rgb24").astype(np.int16))
    return frames


def _take_sound() -> np.ndarray:
    with av.open(str(TAKE)) as file:
        blocks = [frame.to_ndarray().mean(axis=0) for frame in file.decode(audio=0)]
    return np.concatenate(blocks).astype(np.float64)


def test_a_key_goes_down_on_the_frame_in_which_it_is_heard() -> None:
    """The C# of the last but one chord: the frame where its key changes most, and where 277 Hz comes in, near 5 s."""
    pictures = _take_pictures(140, 160)
    changes = [np.abs(b - a).sum(axis=2) for a, b in pairwise(pictures)]
    keyboard = [change[80:330, 700:860].sum() for change in changes]  # C4 to E4, away from the clock
    seen = 141 + int(np.argmax(keyboard))
    sound = _take_sound()
    pitch = 440 * 2 ** ((61 - 69) / 12)
    window = 2048
    starts = np.arange(round(4.8 * RATE), round(5.2 * RATE), 128)
    turn = np.exp(-2j * np.pi * pitch * np.arange(window) / RATE) * np.hanning(window)
    strength = np.array([abs((sound[s : s + window] * turn).sum()) for s in starts])
    risen = starts[np.argmax(np.diff(strength))] + window / 2
    assert abs(seen / 30 - risen / RATE) <= 1.5 / 30


def test_the_second_hand_moves_once_a_second() -> None:
    pictures = _take_pictures(30, 95)
    moved = []
    for n, (a, b) in enumerate(pairwise(pictures), start=31):
        dial = np.abs(b - a)[416:640, 980:1204].sum(axis=2)
        if (dial > 60).sum() > 100:
            moved.append(n)
    ticks = [n for n, last in zip(moved, [0, *moved], strict=False) if n - last > 5]
    assert len(ticks) == 3
    assert np.diff(ticks).tolist() == [30, 30]


@pytest.mark.slow
def test_nothing_in_the_take_flashes() -> None:
    """WCAG 2.2, 2.3.1: no more than three flashes a second; here the mean picture hardly changes between frames."""
    means = np.array([picture[::4, ::4].mean() for picture in _take_pictures(80, 225)])
    assert np.abs(np.diff(means)).max() < 2
