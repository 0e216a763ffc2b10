"""Where a line is played: the hand keeps still if it can, and no note is dropped silently."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.pitch import Pitch
from studio.theory.fretboard import position_path
from studio.theory.fretboard.hand_positions import reach_at
from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS
from studio.theory.fretboard.position_path import Played, play_line


def line(text: str, tuning: str = "standard", first: int = 0, last: int = 15) -> tuple[Played, ...]:
    moments = [[Pitch.parse(pitch) for pitch in moment.split("+")] for moment in text.split()]
    return play_line(moments, TUNINGS[tuning], first, last)


def frets(played: tuple[Played, ...]) -> list[tuple[int, int]]:
    return [(place.string, place.fret) for moment in played for place in moment.places if place]


def test_a_scale_stays_in_one_position() -> None:
    """Both are the fingerings of any method: open position, and the fifth position up to the high C."""
    low = line("C3 D3 E3 F3 G3 A3 B3 C4")
    assert frets(low) == [(1, 3), (2, 0), (2, 2), (2, 3), (3, 0), (3, 2), (4, 0), (4, 1)]
    assert {moment.hand for moment in low} == {1}
    high = line("C4 D4 E4 F4 G4 A4 B4 C5")
    assert {moment.hand for moment in high} == {5}
    assert frets(high) == [(3, 5), (3, 7), (4, 5), (4, 6), (4, 8), (5, 5), (5, 7), (5, 8)]


PICKED = "E3 B3 E4 G4 B4 G4 E4 B3"
PICKED_OVER_D = "D3 B3 E4 G4 B4 G4 E4 B3"


@pytest.mark.parametrize("tuning", ["standard", "drop D"])
def test_low_notes_of_a_picked_pattern_are_open_or_near_the_nut(tuning: str) -> None:
    """D3 is the open fourth string and E3 its second fret (any method), though the line goes up to B4 between them."""
    played = frets(line(f"{PICKED} {PICKED_OVER_D}", tuning))
    assert (played[0], played[8]) == ((2, 2), (2, 0))
    assert played[1:8] == played[9:]  # what comes again is played again at the same place
    assert played[1:3] == [(4, 0), (5, 0)]


def test_the_hand_moves_while_open_strings_ring() -> None:
    """From the second fret up to the seventh and back, at leisure: no string is let go in between."""
    played = line(f"{PICKED} {PICKED_OVER_D}", "drop D")
    for one, two in pairwise(played):
        if one.hand != two.hand:
            assert all(place is not None and place.fret == 0 for place in (*one.places, *two.places))


def test_a_chord_takes_a_string_for_each_note() -> None:
    assert frets(line("C3+E3+G3+C4+E4")) == [(1, 3), (2, 2), (3, 0), (4, 1), (5, 0)]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("D2", "D2 is not on the neck up to fret 15 in standard tuning."),
        ("D2+E3+C7", "D2 and C7 are not on the neck up to fret 15 in standard tuning."),
        ("E2+F2", "E2 cannot be held together with F2."),
        ("E2+F2+B3", "F2 cannot be held together with E2 and B3."),
    ],
)
def test_what_cannot_be_played_is_said(text: str, says: str) -> None:
    (moment,) = line(text)
    assert moment.complaint == says
    assert len(moment.places) == len(text.split("+")) and None in moment.places


def test_a_rest_and_nothing() -> None:
    assert play_line([], STANDARD) == ()
    rest, note, _ = play_line([[], [Pitch.parse("E4")], []], STANDARD)
    assert (rest.places, rest.complaint) == ((), "") and note.places != ()


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.lists(st.integers(36, 90), min_size=1, max_size=4, unique=True), max_size=8),
    st.sampled_from(["standard", "ukulele", "bass", "mandolin", "banjo"]),
    st.integers(0, 5),
)
def test_every_note_is_played_right_or_said(moments: list[list[int]], name: str, first: int) -> None:
    tuning = TUNINGS[name]
    played = play_line([[Pitch.from_midi(midi) for midi in moment] for moment in moments], tuning, first, 12)
    assert len(played) == len(moments)
    for asked, moment in zip(moments, played, strict=True):
        assert len(moment.places) == len(asked)
        assert (None in moment.places) == bool(moment.complaint)
        places = [place for place in moment.places if place]
        assert len({place.string for place in places}) == len(places)
        for midi, place in zip(asked, moment.places, strict=True):
            if place is None:
                assert str(Pitch.from_midi(midi)) in moment.complaint
                continue
            assert tuning.midi[place.string] + place.fret == midi
            assert first <= place.fret <= 12
            assert place.fret == 0 or moment.hand <= place.fret < moment.hand + reach_at(
                moment.hand, tuning.reach
            )


@settings(deadline=None, max_examples=30)
@given(st.lists(st.integers(50, 70), min_size=1, max_size=4))
def test_no_other_way_is_cheaper(midis: list[int]) -> None:
    """The path against every path there is, tried one by one."""
    moments = [(Pitch.from_midi(midi),) for midi in midis]
    layers = [position_path._moment(moment, STANDARD, 0, 7).ways for moment in moments]

    def cost(stands: tuple[tuple[int, bool], ...]) -> float:
        steps = sum(position_path._step(one, two) for one, two in pairwise(stands))
        return steps + sum(layer[stand][0] for layer, stand in zip(layers, stands, strict=True))

    chosen = tuple(
        (played.hand, all(place is not None and place.fret == 0 for place in played.places))
        for played in play_line(moments, STANDARD, 0, 7)
    )
    assert cost(chosen) == pytest.approx(min(cost(stands) for stands in product(*layers)))
