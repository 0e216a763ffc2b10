"""What a set of notes is called over the note that is heard as its bass."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.parts.chord_naming import NamedChord, name_chord
from studio.theory.parts.slices import strikes


def over_bass(notes: Sequence[Note], start: Fraction) -> tuple[Pitch, ...]:
    """The pitches from low to high, over the note that is heard as the bass; what lies lower is taken up.

    The bass is the lowest of the notes that sound at the ``start``, in quarter notes, or are struck first. One
    that starts alone is the bass if it is the root of what follows, so that a bass line may go below the root on
    which it stands; if it is not, the lowest of all is the bass, as in an arpeggio that falls to its root.
    """
    if not notes:
        return ()
    first = [note for note in notes if note.onset <= start] or strikes(notes)[0]
    bass, lowest = (
        min((note.pitch for note in group), key=lambda pitch: pitch.midi) for group in (first, notes)
    )
    if len(first) == 1 and bass != lowest:
        raised = _over(notes, bass)
        named = name_over_bass(raised, None)
        rooted = named is not None and named.chord is not None and named.chord.bass is None
        return raised if rooted else _over(notes, lowest)
    return _over(notes, bass)


def _over(notes: Sequence[Note], bass: Pitch) -> tuple[Pitch, ...]:
    lifted = (_lifted(note.pitch, bass) for note in notes)
    return tuple(sorted(dict.fromkeys(lifted), key=lambda pitch: (pitch.midi, pitch.height)))


def _lifted(pitch: Pitch, bass: Pitch) -> Pitch:
    octaves = max(0, -((pitch.midi - bass.midi) // 12))
    return Pitch(pitch.name, pitch.octave + octaves)


@lru_cache(maxsize=8192)
def name_over_bass(pitches: tuple[Pitch, ...], key: Key | None) -> NamedChord | None:
    """What these pitches are called; None for a single note, which is no chord."""
    return name_chord(pitches, key) if len({pitch.name.pc for pitch in pitches}) > 1 else None
