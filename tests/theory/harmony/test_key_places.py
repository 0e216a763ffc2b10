"""What is known at each place where a key is asked for."""

from fractions import Fraction

from studio.music.chart import Chart
from studio.music.place import Span
from studio.theory.harmony.key_places import key_places
from tests.theory.charts import COMMON_TIME, chart, line


def test_lengths_count_by_their_root() -> None:
    places = key_places(chart("C | F . . G | C | C"), (), (), None)
    assert [place.weight for place in places] == [1.0, 0.75**0.5, 0.5, 1.0, 1.0]
    assert [place.rested for place in places] == [False, False, False, False, False]


def test_a_long_chord_is_a_rest() -> None:
    places = key_places(chart("C F G C . G C"), (), (), None)
    assert [place.rested for place in places] == [False, False, False, False, True, False]


def test_silence_is_no_place() -> None:
    places = key_places(chart("N.C. C N.C. G"), (), (), None)
    assert [(place.span.start, place.chord and place.chord.text) for place in places] == [(4, "C"), (12, "G")]
    assert places[1].before == places[0].chord
    assert key_places(Chart(()), (), (), None) == ()


def test_a_chord_over_its_second_is_heard_as_suspended() -> None:
    heard = [
        place.chord and place.chord.text for place in key_places(chart("F/G Dm7/G C/E G/A C/D"), (), (), None)
    ]
    assert heard == ["G9sus4", "G9sus4", "C/E", "A9sus4", "D9sus4"]


def test_sections_and_bars() -> None:
    sections = [Span(Fraction(0), Fraction(8)), Span(Fraction(8), Fraction(16))]
    places = key_places(chart("C | F G | C | F"), sections, (), COMMON_TIME)
    assert [place.opens for place in places] == [True, False, False, True, False]
    assert [place.closes for place in places] == [False, False, True, False, True]
    assert [place.downbeat for place in places] == [True, True, False, True, True]
    assert [place.first for place in places] == [True, False, False, False, False]


def test_the_melody_over_a_chord() -> None:
    places = key_places(chart("C F"), (), line("E4 G4 C5:2 r A4:2 F4"), None)
    assert places[0].melody == (2.0, 0, 0, 0, 1.0, 0, 0, 1.0, 0, 0, 0, 0)
    assert (places[0].lands, places[1].lands) == (0, 5)
    assert (places[0].breath, places[1].breath) == (True, False)
    assert places[1].melody == (0, 0, 0, 0, 0, 1.0, 0, 0, 0, 2.0, 0, 0)


def test_a_melody_alone_is_cut_in_bars() -> None:
    places = key_places(Chart(()), (), line("C4:4 D4:4 E4:2"), COMMON_TIME)
    assert [(place.span.start, place.span.end) for place in places] == [(0, 4), (4, 8), (8, 10)]
    assert [place.first for place in places] == [True, False, False]
