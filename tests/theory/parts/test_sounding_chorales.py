"""Sounding chords against people: analyses of Bach chorales in RomanText (Tymoczko et al., ISMIR 2019).

music21's corpus carries scores and analyses. Over the span of each numeral that a person wrote, all four voices
are heard without the key; the root that we name first, or an equal name of the same notes over the same bass
(a person's ii6/5, A C E G over C, is C6 in a chart), is compared with the person's root. Most of the rest are
chords of which a tone never sounds in the span (vii°6 for V6/5), and notes that a person hears as delayed
although nothing in the span says so.
"""

import warnings
from fractions import Fraction as F
from itertools import pairwise

import pytest

from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.parts.slices import InOrder
from studio.theory.parts.sounding import sounding_over

CHORALES = (("001", "bwv269"), ("002", "bwv347"), ("004", "bwv86.6"), ("005", "bwv267"))


def _agreement(analysis: str, work: str) -> tuple[int, int]:
    """How many of a person's chords have the root that we hear, and how many there are."""
    from music21 import corpus, roman

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        numerals = list(
            corpus.parse(f"bach/choraleAnalyses/riemenschneider{analysis}.rntxt")
            .flatten()
            .getElementsByClass(roman.RomanNumeral)
        )
        score = corpus.parse(f"bach/{work}").stripTies()
    notes = [
        Note(
            F(note.offset), F(note.quarterLength), Pitch(NoteName(pitch.step, int(pitch.alter)), pitch.octave)
        )
        for note in score.flatten().notes
        for pitch in note.pitches
    ]
    ordered, agreed, all_of_them = InOrder(notes), 0, 0
    for here, after in pairwise(numerals):
        span = Span(F(here.offset), F(after.offset))
        if not span.length:
            continue
        heard = sounding_over(ordered.near(span), span)[0]
        roots = {chord.root.pc for chord in (heard.chord, *heard.others) if chord is not None}
        agreed += here.root().pitchClass in roots
        all_of_them += 1
    return agreed, all_of_them


@pytest.mark.slow
def test_roots_are_those_that_people_hear() -> None:
    counts = [_agreement(analysis, work) for analysis, work in CHORALES]
    agreed, all_of_them = (sum(column) for column in zip(*counts, strict=True))
    assert all_of_them > 200
    assert agreed / all_of_them >= 0.92


@pytest.mark.slow
def test_roots_of_more_chorales() -> None:
    more = (
        ("003", "bwv153.1"),
        ("006", "bwv281"),
        ("007", "bwv17.7"),
        ("008", "bwv40.8"),
        ("010", "bwv38.6"),
    )
    counts = [_agreement(analysis, work) for analysis, work in more]
    agreed, all_of_them = (sum(column) for column in zip(*counts, strict=True))
    assert agreed / all_of_them >= 0.92
