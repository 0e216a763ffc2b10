"""Words for chords, keys and progressions."""

from __future__ import annotations

import re
from collections.abc import Sequence

from studio.theory.harmony.chains import LINKED
from studio.theory.harmony.reading import Reading
from studio.theory.progression.loops import smallest_loop

NO_CHORD = "N.C."
_CHAIN = re.compile(r"[^\s–]+(?:–[^\s–]+){2,}")


def progression_words(readings: Sequence[Reading]) -> str:
    """A progression in a line, once round: "I–V–vi–IV". Silence at its edges is not said."""
    numerals = list(smallest_loop(readings).numerals)
    while numerals and numerals[0] == NO_CHORD:
        numerals.pop(0)
    while numerals and numerals[-1] == NO_CHORD:
        numerals.pop()
    return "–".join(numerals) or NO_CHORD


def spaced(text: str) -> str:
    """The text with its chains of numerals set apart, "I – V – vi", so that a line can break between them."""
    return _CHAIN.sub(lambda chain: chain[0].replace("–", " – "), text)


def reading_note(reading: Reading) -> str:
    """The small print under a chord: where it comes from or leads, "" for a plain chord of the key."""
    notes = [note] if (note := _kind_note(reading)) else []
    if reading.pivot is not None:
        other, numeral = reading.pivot
        notes.append(f"pivot: {reading.numeral} in {reading.key} = {numeral} in {other}")
    return "; ".join(notes)


def _kind_note(reading: Reading) -> str:
    if reading.kind == "applied":
        return _applied_note(reading)
    if reading.kind == "substitute dominant":
        return f"substitute for V of {reading.of}" if reading.of else "substitute for V"
    if reading.kind == "borrowed":
        return reading.name or f"borrowed from {reading.source}"
    if reading.kind in ("diatonic", "none"):
        return reading.name
    return reading.name or ("" if reading.kind == "other" else reading.kind)


def _applied_note(reading: Reading) -> str:
    role = reading.numeral_display.base + ("°" if reading.numeral_display.base == "vii" else "")
    if reading.numeral_display.base == "ii":
        return f"ii of {reading.of}"
    if role in ("I", "i"):
        return reading.name
    if reading.name == LINKED["dominant"]:
        return f"{role} of {reading.of}, in a chain"
    if reading.name == LINKED["ii"]:
        return f"{role} of {reading.of}, resolves into a ii"
    return f"{role} of {reading.of}, {'resolves' if reading.resolved else 'does not resolve'}"
