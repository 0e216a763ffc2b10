"""The kit against the General MIDI percussion key map."""

import pytest
from music21 import instrument, midi

from studio.music.kit import VOICES, keys_of_voice, read_voice, voice_of_key

FAMILIES = {
    instrument.BassDrum: {"kick"},
    instrument.SnareDrum: {"snare", "side stick"},
    instrument.TomTom: {"high tom", "mid tom", "low tom", "floor tom"},
    instrument.HiHatCymbal: {"hat", "open hat", "pedal hat"},
    instrument.CrashCymbals: {"crash"},
    instrument.Tambourine: {"tambourine"},
    instrument.Cowbell: {"cowbell"},
    instrument.Vibraslap: {"vibraslap"},
    instrument.BongoDrums: {"bongo"},
    instrument.CongaDrum: {"conga"},
    instrument.Timbales: {"timbale"},
    instrument.Agogo: {"agogo"},
    instrument.Maracas: {"maracas"},
    instrument.Whistle: {"whistle"},
    instrument.Woodblock: {"wood block"},
    instrument.Triangle: {"triangle"},
}


def test_keys_are_those_of_general_midi() -> None:
    """music21's ``midi.percussion.PercussionMapper`` carries the General MIDI Level 1 Percussion Key Map."""
    table = midi.percussion.PercussionMapper.reverseInstrumentMapping
    assert len(table) > 30
    for key, family in table.items():
        assert voice_of_key(key) in FAMILIES[family], key


def test_keys_that_tell_one_voice_from_another() -> None:
    """General MIDI Level 1: the keys named in the map that music21 has no instrument for, or only a family."""
    named = {
        35: "kick", 36: "kick", 37: "side stick", 38: "snare", 39: "clap", 40: "snare", 41: "floor tom",
        42: "hat", 43: "floor tom", 44: "pedal hat", 45: "low tom", 46: "open hat", 47: "mid tom", 48: "high tom",
        49: "crash", 50: "high tom", 51: "ride", 52: "china", 53: "ride bell", 55: "splash", 57: "crash",
        59: "ride", 69: "cabasa", 73: "guiro", 74: "guiro", 75: "claves", 78: "cuica", 79: "cuica",
    }  # fmt: skip
    assert {key: voice_of_key(key) for key in named} == named
    assert all(voice_of_key(key) != "percussion" for key in range(35, 82))
    assert voice_of_key(20) == "percussion"


def test_voices_and_keys_are_inverse() -> None:
    for voice in VOICES:
        assert all(voice_of_key(key) == voice for key in keys_of_voice(voice))


@pytest.mark.parametrize(
    ("written", "voice"),
    [
        ("kick", "kick"), ("Kick drum", "kick"), ("BD", "kick"), ("hats", "hat"), ("Hi-Hat", "hat"),
        ("open_hat", "open hat"), ("claps", "clap"), ("cross-stick", "side stick"), ("clave", "claves"),
        ("congas", "conga"), ("Wood block", "wood block"), ("maracas", "maracas"),
    ],
)  # fmt: skip
def test_names_that_people_write(written: str, voice: str) -> None:
    assert read_voice(written) == voice


def test_what_no_kit_has() -> None:
    with pytest.raises(ValueError, match="'trombone' is no voice of a drum kit"):
        read_voice("trombone")
