"""The chart's chord where what is played stands for it: rootless voicings and chords with more on top.

F A C E under Dm9 is Dm9 without its root, not Fmaj7; under Dm7 it is Dm9 as well, since with D below it would be
called so. Players leave the root to the bass (any book on jazz voicings; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import Pitch
from studio.theory.parts.bass_and_name import name_over_bass

SURE_OF_THE_CHART = 0.85
"""The notes might be a chord of their own, if the chart did not say otherwise."""

_FEWEST = 3  # different notes that stand for a whole chord


def chord_under(pitches: Sequence[Pitch], written: Chord | None, key: Key | None = None) -> Chord | None:
    """The ``written`` chord if the pitches stand for it, with more if they have more; else None.

    They do if its third and its seventh (or sus and sixth) are among them, and either all of them are its tones,
    or it has a seventh and with its root under them they make a chord on that root. The lowest of them is the bass
    if the root sounds too; a rootless voicing leaves the bass to others.
    """
    pcs = {pitch.name.pc for pitch in pitches}
    if written is None or written.upper is not None or len(pcs) < _FEWEST or not _telling(written) <= pcs:
        return None
    found = written if pcs <= written.pcs else _with_more(pitches, written, key)
    if found is None:
        return None
    low = min(pitches, key=lambda pitch: pitch.midi).name.pc
    bass = next((note for note in found.notes() if note.pc == low), None) if found.root.pc in pcs else None
    return Chord.of(found.root, found.quality, found.changes, bass)


def _with_more(pitches: Sequence[Pitch], written: Chord, key: Key | None) -> Chord | None:
    if not written.seventh:
        return None
    root = Pitch(written.root, min(pitch.octave for pitch in pitches) - 1)
    upper = sorted(set(pitches), key=lambda pitch: (pitch.midi, pitch.height))
    named = name_over_bass((root, *upper), key)
    found = named.chord if named is not None else None
    if found is None or found.root != written.root or found.bass is not None or found.upper is not None:
        return None
    return found if _telling(written) <= _telling(found) else None


def _telling(chord: Chord) -> set[int]:
    """The pitch classes that tell a chord: third and seventh, or what stands in their place."""
    by_number = {tone.number: (chord.root.pc + tone.semitones) % 12 for tone in chord.tones}
    places = ((3, 4, 2), (7, 6))
    firsts = (next((number for number in place if number in by_number), None) for place in places)
    return {by_number[number] for number in firsts if number is not None}
