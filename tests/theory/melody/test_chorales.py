"""Lines of four-part chorales over a person's chords: J. S. Bach, with the RomanText analyses (Andrew Jones; Dmitri
Tymoczko and others) that music21's corpus ships.

Nobody labels the non-chord tones there, but two things can be known: in this style nearly every one of them has
a name in the textbooks, so that "non-chord tone" must be rare; and the four voices are known, so that reading
all four as one keyboard part must find the same lines again.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from studio.music.chart import Chart
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.theory.melody.degrees import NoteReading, read_melody
from tests.theory.harmony.roman_text import read_analysis

CHORALES = {
    "riemenschneider001": "bwv269", "riemenschneider002": "bwv347", "riemenschneider003": "bwv153.1",
    "riemenschneider005": "bwv267", "riemenschneider007": "bwv17.7",
}  # fmt: skip


@cache
def chorale(analysis: str) -> tuple[Chart, tuple[tuple[Note, ...], ...]]:
    """The person's chords and the four voices, soprano first; women's voices on staff 1, men's on staff 2."""
    import music21

    folder = Path(music21.__file__).parent / "corpus" / "bach" / "choraleAnalyses"
    chart = read_analysis(folder / f"{analysis}.rntxt").chart
    score = music21.corpus.parse(f"bach/{CHORALES[analysis]}")
    voices = tuple(
        tuple(_note(one, staff) for one in part.flatten().stripTies().notes if one.quarterLength)
        for part, staff in zip(score.parts, (1, 1, 2, 2), strict=True)
    )
    return Chart(tuple(at for at in chart.chords if at.length)), voices


def _note(one: Any, staff: int) -> Note:
    onset, length = Fraction(one.offset), Fraction(one.quarterLength)
    name = NoteName.parse(one.pitch.name.replace("-", "b"))
    return Note(onset, length, Pitch(name, one.pitch.octave), staff)


def by_voice(analysis: str) -> list[NoteReading]:
    chart, voices = chorale(analysis)
    found = [read_melody(notes, chart, bass=voice == 3) for voice, notes in enumerate(voices)]
    return [reading for one in found for reading in one if reading.kind != "no chord"]


@pytest.mark.parametrize("analysis", CHORALES)
@pytest.mark.slow
def test_most_notes_are_chord_tones(analysis: str) -> None:
    """If the chords were a beat off, far fewer would be."""
    kinds = Counter(reading.kind == "chord tone" for reading in by_voice(analysis))
    assert kinds[True] / kinds.total() > 0.8


@pytest.mark.slow
def test_non_chord_tones_have_names() -> None:
    foreign = [one for work in CHORALES for one in by_voice(work) if one.kind != "chord tone"]
    nameless = [one for one in foreign if one.kind == "non-chord tone"]
    assert len(foreign) > 100
    assert len(nameless) / len(foreign) < 0.02


def test_all_voices_as_one_part_are_followed_as_they_were_written() -> None:
    """At least 97 in 100 non-chord tones keep their name; the rest are where two voices meet or cross."""
    same = Counter[bool]()
    for work in CHORALES:
        chart, voices = chorale(work)
        together = read_melody([note for voice in voices for note in voice], chart)
        named = Counter((one.note, one.span, one.kind) for one in together)
        for one in by_voice(work):
            if one.kind != "chord tone":
                same[(one.note, one.span, one.kind) in named] += 1
    assert same[True] / same.total() >= 0.97
