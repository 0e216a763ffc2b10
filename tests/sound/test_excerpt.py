from __future__ import annotations

import tracemalloc
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound import SoundError, source, stretch
from studio.sound.excerpt import render
from studio.sound.fading import SHORTEST
from studio.timeline.heard import Click, Cut, Dip, Pass, Source
from tests.sound.hearing import cents_off, late, steps, strokes, tone

SPEEDS = [F(2, 5), F(1, 2), F(3, 4), F(4, 5), F(1), F(5, 4), F(3, 2)]


def _cut(*paths: Path, start: int = 0, length: int = 4800, fades: tuple[int, int] = (0, 0)) -> Cut:
    return Cut.of(tuple(Source(str(path)) for path in paths), start, length, *fades)


def _written(path: Path, sound: np.ndarray, rate: int = 48_000) -> Source:
    soundfile.write(path, sound, rate, subtype="FLOAT")
    return Source(str(path))


# What comes out of one pass is what is in the file.


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


@pytest.mark.parametrize("suffix", [".wav", ".flac", ".ogg", ".m4a"])
@pytest.mark.parametrize("kind", ["impulse", "sine"])
def test_an_impulse_and_a_sine_decode_as_ffmpeg_decodes_them(
    tmp_path: Path, ffmpeg, decoded, kind: str, suffix: str
) -> None:
    # Reference: the bundled ffmpeg's own decode of the same file, within one step of 24 bits. Ogg Vorbis is decoded
    # by another library here, in floating point like ffmpeg's: three steps, 128 dB under full scale, lie between.
    sound = tone(997, 2, 0.5)
    if kind == "impulse":
        sound[:] = 0
        sound[[24_000, 48_001]] = 0.9
    master, path = tmp_path / "master.wav", tmp_path / f"sound{suffix}"
    soundfile.write(master, sound, 48_000, subtype="PCM_24")
    if path != master:
        ffmpeg("-i", master, *(["-sample_fmt", "s32"] if suffix == ".flac" else []), path)
    reference = decoded(path)
    # a file is faded over its own last 5 ms
    ours, reference = render(_cut(path, length=len(reference)))[:-SHORTEST], reference[:-SHORTEST]
    assert np.abs(ours - reference).max() <= (3 if suffix == ".ogg" else 1) * 2.0**-23
    assert np.abs(ours).max() > 0.3


def test_stems_add_up_at_their_gains(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 1)
    one, two = _written(tmp_path / "one.wav", sound), _written(tmp_path / "two.wav", sound[::-1])
    heard = render(Cut.of((replace(one, gain_db=-6.0), two), 100, 1000, 0, 0))
    assert heard == pytest.approx(
        sound[100:1100] * 0.501187 + sound[::-1][100:1100], abs=1e-6
    )  # -6 dB is 0.501187


def test_a_stem_and_its_opposite_leave_silence(tmp_path: Path, music_like) -> None:
    sound = music_like(48_000, 1)
    _written(tmp_path / "one.wav", sound), _written(tmp_path / "two.wav", -sound)
    assert not render(_cut(tmp_path / "one.wav", tmp_path / "two.wav", fades=(240, 240))).any()


def test_solo_and_mute_add_up_to_the_mix_of_the_same_repeats(tmp_path: Path, music_like) -> None:
    # The project's own requirement, within -90 dBFS, through gain, pan, dips, joints and fades.
    stems = tuple(
        replace(
            _written(tmp_path / f"{number}.wav", np.roll(music_like(48_000, 2), 999 * number, axis=0)),
            gain_db=2.0 - 3 * number,
            pan=number / 2 - 0.5,
            dips=(Dip(30_000, 50_000, 9.0, 2400),),
        )
        for number in range(3)
    )

    def heard(sources: tuple[Source, ...]) -> np.ndarray:
        return render(Cut((Pass(sources, 24_000, 30_000),) * 2, 480, 4800))

    for chosen in ((0,), (0, 2), (1,)):
        solo = heard(tuple(stems[number] for number in chosen))
        rest = heard(tuple(stems[number] for number in range(3) if number not in chosen))
        assert np.abs(solo + rest - heard(stems)).max() < 10 ** (-90 / 20)


def test_stretched_solo_and_mute_have_the_level_of_the_mix_but_other_phases(tmp_path: Path) -> None:
    # What `studio.sound.stretch` says: a phase vocoder goes by the sound that it is given.
    tones = [_written(tmp_path / f"{hertz}.wav", tone(hertz, 4, 0.2)) for hertz in (220, 233, 554)]
    beats = _written(tmp_path / "beats.wav", strokes(range(12_000, 180_000, 12_000), 192_000))

    def heard(*sources: Source) -> np.ndarray:
        return render(Cut.of(sources, 24_000, 96_000, 480, 480))

    def slow(*sources: Source) -> np.ndarray:
        return render(replace(Cut.of(sources, 24_000, 96_000, 480, 480), speed=F(4, 5)))

    apart = heard(*tones) + heard(beats) - heard(*tones, beats)
    assert np.abs(apart).max() < 10 ** (-90 / 20)
    summed, mix = slow(*tones) + slow(beats), slow(*tones, beats)
    assert np.abs(summed - mix).max() > 10 ** (-40 / 20)
    assert 10 * np.log10(np.mean(summed**2) / np.mean(mix**2)) == pytest.approx(0, abs=1)


# Time: what the cut says is where it sounds.


@pytest.mark.parametrize("speed", SPEEDS)
def test_strokes_come_where_the_cut_says(tmp_path: Path, speed: F) -> None:
    # The project's own requirement: within 2 ms through stretch, repeats and count-in.
    beats = [12_000 + 24_000 * number for number in range(12)]
    stem = _written(tmp_path / "strokes.wav", strokes(beats, 320_000))
    start, length, lead = 24_000, 4 * 24_000, 72_001
    tail = Pass((stem,), start, length + 20_000)
    cut = Cut((Pass((stem,), start, length), Pass((stem,), start, length), tail), 240, 9600, speed, lead=lead)
    expected = [
        cut.at(number * length + beat - start)
        for number in range(3)
        for beat in beats
        if start <= beat < start + length
    ]
    heard = render(cut)
    assert heard.shape == (cut.length, 2) and len(expected) == 12
    assert not heard[:lead].any()
    assert np.abs(late(heard, expected)).max() < 2.0


def test_repeats_keep_time_to_the_sample_over_eight_passes(tmp_path: Path, music_like) -> None:
    stem = _written(tmp_path / "stem.wav", music_like(48_000, 1))
    heard = render(Cut((Pass((stem,), 10_001, 12_347),) * 8, 0, 0))
    for number in range(1, 8):
        assert np.array_equal(heard[number * 12_347 :][:10_000], heard[:10_000]), number


@pytest.mark.parametrize("speed", [F(1), F(2, 3)])
def test_the_same_cut_gives_the_same_bytes(tmp_path: Path, music_like, speed: F) -> None:
    stem = replace(_written(tmp_path / "stem.wav", music_like(44_100, 2), 44_100), gain_db=-1.0, pan=0.2)
    clicks = (Click(0, True), Click(24_000, False))
    cut = Cut((Pass((stem,), 10_001, 30_000),) * 2, 100, 200, speed, -15.0, 48_000, clicks, -3.0)
    assert render(cut).tobytes() == render(cut).tobytes()


def test_no_edit_steps_further_than_the_source(tmp_path: Path) -> None:
    # The hard case: a loud low tone, whose own steps are small, cut, repeated, dipped and faded anywhere.
    sound = tone(55, 3, 0.9)
    stem = replace(_written(tmp_path / "low.wav", sound), dips=(Dip(61_111, 70_000, 12.0, 0),))
    one = Pass((stem,), 55_555, 20_017)
    heard = render(Cut((one, one, replace(one, start=48_700)), 240, 240))
    # a gain that changes adds its own slope: that of the quickest, a raised cosine over 5 ms
    assert steps(heard) < steps(sound[:24_000]) + 0.9 * np.pi / 2 / 240
    bare = np.concatenate([sound[55_555:75_572], sound[55_555:75_572]])
    assert steps(bare) > 10 * steps(heard)


def test_a_tone_keeps_its_pitch_and_a_shift_moves_it(tmp_path: Path) -> None:
    stem = _written(tmp_path / "a.wav", tone(440, 4))
    slow = Cut((Pass((stem,), 10_000, 96_000),), 240, 240, F(1, 2))
    assert abs(cents_off(render(slow), 440)) < 0.5
    assert abs(cents_off(render(replace(slow, cents=-31.0)), 440) + 31) < 0.5


# Fades, memory, and what cannot be heard.


def test_fades_begin_and_end_without_a_click(tmp_path: Path) -> None:
    # A constant is the worst case: cut hard, it steps by its full level. It is a DC offset too, and stays one.
    _written(tmp_path / "constant.wav", np.full((48_000, 2), 0.5))
    heard = render(_cut(tmp_path / "constant.wav", length=4800, fades=(240, 480)))[:, 0]
    risen = np.abs(np.diff(np.concatenate([[0.0], heard, [0.0]])))
    assert (
        risen.max() < 0.5 * np.pi / 2 / 240 * 1.01
    )  # the steepest slope of a raised cosine is pi/2 over its length
    assert risen[0] < 1e-4 and risen[-1] < 1e-4
    assert np.all(heard[240:-480] == np.float32(0.5))


@pytest.mark.parametrize("speed", [F(1), F(4, 5)])
def test_memory_is_that_of_the_result(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, music_like, speed: F
) -> None:
    stems = tuple(
        _written(tmp_path / f"{number}.wav", np.tile(music_like(48_000, 1), (24, 1))) for number in range(2)
    )
    monkeypatch.setattr(stretch, "PIECE", 2 * 48_000)
    monkeypatch.setattr(source, "BLOCK", 48_000)
    cut = Cut((Pass(stems, 0, 24 * 48_000),), 240, 240, speed)
    tracemalloc.start()
    heard = render(cut)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 1.5 * heard.nbytes


def test_what_cannot_be_cut_is_refused_in_words(click_track) -> None:
    path = click_track(48_000, ".wav")
    with pytest.raises(SoundError, match="fade is longer"):
        render(_cut(path, length=100, fades=(101, 0)))
    with pytest.raises(SoundError, match="needs a length"):
        render(_cut(path, length=0))
    with pytest.raises(SoundError, match="ends at 4 s"):
        render(_cut(path, start=source.length(path) - 10, length=20))
    with pytest.raises(SoundError, match=r"cannot start at -0\.500 s: a recording starts at 0 s"):
        render(_cut(path, start=-24_000))
    with pytest.raises(SoundError, match="needs a length"):
        render(Cut((), 0, 0, lead=4800))


def test_a_fade_may_be_as_long_as_the_music_but_no_longer(click_track) -> None:
    slow = replace(_cut(click_track(48_000, ".wav"), length=4800), speed=F(1, 2), lead=48_000)
    render(replace(slow, fade_in=9600, fade_out=9600))
    with pytest.raises(SoundError, match="fade is longer"):
        render(replace(slow, fade_in=9601))
    with pytest.raises(SoundError, match="fade is longer"):
        render(replace(slow, fade_out=-1))


@pytest.mark.parametrize("speed", [F(0), F(-1, 2), F(1, 100)])
def test_a_speed_of_nothing_is_refused(click_track, speed: F) -> None:
    with pytest.raises(SoundError, match=r"A speed of \S+ % cannot be heard"):
        render(replace(_cut(click_track(48_000, ".wav")), speed=speed))


@pytest.mark.parametrize("off", [-300, -200, -1, 0, 1, 200])
def test_a_stem_ends_softly_wherever_reading_breaks_off(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, off: int
) -> None:
    monkeypatch.setattr(stretch, "PIECE", 48_000)
    short = _written(tmp_path / "short.wav", np.full((48_000 + off, 2), 0.3))
    heard = render(Cut.of((short, _written(tmp_path / "long.wav", tone(220, 2, 0.01))), 0, 96_000, 240, 240))
    assert steps(heard) < 0.3 * np.pi / 2 / 240 * 1.2


def test_stems_that_differ_in_length_and_rate(tmp_path: Path) -> None:
    # The pass lasts as long as its longest stem; a shorter one is silent where it is over.
    long = _written(tmp_path / "long.wav", tone(220, 2))
    short = _written(
        tmp_path / "short.wav", 0.3 * np.sin(2 * np.pi * 440 * np.arange(44_100) / 44_100), 44_100
    )
    heard = render(Cut.of((short, long), 0, 96_000, 0, 0))
    assert np.array_equal(heard[48_000:-SHORTEST], tone(220, 2)[48_000:-SHORTEST])
    assert heard[5000:40_000] == pytest.approx((tone(220, 1) + tone(440, 1))[5000:40_000], abs=2e-4)
    with pytest.raises(SoundError, match=r"long\.wav ends at 2 s"):
        render(Cut.of((short, long), 0, 96_003, 0, 0))
    rounded = render(Cut.of((long,), 0, 96_002, 0, 0))  # a rounding of start and length is no complaint
    assert not rounded[96_000:].any()


@pytest.mark.parametrize("speed", [F(1), F(1, 2)])
def test_broken_stems_are_named(tmp_path: Path, music_like, speed: F) -> None:
    whole = _written(tmp_path / "whole.wav", music_like(48_000, 3))
    bad = music_like(48_000, 3)
    bad[70_000] = np.nan
    with pytest.raises(SoundError, match=r"bad\.wav holds values that are not numbers near 1\.458 s"):
        render(Cut((Pass((whole, _written(tmp_path / "bad.wav", bad)), 0, 96_000),), 0, 0, speed))
    torn = tmp_path / "torn.flac"
    soundfile.write(torn, music_like(48_000, 3), 48_000)
    torn.write_bytes(torn.read_bytes()[:100_000])
    with pytest.raises(SoundError, match=r"torn\.flac is (damaged|cut short)"):
        render(Cut((Pass((whole, Source(str(torn))), 0, 140_000),), 0, 0, speed))


def test_mono_and_surround_are_folded_on_the_way(tmp_path: Path, ffmpeg) -> None:
    # ITU-R BS.775: a centre is 3 dB down on both sides. Mono is on both sides at full level.
    mono = _written(tmp_path / "mono.wav", tone(440, 1)[:, 0])
    assert np.array_equal(render(Cut.of((mono,), 0, 4800, 0, 0)), tone(440, 1)[:4800])
    path = tmp_path / "surround.wav"
    quiet = "|".join(["0", "0", "0.3*sin(2*PI*440*t)", "0", "0", "0"])
    ffmpeg("-f", "lavfi", "-i", f"aevalsrc={quiet}:c=5.1:s=48000:d=1", "-c:a", "pcm_f32le", path)
    assert render(_cut(path)) == pytest.approx(tone(440, 1)[:4800] * 0.7071068, abs=1e-5)
