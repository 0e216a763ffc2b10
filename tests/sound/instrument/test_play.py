"""The instrument as it is heard. Pitch is checked against ISO 16: A4 is 440 Hz, and equal temperament makes MIDI note n
f = 440·2^((n − 69)/12)."""

from __future__ import annotations

import sys

import numpy as np
import pyloudnorm
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.sound.error import SoundError
from studio.sound.instrument.play import TIMBRES, played
from studio.timeline.heard import RATE, Tone
from tests.sound.instrument.measuring import brightness, cents_between, onset_of, pitch_of, spectrum_db

SOUNDS = tuple(TIMBRES)
AS_FROM_A1_TO_A6 = (33, 45, 57, 69, 81, 93)
CHORD = (48, 60, 64, 67, 72)
every_sound = pytest.mark.parametrize("sound", SOUNDS)


def chord(loud: float = 0.7, length: int = 2 * RATE) -> tuple[Tone, ...]:
    return tuple(Tone(0, length, midi, loud) for midi in CHORD)


@every_sound
@pytest.mark.parametrize("midi", AS_FROM_A1_TO_A6)
def test_every_timbre_is_in_tune(sound: str, midi: int) -> None:
    note = played([Tone(0, RATE, midi)], sound, "", RATE)
    right = 440 * 2 ** ((midi - 69) / 12)
    for heard in (note.mean(axis=1), note[:, 0], note[:, 1]):
        assert abs(cents_between(pitch_of(heard, right), right)) < 2


@every_sound
@pytest.mark.parametrize("cents", [-30.0, 12.5, 100.0])
def test_cents_move_the_pitch(sound: str, cents: float) -> None:
    note = played([Tone(0, RATE, 69)], sound, "", RATE, cents).mean(axis=1)
    moved = cents_between(pitch_of(note, 440 * 2 ** (cents / 1200)), 440)
    assert moved == pytest.approx(cents, abs=1)


@every_sound
@pytest.mark.parametrize("midi", AS_FROM_A1_TO_A6)
def test_a_note_starts_where_it_is_asked_to(sound: str, midi: int) -> None:
    asked = 4321
    note = played([Tone(asked, RATE // 2, midi)], sound, "", RATE)
    assert not note[:asked].any()
    # A held sound begins more softly than a blow: 8 ms from silence to its level.
    assert onset_of(note.mean(axis=1), under=60 if sound == "sustained" else 40) - asked <= RATE // 1000
    assert onset_of(note.mean(axis=1), under=6) - asked <= RATE // 20


@every_sound
@pytest.mark.parametrize("midi", [76, 88, 103, 108])
def test_nothing_aliases(sound: str, midi: int) -> None:
    """All that is louder than −60 dB lies at a partial, where what folds over would not; beyond 20 kHz is nothing.

    The first moments are looked at, since the uppermost partials are gone after them.
    """
    length = 4096
    at, level = spectrum_db(played([Tone(0, length, midi, 1.0)], sound, "", length).mean(axis=1))
    fundamental = 440 * 2 ** ((midi - 69) / 12)
    number = np.maximum(np.rint(at / fundamental), 1)
    off = np.abs(at - number * fundamental) > np.maximum(0.02 * number * fundamental, 100)
    assert level[off].max() < -60
    assert level[at > 20_000].max() < -120


@every_sound
def test_no_edge_of_a_note_is_a_step(sound: str) -> None:
    start, length = 1000, RATE // 3 + 17
    note = played([Tone(start, length, 52, 1.0)], sound, "", RATE)
    steps = np.abs(np.diff(note, axis=0)).max(axis=1)
    inside = steps[start + 200 : start + length].max()
    assert steps[start - 2 : start + 40].max() <= inside
    assert steps[start + length - 1 :].max() <= inside
    assert not note[-RATE // 4 :].any()


def test_a_key_that_comes_up_clicks_nowhere_in_the_treble() -> None:
    """The held sound has nothing above 10 kHz; a click at its end would."""
    note = played([Tone(0, RATE, 57)], "sustained", "", 2 * RATE).mean(axis=1)[RATE // 2 :]
    at, level = spectrum_db(note)
    assert level[at > 10_000].max() < -90


@every_sound
def test_a_chord_stands_near_the_level_that_mixes_expect(sound: str) -> None:
    """Integrated loudness by pyloudnorm (ITU-R BS.1770); −20 LUFS is what excerpts are mixed from."""
    heard = pyloudnorm.Meter(RATE).integrated_loudness(played(chord(), sound, "", 2 * RATE).astype(float))
    assert heard == pytest.approx(-20, abs=3)


@every_sound
@pytest.mark.parametrize("moved", range(-12, 25, 4))
def test_chords_stay_under_full_scale(sound: str, moved: int) -> None:
    tones = [Tone(0, RATE, midi + moved, 0.8) for midi in CHORD]
    assert np.abs(played(tones, sound, "", RATE)).max() < 1


@every_sound
def test_stereo_is_level_and_sums_to_mono(sound: str) -> None:
    left, right = played(chord(), sound, "", 2 * RATE).T.astype(np.float64)
    power = [np.mean(side**2) for side in (left, right)]
    assert 10 * np.log10(power[0] / power[1]) == pytest.approx(0, abs=0.5)
    assert 10 * np.log10(np.mean((left + right) ** 2 / 2) / sum(power)) > -0.5
    assert 0.8 < np.corrcoef(left, right)[0, 1] < 0.999


@every_sound
def test_a_harder_blow_is_louder_and_brighter(sound: str) -> None:
    notes = [played([Tone(0, RATE, 57, loud)], sound, "", RATE).mean(axis=1) for loud in (0.3, 0.7, 1.0)]
    peaks, centres = [np.abs(note).max() for note in notes], [brightness(note[: RATE // 2]) for note in notes]
    assert peaks == sorted(peaks)
    assert centres == sorted(centres)
    assert 20 * np.log10(peaks[-1] / peaks[0]) > 10


@pytest.mark.parametrize("sound", ["plucked", "struck"])
def test_what_is_plucked_or_struck_dies_away_and_sooner_in_the_treble(sound: str) -> None:
    fallen = []
    for midi in (40, 64, 88):
        note = played([Tone(0, 2 * RATE, midi)], sound, "", 2 * RATE)
        early, late = (np.sqrt(np.mean(note[at : at + RATE // 10] ** 2)) for at in (RATE // 10, RATE))
        fallen.append(20 * np.log10(early / late))
    assert fallen == sorted(fallen)
    assert 4 < fallen[0] < 20


def test_a_soft_piano_rings_through_a_slow_bar() -> None:
    """Middle C is well there at the end of a bar of two seconds: it has not lost 17 dB since it was struck. Middle C of
    a piano takes some ten seconds to fall by 60 dB, faster at first (from memory)."""
    note = played([Tone(0, 3 * RATE, 60)], "struck", "", 3 * RATE)
    early, late = (np.sqrt(np.mean(note[at : at + RATE // 10] ** 2)) for at in (RATE // 10, 2 * RATE))
    assert 10 < 20 * np.log10(early / late) < 17


def test_what_is_held_does_not_die_away() -> None:
    note = played([Tone(0, 10 * RATE, 57)], "sustained", "", 10 * RATE)
    early, late = (np.sqrt(np.mean(note[at : at + RATE] ** 2)) for at in (RATE, 8 * RATE))
    assert 20 * np.log10(late / early) == pytest.approx(0, abs=0.5)


tones = st.builds(
    Tone,
    start=st.integers(-3000, 9000),
    length=st.integers(1, 6000),
    midi=st.integers(21, 108),
    loud=st.floats(0.05, 1.0),
)


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(SOUNDS), st.lists(tones, max_size=3), st.lists(tones, max_size=3))
def test_tones_do_not_change_one_another(sound: str, some: list[Tone], others: list[Tone]) -> None:
    """On keys and at moments of their own: one key is not down twice, and strings that start together are strummed."""
    length = 8000
    taken = {tone.midi for tone in some}
    others = [tone for tone in others if tone.midi not in taken]
    starts = {tone.start for tone in some}
    others = [tone for tone in others if tone.start not in starts]
    apart = played(some, sound, "", length) + played(others, sound, "", length)
    np.testing.assert_allclose(played([*some, *others], sound, "", length), apart, atol=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(SOUNDS), tones, st.integers(0, 5000))
def test_a_tone_sounds_the_same_wherever_it_stands(sound: str, tone: Tone, later: int) -> None:
    length = 9000
    moved = Tone(tone.start + later, tone.length, tone.midi, tone.loud)
    here, there = played([tone], sound, "", length), played([moved], sound, "", length + later)
    np.testing.assert_allclose(there[later:], here, atol=1e-6)


@every_sound
def test_the_same_tones_are_the_same_samples(sound: str) -> None:
    once, again = (played(chord(), sound, "", RATE) for _ in range(2))
    assert once.tobytes() == again.tobytes()
    assert once.dtype == np.float32
    assert once.shape == (RATE, 2)


@every_sound
def test_silence_and_the_ends_of_hearing(sound: str) -> None:
    assert not played([], sound, "", 100).any()
    assert not played([Tone(0, 100, 60, 0.0), Tone(500, 100, 60)], sound, "", 100).any()
    assert np.isfinite(played([Tone(0, 1, 0), Tone(0, 4000, 127)], sound, "", 5000, 1200)).all()
    assert played([Tone(0, 100, 60)], sound, "", 0).shape == (0, 2)


def test_a_sound_that_there_is_not() -> None:
    with pytest.raises(SoundError, match="'bowed' is not a sound; choose from plucked, struck, sustained"):
        played([Tone(0, 1, 60)], "bowed", "", 10)


def test_a_soundfont_without_its_package(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "tinysoundfont", None)
    with pytest.raises(SoundError, match="needs the package tinysoundfont, which is not installed; run pip"):
        played([Tone(0, 1, 60)], "soundfont 1", "own.sf2", 10)
