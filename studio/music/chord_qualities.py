"""The closed vocabulary of chord qualities and the tones that each one holds.

A quality is the part of a chord symbol that names a whole stack ("m7", "9sus4"); what is changed or added on
top of it ("♭9", "add11", "no3") is a change, and ``studio.music.chord`` keeps the two apart.

Tones are common practice of fake books; where books differ, this is what we follow:

- "11" keeps its third and its ninth, although players often leave the third out (9sus4 says so).
- "13" and "maj13" hold no eleventh, because a natural 11 grinds against the major third and nobody plays it;
  "m13" does hold it.
- "7alt" is the dominant with every altered tension: ♭9 ♯9 ♯11 ♭13 and no plain fifth.
"""

from __future__ import annotations

QUALITIES: dict[str, str] = {
    # triads
    "": "1 3 5",
    "m": "1 ♭3 5",
    "dim": "1 ♭3 ♭5",
    "aug": "1 3 ♯5",
    "5": "1 5",
    "sus2": "1 2 5",
    "sus4": "1 4 5",
    # sixths
    "6": "1 3 5 6",
    "m6": "1 ♭3 5 6",
    "6/9": "1 3 5 6 9",
    "m6/9": "1 ♭3 5 6 9",
    # sevenths
    "7": "1 3 5 ♭7",
    "maj7": "1 3 5 7",
    "m7": "1 ♭3 5 ♭7",
    "mMaj7": "1 ♭3 5 7",
    "m7♭5": "1 ♭3 ♭5 ♭7",
    "dim7": "1 ♭3 ♭5 ♭♭7",
    "dimMaj7": "1 ♭3 ♭5 7",
    "7alt": "1 3 ♭7 ♭9 ♯9 ♯11 ♭13",
    # ninths, elevenths, thirteenths
    "9": "1 3 5 ♭7 9",
    "maj9": "1 3 5 7 9",
    "m9": "1 ♭3 5 ♭7 9",
    "mMaj9": "1 ♭3 5 7 9",
    "11": "1 3 5 ♭7 9 11",
    "maj11": "1 3 5 7 9 11",
    "m11": "1 ♭3 5 ♭7 9 11",
    "mMaj11": "1 ♭3 5 7 9 11",
    "13": "1 3 5 ♭7 9 13",
    "maj13": "1 3 5 7 9 13",
    "m13": "1 ♭3 5 ♭7 9 11 13",
    "mMaj13": "1 ♭3 5 7 9 11 13",
    # suspended sevenths and above
    "7sus2": "1 2 5 ♭7",
    "7sus4": "1 4 5 ♭7",
    "9sus4": "1 4 5 ♭7 9",
    "13sus4": "1 4 5 ♭7 9 13",
    "maj7sus2": "1 2 5 7",
    "maj7sus4": "1 4 5 7",
    "maj9sus4": "1 4 5 7 9",
}

ALTERATIONS = ("♭5", "♯5", "♭9", "♯9", "♯11", "♭13")
"""Changes that replace the plain tone of the same number, in the order in which they are printed."""

TENSIONS = ("♭9", "♯9", "♯11", "♭13")
"""Alterations of tones that lie above the seventh; over a plain triad they are added tones."""

ADDED = ("2", "♭2", "3", "4", "♯4", "6", "♭6", "♭7", "7", "♭9", "9", "♯9", "11", "♯11", "♭13", "13")
"""Tones that may be added with "add", in the order in which they are printed."""

LEFT_OUT = ("3", "5", "7", "9", "11")
"""Numbers that may be left out with "no"."""

# A quality with one change that has a plain name of its own: (quality, change) -> quality, or quality and change.
SAME_AS: dict[tuple[str, str], str] = {
    ("", "♯5"): "aug",
    ("m", "♭5"): "dim",
    ("m7", "♭5"): "m7♭5",
    ("mMaj7", "♭5"): "dimMaj7",
    ("", "no3"): "5",
    ("m", "no3"): "5",
    ("", "add6"): "6",
    ("m", "add6"): "m6",
    ("6", "add9"): "6/9",
    ("m6", "add9"): "m6/9",
    ("7", "add9"): "9",
    ("maj7", "add9"): "maj9",
    ("m7", "add9"): "m9",
    ("mMaj7", "add9"): "mMaj9",
    ("9", "add11"): "11",
    ("maj9", "add11"): "maj11",
    ("m9", "add11"): "m11",
    ("mMaj9", "add11"): "mMaj11",
    ("9", "add13"): "13",
    ("maj9", "add13"): "maj13",
    ("m11", "add13"): "m13",
    ("mMaj11", "add13"): "mMaj13",
    ("", "add7"): "maj7",
    ("m", "add7"): "mMaj7",
    ("dim", "add7"): "dimMaj7",
    ("", "add♭7"): "7",
    ("m", "add♭7"): "m7",
    ("dim", "add♭7"): "m7♭5",
    ("m7♭5", "add9"): "m9 ♭5",
    ("sus4", "add♭7"): "7sus4",
    ("sus2", "add♭7"): "7sus2",
    ("sus4", "add7"): "maj7sus4",
    ("sus2", "add7"): "maj7sus2",
    ("5", "add3"): "",
    ("5", "add♭7"): "7 no3",
    ("5", "add7"): "maj7 no3",
    ("sus2", "add4"): "sus4 add2",
    ("7sus2", "add4"): "7sus4 add2",
    ("maj7sus2", "add4"): "maj7sus4 add2",
    ("7sus4", "add9"): "9sus4",
    ("9sus4", "add13"): "13sus4",
    ("maj7sus4", "add9"): "maj9sus4",
}

# A seventh with an altered ninth and a 13 is called by its 13: C7(♭9,add13) is C13♭9.
WITH_THIRTEENTH = {"7": "13", "maj7": "maj13", "7sus4": "13sus4"}
