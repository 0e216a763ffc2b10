"""Scales weighed against a tune: the theory room's answers, put side by side."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.modes import read_mode
from studio.theory.melody.scales import scale_named
from studio.theory.melody.scales_weighed import TunePlayed, Weighed, weighed, weighed_against
from studio.theory.wording import comparison_words

from ..charts import line


def against(text: str, tonic: str, *names: str) -> Weighed:
    return weighed_against(heard(text, NoteName.parse(tonic)), [scale_named(name) for name in names])


def heard(text: str, home: NoteName | Key) -> TunePlayed:
    notes = line(text)
    return TunePlayed(notes, (), home, Span(F(0), notes[-1].end))


@pytest.mark.parametrize(
    ("notes", "rivals"),
    [
        ("A4 B4 C5 D5 E5 F5 G5", ["Dorian", "Phrygian"]),
        ("A4 B4 C5 D5 E5 F#5 G5", ["Aeolian", "Mixolydian"]),
        ("A4 B4 C#5 D5 E5 F#5 G5", ["Ionian", "Dorian"]),
    ],
)
def test_beside_the_answer_stand_the_modes_that_differ_from_it_in_one_note(
    notes: str, rivals: list[str]
) -> None:
    """As the modes lie on the line of fifths, each differs in one note from the next (any textbook; from memory).

    The usual ones come first.
    """
    found = weighed(heard(notes, NoteName("A")))
    answer, *others = found.scales
    assert answer == read_mode(line(notes), NoteName("A")).scale
    assert [str(one) for one in others] == rivals
    for other in others:
        assert len(set(answer.semitones) - set(other.semitones)) == 1


def test_a_scale_from_which_notes_only_pass_does_not_stand_beside_one_that_holds_them() -> None:
    scales = [scale_named("Aeolian"), scale_named("Phrygian")]
    found = weighed_against(heard("A4 B4 C5 D5 E5 F5 G5", NoteName("A")), scales)
    assert found.fitting == (scales[0],)


def test_rare_and_usual_scales_that_a_person_names_are_weighed_alike() -> None:
    scales = [scale_named("Aeolian"), scale_named("harmonic minor")]
    found = weighed_against(heard("A4:2 B4:2 C5:2 D5:2 E5:2 F5:2", NoteName("A")), scales)
    assert found.fitting == tuple(scales)
    assert found.telling == {10: "would decide", 11: "would decide"}


def test_the_key_gives_the_third_that_the_tune_leaves_out() -> None:
    found = weighed(heard("A4 B4 D5 E5", Key.parse("A minor")))
    assert [str(scale) for scale in found.scales] == ["Aeolian", "Dorian"]


def test_a_pentatonic_tune_is_told_from_nothing() -> None:
    found = weighed(heard("A4 C5 D5 E5 G5", NoteName("A")))
    assert [scale.name for scale in found.scales] == ["minor pentatonic"] and not found.telling


# What the sentence says


@pytest.mark.parametrize(
    ("notes", "tonic", "scales", "sentence"),
    [
        # Nothing of the scale sounds.
        ("G4:4", "F#", ["Dorian"], "Not F♯ Dorian: G is not in it."),
        ("G4 B4", "F#", ["Dorian"], "Not F♯ Dorian: G is not in it."),
        ("C4:2 E4:2", "C", ["Ionian"], "Only C and E sound, too little to tell a scale."),
        # Most of it does.
        ("A4:2 B4:2 C5:2 D5:2 E5:2 C#5:2 A4", "A", ["Aeolian"], "Mostly A Aeolian; C♯ is outside it."),
        # One scale alone: what only passes is said, and nobody says that all that sounds is of it.
        ("G4 A4 Bb4 C5 D5 Eb5:1/2 D5 F5 F#4 G4:4", "G", ["Dorian"],
         "Mostly G Dorian, without E; E♭ is outside it; F♯ is the raised seventh of minor."),
        ("A4 B4 C5 D5 E5 F5 G#5:2 A5 G5 A5", "A", ["harmonic minor"],
         "Mostly A harmonic minor; G is the natural seventh of minor."),
        # Minor keys have two sevenths: where both sound, neither decides.
        ("A4 B4 C5 D5 E5 F5 G5:2 G#5 A5", "A", ["Aeolian", "harmonic minor"],
         "G and G♯ both sound: Aeolian and harmonic minor take turns."),
        ("G4 A4 Bb4 A4 G4 C5 D5 Eb5:2 D5 F#4:3/2 A4 C5 Bb4 G4 F4:3/2 F#4:3/2 G4:3", "G",
         ["harmonic minor", "melodic minor", "Aeolian"],
         "F and F♯ both sound: harmonic minor and Aeolian take turns; melodic minor would have E."),
        # A rival would have only notes that the answer has not: B (C♭) is in both.
        ("Bb4:2 Eb5:2 Db5:2 C#5 B4", "G", ["altered", "Mixolydian"],
         "B♭, D♭ and E♭ make it altered; Mixolydian would have D and E."),
        ("D4 F4 G4 A4 B4 C5 E5", "D", ["Dorian", "Aeolian", "Phrygian"],
         "E and B make it Dorian; Aeolian would have B♭, Phrygian E♭ and B♭."),
        # One name for one note: where the scale has C♭, the sentence has it too. Scales are named in full.
        ("F4:2 Ab4:2 A4:2 Bb4:2 B4:2 C5:2 D5:2 Eb5:2", "F", ["blues", "Mixolydian"],
         "Minor blues lacks A and D, Mixolydian lacks A♭ and C♭."),
        ("F4:2 Ab4:2 A4:2 Bb4:2 B4:2 C5:2 D5:2 Eb5:2", "F", ["blues"], "Mostly F minor blues; A and D are outside it."),
    ],
)  # fmt: skip
def test_the_sentence(notes: str, tonic: str, scales: list[str], sentence: str) -> None:
    assert comparison_words(against(notes, tonic, *scales))[0] == sentence


def test_scales_that_would_have_the_same_note_are_named_together() -> None:
    found = weighed(heard("D4:2 G4 A4 Bb4 C5 D5 F4", NoteName("D")))
    assert all(words.count("B♭") <= 1 for words in comparison_words(found))


def test_nothing_decides_where_no_scale_may_be_meant() -> None:
    found = against("D4:2 Eb4:2 F4:2 Ab4:2 Bb4:2 B4:2 C#5:2", "D", "Dorian", "Aeolian")
    assert found.fitting == () and not found.telling


def test_both_sevenths_of_minor_decide_nothing() -> None:
    found = against("A4 B4 C5 D5 E5 F5 G5:2 G#5 A5", "A", "Aeolian", "harmonic minor")
    assert [scale.name for scale in found.fitting] == ["Aeolian", "harmonic minor"] and not found.telling


def test_one_name_stands_for_one_note() -> None:
    found = against("F4 Ab4 Bb4 B4 C5 Eb5 F5", "F", "minor blues")
    assert str(found.heard[6]) == "C♭"
    assert "C♭" not in {str(name) for name in against("F4 B4", "F", "Lydian").heard.values()}


def test_four_notes_of_an_altered_chord_tell_no_scale_on_the_key_s_tonic() -> None:
    found = weighed(heard("Bb4:2 Eb5:2 Db5:2 C#5 B4", Key.parse("C")))
    assert not found.told
    assert weighed(heard("Bb4:2 Eb5:2 Db5:2 C#5 B4", NoteName("G"))).told
