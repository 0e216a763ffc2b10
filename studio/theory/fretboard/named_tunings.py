"""The tunings that players know by name.

All of them are common practice of the trade. The standard ones of the guitar, the bass, the ukulele, the banjo
and the bowed strings stand in every handbook of orchestration (from memory).
"""

from __future__ import annotations

from dataclasses import replace

from studio.theory.fretboard.tuning import Tuning, read_written_tuning
from studio.theory.plain_english import listed

_WRITTEN = {
    "standard": "E2 A2 D3 G3 B3 E4",
    "drop D": "D2 A2 D3 G3 B3 E4",
    "double drop D": "D2 A2 D3 G3 B3 D4",
    "DADGAD": "D2 A2 D3 G3 A3 D4",
    "open G": "D2 G2 D3 G3 B3 D4",
    "open D": "D2 A2 D3 F#3 A3 D4",
    "open E": "E2 B2 E3 G#3 B3 E4",
    "open A": "E2 A2 E3 A3 C#4 E4",
    "open C": "C2 G2 C3 G3 C4 E4",
    "drop C": "C2 G2 C3 F3 A3 D4",
    "half step down": "Eb2 Ab2 Db3 Gb3 Bb3 Eb4",
    "whole step down": "D2 G2 C3 F3 A3 D4",
    "7-string": "B1 E2 A2 D3 G3 B3 E4",
    "baritone": "B1 E2 A2 D3 F#3 B3",
    "bass": "E1 A1 D2 G2",
    "bass drop D": "D1 A1 D2 G2",
    "5-string bass": "B0 E1 A1 D2 G2",
    "6-string bass": "B0 E1 A1 D2 G2 C3",
    "ukulele": "G4 C4 E4 A4",
    "ukulele low G": "G3 C4 E4 A4",
    "baritone ukulele": "D3 G3 B3 E4",
    "mandolin": "G3 D4 A4 E5",
    "octave mandolin": "G2 D3 A3 E4",
    "banjo": "G4 D3 G3 B3 D4",
    "tenor banjo": "C3 G3 D4 A4",
    "violin": "G3 D4 A4 E5",
    "viola": "C3 G3 D4 A4",
    "cello": "C2 G2 D3 A3",
}

_OTHER_NAMES = {
    "12-string": "standard", "12-string guitar": "standard",
    "guitar": "standard", "guitar standard": "standard", "standard guitar": "standard", "e standard": "standard",
    "eb standard": "half step down", "e♭ standard": "half step down",
    "d standard": "whole step down", "7-string guitar": "7-string", "seven-string": "7-string",
    "baritone guitar": "baritone", "bass guitar": "bass", "4-string bass": "bass", "bass standard": "bass",
    "five-string bass": "5-string bass", "six-string bass": "6-string bass", "uke": "ukulele",
    "banjo g": "banjo", "banjo open g": "banjo", "5-string banjo": "banjo", "fiddle": "violin",
}  # fmt: skip

# Frets are closer together on a short string, so that a hand covers more of them; string players shift by whole
# steps, and their first position covers a fourth or more. Common practice.
_REACH = {
    "ukulele": 5, "ukulele low G": 5, "baritone ukulele": 5, "mandolin": 6, "violin": 6, "octave mandolin": 5,
    "tenor banjo": 5, "viola": 5,
}  # fmt: skip

_OPEN_ONLY = {"banjo": (0,)}
"""The fifth string of a banjo is short and starts at the fifth fret; it rings open as a drone."""


def _named() -> dict[str, Tuning]:
    tunings = {}
    for name, written in _WRITTEN.items():
        tuning = read_written_tuning(written, name)
        tunings[name] = replace(tuning, reach=_REACH.get(name, 4), open_only=_OPEN_ONLY.get(name, ()))
    return tunings


TUNINGS: dict[str, Tuning] = _named()
"""Every tuning that has a name here, by its name."""

STANDARD = TUNINGS["standard"]
"""A guitar as it is tuned unless somebody says otherwise."""


def read_tuning(text: str) -> Tuning:
    """A tuning by its name, in any capitals, or by its open strings from low to high.

    >>> read_tuning("dadgad").text, read_tuning("D2 A2 D3 F#3 A3 D4").name
    ('D2 A2 D3 G3 A3 D4', 'D2 A2 D3 F♯3 A3 D4')

    Raises ValueError in one plain sentence that says what would be right.
    """
    asked = " ".join(text.split())
    known = {name.lower(): tuning for name, tuning in TUNINGS.items()}
    name = _OTHER_NAMES.get(asked.lower(), asked)
    if tuning := known.get(name.lower()):
        return tuning
    if not _looks_written(asked):
        names = listed([*list(TUNINGS)[:6], "bass", "ukulele", "mandolin"], "or")
        raise ValueError(
            f"“{asked}” is not a tuning that is known by name: write its open strings, low string first, "
            f"as E2 A2 D3 G3 B3 E4, or a name such as {names}."
        )
    return read_written_tuning(asked)


def _looks_written(text: str) -> bool:
    """Whether somebody meant open strings: short words that start with a note letter, or nothing at all."""
    words = text.replace(",", " ").split()
    return all(word[0].upper() in "ABCDEFG" and len(word) <= 4 for word in words)
