"""Chords that are neither in the key nor borrowed nor applied, and what the trade calls them."""

from __future__ import annotations

from dataclasses import dataclass

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.belonging import scale_pcs


@dataclass(frozen=True, slots=True)
class Outsider:
    """What a chord outside the key is: its name in the trade ("" for none), why, and how sure that is."""

    name: str
    reason: str
    sureness: float


def name_outsider(chord: Chord, key: Key, before: Chord | None, after: Chord | None) -> Outsider:
    """Name a chord outside the key by what it does between its neighbours, or by where it stands."""
    above = (chord.root.pc - key.tonic.pc) % 12
    return (
        _dominant(chord, above, after)
        or _diminished(chord, before, after)
        or _standing(chord, above, key)
        or Outsider("", f"{chord.text} is neither in {key} nor in the keys that it borrows from.", 0.4)
    )


def _dominant(chord: Chord, above: int, after: Chord | None) -> Outsider | None:
    if chord.triad != "major" or chord.seventh != "♭7":
        return None
    if after is not None and (chord.root.pc - after.root.pc) % 12 == 1:
        sentence = f"{chord.text} slides down a half step to {after.text}, in place of its dominant."
        return Outsider("substitute dominant", sentence, 0.8)
    if above in (0, 5):
        return Outsider("blues seventh", f"{chord.text} has the flat seventh of the blues.", 0.7)
    return None


def _diminished(chord: Chord, before: Chord | None, after: Chord | None) -> Outsider | None:
    if chord.triad != "diminished" or before is None or after is None:
        return None
    if after.root.pc in chord.pcs:
        sentence = f"{chord.text} keeps the root of {after.text} and slides into it: common-tone diminished."
        return Outsider("common-tone diminished", sentence, 0.7)
    steps = {(chord.root.pc - other.root.pc) % 12 for other in (before, after)}
    if steps & {1, 11}:
        sentence = f"{chord.text} passes by half step between {before.text} and {after.text}."
        return Outsider("passing diminished", sentence, 0.7)
    return Outsider("", f"{chord.text} is a diminished chord in passing.", 0.4)


def _standing(chord: Chord, above: int, key: Key) -> Outsider | None:
    if above == 1 and chord.triad == "major":
        sentence = f"{chord.text} is the major chord on the lowered second degree, the Neapolitan."
        return Outsider("Neapolitan", sentence, 0.8)
    if chord.triad in ("major", "minor") and above in (3, 4, 8, 9):
        sentence = f"{chord.text} is a third from the tonic and outside {key}, a chromatic mediant."
        return Outsider("chromatic mediant", sentence, 0.55)
    if chord.triad == "augmented" and chord.root.pc in scale_pcs(key):
        return Outsider("raised fifth", f"{chord.text} raises the fifth of its chord by a half step.", 0.6)
    return None
