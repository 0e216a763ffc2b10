"""How far a line reaches and where it lives: range, highest and lowest note, tessitura.

Range is what music21's ``analysis.discrete.Ambitus`` calls the pitch span: the lowest and the highest note,
however short. Tessitura has no agreed measure; singers mean "where most of it lies" (common practice). Here
it is the band that holds the middle half of the sounding time: a quarter of the time lies below it, a quarter
above, so that one high note does not move it and one long note does.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.plain_english import interval_words

_LOWER, _UPPER = Fraction(1, 4), Fraction(3, 4)  # of the sounding time


@dataclass(frozen=True, slots=True)
class Extreme:
    """The highest or the lowest pitch, and each moment (in quarter notes) where it is struck."""

    pitch: Pitch
    at: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class Compass:
    """Range and tessitura of a line over a span.

    ``tessitura`` is the band (lowest, highest) that holds the middle half of the sounding time.
    ``semitones`` is the size of the range. ``reason`` is one short sentence; range is exact, so that
    ``sureness`` speaks of the tessitura: it is low where few notes sound.
    """

    span: Span
    lowest: Extreme
    highest: Extreme
    tessitura: tuple[Pitch, Pitch]
    semitones: int
    reason: str
    sureness: float = 1.0
    runner_up: str = ""


def compass(notes: Sequence[Note], span: Span | None = None) -> Compass | None:
    """Range, tessitura, highest and lowest note of what sounds in a span; None where nothing sounds.

    Notes that hang over the edges of the span count for what sounds inside it.
    """
    if span is None:
        span = Span(min((note.onset for note in notes), default=Fraction(0)),
                    max((note.end for note in notes), default=Fraction(0)))  # fmt: skip
    sounding = [note for note in notes if note.sounds_in(span)]
    if not sounding:
        return None
    lowest, highest = _extreme(sounding, span, min), _extreme(sounding, span, max)
    tessitura = _middle(sounding, span)
    semitones = highest.pitch.midi - lowest.pitch.midi
    return Compass(
        span, lowest, highest, tessitura, semitones, _reason(lowest, highest, tessitura),
        sureness=min(1.0, len(sounding) / 8),
    )  # fmt: skip


def _extreme(notes: Sequence[Note], span: Span, pick: Callable[[Sequence[int]], int]) -> Extreme:
    midi = pick([note.pitch.midi for note in notes])
    found = sorted((note for note in notes if note.pitch.midi == midi), key=lambda note: note.onset)
    return Extreme(found[0].pitch, tuple(dict.fromkeys(max(note.onset, span.start) for note in found)))


def _middle(notes: Sequence[Note], span: Span) -> tuple[Pitch, Pitch]:
    """The pitches at a quarter and at three quarters of the sounding time, low notes first."""
    by_height = sorted(notes, key=lambda note: note.pitch.midi)
    lengths = [min(note.end, span.end) - max(note.onset, span.start) for note in by_height]
    return _at_share(by_height, lengths, _LOWER), _at_share(by_height, lengths, _UPPER)


def _at_share(notes: Sequence[Note], lengths: Sequence[Fraction], share: Fraction) -> Pitch:
    """The pitch up to which this share of the time sounds."""
    wanted, passed = share * sum(lengths), Fraction(0)
    for note, length in zip(notes, lengths, strict=True):
        passed += length
        if passed >= wanted:
            return note.pitch
    return notes[-1].pitch


def _reason(lowest: Extreme, highest: Extreme, tessitura: tuple[Pitch, Pitch]) -> str:
    low, high = tessitura
    band = f"around {low}" if low.midi == high.midi else f"between {low} and {high}"
    letters = highest.pitch.height - lowest.pitch.height
    reach = f"It spans {interval_words(letters) if letters > 0 else 'a half step'}"
    if highest.pitch.midi == lowest.pitch.midi:
        reach = f"It stays on {lowest.pitch}"
    return f"{reach}; half of the time it lies {band}."
