"""Where a root stands in a key, and the numeral that names it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.music.key import MAJOR_SCALE, Key
from studio.music.pitch import LETTERS, NATURAL_SEMITONES, NoteName, accidental_text
from studio.theory.harmony.reading import Style

ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII")

# Altered degrees on which a chord is found often enough that musicians have a name for it.
_USUAL = {(2, -1), (3, -1), (5, -1), (6, -1), (7, -1), (4, 1)}
_USUAL_DIMINISHED = _USUAL | {(1, 1), (2, 1), (5, 1), (6, 1)}


@dataclass(frozen=True, slots=True)
class ScaleDegree:
    """A degree of the scale, 1 to 7, and how far it is altered from the MAJOR scale on the same tonic.

    So the sixth degree of A minor, F, is (6, −1), in minor as in major.
    """

    number: int
    alter: int = 0

    def __str__(self) -> str:
        return accidental_text(self.alter) + str(self.number)


@lru_cache(maxsize=4096)
def degree_in(key: Key, note: NoteName) -> ScaleDegree:
    """The degree that a note is by its letter: in A, C is ♭3 and B♯ is ♯2."""
    letters, semitones = key.tonic.interval_to(note)
    return ScaleDegree(letters + 1, semitones - MAJOR_SCALE[letters])


@lru_cache(maxsize=4096)
def root_degree(key: Key, root: NoteName, diminished: bool) -> ScaleDegree:
    """The degree of a chord's root, spelled as musicians would name it.

    Charts mix spellings: in D♭ the chord on the lowered sixth is written A, not B♭♭. A root whose letter
    gives a degree that nobody uses (♯5 for a major chord) is taken as the note that sounds the same.
    Diminished chords keep ♯1, ♯2, ♯5, which lead upward.
    """
    usual = _USUAL_DIMINISHED if diminished else _USUAL
    written = degree_in(key, root)
    if written.alter == 0 or (written.number, written.alter) in usual:
        return written
    others = [degree_in(key, note) for note in enharmonics(root)]
    natural = [degree for degree in others if degree.alter == 0]
    known = [degree for degree in others if (degree.number, degree.alter) in usual]
    return (natural + known + [written])[0]


def spelled_in(key: Key, root: NoteName, diminished: bool = False) -> NoteName:
    """The root of a chord by the letter of its degree: B in E♭ major is C♭, the lowered sixth."""
    degree = root_degree(key, root, diminished)
    return key.tonic.transposed(degree.number - 1, MAJOR_SCALE[degree.number - 1] + degree.alter)


def enharmonics(note: NoteName) -> tuple[NoteName, ...]:
    """The notes that sound the same, spelled with the neighbouring letters."""
    found = []
    for move in (1, -1):
        step = (note.step + move) % 7
        alter = (note.pc - NATURAL_SEMITONES[step] + 6) % 12 - 6
        found.append(NoteName(LETTERS[step], alter))
    return tuple(found)


def numeral_root(
    degree: ScaleDegree, small: bool, diminished: bool, key: Key, style: Style
) -> tuple[str, str]:
    """The accidental and the Roman numeral of a degree: ("♭", "VI").

    ``relative-to-major`` counts every accidental from the major scale: ♭III, ♭VI, ♭VII in minor as in major.
    ``common-practice`` counts from the scale of the key: III, VI, VII in minor. There a diminished chord on
    the seventh degree is understood to stand on the leading note and carries no accidental (vii°7 in A minor
    is G♯°7), as handbooks write it; the rare one on the lowered seventh is then ♭vii°.
    """
    alter = degree.alter
    if style == "common-practice" and key.mode == "minor" and degree.number in (3, 6, 7):
        leading = degree.number == 7 and diminished
        alter += 0 if leading else 1
    roman = ROMAN[degree.number - 1]
    return accidental_text(alter), roman.lower() if small else roman
