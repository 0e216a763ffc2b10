"""What is remarked at the end of a reason: a bass, a third that is missing, the upper chord of a polychord."""

from __future__ import annotations

from dataclasses import replace

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.plain_english import listed

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh")
_OVER_ITS_SIXTH = {"": "m7", "m": "m7♭5"}


def missing_third(sentence: str) -> str:
    """The sentence, with the remark that a power chord is neither major nor minor."""
    return f"{sentence[:-1]}, its third open."


def stacked_on(sentence: str, chord: Chord) -> str:
    """The sentence, with what the upper chord of a polychord adds: "…; D on top adds 9, ♯11 and 13." """
    assert chord.upper is not None
    lower = {tone.semitones % 12 for tone in replace(chord, upper=None).tones}
    added = [tone.degree for tone in chord.tones if tone.semitones % 12 not in lower]
    what = f"adds {listed(added)}" if added else "adds nothing new"
    return f"{sentence[:-1]}; {chord.upper.text} on top {what}."


def with_bass(sentence: str, chord: Chord, key: Key) -> str:
    """The sentence, with the bass named; for chords whose figures do not say it.

    A triad over its own sixth is a seventh chord to the ear: C/A is Am7, Am/F♯ is F♯m7♭5.
    """
    if chord.bass is None:
        return sentence
    place = _bass_place(chord, key, chord.bass)
    sixth = (chord.bass.pc - chord.root.pc) % 12 == 9 and not chord.changes
    if sixth and chord.quality in _OVER_ITS_SIXTH:
        sounding = Chord.of(chord.bass, _OVER_ITS_SIXTH[chord.quality])
        return f"{sentence[:-1]}; over {chord.bass}, {place.removesuffix(' of the key')}, it sounds as {sounding.text}."
    return f"{sentence[:-1]}; the bass is {chord.bass}, {place}."


def _bass_place(chord: Chord, key: Key, bass: NoteName) -> str:
    if chord.bass_tone is not None:
        return f"its {chord.bass_tone.name}"
    return f"the {_degree_words(key, bass)} of the key"


def _degree_words(key: Key, note: NoteName) -> str:
    """A degree counted in the key itself: "first degree", in A minor "raised sixth degree" for F♯."""
    letters, _ = key.tonic.interval_to(note)
    own = key.scale()[letters]
    moved = (note.pc - own.pc + 6) % 12 - 6
    altered = "" if moved == 0 else "raised " if moved > 0 else "lowered "
    if moved and letters == 0:
        return f"{altered}tonic"  # nobody says "the lowered first degree"
    return f"{altered}{ORDINALS[letters]} degree"
