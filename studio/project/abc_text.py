"""ABC text made plain for music21: every accidental written out where it holds.

ABC 2.1, 11.3: an accidental holds for its letter in every octave up to the bar line. music21 carries it from note
to note but neither into chords nor out of them; written out, nothing has to be carried.
"""

from __future__ import annotations

import re

_OLDER = re.compile(r"^\s*%abc-[01]\b", re.MULTILINE)
_OWN_RULE = re.compile(r"^\s*%%\s*propagate-accidentals", re.MULTILINE)
_VERSION = re.compile(r"^\s*%abc-\d", re.MULTILINE)
_FIELD = re.compile(r"[A-Za-z+]:|%")
_NEW_VOICE = re.compile(r"V:")

# What music is made of, as far as accidentals go: words and signs that only look like notes first.
_TOKEN = re.compile(
    r'"[^"]*"'  # a chord symbol, or words
    r"|![^!\n]*!|\+[^+\n]*\+"  # a decoration
    r"|\[[A-Za-z]:[^\]]*\]"  # a field within the line
    r"|%.*"  # a remark
    r"|(?P<bar>\||::)"
    r"|(?P<sign>[_^=]*)(?P<letter>[A-Ga-g])"
)


def spelled_out(text: str) -> str:
    """The tune with its accidentals written out, as ABC 2.1; one that names an older version, or its own rule for
    accidentals, as it stands."""
    if _OLDER.search(text) or _OWN_RULE.search(text):
        return text
    holding: dict[str, str] = {}
    lines = []
    for line in text.lstrip().split("\n"):
        if _FIELD.match(line.lstrip()):
            if _NEW_VOICE.match(line.lstrip()):
                holding.clear()
            lines.append(line)
        else:
            lines.append(_TOKEN.sub(lambda found: _written(found, holding), line))
    plain = "\n".join(lines)
    return plain if _VERSION.search(text) else f"%abc-2.1\n{plain}"


def _written(found: re.Match[str], holding: dict[str, str]) -> str:
    """A token with the accidental that holds for it; bar lines let go of all of them."""
    if found["bar"]:
        holding.clear()
    letter = found["letter"]
    if not letter:
        return found[0]
    if found["sign"]:
        holding[letter.upper()] = found["sign"]
    return f"{holding.get(letter.upper(), '')}{letter}"
