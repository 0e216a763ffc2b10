"""What a note is over a chord: its degree above the root.

Count letters from the root, then name the accidental; letters tell ♭6 from ♯5.

The house rule for the notes that are no chord tones, the same everywhere (common practice has both names).
The chord decides:

- over a chord with a seventh, seconds, fourths and sixths are 9, 11 and 13, because they stack on the
  seventh;
- over all others, triads, power chords, sixth, sus and add chords, they are 2, 4 and 6, as in 5–4–3–2–1, the 4–3
  suspension and "♭6 over vi": without a seventh, a 9, an 11 or a 13 would promise more than is there. A 9 that the
  symbol itself writes stays a 9 (Cadd9, C6/9).

Nobody says ♭1, and ♯1 only of what passes from the root up to the second: another note on the root's own letter is
called by what it sounds, 7 for G♭ over G7 and ♭9 for G♯.

A lowered third that colours a dominant seventh chord is its ♯9, as chord symbols have it (``as_colour``); the
blue third of a blues is ♭3.

Two kinds of note have their names from what they do, not from the chord: that raised root in passing
(``in_passing_up``), and a suspension. A suspension over a chord in root
position is called by its figure (``suspensions.as_figured``), because that is how it is said. So the same C
over G7 is 4 where it is held from the chord before and steps down to B, 4–3, and 11 where it is struck as a
colour. Every other note, approached and left however it may be, follows the chord.

The other name is kept as the alternative.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from studio.music.chord import Chord
from studio.music.key import MAJOR_SCALE
from studio.music.pitch import NoteName, accidental_text

_ABOVE = {2: 9, 4: 11, 6: 13}


@dataclass(frozen=True, slots=True)
class Degree:
    """A note's place over a chord. ``label`` is its name ("♭6"), ``alternative`` its other name, or "".

    ``letters`` (0 to 6) and ``semitones`` lie above the chord's root inside one octave, as the note is
    spelled. ``chord_tone`` is true for what the symbol holds, its bass included, however the note is
    spelled.
    """

    label: str
    alternative: str
    chord_tone: bool
    letters: int
    semitones: int


@lru_cache(maxsize=8192)
def degree_over(name: NoteName, chord: Chord) -> Degree:
    """The degree of a note over a chord, by the house rule.

    A chord tone has the label that it has in the chord ("♭9", "4", "♯5"), even when it is spelled as another
    note: A♭ over C7♯5 sounds the ♯5, and ♭6 is its alternative.
    """
    letters, semitones = chord.root.interval_to(name)
    accidental, number = accidental_text(semitones - MAJOR_SCALE[letters]), letters + 1
    tone = next((tone for tone in chord.tones if (tone.semitones - semitones) % 12 == 0), None)
    if tone is not None:
        spelled = tone.letters % 7 == letters
        other = _other_name(accidental, tone.number) if spelled else f"{accidental}{number}"
        return Degree(tone.degree, other, True, letters, semitones)
    high, low = f"{accidental}{_ABOVE.get(number, number)}", f"{accidental}{number}"
    label, other = (high, low) if chord.seventh else (low, high)
    if low in ("♭1", "♯1"):
        label, other = "7" if low == "♭1" else "♭9" if chord.seventh else "♭2", low
    in_bass = chord.bass is not None and chord.bass.pc == name.pc
    return Degree(label, "" if other == label else other, in_bass, letters, semitones)


def in_passing_up(degree: Degree) -> Degree:
    """The degree of a note that passes up: the raised root is ♯1 there, and its other name ♭9."""
    return degree if degree.alternative != "♯1" else replace(degree, label="♯1", alternative=degree.label)


def is_dominant(chord: Chord) -> bool:
    """Whether a chord is a dominant seventh: a major third and a lowered seventh."""
    return chord.triad == "major" and chord.seventh == "♭7"


def as_colour(degree: Degree, chord: Chord) -> Degree:
    """The degree of a note that colours its chord: over a dominant seventh, ♭3 is ♯9."""
    if degree.label != "♭3" or degree.chord_tone or not is_dominant(chord):
        return degree
    return replace(degree, label="♯9", alternative="♭3")


def _other_name(accidental: str, number: int) -> str:
    below = {high: low for low, high in _ABOVE.items()}
    other = _ABOVE.get(number) or below.get(number)
    return f"{accidental}{other}" if other else ""
