"""The tones of a chord, each with its label above the root."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from studio.music.chord_qualities import ALTERATIONS, QUALITIES
from studio.music.pitch import NATURAL_SEMITONES, NoteName, accidental_text, accidental_value

_NAMES = (
    *("root", "second", "third", "fourth", "fifth", "sixth", "seventh"),
    *("octave", "ninth", "tenth", "eleventh", "twelfth", "thirteenth"),
)


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone of a chord, as counted from its root.

    ``degree`` is its label ("♭3", "9"); ``letters`` and ``semitones`` lie above the root and keep the octave:
    a 9 is 8 letters and 14 semitones up, a 2 is 1 letter and 2 semitones.
    """

    degree: str
    letters: int
    semitones: int

    @classmethod
    def of(cls, degree: str) -> Tone:
        """The tone with this label, as counted in the major scale: "♭7" is 6 letters and 10 semitones."""
        number = degree.lstrip("♭♯")
        octaves, step = divmod(int(number) - 1, 7)
        alter = accidental_value(degree[: len(degree) - len(number)])
        return cls(degree, 7 * octaves + step, 12 * octaves + NATURAL_SEMITONES[step] + alter)

    @property
    def number(self) -> int:
        """The label without its accidental: 7 for "♭7"."""
        return self.letters + 1

    @property
    def name(self) -> str:
        """Its number in words, "root", "third", "thirteenth"; the accidental is not said."""
        return _NAMES[self.letters]


@lru_cache(maxsize=4096)
def stacked(quality: str, changes: tuple[str, ...]) -> tuple[Tone, ...]:
    """The tones of a quality with its changes, from the root up."""
    degrees = QUALITIES[quality].split()
    altered = [change for change in changes if change in ALTERATIONS]
    replaced = {change.lstrip("♭♯") for change in altered}
    kept = [degree for degree in degrees if degree not in replaced]
    added = [change[3:] for change in changes if change.startswith("add")]
    left_out = {int(change[2:]) for change in changes if change.startswith("no")}
    tones = {Tone.of(degree) for degree in (*kept, *altered, *added)}
    return _in_order(tone for tone in tones if tone.number not in left_out)


def with_upper(lower: tuple[Tone, ...], root: NoteName, upper: Iterable[NoteName]) -> tuple[Tone, ...]:
    """The tones of a chord on ``root`` and those that the notes of another chord above it add.

    What the upper chord has in common with the lower one is not counted twice. Its other tones are tensions,
    so that D over C is 1 3 5 9 ♯11 13; a seventh stays a seventh, and a second third or fifth is a ♭10 or ♯12.
    """
    sounding = {tone.semitones % 12 for tone in lower}
    joined = list(lower)
    for note in upper:
        tone = _tension(root, note)
        if tone.semitones % 12 not in sounding:
            sounding.add(tone.semitones % 12)
            joined.append(tone)
    return _in_order(joined)


def _tension(root: NoteName, note: NoteName) -> Tone:
    letters, semitones = root.interval_to(note)
    number = letters + 1 if letters == 6 else letters + 8
    return Tone.of(f"{accidental_text(semitones - NATURAL_SEMITONES[letters])}{number}")


def _in_order(tones: Iterable[Tone]) -> tuple[Tone, ...]:
    return tuple(sorted(tones, key=lambda tone: (tone.letters, tone.semitones)))
