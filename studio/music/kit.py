"""The drum kit: what its voices are called, in what order they are listed, and their General MIDI keys.

Keys are those of the General MIDI Level 1 Percussion Key Map (MIDI Manufacturers Association), which sounds on
channel 10, with 82 (shaker) of General MIDI 2. Drums that differ only in make share a name: 35 and 36 are both
the kick.
"""

from __future__ import annotations

import re

DRUM_CHANNEL = 10
"""The channel of General MIDI that plays drums, counted from 1."""

_KEYS: dict[str, tuple[int, ...]] = {
    "kick": (35, 36),
    "snare": (38, 40),
    "side stick": (37,),
    "clap": (39,),
    "hat": (42,),
    "open hat": (46,),
    "pedal hat": (44,),
    "ride": (51, 59),
    "ride bell": (53,),
    "crash": (49, 57),
    "splash": (55,),
    "china": (52,),
    "high tom": (48, 50),
    "mid tom": (47,),
    "low tom": (45,),
    "floor tom": (41, 43),
    "tambourine": (54,),
    "cowbell": (56,),
    "shaker": (82,),
    "maracas": (70,),
    "cabasa": (69,),
    "claves": (75,),
    "wood block": (76, 77),
    "triangle": (80, 81),
    "bongo": (60, 61),
    "conga": (62, 63, 64),
    "timbale": (65, 66),
    "agogo": (67, 68),
    "guiro": (73, 74),
    "whistle": (71, 72),
    "vibraslap": (58,),
    "cuica": (78, 79),
    "percussion": (),
}
VOICES = tuple(_KEYS)
"""Every voice by its name, in the order in which grooves list them; "percussion" is whatever has no name here."""

_VOICE_OF_KEY = {key: voice for voice, keys in _KEYS.items() for key in keys}

_ALSO = {
    "bass drum": "kick", "bd": "kick", "kick drum": "kick",
    "snare drum": "snare", "sd": "snare",
    "stick": "side stick", "cross stick": "side stick", "rim": "side stick", "rim click": "side stick",
    "hand clap": "clap",
    "closed hat": "hat", "hi hat": "hat", "hihat": "hat", "closed hi hat": "hat", "hh": "hat", "closed": "hat",
    "open hi hat": "open hat", "oh": "open hat", "open": "open hat",
    "pedal hi hat": "pedal hat", "foot hat": "pedal hat", "pedal": "pedal hat",
    "ride cymbal": "ride", "bell": "ride bell", "crash cymbal": "crash", "splash cymbal": "splash",
    "china cymbal": "china", "hi tom": "high tom", "tom": "mid tom",
    "clave": "claves", "woodblock": "wood block", "timbales": "timbale",
}  # fmt: skip

BACKBEAT_VOICES = ("snare", "clap", "side stick")
"""Voices that mark a backbeat."""
HATS = ("hat", "open hat")
"""The hi-hats as struck with the stick; the foot's "pedal hat" keeps a time of its own."""
CYMBAL_MARKS = ("crash", "splash", "china")
"""Cymbals that mark a place in the form rather than keep time."""


def voice_of_key(key: int) -> str:
    """The voice that a General MIDI percussion key plays; "percussion" for a key without a name here."""
    return _VOICE_OF_KEY.get(key, "percussion")


def keys_of_voice(voice: str) -> tuple[int, ...]:
    """The General MIDI keys of a voice, ascending; the inverse of ``voice_of_key``."""
    return _KEYS[voice]


def read_voice(name: str) -> str:
    """The voice that a person means: "Hi-Hats" is "hat", "BD" is "kick". Raises ValueError with a sentence."""
    plain = re.sub(r"[\s_-]+", " ", name.strip().casefold())
    for tried in (plain, plain.removesuffix("s"), f"{plain}s"):
        if tried in _KEYS:
            return tried
        if tried in _ALSO:
            return _ALSO[tried]
    raise ValueError(f"'{name}' is no voice of a drum kit; write kick, snare, clap, hat, open hat, ride, …")
