"""From facts to the words that a picture sets: chord symbols, numerals, the small print under a chord."""

from __future__ import annotations

from studio.drawing.lettering.symbols import NO_CHORD, NumeralWords, SymbolWords
from studio.music.chord import Chord, ChordDisplay
from studio.music.key import Key
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


def key_names(key: Key) -> tuple[str, ...]:
    """What stands where a key begins, since the numerals count in it: in full, and shorter."""
    return f"in {key}", f"in {key.tonic} {key.mode[:3]}", f"{key.tonic} {key.mode[:3]}"


def next_key_remarks(key: Key) -> tuple[str, ...]:
    """The remark under a dominant of the key that follows, in fewer and fewer words."""
    return f"V of {key}, the next key", f"V of {key}", f"V of {key.tonic}"


def instead_remarks(written: str, silent: bool) -> tuple[str, ...]:
    """The remark at what sounds in the place of what is written, in fewer and fewer words."""
    nothing = (f"nothing instead of {written}",) if silent else ()
    return *nothing, f"instead of {written}", f"not {written}", "instead"


_SHORTER = {
    "common-tone diminished": ("common-tone °", "CT°"),
    "passing diminished": ("passing °",),
    "blues seventh": ("blues 7th",),
}

_FUNCTIONS = {"tonic": "ton.", "subdominant": "subd.", "dominant": "dom."}
"""What functions are written as where there is no room for words: no letter that could be read as a chord."""


def remarks(reading: Reading, aims: bool, functions: bool, told: bool = False) -> tuple[str, ...]:
    """What the small print under a chord says, the same in fewer and fewer words; nothing for a plain chord.

    An applied chord whose arrow already shows where it goes (`aims`) needs no words, and neither does what was `told`
    under a chord before.
    """
    if reading.pivot is not None:
        other, numeral = reading.pivot
        return reading_note(reading), f"= {numeral} in {other}", f"= {numeral}"
    if reading.kind == "borrowed":
        return reading_note(reading), "borrowed"
    if reading.kind == "substitute dominant":
        return reading_note(reading), f"sub for V/{reading.of}" if reading.of else "sub for V", "sub"
    if reading.kind == "applied" and not aims:
        return reading_note(reading), f"→ {reading.of}"
    if reading.kind != "applied" and not told and (note := reading_note(reading)):
        return note, *_SHORTER.get(note, ())
    if functions and reading.function:
        return reading.function, _FUNCTIONS[reading.function]
    return ()
