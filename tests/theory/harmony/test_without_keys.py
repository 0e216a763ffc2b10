"""Keys found without the person's keys, against every RomanText analysis that music21's corpus ships.

The works are 48 madrigals by Monteverdi and 20 of Bach's chorales, 8107 chords (source: Tymoczko, Gotham,
Cuthbert and Ariza, ISMIR 2019). A chord agrees where our key has the person's tonic and mode there. A pivot chord
counts in the old key, as music21 reads it.

What is measured (share of chords; weighted by length in brackets):

====================================  ===========  ===========  ===========
                                      all          chorales     madrigals
====================================  ===========  ===========  ===========
one key for the whole work            0.49         0.61         0.47
ours, chords alone                    0.72 (0.72)  0.84 (0.83)  0.70 (0.71)
ours, with the sung parts                                       0.70 (0.71)
key or runner-up, chords alone        0.84         0.91         0.83
====================================  ===========  ===========  ===========

The target was 0.85 for the key itself, and is missed. The analysts mark very local keys, often one for every cadence
of two chords; this project keeps short tonicisations in the home key, and hears no key in a chord or two, because
that is what helps on screen. The two aims pull apart: keys of one or two chords are taken back on purpose (which costs
less than 0.01 here), and a finder tuned to please the analysts would change key at every V of V in a pop song. How
near the kind of model comes was asked offline, of an earlier form of it:

- fitted on every other work, measured on the rest, and the other way round: 0.72 (best single chord) and 0.71
  (a steady path); fitted on chorales, measured on madrigals 0.67; the reverse 0.82. Popular charts of our own were
  in each fit;
- with one weight for each degree and each pair of chords, 4700 in all, fitted on half of the madrigals: 0.85 there and
  0.65 on the other half. More weights learn the works by heart;
- told where the person's keys change but not to what: 0.91 for madrigals, 0.97 for chorales. So most of what is
  missing is not which key, but when a passing cadence counts as a new key.

In popular forms, for which the finder is made, it does far better: see ``test_key_popular.py``.

Where we differ, of all chords: 8 % the same change of key up to two chords earlier or later, 8 % a fifth apart (I of C
or V of F, and the like), 5 % relative, 3 % parallel (Picardy thirds and mixed modes), 3 % the relative of a fifth,
2 % other.

Sureness against agreement, chords alone (in brackets how many chords): 0.3–0.4: 0.41 (168) · 0.4–0.5: 0.46 (314) ·
0.5–0.6: 0.58 (1226) · 0.6–0.7: 0.58 (1548) · 0.7–0.8: 0.79 (2042) · 0.8–0.9: 0.81 (1555) · above: 0.92 (1211).
``key_sureness`` was drawn for that. In the popular charts, sections told and not told: 0.5–0.7: 0.94 (314) ·
0.7–0.8: 1.00 (294) · 0.8–0.9: 0.98 (600) · above: 1.00 (2402); the finder is too modest there.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import pytest

from studio.music.chart import Chart
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.theory.harmony.keys import InferredKey, infer_keys
from tests.theory.harmony.roman_text import Analysis, analyses
from tests.theory.harmony.voices import voices

pytestmark = pytest.mark.slow


@dataclass(frozen=True, slots=True)
class Compared:
    """One chord: whether key or runner-up agree, how long it is, how sure we were."""

    work: str
    agrees: bool
    second_agrees: bool
    length: Fraction
    sureness: float


def same(one: Key | None, two: Key) -> bool:
    return one is not None and (one.tonic.pc, one.mode) == (two.tonic.pc, two.mode)


def compare(analysis: Analysis, found: Sequence[InferredKey]) -> list[Compared]:
    compared = []
    for chord in analysis.readable:
        ours = next(one for one in found if one.span.contains(chord.onset))
        first, second = same(ours.key, chord.key), same(ours.runner_up, chord.key)
        compared.append(Compared(analysis.work, first, second, chord.length, ours.sureness))
    return compared


@pytest.fixture(scope="module")
def by_chords() -> list[Compared]:
    return [one for work in analyses() for one in compare(work, infer_keys(work.chart))]


def agreement(
    chords: Sequence[Compared], agrees: Callable[[Compared], bool] = lambda chord: chord.agrees
) -> float:
    return sum(map(agrees, chords)) / len(chords)


def test_agreement_from_the_chords_alone(by_chords: list[Compared]) -> None:
    chorales = [one for one in by_chords if not one.work.startswith("madrigal")]
    madrigals = [one for one in by_chords if one.work.startswith("madrigal")]
    total = sum(one.length for one in by_chords)
    assert len(by_chords) > 8000
    assert agreement(by_chords) >= 0.71
    assert sum(one.length for one in by_chords if one.agrees) / total >= 0.70
    assert agreement(chorales) >= 0.82
    assert agreement(madrigals) >= 0.69


def test_the_person_has_our_key_or_our_runner_up(by_chords: list[Compared]) -> None:
    assert agreement(by_chords, lambda chord: chord.agrees or chord.second_agrees) >= 0.84


def test_what_we_are_surer_of_agrees_more_often(by_chords: list[Compared]) -> None:
    open_, likely, clear = (
        agreement([one for one in by_chords if low <= one.sureness < high])
        for low, high in ((0.0, 0.5), (0.5, 0.8), (0.8, 1.01))
    )
    assert open_ < likely < clear
    assert clear >= 0.8


@pytest.mark.parametrize("tenth", [0.4, 0.5, 0.6, 0.7, 0.8, 0.9])
def test_sureness_is_near_the_agreement(by_chords: list[Compared], tenth: float) -> None:
    here = [one for one in by_chords if tenth <= one.sureness < tenth + 0.1 + (tenth > 0.85)]
    said = sum(one.sureness for one in here) / len(here)
    assert abs(agreement(here) - said) < 0.1


def test_agreement_with_the_sung_parts() -> None:
    """The madrigals with all their voices; the corpus's scores of the chorales are at other places."""
    compared = []
    for work in analyses():
        if work.work.startswith("madrigal"):
            notes = [note for voice in voices(work) for note in voice]
            assert share_of_chord_tones(work.chart, notes) > 0.7, "the parts must lie over their analysis"
            compared += compare(work, infer_keys(work.chart, (), notes))
    assert agreement(compared) >= 0.69


def share_of_chord_tones(chart: Chart, notes: Sequence[Note]) -> float:
    over = [(note, chart.at(note.onset)) for note in notes]
    told = [
        note.pitch.name.pc in at.chord.pcs for note, at in over if at is not None and at.chord is not None
    ]
    return sum(told) / len(told)


def test_melodies_without_chords() -> None:
    """150 German folk songs (Essen collection, Boehme's book, as the corpus ships it) with the key that it writes.

    Measured: 136 of 150. The collection's British ballads are left out: it gives their modal tunes the major key of
    their final.
    """
    from music21 import corpus, key, note

    right = total = 0
    for song in list(corpus.parse("essenFolksong/boehme10").scores)[:150]:
        written = song.recurse().getElementsByClass(key.Key).first()
        notes = [_note(one, song) for one in song.recurse().getElementsByClass(note.Note)]
        found = max(infer_keys(Chart(()), (), notes), key=lambda one: one.span.length)
        tonic = NoteName(written.tonic.step, int(written.tonic.alter))
        right, total = right + same(found.key, Key(tonic, written.mode)), total + 1
    assert total == 150
    assert right / total >= 0.88


def _note(one: object, song: object) -> Note:
    onset = Fraction(one.getOffsetInHierarchy(song)).limit_denominator(96)  # type: ignore[attr-defined]
    pitch = one.pitch  # type: ignore[attr-defined]
    spelled = Pitch(NoteName(pitch.step, int(pitch.alter)), pitch.octave)
    return Note(onset, Fraction(one.quarterLength).limit_denominator(96), spelled)  # type: ignore[attr-defined]
