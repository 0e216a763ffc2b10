"""From facts to the words that a picture sets: chord symbols, numerals, the small print under a chord."""

from __future__ import annotations

from studio.drawing.lettering.symbols import NO_CHORD, NumeralWords, SymbolWords
from studio.music.chord import Chord, ChordDisplay
from studio.theory.harmony.reading import Reading
from studio.theory.wording import reading_note


def chord_words(chord: Chord | None) -> SymbolWords:
    """A chord symbol cut up for setting; N.C. where there is none."""
    return NO_CHORD if chord is None else _cut(chord.display)


def _cut(shown: ChordDisplay) -> SymbolWords:
    upper = _cut(shown.upper) if shown.upper else None
    return SymbolWords(shown.root, shown.quality, shown.raised, shown.bass, upper)


def numeral_words(reading: Reading) -> NumeralWords | None:
    """A reading's numeral cut up for setting; None for N.C."""
    if not reading.numeral:
        return None
    shown = reading.numeral_display
    return NumeralWords(shown.base, shown.accidental, shown.raised, tuple(shown.figures), shown.of)


def remarks(reading: Reading, aims: bool, new_key: bool, functions: bool) -> tuple[str, ...]:
    """What the small print under a chord says, the same in fewer and fewer words; nothing for a plain chord.

    An applied chord whose arrow already shows where it goes (`aims`) needs no words. Where a key begins
    (`new_key`), its name stands first, since the numerals count in it.
    """
    said = _remark(reading, aims, functions)
    if not new_key:
        return said
    named = f"in {reading.key}"
    return (*(f"{named}, {remark}" for remark in said), named)


def _remark(reading: Reading, aims: bool, functions: bool) -> tuple[str, ...]:
    if reading.pivot is not None:
        other, numeral = reading.pivot
        return reading_note(reading), f"= {numeral} in {other}", f"= {numeral}"
    if reading.kind == "borrowed":
        return reading_note(reading), "borrowed"
    if reading.kind == "applied" and not aims:
        return reading_note(reading), f"→ {reading.of}"
    if reading.kind != "applied" and (note := reading_note(reading)):
        return (note,)
    if functions and reading.function:
        return (reading.function,)
    return ()
