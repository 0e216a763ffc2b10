"""Charts: text in, exact places out."""

import itertools
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chart import Chart, ChartError, ChordAt, read_bars
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime

ANCHORS = ((F(0), F(0)), (F(4), F(2)))


def song(*meters: tuple[int, str]) -> SongTime:
    return SongTime(tuple((bar, Meter.parse(text)) for bar, text in meters), ANCHORS)


def read(text: str, time: SongTime | None = None, first: int = 1) -> list[tuple[str, F, F]]:
    chords = read_bars(text, first, time or song((1, "4/4")))
    return [(str(at.chord) if at.chord else "N.C.", at.start, at.length) for at in chords]


def test_the_example_of_the_project_file() -> None:
    assert read("| A | F#m . D . | % | E/G# |") == [
        ("A", 0, 4), ("F♯m", 4, 2), ("D", 6, 2), ("F♯m", 8, 2), ("D", 10, 2), ("E/G♯", 12, 4),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("meter", "bar", "lengths"),
    [
        ("4/4", "A", [4]), ("4/4", "A D", [2, 2]), ("4/4", "A . . D", [3, 1]), ("4/4", "A D E A", [1, 1, 1, 1]),
        ("4/4", "A . . . . . D .", [3, 1]), ("3/4", "A . D", [2, 1]), ("3/4", "A D", [F(3, 2), F(3, 2)]),
        ("2/4", "A D", [1, 1]), ("6/8", "A D", [F(3, 2), F(3, 2)]), ("6/8", "A . D E . .", [1, F(1, 2), F(3, 2)]),
        ("12/8", "A . D .", [3, 3]), ("5/4", "A . . D .", [3, 2]), ("7/8", "A . . . D . .", [2, F(3, 2)]),
        ("4/4", "A A", [2, 2]), ("2/2", "A D", [2, 2]),
    ],
)  # fmt: skip
def test_tokens_share_a_bar(meter: str, bar: str, lengths: list[F]) -> None:
    assert [length for _, _, length in read(f"| {bar} |", song((1, meter)))] == lengths


def test_meter_changes_and_where_the_chart_starts() -> None:
    time = song((1, "4/4"), (3, "2/4"), (4, "6/8"))
    assert read("A | D E | A D", time, first=2) == [
        ("A", 4, 4), ("D", 8, 1), ("E", 9, 1), ("A", 10, F(3, 2)), ("D", F(23, 2), F(3, 2)),
    ]  # fmt: skip


def test_held_over_the_bar_line_repeated_silent_and_struck_again() -> None:
    assert read("A | . D | A | A | N.C. | A ||") == [
        ("A", 0, 6), ("D", 6, 2), ("A", 8, 4), ("A", 12, 4), ("N.C.", 16, 4), ("A", 20, 4),
    ]  # fmt: skip


def test_a_bracket_with_spaces_is_one_chord() -> None:
    assert read("C7(b9, #11) F") == [("C7(♭9♯11)", 0, 2), ("F", 2, 2)]


def test_a_polychord_in_a_bracket_keeps_its_line() -> None:
    assert read("| A | (D|C) . (D7(b9)|C) . |(F#|C/E)|") == [
        ("A", 0, 4), ("D|C", 4, 2), ("D7♭9|C", 6, 2), ("F♯|C/E", 8, 4),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "bars"),
    [
        ("|A|D|C|", 3),
        ("A|D", 2),
        ("|A|D|\n|C|G|", 4),
        ("|A|D\nC|G", 3),
        ("| A |D | C|", 3),
        ("|(D|C)|A|", 2),
        ("|A|D|C |", 3),
    ],
)
def test_a_line_without_spaces_is_a_bar_line_where_all_are_so(text: str, bars: int) -> None:
    chords = read(text)
    assert chords[-1][1] + chords[-1][2] == 4 * bars


def test_a_bass_alone_goes_under_the_chord_before_it() -> None:
    """Common practice of song sheets: the chord is held while the bass walks."""
    assert read("| A /G# F#m7 /E | (D|C) /B |") == [
        ("A", 0, 1), ("A/G♯", 1, 1), ("F♯m7", 2, 1), ("F♯m7/E", 3, 1), ("D|C", 4, 2), ("D|C/B", 6, 2),
    ]  # fmt: skip


@pytest.mark.parametrize("text", ["| A | N. C. |", "| A | no chord |", "| A | N/C |", "| A | (N.C.) |"])
def test_no_chord_may_hold_a_space(text: str) -> None:
    assert read(text) == [("A", 0, 4), ("N.C.", 4, 4)]


@pytest.mark.parametrize(
    ("text", "mistakes"),
    [
        ("| A D E |", [(2, "3 chords cannot share a bar of 4 beats evenly")]),
        ("| A | Fx |", [(7, "makes no sense")]),
        ("| % |", [(2, "no bar before this %")]),
        ("| A | % D |", [(6, "fills a bar of its own")]),
        ("| . A |", [(2, "no chord before this .")]),
        ("| A |  | D |", [(5, "bar is empty")]),
        ("", [(0, "There are no chords here")]),
        ("|: A :|", [(1, "write repeated bars out"), (5, "write repeated bars out")]),
        ("| Hm | A | zz D |", [(2, "German H"), (11, "does not start with a note")]),
        ("| A | D|C | E |", [(7, "(A|D) for one chord")]),
        ("| A( | % | % |", [(4, "never closed")]),
        ("| A q | D|C | E |", [(4, "does not start"), (9, "(A|D) for one chord")]),
        ("| D|C |", [(3, "(A|D) for one chord")]),
        ("| (Dm7 | G7) |", [(2, "starts with a bracket"), (11, "makes no sense")]),
        ("| C7(b9 | D |", [(7, "never closed")]),
        ("| /B |", [(2, "no chord before this bass")]),
        ("| N.C. | /B |", [(9, "no chord before this bass")]),
        ("| A /b9 |", [(5, "is not a bass")]),
        ("| A /E7 |", [(5, "is not a bass")]),
        ("| A x E y |", [(4, "does not start"), (8, "does not start")]),
    ],
)
def test_every_mistake_is_told_with_its_place(text: str, mistakes: list[tuple[int, str]]) -> None:
    with pytest.raises(ChartError) as caught:
        read(text)
    assert caught.value.offset == mistakes[0][0]
    assert [mistake.offset for mistake in caught.value.every] == [offset for offset, _ in mistakes]
    for mistake, (_, words) in zip(caught.value.every, mistakes, strict=True):
        assert words in str(mistake)


@given(st.lists(st.sampled_from(["A", "D E", "F#m . D .", "%", "A . . ."]), min_size=1, max_size=12))
def test_bars_are_filled_without_gap_or_overlap(bars: list[str]) -> None:
    bars = ["A", *bars]
    chords = read_bars(" | ".join(bars), 1, song((1, "4/4")))
    assert chords[0].start == 0
    assert all(one.end == two.start for one, two in itertools.pairwise(chords))
    assert chords[-1].end == 4 * len(bars)


@given(st.text(alphabet="AC#m7. %|N(/9)\n", max_size=20))
def test_any_text_is_a_chart_or_a_chart_error(text: str) -> None:
    try:
        read(text)
    except ChartError as error:
        assert all(0 <= mistake.offset <= len(text) for mistake in error.every)


def test_asking_a_chart() -> None:
    chart = Chart(read_bars("A | D E | N.C.", 1, song((1, "4/4"))))
    assert str(chart.at(F(5)).chord) == "D"  # type: ignore[union-attr]
    assert chart.at(F(4)) == chart.chords[1]
    assert chart.at(F(12)) is None
    assert chart.at(F(-1)) is None
    cut = chart.within(Span(F(3), F(7)))
    assert [(at.start, at.length) for at in cut] == [(3, 1), (4, 2), (6, 1)]
    assert chart.within(Span(F(20), F(21))) == ()
    assert ChordAt(F(1), F(2), None).span == Span(F(1), F(3))
