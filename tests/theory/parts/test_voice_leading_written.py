"""Voice leading between written voicings, against music21's VoiceLeadingQuartet."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.parts.voice_leading_written import (
    VoiceMove,
    motion_of,
    parallel_interval,
    written_leading,
    written_leadings,
)
from tests.theory.charts import line

SPAN = Span(Fraction(0), Fraction(4))
pitches = st.builds(
    Pitch, st.builds(NoteName, st.sampled_from("CDEFGAB"), st.sampled_from((-1, 0, 0, 1))), st.integers(2, 5)
)
voicings = st.lists(pitches, min_size=1, max_size=5, unique_by=lambda pitch: pitch.midi)


def voicing(text: str) -> list[Pitch]:
    return [Pitch.parse(name) for name in text.split()]


@given(pitches, pitches, pitches, pitches)
@settings(max_examples=150, deadline=None)
def test_two_voices_move_as_music21_says(low: Pitch, low_next: Pitch, high: Pitch, high_next: Pitch) -> None:
    """Motion of two voices, and whether they keep fifths or octaves.

    Two named differences. music21 goes by spelling, so that C♯–D♭ moves; we go by what sounds, and such pairs are left
    out here. It also finds "antiparallel" fifths and octaves in contrary motion, which we do not count as parallel.
    """
    from music21 import note as m21_note
    from music21 import voiceLeading

    if any(one.midi == two.midi and one != two for one, two in ((low, low_next), (high, high_next))):
        return
    if any(
        (two.midi - one.midi) * (two.height - one.height) < 0
        for one, two in ((low, low_next), (high, high_next))
    ):
        return
    four = (high, high_next, low, low_next)
    quartet = voiceLeading.VoiceLeadingQuartet(*(m21_note.Note(_text(pitch)) for pitch in four))
    lower, upper = VoiceMove(low, low_next), VoiceMove(high, high_next)
    theirs = {"No Motion": "none"}.get(
        str(quartet.motionType().value), str(quartet.motionType().value).lower()
    )
    assert motion_of(lower, upper) == theirs
    if low.midi < high.midi and low_next.midi < high_next.midi and theirs in ("parallel", "similar"):
        assert (parallel_interval(lower, upper) == "fifths") == quartet.parallelFifth()


def _text(pitch: Pitch) -> str:
    return str(pitch.name).replace("♭", "-").replace("♯", "#") + str(pitch.octave)


@pytest.mark.parametrize(
    ("one", "two", "outer", "kept"),
    [
        # textbook part-writing in four voices (common practice of handbooks)
        ("C3 G3 E4 C5", "F3 A3 F4 C5", "oblique", []),
        ("C3 G3 E4 C5", "D3 A3 F4 D5", "parallel", ["fifths", "octaves"]),
        ("G3 B3 D4 G4", "C3 C4 E4 C5", "contrary", []),
        ("C4 E4 G4", "C4 E4 G4", "none", []),
        ("C4 E4", "D4 G4", "similar", []),
        ("E3 B3", "G3 D4", "parallel", ["fifths"]),
        ("E2 B2 E3", "G2 D3 G3", "parallel", ["fifths", "octaves"]),
        ("C3 G4", "D3 A4", "parallel", ["fifths"]),
        ("B3 F4", "C4 G4", "parallel", []),
    ],
)  # fmt: skip
def test_outer_voices_and_parallels(one: str, two: str, outer: str, kept: list[str]) -> None:
    found = written_leading(voicing(one), voicing(two), SPAN)
    assert found.outer == outer
    assert [parallel.interval for parallel in found.parallels] == kept


def test_what_a_written_leading_tells() -> None:
    found = written_leading(voicing("G3 B3 D4 F4"), voicing("G3 C4 E4"), SPAN)
    assert [(voice.start.midi, voice.end.midi) for voice in found.voices] == [
        (55, 55),
        (59, 60),
        (62, 60),
        (65, 64),
    ]
    assert (found.total, len(found.held), len(found.half_steps)) == (4, 1, 2)


@given(voicings, voicings)
def test_no_voices_cross_and_every_note_takes_part(one: list[Pitch], two: list[Pitch]) -> None:
    found = written_leading(one, two, SPAN)
    assert {voice.start for voice in found.voices} == set(one)
    assert {voice.end for voice in found.voices} == set(two)
    assert [voice.start.midi for voice in found.voices] == sorted(voice.start.midi for voice in found.voices)
    assert [voice.end.midi for voice in found.voices] == sorted(voice.end.midi for voice in found.voices)
    assert len(found.voices) == max(len(one), len(two))
    assert found.total == written_leading(two, one, SPAN).total


@given(voicings, voicings, st.sampled_from(((1, 2), (4, 7), (7, 12), (2, 3))))
def test_transposition_changes_no_motion(
    one: list[Pitch], two: list[Pitch], interval: tuple[int, int]
) -> None:
    here = written_leading(one, two, SPAN)
    there = written_leading(
        [pitch.transposed(*interval) for pitch in one], [pitch.transposed(*interval) for pitch in two], SPAN
    )
    assert (here.total, here.outer, here.parallels) == (there.total, there.outer, there.parallels)


def test_from_written_notes() -> None:
    notes = (*line("C3:4 F3:4"), *line("G4:4 A4:4"), *line("E4:2 D4:2 C4:4"))
    (found,) = written_leadings(notes, (Fraction(0), Fraction(4), Fraction(99)))
    assert [str(voice.start.name) for voice in found.voices] == ["C", "E", "G"]
    assert (found.total, found.outer) == (11, "similar")
    assert written_leadings((), (Fraction(0), Fraction(4))) == ()
    assert written_leading((), voicing("C4"), SPAN).voices == ()
