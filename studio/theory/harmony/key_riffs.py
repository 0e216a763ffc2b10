"""Riffs: charts of power chords, in which no third tells a major key from a minor one."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from studio.music.chart import ChordAt
from studio.theory.harmony.standing import WITH_THIRD


def riff_root(sounding: Sequence[ChordAt]) -> int | None:
    """The pitch class that a riff is on: the root that opens it, comes back and sounds no shorter than any other.

    None where it has none, or where any chord has a third. ``sounding`` are the chords of a chart without N.C.
    """
    chords = [at.chord for at in sounding if at.chord is not None]
    if not chords or any(chord.triad in WITH_THIRD for chord in chords):
        return None
    lengths: dict[int, Fraction] = {}
    for at, chord in zip(sounding, chords, strict=True):
        lengths[chord.root.pc] = lengths.get(chord.root.pc, Fraction(0)) + at.length
    home = chords[0].root.pc
    left = [place for place, chord in enumerate(chords) if chord.root.pc != home]
    returns = bool(left) and home in [chord.root.pc for chord in chords[left[0] :]]
    return home if returns and lengths[home] == max(lengths.values()) else None
