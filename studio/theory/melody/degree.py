"""What a note is over a chord: its degree above the root.

Count letters from the root, then name the accidental; letters tell ♭6 from ♯5.

The house rule for the notes that are no chord tones, the same everywhere (common practice has both names).
The chord decides:

- over a chord with a seventh, seconds, fourths and sixths are 9, 11 and 13, because they stack on the
  seventh;
- over a plain triad or a power chord they are 9, 4 and 6, as in add9, the 4–3 suspension and "♭6 over vi":
  without a seventh, an 11 or a 13 would promise more than is there;
- over sixth, sus and add chords they are 2, 4 and 6, as in the names of those chords.

Nobody says ♭1, and ♯1 only of what passes from the root up to the second: another note on the root's own letter is
called by what it sounds, 7 for G♭ over G7 and ♭9 for G♯.

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
    label, other = (high, low) if _is_high(number, chord) else (low, high)
    if low in ("♭1", "♯1"):
        label, other = "7" if low == "♭1" else "♭9" if _is_high(2, chord) else "♭2", low
    in_bass = chord.bass is not None and chord.bass.pc == name.pc
    return Degree(label, "" if other == label else other, in_bass, letters, semitones)


def in_passing_up(degree: Degree) -> Degree:
    """The degree of a note that passes up: the raised root is ♯1 there, and its other name ♭9."""
    return degree if degree.alternative != "♯1" else replace(degree, label="♯1", alternative=degree.label)


def _is_high(number: int, chord: Chord) -> bool:
    """Whether a 2, 4 or 6 is called 9, 11 or 13 over this chord."""
    if chord.seventh:
        return True
    numbers = {tone.number for tone in chord.tones}
    triad = numbers <= {1, 3, 5}
    return triad and number == 2


def _other_name(accidental: str, number: int) -> str:
    below = {high: low for low, high in _ABOVE.items()}
    other = _ABOVE.get(number) or below.get(number)
    return f"{accidental}{other}" if other else ""
