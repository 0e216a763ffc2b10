"""The words, numbers and signs of chord symbols: what ``chord_reader`` looks for at each place."""

from __future__ import annotations

import re
from itertools import takewhile

ROOT_ACCIDENTALS = re.compile(r"𝄪|𝄫|##|♯♯|bb|♭♭|#|♯|b|♭|")
NO_CHORD = re.compile(r"N[./]?\s?C\.?|n[./]?c\.?|\(N\.?C\.?\)|[Nn]o [Cc]hord|[Tt]acet")
OVER = "|"
"""Stands between the chords of a polychord, the upper one first."""
SMALL_FIGURES = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₉⁄⁺⁻", "01234567899/+-")
"""Raised figures of typeset text, sign for sign, so that places in the text stay the same."""

_MAJOR = r"[Mm]ajor|[Mm]aj|MAJ|[Mm]a(?!dd)|MA(?!dd|DD)|M(?![iI])|[jJ](?=7|9|11|13)"
_TRIANGLE = r"[Δ△∆^]"

# Longest first, so that "maj" is not read as "ma" and a stray j. A dash before a 5 is a flat fifth.
WORDS = re.compile(
    rf"(?P<major>{_MAJOR}|{_TRIANGLE})"
    r"|(?P<minor>[Mm]inor|[Mm]in|MIN|MI|Mi|mi|m|[-–−—](?!5))"
    r"|(?P<half>[øØ⌀∅]|[Hh]alf[- ]?dim(?:inished)?)"
    r"|(?P<dim>[Dd]im(?:inished)?|DIM|[°º]|o(?!mit))"
    r"|(?P<aug>[Aa]ug(?:mented)?|AUG|\+)"
    r"|(?P<dominant>[Dd]om(?:inant)?(?=7|9|11|13))"
)
TRIANGLES = "Δ△∆^"
MAJOR_SEVENTH = re.compile(
    rf"/?(?:{_MAJOR}|{_TRIANGLE})(?P<bare>7|9|11|13)|\((?:{_MAJOR}|{_TRIANGLE})(?P<inside>7|9|11|13)\)"
    rf"|(?P<triangle>{_TRIANGLE}|\({_TRIANGLE}\))|(?P<figure>7|9|11|13)M(?![iIaA])"
)
RAISED_SEVENTH = re.compile(r"[+#♯]7|\([+#♯]7\)")
ADDED_MAJOR_SEVENTH = re.compile(rf"(?:{_MAJOR}|{_TRIANGLE})7|{_TRIANGLE}")
NUMBER = re.compile(r"6[/+]?9|6|7|9|11|13|5|2|4")
SUSPENDED = re.compile(
    r"(?:[Ss]us(?:pended)?|SUS)(?:(?P<both>2/?(?:sus)?4|4/?(?:sus)?2)|(?P<tone>4|2)|(?P<stack>7|9|11|13))?"
)
ALTERED = re.compile(r"(?:[Aa]lt(?:ered)?|ALT)\.?|\(alt(?:ered)?\.?\)")
ALTERATION = re.compile(r"([b♭#♯+\-–−]|aug(?=5|9|11)|dim(?=5))(5|9|11|13|4|2|6)")
RAISED_FIFTH = re.compile(r"\+(?!\d)|aug(?!\d)")
ADD = re.compile(r"(?:[Aa]dd|ADD) ?([b♭#♯]?)(11|13|2|3|4|6|9|7)")
NATURAL = re.compile(r"(?:♮|nat\.?)(9|11|13)")
NO = re.compile(r"(?:[Nn]o|NO|omit) ?(11|3|5|7|9)(?:rd|th)?")
BARE_NUMBER = re.compile(r"(11|13|2|4|6|9|7)")
SEPARATOR = re.compile(r"[, /]+")
BETWEEN_CHANGES = re.compile(r",(?=[b♭#♯+\-–−]?\d)|/(?=[b♭#♯+\-–−]?(?:9|11|13)|(?<=7/)6)")
"""Outside brackets: a comma, or the slash of C7/9 and C7/13, which cannot be a bass."""

# What a symbol may go on with, to find how far a mistyped one still made sense.
AFTER_ROOT = ("min7", "maj7", "dim7", "aug7", "dom7")
AFTER_WORD = ("maj7",)
ANYWHERE = (
    *("sus2", "sus4", "sus7", "sus9", "sus13", "alt"),
    *(f"{sign}{number}" for sign in "b#♭♯+-" for number in (5, 9, 11, 13)),
    *(f"add{sign}{number}" for sign in ("", "b", "#", "♭", "♯") for number in (2, 3, 4, 6, 9, 11, 13)),
    *(f"{word}{number}" for word in ("no", "omit") for number in (3, 5, 7, 9, 11)),
)

# word -> number -> quality, or quality and change; a word that is not here takes no such number.
STACKS: dict[str, dict[str, str]] = {
    "": {number: number for number in ("", "5", "6", "6/9", "7", "9", "11", "13")}
    | {"2": " add2", "4": " add4"},
    "major": {"": "", "6": "6", "6/9": "6/9", "7": "maj7", "9": "maj9", "11": "maj11", "13": "maj13"},
    "minor": {
        "": "m",
        "2": "m add2",
        "4": "m add4",
        "6": "m6",
        "6/9": "m6/9",
        "7": "m7",
        "9": "m9",
        "11": "m11",
        "13": "m13",
    },
    "minor major": {"7": "mMaj7", "9": "mMaj9", "11": "mMaj11", "13": "mMaj13"},
    "half": {"": "m7", "7": "m7", "9": "m9", "11": "m11"},
    "dim": {"": "dim", "7": "dim7", "9": "dim7 add9"},
    "dim major": {"7": "dimMaj7", "9": "dimMaj7 add9"},
    "aug": {"": "", "5": "", "7": "7", "9": "9", "13": "13"},
    "aug major": {"7": "maj7", "9": "maj9", "11": "maj11", "13": "maj13"},
    "dominant": {"7": "7", "9": "9", "11": "11", "13": "13"},
}
IMPLIED_CHANGES = {"half": ("♭5",), "aug": ("♯5",)}

# (quality, suspended tone) -> quality, or quality and change.
SUSPENDED_STACKS = {
    ("", "4"): "sus4",
    ("", "2"): "sus2",
    ("6", "4"): "sus4 add6",
    ("6", "2"): "sus2 add6",
    ("6/9", "4"): "sus4 add6 add9",
    ("7", "4"): "7sus4",
    ("7", "2"): "7sus2",
    ("9", "4"): "9sus4",
    ("11", "4"): "9sus4",
    ("13", "4"): "13sus4",
    ("maj7", "4"): "maj7sus4",
    ("maj7", "2"): "maj7sus2",
    ("maj9", "4"): "maj9sus4",
    ("maj13", "4"): "maj9sus4 add13",
}
# Am7sus4 is written by many; nothing minor is left once the third is gone.
WITHOUT_THIRD = {"m": "", "m7": "7", "m9": "9", "m11": "11", "m13": "13", "m6": "6", "m6/9": "6/9"}

# Cm9(maj7) has one seventh, the major one.
MAJOR_STACKS = {
    "9": "maj9",
    "11": "maj11",
    "13": "maj13",
    "m7": "mMaj7",
    "m9": "mMaj9",
    "m11": "mMaj11",
    "m13": "mMaj13",
}

OTHER_NAMES = {"♯4": "♯11", "♭2": "♭9", "♯2": "♯9", "♭6": "♭13"}
"""Alterations by their lower number, and what they are called over a seventh."""


def sign(text: str) -> str:
    """An accidental as it is printed, from any of the ways to write it ("b", "-", "+", "#", "dim", "aug")."""
    return {"": "", "b": "♭", "♭": "♭", "-": "♭", "–": "♭", "−": "♭", "dim": "♭"}.get(text, "♯")


def sense(text: str, words: tuple[str, ...]) -> int:
    """How many characters of ``text`` a symbol might have gone on with, if ``words`` could come next.

    "addq" makes sense for 3 characters, "b" for 1, and a word that is complete but out of place for none.
    """
    if any(text.startswith(word) for word in words):
        return 0
    shared = (takewhile(lambda pair: pair[0] == pair[1], zip(text, word, strict=False)) for word in words)
    return max(sum(1 for _ in pairs) for pairs in shared)
