"""What the fields K:, V:, M: and L: of ABC say. Section numbers are those of the standard, ABC 2.1."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from studio.music.pitch import NoteName
from studio.project.complaints import MisfitError
from studio.project.written_part import ClefName

_PROPERTY = re.compile(r'([A-Za-z]+)\s*=\s*("[^"]*"|\S+)')
_CLEF = re.compile(r"(treble|alto|tenor|bass|perc|none|[GCF])([1-5]?)([+-]8)?(?:va|vb)?")
_BARE_CLEF = re.compile(r"(?:treble|alto|tenor|bass|perc)[1-5]?(?:[+-]8)?(?:va|vb)?")
_KEY = re.compile(
    r"([A-G][#b]?)\s*((?i:m|maj|min|ion|dor|phr|lyd|mix|aeo|loc|major|minor|ionian|dorian|phrygian|lydian|mixolydian"
    r"|aeolian|locrian)?)"
)
_SHARPS = {
    "": 0,
    "maj": 0,
    "ion": 0,
    "lyd": 1,
    "mix": -1,
    "dor": -2,
    "m": -3,
    "min": -3,
    "aeo": -3,
    "phr": -4,
    "loc": -5,
}
"""Sharps of each mode beside those of the major key on the same note (the table of 3.1.14)."""
_MOVES_NOTES = ("transpose", "score", "sound", "shift", "instrument")
_NAMES: dict[tuple[str, str], ClefName] = {
    ("treble", ""): "treble",
    ("treble", "-8"): "treble 8vb",
    ("treble", "+8"): "treble",
    ("bass", ""): "bass",
    ("bass", "-8"): "bass 8vb",
    ("bass", "+8"): "bass",
    ("alto", ""): "alto",
    ("tenor", ""): "tenor",
}
_BY_LINE = {
    "G2": "treble",
    "F4": "bass",
    "C3": "alto",
    "C4": "tenor",
    "G": "treble",
    "F": "bass",
    "C": "alto",
}
_LINES = {"treble": "2", "bass": "4", "alto": "3", "tenor": "4"}


@dataclass(frozen=True)
class Staff:
    """What a K: or V: field says of a voice: its clef, and by how many octaves it sounds from what is written.
    None where it says nothing of it."""

    clef: ClefName | None = None
    octaves: int | None = None


def staff_of(value: str) -> Staff:
    """Clef and octave (4.6) out of the value of K: or V:. Raises MisfitError for what cannot be read of it."""
    said = {name.lower(): text.strip('"') for name, text in _PROPERTY.findall(value)}
    for name in _MOVES_NOTES:
        if said.get(name, "0") != "0":
            raise MisfitError(f"'{name}={said[name]}' is not read here; write the notes as they sound")
    bare = [word for word in _bare(value).split() if _BARE_CLEF.fullmatch(word)]
    written = said.get("clef", bare[0] if bare else "")
    clef, octaves = _clef(written) if written else (None, None)
    if "octave" in said:
        if not re.fullmatch(r"[+-]?[0-4]", said["octave"]):
            raise MisfitError(f"'octave={said['octave']}' is not a number of octaves, such as -1")
        octaves = (octaves or 0) + int(said["octave"])
    return Staff(clef, octaves)


def _clef(written: str) -> tuple[ClefName, int]:
    found = _CLEF.fullmatch(written)
    if found and found[1] in ("perc", "none"):
        raise MisfitError(
            f"The clef '{written}' has no pitches; a drum part goes under song: grooves, "
            "and any other part needs treble, alto, tenor or bass"
        )
    sign, line, octave = (found[1], found[2], found[3] or "") if found else ("", "", "")
    name = _BY_LINE.get(sign + line, "") if sign in "GCF" else sign
    usual = sign in "GCF" or line in ("", _LINES.get(sign))
    if (name, octave) not in _NAMES or not usual:
        raise MisfitError(
            f"'{written}' is not a clef that is read here: write treble, alto, tenor or bass, and treble-8 or bass-8 "
            "where it sounds an octave lower (ABC 2.1, 4.6)"
        )
    return _NAMES[name, octave], int(octave[:1] + "1") if octave else 0


def _bare(value: str) -> str:
    return _PROPERTY.sub(" ", value)


def without_staff(value: str) -> str:
    """The value of V: without clef and octave."""
    kept = _PROPERTY.sub(lambda found: "" if found[1].lower() in ("clef", "octave") else found[0], value)
    return " ".join(word for word in kept.split(" ") if word and not _BARE_CLEF.fullmatch(word))


def key_of(value: str) -> str:
    """The major key with the signature that K: asks for (3.1.14): C for C, Am and D dor alike.

    Raises MisfitError for what is no key, and for accidentals of the tune's own beside it.
    """
    words = [word for word in _bare(value).split() if not _BARE_CLEF.fullmatch(word)]
    own = [word for word in words if word == "exp" or re.fullmatch(r"[\^_=]+[A-Ga-g]", word)]
    if own:
        raise MisfitError(
            f"The accidentals '{' '.join(own)}' beside the key are not read here; write each before its notes, as ^F"
        )
    written = " ".join(words)
    if written.lower() in ("", "none"):
        return "C"
    found = _KEY.fullmatch(written)
    sharps = NoteName.parse(found[1]).fifths + _SHARPS[_mode(found[2])] if found else 8
    if abs(sharps) > 7:
        german = " (the German H is B)" if written.startswith("H") else ""
        raise MisfitError(
            f"'K:{written}' is not a key of ABC{german}; write one such as K:Em, K:Bb or K:D dor"
        )
    return str(NoteName.from_fifths(sharps)).replace("♯", "#").replace("♭", "b")


def _mode(written: str) -> str:
    """In capitals or not, with three letters that count; a capital M alone is major to a musician."""
    return {"m": "m", "M": ""}.get(written, written.lower()[:3])


def meter_of(value: str) -> str | None:
    """The value of M: (3.1.6) as 4/4; None for a free meter. Raises MisfitError for what is no meter."""
    known = {"C": "4/4", "C|": "2/2", "none": None, "": None}
    if value in known:
        return known[value]
    if not re.fullmatch(r"\d{1,2}/\d{1,2}", value):
        raise MisfitError(f"'M:{value}' is not a meter that is read here; write one such as M:4/4")
    return value


def unit_of(value: str) -> Fraction:
    """The unit length L: (3.1.7) in quarters."""
    if not re.fullmatch(r"1(/[1-9]\d{0,2})?", value):
        raise MisfitError(f"'L:{value}' is not a length; write one such as L:1/8")
    return 4 * Fraction(value)


def usual_unit(meter: str | None) -> Fraction:
    """The unit length in quarters where no L: says it: a sixteenth under a meter of less than 3/4, else an eighth."""
    return Fraction(1, 4) if meter is not None and Fraction(meter) < Fraction(3, 4) else Fraction(1, 2)
