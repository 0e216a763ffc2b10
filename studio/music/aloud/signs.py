"""The signs of music and print, and what each is called aloud; and numbers as words."""

from __future__ import annotations

SIGNS: dict[str, str] = {
    # accidentals
    "♭": "flat", "♯": "sharp", "♮": "natural", "𝄫": "double flat", "𝄪": "double sharp",
    # qualities
    "°": "diminished", "⌀": "half diminished", "∅": "half diminished", "△": "major", "∆": "major",
    # notes, rests and clefs
    "♩": "quarter note", "♪": "eighth note", "♫": "eighth notes", "♬": "sixteenth notes",
    "𝅝": "whole note", "𝅗𝅥": "half note", "𝅘𝅥": "quarter note", "𝅘𝅥𝅮": "eighth note", "𝅘𝅥𝅯": "sixteenth note",
    "𝄽": "rest", "𝄻": "rest", "𝄼": "rest", "𝄾": "rest", "𝄿": "rest",
    "𝄞": "treble clef", "𝄢": "bass clef", "𝄡": "C clef", "𝄐": "pause", "𝄑": "pause",
    "𝄆": "repeat", "𝄇": "repeat", "𝄋": "segno", "𝄌": "coda", "𝄀": "", "𝄁": "", "𝄂": "",
    # arrows, and signs of print
    "→": "to", "⟶": "to", "⇒": "to", "➔": "to", "←": "from", "⟵": "from", "⇐": "from", "↔": "and", "⇔": "and",
    "↑": "up", "↓": "down", "↗": "up", "↘": "down", "=": "equals", "≠": "is not", "≈": "about", "×": "times",
    "±": "plus or minus", "−": "minus",
}  # fmt: skip
"""What a sign is called where nothing else is known; none of them is in what goes to the ear."""

LETTERS: dict[str, str] = {
    "ø": "half diminished", "Ø": "half diminished", "º": "diminished", "Δ": "major",
}  # fmt: skip
"""Signs that are letters too: they are signs only where no letter stands beside them."""

RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁺⁻⁄", "01234567890123456789+-/")
"""Small figures above and below the line, as they stand in V⁷, and what they are."""

DASHES = "–—―‒"
ARROWS = "→⟶⇒➔"

ACCIDENTALS: dict[str, str] = {
    "": "", "♭": "flat", "b": "flat", "♭♭": "double flat", "bb": "double flat", "𝄫": "double flat",
    "♯": "sharp", "#": "sharp", "♯♯": "double sharp", "##": "double sharp", "x": "double sharp",
    "𝄪": "double sharp", "♮": "natural",
}  # fmt: skip

_UPTO_NINETEEN = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip


def number(figures: str) -> str:
    """A small number as a word, a larger one as its figures, which every voice can read."""
    value = int(figures)
    return _UPTO_NINETEEN[value] if value < len(_UPTO_NINETEEN) else str(value)
