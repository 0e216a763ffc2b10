"""Playing on a SoundFont. Programs are numbered as in General MIDI 1, which counts from 1: 1 is the acoustic grand
piano, 12 the vibraphone; a SoundFont's own numbers count from 0."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from studio.sound.error import SoundError
from studio.sound.instrument.play import played
from studio.sound.instrument.soundfont import program_of
from studio.timeline.heard import RATE, Tone
from tests.sound.instrument.measuring import cents_between, onset_of, pitch_of
from tests.sound.instrument.soundfont_file import write_soundfont

pytest.importorskip("tinysoundfont", reason="tinysoundfont is not installed")


@pytest.fixture
def soundfont(tmp_path: Path) -> str:
    """Program 0 is a sine, program 11 a sine an octave higher."""
    return str(write_soundfont(tmp_path / "own.sf2", {0: 1, 11: 2}))


@pytest.mark.parametrize("midi", [45, 57, 69, 81])
def test_it_is_in_tune(soundfont: str, midi: int) -> None:
    """ISO 16: f = 440·2^((n − 69)/12)."""
    note = played([Tone(0, RATE, midi)], "soundfont 1", soundfont, RATE).mean(axis=1)
    right = 440 * 2 ** ((midi - 69) / 12)
    assert abs(cents_between(pitch_of(note, right), right)) < 2


def test_programs_count_from_one(soundfont: str) -> None:
    note = played([Tone(0, RATE, 69)], "soundfont 12", soundfont, RATE).mean(axis=1)
    assert abs(cents_between(pitch_of(note, 880), 880)) < 2
    assert (program_of("soundfont 12"), program_of("soundfont 128"), program_of("struck")) == (12, 128, None)


def test_cents_move_it(soundfont: str) -> None:
    note = played([Tone(0, RATE, 69)], "soundfont 1", soundfont, RATE, cents=-25).mean(axis=1)
    assert cents_between(pitch_of(note, 434), 440) == pytest.approx(-25, abs=2)


@pytest.mark.parametrize("at", [0, 1, 777, 12_345])
def test_keys_go_down_on_their_sample(soundfont: str, at: int) -> None:
    note = played([Tone(at, 5000, 69)], "soundfont 1", soundfont, 30_000)
    assert not note[:at].any()
    assert onset_of(note.mean(axis=1)) - at <= RATE // 1000


def test_a_key_that_is_struck_again_while_it_is_down_is_one_key(soundfont: str) -> None:
    """It comes up first, so that it is no louder, and sounds for as long as the later tone. A4 has 110 whole periods in
    12 000 samples, so that two of them at once would be twice as loud."""
    once = np.abs(played([Tone(0, 32_000, 69)], "soundfont 1", soundfont, 60_000))
    twice = np.abs(played([Tone(0, 22_000, 69), Tone(12_000, 20_000, 69)], "soundfont 1", soundfont, 60_000))
    assert twice[16_000:20_000].max() == pytest.approx(once[16_000:20_000].max(), rel=0.05)
    assert twice[25_000:31_000].max() == pytest.approx(once[25_000:31_000].max(), rel=0.05)
    assert twice[45_000:].max() < 1e-3


def test_the_same_tones_are_the_same_samples(soundfont: str) -> None:
    tones = [Tone(0, 5000, 60), Tone(100, 5000, 64), Tone(-50, 900, 67)]
    once, again = (played(tones, "soundfont 1", soundfont, 20_000) for _ in range(2))
    assert once.tobytes() == again.tobytes()
    assert np.abs(once).max() < 1
    assert once.shape == (20_000, 2)


def test_what_cannot_be_played_is_a_sentence(soundfont: str, tmp_path: Path) -> None:
    broken = tmp_path / "broken.sf2"
    broken.write_bytes(Path(soundfont).read_bytes()[:300])
    for path, sound, sentence in (
        ("", "soundfont 1", "No SoundFont is named"),
        (str(tmp_path / "gone.sf2"), "soundfont 1", "The SoundFont 'gone.sf2' is not there"),
        (str(broken), "soundfont 1", "'broken.sf2' cannot be read as a SoundFont"),
        (soundfont, "soundfont 40", "The SoundFont 'own.sf2' has no program 40"),
        (soundfont, "soundfont 0", "'soundfont 0' is not a sound of General MIDI"),
        (soundfont, "soundfont 129", "'soundfont 129' is not a sound of General MIDI"),
    ):
        with pytest.raises(SoundError, match=sentence):
            played([Tone(0, 10, 60)], sound, path, 10)
