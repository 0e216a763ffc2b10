"""Which chords belong to a key, and from which other mode of the tonic the rest may be borrowed."""

from __future__ import annotations

from functools import lru_cache

from studio.music.chord import Chord, Tone, Triad
from studio.music.key import Key
from studio.music.pitch import NoteName

_CORE = (0, 2, 4, 6)  # letters above the root: root, third, fifth, seventh
_DORIAN = frozenset({0, 2, 3, 5, 7, 9, 10})  # semitones above the tonic
_MIXOLYDIAN = frozenset({0, 2, 4, 5, 7, 9, 10})
_TRIAD_THIRDS = {(4, 7): "major", (3, 7): "minor", (3, 6): "diminished", (4, 8): "augmented"}


@lru_cache(maxsize=256)
def scale_pcs(key: Key) -> frozenset[int]:
    """Pitch classes of the key's scale (natural minor for a minor key)."""
    return frozenset(note.pc for note in key.scale())


@lru_cache(maxsize=4096)
def core_pcs(chord: Chord) -> frozenset[int]:
    """Pitch classes of what decides where a chord belongs: root, third, fifth and seventh.

    Ninths and above, sixths, suspended notes and a foreign bass are colour and decide nothing.
    """
    return frozenset((chord.root.pc + tone.semitones) % 12 for tone in chord.tones if tone.letters in _CORE)


def belongs(chord: Chord, key: Key) -> str:
    """How a chord belongs to a key: "natural", "harmonic" (by the raised seventh of minor), or "".

    A dominant keeps belonging when its fifth is altered (V7♯5, V7alt).
    """
    above = key.above(chord.root)
    scale = scale_pcs(key)
    if core_pcs(chord) <= scale and (chord.root.pc in scale):
        return "natural"
    dominant = above == 7 and chord.triad in ("major", "augmented") and chord.seventh in ("", "♭7")
    if dominant and (key.mode == "minor" or chord.seventh or chord.triad == "augmented"):
        return "harmonic" if key.mode == "minor" else "natural"
    if key.mode == "major":
        return ""
    leading = above == 11 and chord.triad == "diminished" and chord.seventh in ("", "♭♭7")
    mediant = above == 3 and chord.triad == "augmented" and chord.seventh in ("", "7")
    tonic = above == 0 and chord.triad == "minor" and chord.seventh == "7"
    return "harmonic" if leading or mediant or tonic else ""


def borrowed_from(chord: Chord, key: Key) -> str:
    """The mode on the same tonic that the chord is borrowed from: "A minor"; "" if none of those that lend.

    A major key borrows from its parallel minor, natural or harmonic (so that vii°7 in major is borrowed, while
    V is its own), and from Mixolydian (♭VIImaj7), save for the tonic itself, whose flat seventh leads on or is
    the blues. A minor key borrows from Dorian, which is one note away (IV, ii, ♯viø7), and from its parallel major.
    """
    above = frozenset((pc - key.tonic.pc) % 12 for pc in core_pcs(chord))
    if key.mode == "minor" and above <= _DORIAN:
        return f"{key.tonic} Dorian"
    if belongs(chord, key.parallel):
        return str(key.parallel)
    if key.mode == "major" and above <= _MIXOLYDIAN and chord.root.pc != key.tonic.pc:
        return f"{key.tonic} Mixolydian"
    return ""


@lru_cache(maxsize=4096)
def triad_on(root: NoteName, key: Key) -> Triad:
    """The triad that the key has on a note; on the fifth degree of minor it is major, as in harmonic minor.

    "other" when the note is not in the key.
    """
    scale = [note.pc for note in key.scale()]
    if root.pc not in scale:
        return "other"
    place = scale.index(root.pc)
    if place == 4:
        return "major"
    third, fifth = ((scale[(place + step) % 7] - root.pc) % 12 for step in (2, 4))
    found = _TRIAD_THIRDS[third, fifth]
    return "major" if found == "major" else "minor" if found == "minor" else "diminished"


def foreign_colours(chord: Chord, key: Key) -> tuple[Tone, ...]:
    """The tones of a chord that the key does not have, save root, third and seventh: the ♭9 of F7♭9 in B♭ major."""
    scale = scale_pcs(key)
    colours = (tone for tone in chord.tones if tone.number not in (1, 3, 7))
    return tuple(tone for tone in colours if (chord.root.pc + tone.semitones) % 12 not in scale)


def strangers(chord: Chord, key: Key) -> tuple[tuple[NoteName, NoteName], ...]:
    """Notes of the chord's core that the key does not have, each with the key's note of the same letter."""
    scale = {note.letter: note for note in key.scale()}
    tones = (tone for tone in chord.tones if tone.letters in _CORE)
    core = [chord.root.transposed(tone.letters, tone.semitones) for tone in tones]
    return tuple((note, scale[note.letter]) for note in core if note.pc not in scale_pcs(key))
