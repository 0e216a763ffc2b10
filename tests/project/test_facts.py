"""Every kind of question is read from the file, asked under facts or in words, and complained of at its place."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.project.questions import QUESTIONS
from tests.project.conftest import GOOD, Load

LOOP = "loop: {numerals: verse}"
TUNE = 'The tune lands on {catch}"'


@pytest.mark.parametrize(
    "kind", ["numerals", "loop", "cadence", "sequence", "cliche", "pedal", "pace", "leading", "key", "form"]
)
def test_a_stretch_is_asked_about(load_text: Load, kind: str) -> None:
    (fact, _) = load_text(GOOD.replace(LOOP, f"loop: {{{kind}: verse}}")).facts
    assert (fact.kind, fact.span) == (kind, Span(Fraction(16), Fraction(48)))


@pytest.mark.parametrize("kind", ["chord", "numeral", "function"])
def test_a_moment_is_asked_about(load_text: Load, kind: str) -> None:
    (fact, _) = load_text(GOOD.replace(LOOP, f"loop: {{{kind}: 6.3}}")).facts
    assert (fact.kind, fact.at) == (kind, Fraction(22))


def test_a_part_over_a_stretch_or_the_whole_song(load_text: Load) -> None:
    text = GOOD.replace(LOOP, "loop: {mode: lead, over: 1-2, tonic: F#, expect: Aeolian}")
    (fact, _) = load_text(text).facts
    assert (fact.parts, fact.span) == (("lead",), Span(Fraction(0), Fraction(8)))
    assert (fact.tonic, fact.expect) == (NoteName("F", 1), "Aeolian")
    (fact, _) = load_text(GOOD.replace(LOOP, "loop: {range: lead}")).facts
    assert fact.span is None


def test_the_whole_song_has_a_name(load_text: Load) -> None:
    (fact, _) = load_text(GOOD.replace(LOOP, "loop: {form: song}")).facts
    assert fact.span == Span(Fraction(0), Fraction(62))


def test_a_question_may_stand_in_the_words_themselves(load_text: Load) -> None:
    project = load_text(GOOD.replace(TUNE, 'It lands on {degree: lead, at: 6.1}"'))
    assert [fact.name for fact in project.facts] == ["loop", "catch", "degree: lead, at: 6.1"]
    assert project.facts[2].at == project.facts[1].at


def test_every_kind_is_told_with_an_example() -> None:
    for kind, question in QUESTIONS.items():
        assert question.example.format(kind=kind).startswith(f"{{{kind}: ")


@pytest.mark.parametrize(
    ("right", "wrong", "expected"),
    [
        (LOOP, "loop: {mode: led}", "29:16: 'led' is not a part of the song"),
        (LOOP, "loop: {mode: lead, tonic: H}", "29:29: 'H' is not a note name"),
        (LOOP, "loop: {mode: lead, at: 6.1}", "29:22: 'at' is not a key of 'loop'"),
        (LOOP, "loop: {range: lead, over: 14-15}", "29:29: There are no notes of lead at '14-15'"),
        (LOOP, "loop: {scale degree: lead, at: 3.2}", "29:34: No note of lead sounds at 3.2"),
        (LOOP, "loop: {numeral: verse}", "29:19: 'verse' is a stretch; write the moment"),
        (LOOP, "loop: {groove: main}", "29:18: 'main' is not a groove; there are none here"),
        (LOOP, "loop: {key: verse, form: verse}", "29:22: 'loop' asks two things, key and form"),
        (LOOP, "loop: {expect: Dorian}", "29:9: 'loop' needs a question"),
        (TUNE, 'On {degree: led, at: 6.1}"', "43:32: 'led' is not a part of the song"),
        (TUNE, 'On {degre: lead}"', "43:32: 'degre' is not a kind of fact; did you mean 'degree'?"),
        (LOOP, "loop: {chord: 6.1,5}", "29:21: '5' stands alone after a comma; numbers take a point"),
        (LOOP, "loop: {sounding: [lead, bas], at: 6.1}", "29:27: 'bas' is not a part of the song"),
        (LOOP, "loop: {sounding: [], at: 6.1}", "29:20: 'sounding' needs at least 1"),
        (
            TUNE,
            'On {degree lead at 6.1}"',
            "43:32: 'degree lead at 6.1' is not a fact; a question has colons",
        ),
        (TUNE, 'On {chord:6.1}"', "43:32: 'chord:6.1' needs a blank after its colon: chord: 6.1"),
        (TUNE, 'On {chord: 6.1, expect: A}"', "43:32: What you expect is written under facts"),
        (TUNE, 'On {degree: lead, at: [}"', "43:32: 'degree: lead, at: [' is no question"),
    ],
)
def test_a_question_without_an_answer_is_complained_of(
    complaints: Callable[..., list[str]], right: str, wrong: str, expected: str
) -> None:
    said = complaints(GOOD.replace(right, wrong, 1))
    assert len(said) == 1, said
    assert said[0].startswith(expected), said
