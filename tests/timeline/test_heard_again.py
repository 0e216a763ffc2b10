"""An excerpt that is repeated, slowed and counted in: every beat of every pass is where it is heard.

What is expected is worked out by counting, in `long_song`, with exact fractions. A count-in is clicked evenly at the
tempo of the music's first beat, as a drummer counts (common practice).
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.place import Span
from studio.project.model import Excerpt
from studio.timeline.clock import ClipClock
from studio.timeline.heard import RATE, Click
from studio.timeline.kind import Composed, Leg, Mark
from studio.timeline.marks import mark_layer
from studio.timeline.motion import states_of
from studio.timeline.passes import without
from studio.timeline.state import Box

from .long_song import BARS, SONG, TIME, beats, excerpt_of, placed, second_of, tempo_at

F_RATES = (F(24), F(25), F(30), F(60), F(30000, 1001))
EXCERPTS = {
    "all of it, twice, slowed": excerpt_of(F(-1), F(25), repeat=2, speed=F(4, 5), at=F(3)),
    "counted in, a third as long again": excerpt_of(F(4), F(16), F(0), repeat=3, speed=F(3, 4)),
    "from the middle of a bar, half as fast": excerpt_of(
        F(7), F(13), F(0), F(3), repeat=4, speed=F(1, 2), at=F(1, 7), click=-6.0
    ),
    "hastened, with a tail": excerpt_of(F(10), F(22), F(8), F(3), repeat=2, speed=F(3, 2), click=0.0),
    "at a speed that divides nothing": excerpt_of(F(0), F(19), F(-4), repeat=5, speed=F(17, 23), at=F(2, 3)),
}


def expected(excerpt: Excerpt, number: int, quarters: F) -> F:
    """Second of the clip at which a moment is heard in a pass: counted in, so many passes over, so far in this one."""
    assert excerpt.span is not None and excerpt.at is not None
    start = second_of(excerpt.span.start)
    once = (second_of(excerpt.span.end) - start) / excerpt.speed
    counted = F(0)
    if excerpt.count_in is not None:
        quarter = F(60, tempo_at(excerpt.span.start))
        counted = (excerpt.span.start - excerpt.count_in.start) * quarter / excerpt.speed
    return excerpt.at + counted + number * once + (second_of(quarters) - start) / excerpt.speed


def nearest(seconds: F, rate: int | F) -> int:
    """The nearest sample or frame; halves go up."""
    return (seconds * rate + F(1, 2)).__floor__()


def heard_to(excerpt: Excerpt, number: int) -> F:
    """The quarter at which a pass is over; the last one with its tail."""
    assert excerpt.span is not None
    if number < excerpt.passes - 1 or not excerpt.tail:
        return excerpt.span.end
    return excerpt.span.end + excerpt.tail * tempo_at(excerpt.span.end) / 60


each = pytest.mark.parametrize("excerpt", EXCERPTS.values(), ids=EXCERPTS.keys())


@each
def test_at_every_beat_of_every_pass_the_clock_is_exact(excerpt: Excerpt) -> None:
    found = placed(excerpt)
    assert len(found.heard) == excerpt.passes
    for number, heard in enumerate(found.heard):
        on = beats(excerpt.span.start, heard_to(excerpt, number))  # type: ignore[union-attr]
        assert on
        for _, _, quarters in on:
            assert heard.clip_time(TIME.seconds(quarters)) == expected(excerpt, number, quarters)
            assert TIME.quarters_at(heard.source_time(expected(excerpt, number, quarters))) == quarters


@each
@pytest.mark.parametrize("rate", F_RATES, ids=str)
def test_every_beat_begins_on_the_frame_nearest_to_it(excerpt: Excerpt, rate: F) -> None:
    clock = ClipClock(rate, TIME, placed(excerpt).heard)
    end = excerpt.span.end  # type: ignore[union-attr]
    for _, _, quarters in beats(excerpt.span.start, end):  # type: ignore[union-attr]
        shown = [first for first, _ in clock.frames(Span(quarters, end))]
        assert shown == [
            nearest(expected(excerpt, number, quarters), rate) for number in range(excerpt.passes)
        ]


@each
def test_a_click_under_the_music_is_on_the_sample_nearest_to_its_beat(excerpt: Excerpt) -> None:
    found = placed(excerpt)
    cut, at = found.plan.laid.cut, excerpt.at
    assert at is not None
    under = [click for click in cut.clicks if click.at >= cut.lead]
    if excerpt.click is None:
        assert not under
        return
    wanted = [
        Click(nearest(expected(excerpt, number, quarters) - at, RATE), beat == 1)
        for number in range(excerpt.passes)
        for _, beat, quarters in beats(excerpt.span.start, heard_to(excerpt, number))  # type: ignore[union-attr]
    ]
    assert under == wanted


@each
def test_bar_lines_are_told_where_they_are_heard(excerpt: Excerpt) -> None:
    assert excerpt.at is not None
    assert placed(excerpt).plan.bars == tuple(
        (bar, nearest(expected(excerpt, number, quarters) - excerpt.at, RATE))
        for number in range(excerpt.passes)
        for bar, beat, quarters in beats(excerpt.span.start, heard_to(excerpt, number))  # type: ignore[union-attr]
        if beat == 1
    )


@each
def test_looks_of_a_callout_follow_every_pass(excerpt: Excerpt) -> None:
    rate = F(30)
    looks = tuple((q, q + BARS[bar][1], f"{bar}.{beat}") for bar, beat, q in beats(F(-1), F(28)))
    clock = ClipClock(rate, TIME, placed(excerpt).heard)
    assert excerpt.at is not None and excerpt.span is not None
    last = nearest(excerpt.at + excerpt.heard, rate) + 60
    states = states_of(Composed(None, looks, None, "nothing", ""), 0, last, clock)
    shown = {frame: state.look for state in states for frame in range(state.start, state.end)}
    wanted = dict.fromkeys(range(last), "nothing")
    for number in range(excerpt.passes):
        end = heard_to(excerpt, number)
        for bar, beat, quarters in beats(F(-1), F(28)):
            begin, stop = max(quarters, excerpt.span.start), min(quarters + BARS[bar][1], end)
            if begin < stop:
                times = (expected(excerpt, number, at) for at in (begin, stop))
                wanted |= dict.fromkeys(range(*(nearest(at, rate) for at in times)), f"{bar}.{beat}")
    assert shown == wanted


@each
def test_a_mark_is_where_the_music_is_at_every_beat_of_every_pass(excerpt: Excerpt) -> None:
    rate, wide = F(30), 1160
    way = Mark("line", (12, 200), (Leg(F(-1), F(28), (0.0, 0.0), (float(wide), 0.0)),))
    box = Box(100, 100, 1200, 200)
    last = nearest(excerpt.at + excerpt.heard, rate)  # type: ignore[operator]
    layer = mark_layer(way, box, 0, last, ClipClock(rate, TIME, placed(excerpt).heard))
    for number in range(excerpt.passes):
        for _, _, quarters in beats(excerpt.span.start, excerpt.span.end):  # type: ignore[union-attr]
            frame = nearest(expected(excerpt, number, quarters), rate)
            state = next(state for state in layer.states if state.start <= frame < state.end)
            middle = layer.box_at(state, frame).x + 6 - box.x
            # Half a frame of the fastest tempo, 149 at 3/2, is 1/16 quarter: 2.5 pixels; two more of rounding.
            assert abs(middle - float((quarters + 1) / 29 * wide)) <= 4.5


def clicked(excerpt: Excerpt) -> list[tuple[F, bool]]:
    """The clicks of a count-in in quarters of its own even pace from its start on, and which are strong."""
    cut = placed(excerpt).plan.laid.cut
    assert excerpt.count_in is not None and excerpt.span is not None
    pace = F(60, tempo_at(excerpt.span.start)) / excerpt.speed
    before = [click for click in cut.clicks if click.at < cut.lead]
    assert cut.lead == nearest((excerpt.span.start - excerpt.count_in.start) * pace, RATE)
    found = [(F(round(click.at / (pace * RATE) * 2), 2), click.strong) for click in before]
    for (quarters, _), click in zip(found, before, strict=True):
        assert click.at == nearest(quarters * pace, RATE)
    return found


ONE, TWO = True, False


def test_a_bar_of_four_before_the_second_bar() -> None:
    assert clicked(excerpt_of(F(4), F(8), F(0))) == [(F(0), ONE), (F(1), TWO), (F(2), TWO), (F(3), TWO)]


@pytest.mark.parametrize("speed", [F(2, 5), F(4, 5), F(1), F(3, 2)])
def test_a_count_in_is_as_slow_as_the_music(speed: F) -> None:
    found = placed(excerpt_of(F(4), F(8), F(0), speed=speed))
    # Bar 2 begins at 120 a minute: four beats take two seconds.
    assert found.plan.laid.cut.lead == nearest(2 / speed, RATE)
    assert [click.at for click in found.plan.laid.cut.clicks] == [
        nearest(n * F(1, 2) / speed, RATE) for n in range(4)
    ]


def test_six_eight_is_counted_in_two() -> None:
    assert clicked(excerpt_of(F(13), F(16), F(10))) == [(F(0), ONE), (F(3, 2), TWO)]


def test_a_pickup_is_counted_into_its_own_bar() -> None:
    # The bar before the pickup's bar line at -4, and that bar up to the pickup: 1 2 3 4, 1 2 3.
    four = [(F(n), n == 0) for n in range(4)]
    assert clicked(excerpt_of(F(-1), F(4), F(-8))) == [*four, *((at + 4, strong) for at, strong in four[:3])]


def test_the_first_bar_of_a_song_is_counted_in_its_own_meter() -> None:
    assert clicked(excerpt_of(F(0), F(4), F(-4))) == [(F(n), n == 0) for n in range(4)]


def test_a_start_on_beat_four_is_counted_up_to_it() -> None:
    assert clicked(excerpt_of(F(7), F(10), F(0))) == [(F(n), n in (0, 4)) for n in range(7)]


def test_a_few_beats_before_a_bar_are_the_last_of_the_bar_before() -> None:
    assert clicked(excerpt_of(F(4), F(8), F(2))) == [(F(0), TWO), (F(1), TWO)]


def test_a_count_in_over_a_change_of_meter_counts_the_bar_before_at_the_new_tempo() -> None:
    # Bar 3 is two quarters at 96; bar 4, in 6/8, begins at 61 quarters a minute.
    excerpt = excerpt_of(F(10), F(16), F(8))
    assert clicked(excerpt) == [(F(0), ONE), (F(1), TWO)]
    assert placed(excerpt).plan.laid.cut.lead == nearest(F(120, 61), RATE)


def test_over_several_meters_each_bar_is_counted_as_it_is() -> None:
    wanted = [(F(0), ONE), (F(1), TWO), (F(2), ONE), (F(7, 2), TWO), (F(5), ONE), (F(13, 2), TWO)]
    assert clicked(excerpt_of(F(16), F(19), F(8))) == wanted


def test_a_count_in_and_the_click_that_goes_on_are_one_row_without_gap_or_double() -> None:
    found = placed(excerpt_of(F(4), F(6), F(0), repeat=3, click=-3.0)).plan.laid.cut
    # All at 120 a minute: 4 beats of count-in, then three passes of 2.
    assert [click.at for click in found.clicks] == [n * RATE // 2 for n in range(10)]
    assert [click.strong for click in found.clicks] == [n in (0, 4, 6, 8) for n in range(10)]
    assert found.click_db == -3.0


# For any excerpt

QUARTERS = st.integers(-12, 27 * 12).map(lambda n: F(n, 12))
SPEEDS = st.fractions(F(2, 5), F(3, 2), max_denominator=60)


@st.composite
def excerpts(draw: st.DrawFn) -> Excerpt:
    start, end = sorted((draw(QUARTERS), draw(QUARTERS)))
    end = max(end, start + 1)
    counted = draw(st.none() | st.integers(1, 96).map(lambda n: start - F(n, 12)))
    return excerpt_of(
        start,
        end,
        counted,
        draw(st.integers(0, 36).map(lambda n: F(n, 12))),
        repeat=draw(st.integers(1, 8)),
        speed=draw(SPEEDS),
        at=draw(st.fractions(0, 20, max_denominator=1001)),
        click=draw(st.none() | st.just(-6.0)),
    )


@given(excerpts(), st.fractions(0, 1, max_denominator=97))
def test_clip_time_and_source_time_undo_each_other(excerpt: Excerpt, part: F) -> None:
    for heard in placed(excerpt).heard:
        moment = heard.source + part * heard.length
        assert heard.source_time(heard.clip_time(moment)) == moment


@given(excerpts())
def test_passes_follow_one_another_without_gap_or_overlap(excerpt: Excerpt) -> None:
    found = placed(excerpt)
    assert excerpt.at is not None
    edges = [excerpt.at + excerpt.counted, *(heard.end for heard in found.passes)]
    assert [heard.clip for heard in found.passes] == edges[:-1]
    assert (found.start, found.end) == (excerpt.at, edges[-1]) and found.end == excerpt.at + excerpt.heard
    assert found.heard == found.passes


@given(excerpts())
def test_the_samples_of_a_cut_agree_with_the_clock_to_a_sample_of_the_recording(excerpt: Excerpt) -> None:
    found = placed(excerpt)
    cut = found.plan.laid.cut
    assert cut.length == cut.lead + nearest(F(sum(one.length for one in cut.passes)) / excerpt.speed, 1)
    assert abs(cut.length - excerpt.heard * RATE) <= 1 / (2 * excerpt.speed) + 1
    passed = 0
    for heard, one in zip(found.passes, cut.passes, strict=True):
        # A joint is rounded once as a sample of the recording, which lasts 1/speed as heard, and once as it is heard;
        # the count-in before it once more. None of that grows with the number of passes.
        off = found.plan.laid.at + cut.at(passed) - heard.clip * RATE
        assert abs(off) <= 1 / (2 * excerpt.speed) + F(3, 2)
        assert abs(one.start - heard.source * RATE) <= F(1, 2)
        assert abs(one.length - heard.length * RATE) <= 1
        passed += one.length


@given(excerpts())
def test_as_recorded_and_from_the_clips_start_joints_are_within_a_sample(excerpt: Excerpt) -> None:
    plain = excerpt_of(excerpt.span.start, excerpt.span.end, repeat=excerpt.repeat)  # type: ignore[union-attr]
    found = placed(plain)
    passed = 0
    for heard, one in zip(found.passes, found.plan.laid.cut.passes, strict=True):
        assert abs(found.plan.laid.cut.at(passed) - heard.clip * RATE) <= F(1, 2)
        passed += one.length


@given(excerpts())
def test_clicks_come_in_order_and_within_the_cut(excerpt: Excerpt) -> None:
    cut = placed(excerpt).plan.laid.cut
    at = [click.at for click in cut.clicks]
    assert at == sorted(at) and len(set(at)) == len(at)
    assert all(0 <= one <= cut.length for one in at)


@given(excerpts(), st.lists(st.tuples(QUARTERS, st.integers(1, 24)), max_size=4))
def test_what_is_left_out_of_a_pass_and_what_is_left_are_the_whole(
    excerpt: Excerpt, silent: list[tuple[F, int]]
) -> None:
    (whole, *_) = placed(excerpt).passes
    gaps = [(second_of(start), second_of(start + F(more, 12))) for start, more in silent]
    left = without(whole, gaps)
    last = whole.source + whole.length
    edges = {whole.source, last, *(at for gap in gaps for at in gap if whole.source < at < last)}
    for start, end in zip(sorted(edges), sorted(edges)[1:], strict=False):
        middle = (start + end) / 2
        sounding = [one for one in left if one.source <= middle < one.source + one.length]
        assert len(sounding) == (0 if any(a <= middle < b for a, b in gaps) else 1)
        assert all(one.clip_time(middle) == whole.clip_time(middle) for one in sounding)


def test_the_table_of_this_song_is_that_of_its_meters_and_anchors() -> None:
    for _bar, (start, _, count) in BARS.items():
        assert TIME.seconds(start) == second_of(start) and count
    assert TIME.seconds(F(25)) == second_of(F(25)) == F(13, 2) + F(360, 61) + F(540, 149)
    assert SONG.end == 28
