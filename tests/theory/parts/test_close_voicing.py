from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_qualities import QUALITIES
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName
from studio.theory.parts.close_voicing import LOWEST_BASS, LOWEST_RIGHT, MOST, CloseVoicing, close_voicings

ROOTS = [NoteName.parse(name) for name in ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]]
CHORDS = st.builds(Chord.of, st.sampled_from(ROOTS), st.sampled_from(sorted(QUALITIES)))


def voiced(*names: str) -> list[str]:
    return [
        " ".join(map(str, (found.bass, *found.upper)))
        for found in close_voicings([read_chord(name) for name in names])
    ]


def test_a_cadence_moves_as_a_pianist_would_move() -> None:
    # I IV V7 I in close position from C E G: common tones stay, the rest goes by step; any keyboard harmony method.
    assert voiced("C", "F", "G7", "C")[:2] == ["C3 C4 E4 G4", "F2 C4 F4 A4"]
    upper = [found.upper for found in close_voicings([read_chord(n) for n in ("C", "F", "G7", "C")])]
    assert {"C4"} <= {str(p) for p in upper[0]} & {str(p) for p in upper[1]}


def test_the_bass_is_the_note_after_the_slash() -> None:
    assert [found.split()[0] for found in voiced("C/E", "G/B", "D/C")] == ["E3", "B2", "C3"]


def test_of_many_tones_the_right_hand_keeps_those_that_name_the_chord() -> None:
    # C13: the third, the seventh and the thirteenth say what it is (common practice); root and fifth go first.
    (found,) = close_voicings([read_chord("C13")])
    assert {str(pitch.name) for pitch in found.upper} >= {"E", "B♭", "A"}
    assert len(found.upper) == MOST and found.bass.name == NoteName("C")


# Common practice of keyboard harmony: a third or seventh in the bass is not doubled where the chord has others to give,
# and a leading tone is doubled by nobody who lets it rise, since octaves would go up together.


@pytest.mark.parametrize(
    ("name", "hand"),
    [("A7/C#", {"A", "E", "G"}), ("Am7/C", {"A", "E", "G"}), ("C6/E", {"C", "G", "A"}), ("Cmaj7/B", {"C", "E", "G"}),
     ("G7/F", {"G", "B", "D"}), ("B°7/Ab", {"B", "D", "F"})],
)  # fmt: skip
def test_a_third_or_seventh_in_the_bass_is_not_doubled(name: str, hand: set[str]) -> None:
    (found,) = close_voicings([read_chord(name)])
    assert {str(pitch.name) for pitch in found.upper} == hand


@pytest.mark.parametrize(
    ("name", "hand"),
    [("C7/G", {"C", "E", "G", "B♭"}), ("D/F#", {"D", "F♯", "A"}), ("C/E", {"C", "E", "G"}), ("D/C", {"D", "F♯", "A"})],
)  # fmt: skip
def test_a_fifth_may_be_doubled_and_a_triad_keeps_three_tones(name: str, hand: set[str]) -> None:
    (found,) = close_voicings([read_chord(name)])
    assert {str(pitch.name) for pitch in found.upper} == hand


@pytest.mark.parametrize("names", [("G/B", "C"), ("B°", "C"), ("E7/G#", "Am"), ("G#°7", "Am"), ("C/E", "F")])
def test_no_leading_tone_goes_up_in_octaves_with_the_bass(names: tuple[str, str]) -> None:
    first, second = close_voicings([read_chord(name) for name in names])
    assert (second.bass.midi - first.bass.midi) % 12 == 1
    assert first.bass.name not in {pitch.name for pitch in first.upper}
    assert len(first.upper) >= 2


def test_a_bass_that_leads_nowhere_is_doubled_as_ever() -> None:
    first, _ = close_voicings([read_chord("G/B"), read_chord("Em")])
    assert first.bass.name in {pitch.name for pitch in first.upper}


@given(chords=st.lists(CHORDS, min_size=1, max_size=5))
@settings(max_examples=150, deadline=None)
def test_every_chord_lies_close_around_middle_c(chords: list[Chord]) -> None:
    for chord, found in zip(chords, close_voicings(chords), strict=True):
        heights = [pitch.midi for pitch in found.upper]
        assert heights == sorted(set(heights)) and heights[-1] - heights[0] < 12
        assert LOWEST_RIGHT <= heights[0] <= 71 and heights[-1] <= 81
        assert LOWEST_BASS <= found.bass.midi < LOWEST_BASS + 12 and found.bass.name == chord.lowest
        assert {pitch.name for pitch in found.upper} <= set(chord.notes())
        sounding = {pitch.name.pc for pitch in found.upper} | {found.bass.name.pc}
        assert len(chord.tones) > MOST or sounding == set(chord.pcs)


@pytest.mark.parametrize("names", [("C", "Am"), ("Dm7", "G7"), ("E", "E7sus4")])
def test_the_hand_moves_no_further_than_it_must(names: tuple[str, str]) -> None:
    """No other inversion of the second chord at hand moves fewer half steps in all, or it lies further off."""
    first, second = close_voicings([read_chord(name) for name in names])
    moved = distance(first, second)
    for shift in (-12, 12):
        other = [pitch.midi + shift for pitch in second.upper]
        assert moved <= sum(min(abs(midi - old.midi) for midi in other) for old in first.upper)
    assert moved <= 3 * len(first.upper)


def distance(one: CloseVoicing, two: CloseVoicing) -> int:
    return sum(min(abs(new.midi - old.midi) for new in two.upper) for old in one.upper)
