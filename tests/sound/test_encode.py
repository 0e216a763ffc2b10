from __future__ import annotations

import weakref
from collections.abc import Iterator
from pathlib import Path

import av
import numpy as np
import pytest

from studio.sound import SoundError, encode, source
from studio.sound.encode import encode_held
from studio.sound.limiter import Limiter
from studio.sound.loudness import Loudness, measure_file

ANY = float("inf")
"""A ceiling that no peak is over."""
LENGTH = 48_000 * 3 + 777
CLICKS = (0, 1000, 48_000, 100_001, 140_000)


@pytest.fixture(scope="module")
def clicks() -> np.ndarray:
    sound = np.zeros((LENGTH, 2), np.float32)
    sound[list(CLICKS)] = 0.9
    return sound


def blocks(sound: np.ndarray, size: int) -> Iterator[np.ndarray]:
    return (sound[at : at + size] for at in range(0, len(sound), size))


def heard_clicks(sound: np.ndarray) -> list[int]:
    loud = np.abs(sound[:, 0])
    near = ((max(at - 500, 0), at + 500) for at in CLICKS)
    return [first + int(np.argmax(loud[first:last])) for first, last in near]


def test_sample_0_is_heard_at_time_0(tmp_path: Path, clicks: np.ndarray, decoded) -> None:
    # Reference decoder: the bundled ffmpeg. Within one sample.
    encode_held(lambda _: blocks(clicks, 7001), tmp_path / "bed.m4a", ANY)
    sound = decoded(tmp_path / "bed.m4a")
    assert np.abs(np.array(heard_clicks(sound)) - CLICKS).max() <= 1
    assert len(sound) == LENGTH
    assert heard_clicks(source.read(tmp_path / "bed.m4a", 0, LENGTH)) == heard_clicks(sound)


def test_packets_copied_beside_a_picture_keep_their_place(
    tmp_path: Path, clicks: np.ndarray, decoded
) -> None:
    encode_held(lambda _: [clicks], tmp_path / "bed.m4a", ANY)
    path = tmp_path / "clip.mp4"
    options = {"movflags": "+faststart", "movie_timescale": "48000"}
    with av.open(str(path), "w", options=options) as clip, av.open(str(tmp_path / "bed.m4a")) as bed:
        picture = clip.add_stream("libx264", rate=30)
        picture.width, picture.height, picture.pix_fmt = 64, 64, "yuv420p"
        sound = clip.add_stream_from_template(bed.streams.audio[0])
        for number in range(90):
            frame = av.VideoFrame.from_ndarray(np.full((64, 64, 3), number, np.uint8), format="rgb24")
            frame.pts = number
            clip.mux(picture.encode(frame))
        clip.mux(picture.encode(None))
        for packet in bed.demux(bed.streams.audio[0]):
            if packet.dts is not None:
                packet.stream = sound
                clip.mux(packet)
    with av.open(str(path)) as clip:
        assert [stream.start_time for stream in clip.streams] == [0, 0]
        assert clip.start_time == 0
    copied = decoded(path)
    assert len(copied) == LENGTH
    assert np.abs(np.array(heard_clicks(copied)) - CLICKS).max() <= 1
    assert np.array_equal(copied, decoded(tmp_path / "bed.m4a"))


def test_the_same_samples_give_the_same_bytes(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 1)
    encode_held(lambda _: [sound], tmp_path / "one.m4a", ANY)
    encode_held(lambda _: blocks(sound, 1000), tmp_path / "many.m4a", ANY)
    assert (tmp_path / "one.m4a").read_bytes() == (tmp_path / "many.m4a").read_bytes()


def test_it_sounds_like_what_was_given(tmp_path: Path, decoded) -> None:
    # Plucked chords, ten partials to the note. The encoder's noise is 35 dB under them at the usual bit rate
    # (measured: 39), 45 dB at 256 kb/s (49): no reference, a floor that a broken encoder would fall through.
    at = np.arange(96_000) / 48_000
    partials = [
        np.sin(2 * np.pi * note * k * at) / k**1.5 for note in (110, 220, 277.2, 329.6) for k in range(1, 12)
    ]
    chord = 0.1 * np.sum(partials, axis=0) * np.exp(-3 * (at % 0.5))
    sound = np.stack([chord, 0.8 * np.roll(chord, 300)], 1).astype(np.float32)
    for bit_rate, floor in ((192_000, 35), (256_000, 45)):
        encode_held(lambda _: [sound], tmp_path / "chord.m4a", ANY, bit_rate)
        error = decoded(tmp_path / "chord.m4a")[4800:-4800] - sound[4800:-4800]
        assert 10 * np.log10(np.mean(sound[4800:-4800] ** 2) / np.mean(error**2)) > floor


def test_blocks_are_encoded_as_they_come(tmp_path: Path) -> None:
    # Constant memory: when a block is asked for, all but the last one are gone.
    given: list[weakref.ref[np.ndarray]] = []

    def counted() -> Iterator[np.ndarray]:
        for _ in range(6):
            assert sum(block() is not None for block in given) <= 1
            assert not (tmp_path / "bed.m4a").exists()
            block = np.zeros((48_000, 2), np.float32)
            given.append(weakref.ref(block))
            yield block
            del block

    encode_held(lambda _: counted(), tmp_path / "bed.m4a", ANY)
    assert len(given) == 6
    assert [path.name for path in tmp_path.iterdir()] == ["bed.m4a"]


def test_nothing_to_encode_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(SoundError, match="no sound to encode"):
        encode_held(lambda _: [np.zeros((0, 2), np.float32)], tmp_path / "bed.m4a", ANY)

    def interrupted() -> Iterator[np.ndarray]:
        yield np.zeros((48_000, 2), np.float32)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        encode_held(lambda _: interrupted(), tmp_path / "bed.m4a", ANY)
    assert not list(tmp_path.iterdir())


def test_what_is_decoded_again_is_under_the_ceiling(tmp_path: Path) -> None:
    # Noise at its loudest: the codec changes each wave of it, and the peaks of what it decodes with them.
    noise = np.random.default_rng(4).normal(0, 0.5, (48_000 * 3, 2)).astype(np.float32)
    asked: list[float] = []

    def play(ceiling: float) -> Iterator[np.ndarray]:
        asked.append(ceiling)
        return Limiter(ceiling).over(blocks(noise, 7001))

    said = encode_held(play, tmp_path / "held.m4a", -1.0)
    assert said.true_peak is not None and -3 < said.true_peak <= -1.0
    assert measure_file(tmp_path / "held.m4a") == said  # ffmpeg's own decoder and meter
    assert len(asked) > 1 and asked == sorted(asked, reverse=True)  # once was not enough for this
    assert list(tmp_path.iterdir()) == [tmp_path / "held.m4a"]


def test_peaks_that_stay_over_the_ceiling_are_not_passed_over(
    tmp_path: Path, clicks: np.ndarray, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A meter that always reads 0.5 dBTP: no real sound was found that does.
    asked: list[float] = []

    def play(ceiling: float) -> Iterator[np.ndarray]:
        asked.append(ceiling)
        return blocks(clicks, 7001)

    monkeypatch.setattr(encode, "measure_file", lambda _: Loudness(-10.0, None, None, 0.5))
    with pytest.raises(SoundError, match=r"true peaks of 0\.50 dBTP, over the ceiling of -1 dBTP"):
        encode_held(play, tmp_path / "over.m4a", -1.0)
    assert len(asked) == 5 and not list(tmp_path.iterdir())


def test_what_is_far_under_the_ceiling_is_encoded_once(tmp_path: Path, clicks: np.ndarray) -> None:
    asked: list[float] = []

    def play(ceiling: float) -> Iterator[np.ndarray]:
        asked.append(ceiling)
        return blocks(clicks / 2, 7001)

    encode_held(play, tmp_path / "held.m4a", -1.0)
    assert len(asked) == 1
    encode_held(lambda _: [clicks / 2], tmp_path / "plain.m4a", ANY)
    assert (tmp_path / "held.m4a").read_bytes() == (tmp_path / "plain.m4a").read_bytes()
