"""The frame of the song: form, meter, keys, chords, and where each bar falls in the recording.

Song positions are ``Fraction`` quarter notes counted from bar 1 beat 1 (the pickup is negative); times are ``Fraction``
seconds from the start of the recording. The same values stand in ``project.yaml``; a test holds the two together.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction

TITLE = "Paraffin Tuesday"
BAND = "The Halfpenny Semaphore"

PICKUP = Fraction(1)
LAST_BAR = 60
METERS = {1: Fraction(4), 37: Fraction(2), 38: Fraction(4)}
"""Bar -> length of each bar from there on, in quarters: 4/4 throughout but for one bar of 2/4 before the bridge."""

ANCHORS = {1: "1.050", 13: "29.850", 29: "67.795", 38: "87.834", 46: "107.307", 58: "135.850", 60: "141.011"}
"""Bar -> seconds. The band pushes into each chorus, leans back in the bridge, and slows for the last three bars."""

KEYS = {1: "D major", 38: "A major", 45: "D major"}

SECTIONS = {
    "intro": (1, 4),
    "verse": (5, 12),
    "chorus": (13, 20),
    "verse 2": (21, 28),
    "chorus 2": (29, 37),
    "bridge": (38, 45),
    "chorus 3": (46, 53),
    "outro": (54, 60),
}

_VERSE = "| Dadd9 | A/C# | Bm | G | Dadd9 | F#7/A# | Bm . Em7 . | Asus4 . A . |"
_CHORUS = "| D | C | G | Gm | D | C | G | Gm |"
CHORDS = {
    "intro": "| D5 | C5 . G5 . | D5 | C5 . G5 . |",
    "verse": _VERSE,
    "chorus": _CHORUS,
    "verse 2": _VERSE,
    "chorus 2": "| D | C | G | Gm | D | C | G | A | Bm |",
    "bridge": "| Bm7 | E7 | A | F#m7 | Bm7 | E7sus4 . E7 . | Aadd9 | A7/C# |",
    "chorus 3": _CHORUS,
    "outro": "| D5 | C5 . G5 . | D5 | C5 . G5 . | G . Gm . | Dadd9 | % |",
}


@dataclass(frozen=True)
class Chord:
    """A chord symbol of the chart and where it sounds, in quarters."""

    start: Fraction
    length: Fraction
    symbol: str

    @property
    def end(self) -> Fraction:
        return self.start + self.length


def bar_length(bar: int) -> Fraction:
    """Quarters in a bar; bar 0 is the pickup."""
    if bar < 1:
        return PICKUP
    return METERS[max(first for first in METERS if first <= bar)]


def quarters(bar: int, beat: Fraction | int = 1) -> Fraction:
    """Position of a beat of a bar. Beat 1 is the downbeat; every beat here is a quarter."""
    if bar < 1:
        return Fraction(beat) - 1 - 4  # the pickup is counted as the last beats of a full bar 0
    return sum((bar_length(n) for n in range(1, bar)), Fraction(0)) + Fraction(beat) - 1


END = quarters(LAST_BAR) + bar_length(LAST_BAR)
_ANCHOR_QUARTERS = [quarters(bar) for bar in ANCHORS]
_ANCHOR_SECONDS = [Fraction(text) for text in ANCHORS.values()]


def seconds(position: Fraction) -> Fraction:
    """Time of a song position. Tempo is constant between anchors, and the outer tempos carry on past the ends."""
    i = min(max(bisect_right(_ANCHOR_QUARTERS, position) - 1, 0), len(_ANCHOR_QUARTERS) - 2)
    left, right = _ANCHOR_QUARTERS[i : i + 2]
    pace = (_ANCHOR_SECONDS[i + 1] - _ANCHOR_SECONDS[i]) / (right - left)
    return _ANCHOR_SECONDS[i] + (position - left) * pace


def section_at(position: Fraction) -> str:
    """Name of the section that a position lies in; the pickup belongs to the intro."""
    for name, (_, last) in SECTIONS.items():
        if position < quarters(last) + bar_length(last):
            return name
    return "outro"


def chart() -> tuple[Chord, ...]:
    """All chords of the song in order."""
    chords: list[Chord] = []
    for section, (first, _) in SECTIONS.items():
        bars = [bar.split() for bar in CHORDS[section].strip("| ").split("|")]
        for number, tokens in enumerate(bars, start=first):
            slot = bar_length(number) / len(tokens)
            for i, token in enumerate(tokens):
                start = quarters(number) + i * slot
                if token == ".":
                    chords[-1] = Chord(chords[-1].start, chords[-1].length + slot, chords[-1].symbol)
                else:
                    chords.append(Chord(start, slot, chords[-1].symbol if token == "%" else token))
    return tuple(chords)
