"""Bars, phrases, odd bars and pickups."""

from dataclasses import replace
from fractions import Fraction as F

import pytest

from studio.music.chart import Chart
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.bars import bars_reading
from studio.theory.form.phrases import group_phrases
from studio.theory.harmony.numerals import read_chart
from tests.theory.charts import COMMON_TIME, chart, line, readings


def groups(chords: str, tune: str = "", key: str = "C") -> tuple[int, ...]:
    count = chords.count("|") + 1 if "|" in chords else len(chords.split())
    found = group_phrases(COMMON_TIME.bars(1, count), COMMON_TIME, readings(chords, key), line(tune))
    return tuple(phrase.bars for phrase in found.phrases)


def bare(count: int) -> tuple[int, ...]:
    return tuple(phrase.bars for phrase in group_phrases(COMMON_TIME.bars(1, count), COMMON_TIME).phrases)


def test_four_bars_are_the_norm() -> None:
    """Common practice."""
    assert (bare(4), bare(8), bare(12), bare(16)) == ((4,), (4, 4), (4, 4, 4), (4, 4, 4, 4))
    found = group_phrases(COMMON_TIME.bars(1, 8), COMMON_TIME)
    assert found.sureness == 0.4 and found.reason.endswith("groups of four are the norm.")


def test_chords_that_begin_again() -> None:
    assert groups("C G Am F C G F C") == (4, 4)
    assert groups("C G Am C G F") == (3, 3)
    assert groups("C Am F Dm G C Am F Dm G") == (5, 5)
    assert groups("C G C G F F C") == (4, 3)


def test_a_tune_of_four_fours_keeps_its_grid() -> None:
    """Common practice: that bars 10 to 13 happen to go as 1 to 4 makes no phrases of five and three bars of them."""
    assert groups("C | G | Am | F | C | G | F . G . | C | F | C | G | Am | F | C | G | C") == (4, 4, 4, 4)
    assert groups("C7 C7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7") == (4, 4, 4), (
        "a chord that goes on does not begin again"
    )


def test_phrases_of_five_and_three_that_come_round_exactly_are_heard() -> None:
    """Also where their bars add up to a multiple of four: common practice."""
    assert groups(" ".join(["C Am F Dm G"] * 4)) == (5, 5, 5, 5)
    assert groups(" ".join(["C G Am"] * 4)) == (3, 3, 3, 3)


def test_a_phrase_ends_where_the_harmony_stops() -> None:
    """A half cadence in bar 4 of seven parts 4 + 3: common practice."""
    assert groups("D G D A Bm G A", key="D") == (4, 3)
    found = group_phrases(COMMON_TIME.bars(1, 7), COMMON_TIME, readings("D G D A Bm G A", "D"))
    assert found.reason.startswith("Phrases end where the harmony stops on V or I")
    assert (found.sureness, found.runner_up, found.heard) == (0.5, "3 + 4", False)


def test_a_loop_is_left_where_other_chords_come_and_not_while_it_goes_round() -> None:
    left, going = readings("C G C G C G C G F Am Dm G", "C"), readings("C C F G F G F G F G F G", "C")
    span = COMMON_TIME.bars(1, 12)
    assert "the chords leave their loop" in group_phrases(span, COMMON_TIME, left).reason
    found = group_phrases(span, COMMON_TIME, going)
    assert found.reason.endswith("groups of four are the norm.") and not found.heard


def test_the_tune_rests() -> None:
    three = "C4 D4 E4 F4 G4 A4 G4 F4 E4:2 r:2"
    assert groups("C F C C F C", f"{three} {three}") == (3, 3)
    five = "C4 D4 E4 F4 C4 D4 E4 F4 C4 D4 E4 F4 C4 D4 E4 F4 G4:2 r:2"
    found = group_phrases(COMMON_TIME.bars(1, 9), COMMON_TIME, (), line(f"{five} {five}"))
    assert [phrase.bars for phrase in found.phrases] == [5, 4] and "the tune rests" in found.reason


def test_more_that_is_heard_is_surer() -> None:
    span, chords = COMMON_TIME.bars(1, 8), readings("C G Am F C G F C", "C")
    four = "C4 D4 E4 F4 C4 D4 E4 F4 C4 D4 E4 F4 G4:2 r:2"
    alone = group_phrases(span, COMMON_TIME, chords)
    both = group_phrases(span, COMMON_TIME, chords, line(f"{four} {four}"))
    assert 0.4 < alone.sureness < both.sureness
    assert both.reason == "New phrases begin where the chords begin again and the tune rests."


def test_phrases_fill_the_section() -> None:
    found = bars_reading(COMMON_TIME.bars(3, 11), COMMON_TIME)
    assert found.phrases[0].span.start == 8 and found.phrases[-1].span.end == 44
    assert sum(phrase.bars for phrase in found.phrases) == found.bars == 9


@pytest.mark.parametrize(
    ("count", "remark"),
    [
        (8, ""), (2, ""), (1, ""), (12, ""), (9, "one bar more than eight"), (7, "one bar fewer than eight"),
        (3, "one bar fewer than four"), (5, "one bar more than four"), (10, "two bars more than eight"),
        (6, "two bars more than four"), (17, "one bar more than 16"),
    ],
)  # fmt: skip
def test_lengths_that_are_odd(count: int, remark: str) -> None:
    assert bars_reading(COMMON_TIME.bars(1, count), COMMON_TIME).remark == remark


def test_bars_in_another_meter() -> None:
    time = SongTime(((1, Meter(4, 4)), (4, Meter(2, 4)), (5, Meter(4, 4))), COMMON_TIME.anchors)
    (odd,) = bars_reading(time.bars(1, 8), time).odd_bars
    assert (odd.bar, odd.reason, odd.span) == (4, "Bar 4 is in 2/4, not 4/4.", Span(F(12), F(14)))


def test_a_pickup_runs_up_to_the_bar_line() -> None:
    tune = line("C4:2 r:1 G4:1 C5:4")
    found = bars_reading(COMMON_TIME.bars(2, 2), COMMON_TIME, (), tune).pickup
    assert found is not None and (found.at, found.length) == (3, 1)
    assert bars_reading(COMMON_TIME.bars(2, 2), COMMON_TIME, (), line("C4:3 G4:1 C5:4")).pickup is None
    assert bars_reading(COMMON_TIME.bars(2, 2), COMMON_TIME, (), line("C4:2 r:2 C5:4")).pickup is None
    at_the_start = [Note(F(-1), F(1), Pitch.parse("G4")), Note(F(0), F(4), Pitch.parse("C5"))]
    first = bars_reading(COMMON_TIME.bars(1, 1), COMMON_TIME, (), at_the_start).pickup
    assert first is not None and first.length == 1
    time = SongTime(((1, Meter(4, 4)),), COMMON_TIME.anchors, pickup=F(1))
    written = bars_reading(time.bars(0, 1), time, (), at_the_start).pickup
    assert written == first, "a section may hold its pickup bar"


@pytest.mark.parametrize("by", [(1, 2), (3, 5), (5, 9)])
def test_transposing_changes_nothing(by: tuple[int, int]) -> None:
    plain = chart("C G Am F C G7 F C")
    moved = Chart(tuple(replace(at, chord=at.chord and at.chord.transposed(*by)) for at in plain.chords))
    key = Key.parse("C")
    span = COMMON_TIME.bars(1, 8)
    here = bars_reading(span, COMMON_TIME, read_chart(plain, ((F(0), key),)))
    there = bars_reading(span, COMMON_TIME, read_chart(moved, ((F(0), key.transposed(*by)),)))
    assert here == there


def test_no_bars() -> None:
    found = bars_reading(Span(F(1), F(2)), COMMON_TIME)
    assert (found.bars, found.phrases, found.pickup) == (0, (), None)
