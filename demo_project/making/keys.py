"""The electric piano: a voicing for each chord of each section, and a way of playing it.

Left hand low to high, then right hand. In the verse the left hand holds the chord's bass; in the chorus the right hand
waits for beat 2, so that the tune's suspended note rings over a bare fifth and the third arrives with its resolution.
An inner voice of the chorus hides a staircase: D C B Bb, and A when the loop comes round.
"""

from __future__ import annotations

from fractions import Fraction

from making.notation import Event
from making.song import Chord, chart, quarters, section_at

Voicing = tuple[tuple[str, ...], tuple[str, ...]]


def _voicing(left: str, right: str) -> Voicing:
    return tuple(left.split()), tuple(right.split())


_RIFF = {
    "D5": _voicing("D3", "A3 D4 A4"),
    "C5": _voicing("C3", "G3 C4 G4"),
    "G5": _voicing("G2", "G3 D4 G4"),
    "G": _voicing("G2 D3", "G3 B3 D4"),
    "Gm": _voicing("G2 D3", "G3 Bb3 D4"),
    "Dadd9": _voicing("D3 A3", "E4 F#4 A4"),
}
_VERSE = {
    "Dadd9": _voicing("D3 A3", "E4 F#4 A4"),
    "A/C#": _voicing("C#3 A3", "C#4 E4 A4"),
    "Bm": _voicing("B2 F#3", "D4 F#4 B4"),
    "G": _voicing("G2 D3", "D4 G4 B4"),
    "F#7/A#": _voicing("A#2 F#3", "E4 F#4 C#5"),
    "Em7": _voicing("E3 B3", "D4 G4 B4"),
    "Asus4": _voicing("A2 E3", "D4 E4 A4"),
    "A": _voicing("A2 E3", "C#4 E4 A4"),
}
_CHORUS = {
    "D": _voicing("A2 D3", "A3 D4 F#4"),
    "C": _voicing("G2 C3", "G3 C4 E4"),
    "G": _voicing("G2 D3", "G3 B3 D4"),
    "Gm": _voicing("G2 D3", "G3 Bb3 D4"),
    "A": _voicing("A2 E3", "A3 C#4 E4"),
    "Bm": _voicing("B2 F#3", "B3 D4 F#4"),
}
_BRIDGE = {
    "Bm7": _voicing("B2 F#3", "D4 F#4 A4"),
    "E7": _voicing("E3 B3", "D4 E4 G#4"),
    "A": _voicing("A2 E3", "C#4 E4 A4"),
    "F#m7": _voicing("F#2 C#3", "C#4 E4 A4"),
    "E7sus4": _voicing("E3 B3", "D4 E4 A4"),
    "Aadd9": _voicing("A2 E3", "B3 C#4 E4 A4"),
    "A7/C#": _voicing("C#3", "A3 E4 G4"),
}
VOICINGS = {
    "intro": _RIFF,
    "verse": _VERSE,
    "chorus": _CHORUS,
    "verse 2": _VERSE,
    "chorus 2": _CHORUS,
    "bridge": _BRIDGE,
    "chorus 3": _CHORUS,
    "outro": _RIFF,
}

_UNDER_THE_SIGH = _voicing("B2 F#3", "B3 D4 B4")
"""B minor where the tune leans on G: the F# is left to the left hand, so that no half step rubs beside the tune."""
_SIGHS = (quarters(7), quarters(23))

# (offset, length) in quarters of each time the right hand plays, for a chord that fills a bar.
_RHYTHMS = {
    "verse": ((0, 1.5), (1.5, 2.5)),
    "verse 2": ((0, 1.5), (1.5, 1), (3, 1)),
    "chorus": ((1, 0.5), (1.5, 1), (3, 1)),
    "chorus 2": ((1, 0.5), (1.5, 1), (3, 1)),
    "chorus 3": ((1, 0.5), (1.5, 1), (3, 0.5), (3.5, 0.5)),
    "bridge": ((0, 4),),
}
_LOUDNESS = {"intro": 0.6, "verse": 0.6, "verse 2": 0.64, "bridge": 0.62, "outro": 0.62}


def _right_hand(chord: Chord, section: str, pitches: tuple[str, ...], loudness: float) -> list[Event]:
    whole_bar = chord.length == 4 and section in _RHYTHMS
    rhythm = _RHYTHMS[section] if whole_bar else ((0, chord.length),)
    events = []
    for offset, length in rhythm:
        stress = loudness if offset in (0, 1) else loudness * 0.88
        events.append(Event(chord.start + Fraction(offset), Fraction(length), pitches, stress))
    return events


def keys() -> tuple[list[Event], list[Event]]:
    """Right hand and left hand. The keys come in with the band, in bar 3."""
    right: list[Event] = []
    left: list[Event] = []
    last_chord = quarters(59)
    for chord in chart():
        if chord.start < quarters(3) or chord.start > last_chord:
            continue
        section = section_at(chord.start)
        low, high = _UNDER_THE_SIGH if chord.start in _SIGHS else VOICINGS[section][chord.symbol]
        loudness = _LOUDNESS.get(section, 0.7)
        if chord.start == last_chord:  # the last chord rings through both bars
            chord = Chord(chord.start, Fraction(8), chord.symbol)
        right += _right_hand(chord, section, high, loudness)
        left.append(Event(chord.start, chord.length, low, loudness * 0.9))
    return right, left
