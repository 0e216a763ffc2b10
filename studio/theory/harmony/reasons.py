"""One short sentence for each kind of reading: why the numeral is what it is."""

from __future__ import annotations

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.applied import Applied
from studio.theory.harmony.belonging import strangers
from studio.theory.harmony.reading import Function
from studio.theory.harmony.scale_degrees import degree_in

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh")
_TONES = dict(enumerate((*_ORDINALS, "octave", "ninth", "tenth", "eleventh", "twelfth", "thirteenth"), 1))


def diatonic(chord: Chord, key: Key, how: str) -> str:
    """ "Em belongs to C major, on its third degree." """
    leading = key.tonic.transposed(-1, -1)
    if how == "harmonic" and leading.pc in chord.pcs:
        return f"{chord.text} belongs to {key} with its raised seventh, {leading}."
    place = [note.pc for note in key.scale()].index(chord.root.pc)
    return f"{chord.text} belongs to {key}, on its {_ORDINALS[place]} degree."


def borrowed(chord: Chord, model: Chord, key: Key, source: str) -> str:
    """ "Dm comes from A minor: it has F where A major has F♯."

    ``model`` is the chord with its third, where ``chord`` is a sus or a power chord.
    """
    new = " and ".join(str(note) for note, _ in strangers(model, key))
    own = " and ".join(str(note) for _, note in strangers(model, key))
    return f"{chord.text} comes from {source}: it has {new} where {key} has {own}."


def applied(chord: Chord, reading: Applied, following: Chord | None, resolved: bool) -> str:
    """ "C♯7 is the V of F♯m, which follows." """
    target = _name(reading)
    role = {"V": "the dominant", "vii": "the leading-tone chord", "ii": "the ii"}[reading.base]
    if reading.base == "ii":
        return f"{chord.text} prepares the dominant of {target} that comes next, as its ii."
    if resolved:
        return f"{chord.text} is {role} of {target}, which follows."
    if following is None:
        return f"{chord.text} is {role} of {target}, but nothing follows."
    if following.root.pc == reading.target.root.pc:
        return f"{chord.text} is {role} of {target}; {following.text} follows, changed in quality."
    return f"{chord.text} is {role} of {target}, but {following.text} follows."


def respelled(chord: Chord, meant: Chord, reading: Applied) -> str:
    """ "Bdim7 sounds as G♯dim7, the leading-tone chord of Am, which follows." """
    leads = f"the leading-tone chord of {_name(reading)}, which follows"
    return f"{chord.text} sounds as {meant.root}dim7, {leads}."


def deceptive(chord: Chord) -> str:
    """After V, a chord in the tonic's place."""
    return f"{chord.text} stands where the tonic was expected after V, a deceptive turn."


def cadential(chord: Chord, following: Chord) -> str:
    """The six-four that delays V."""
    return f"{chord.text} holds back {following.text}, a cadential six-four."


def _name(reading: Applied) -> str:
    return f"{reading.target.root}{'m' if reading.target.triad == 'minor' else ''}"


def missing_third(sentence: str) -> str:
    """The sentence, with the warning that a power chord is neither major nor minor."""
    return f"{sentence[:-1]}; its third is missing, so it is neither major nor minor."


def with_bass(sentence: str, chord: Chord, key: Key, function: Function, figured: bool) -> str:
    """The sentence, with the bass named where the figures do not say it."""
    if chord.bass is None or figured:
        return sentence
    bass = chord.bass
    if chord.bass_tone is None and (bass.pc - key.tonic.pc) % 12 == 7 and function == "dominant":
        return f"{sentence[:-1]}; over {bass} it sounds as {bass}9sus4."
    return f"{sentence[:-1]}; the bass is {bass}, {_bass_place(chord, key, bass)}."


def _bass_place(chord: Chord, key: Key, bass: NoteName) -> str:
    if chord.bass_tone is not None:
        return f"its {_TONES[chord.bass_tone.number]}"
    return f"degree {degree_in(key, bass)} of the key"
