"""When callouts show over an excerpt that is heard more than once, and what they then speak of."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import default_theme
from studio.music.place import Span
from studio.project.complaints import ProjectError
from studio.project.model import Excerpt, Instead, Play
from studio.timeline.plan import CalloutPlan, SegmentPlan
from studio.timeline.planning import plan_episode

from .long_song import excerpt_of, project_of
from .sign import KINDS, SignOptions

# Bars 1 and 2 at 4/5 of their speed, twice, counted in over bar 0, ringing on through bar 3: the first six quarters
# at 120 a minute, then two at 96, and two more for the tail. As heard, one pass is (3 + 5/4) * 5/4 s.
TWICE = excerpt_of(F(0), F(8), F(-4), F(2), repeat=2, speed=F(4, 5), at=F(1))
COUNTED, ONCE, TAIL = F(5, 2), F(85, 16), F(25, 16)
MUSIC = 1 + COUNTED
BAR_1, BAR_2, BAR_3 = Span(F(0), F(4)), Span(F(4), F(8)), Span(F(8), F(10))
OTHERWISE = excerpt_of(
    F(0), F(10), sources=(), plays=(Play("chords", "chords"),), instead=(Instead(BAR_2, "Dm"),)
)


def segment(excerpt: Excerpt | None, *options: dict[str, object], script: str = "") -> SegmentPlan:
    made = tuple(SignOptions(kind="sign", **each) for each in options)  # type: ignore[arg-type]
    plan = plan_episode(project_of(excerpt, made, script), KINDS, stage_of(default_theme()))
    return plan.segments[0]


def shown(excerpt: Excerpt | None, **options: object) -> CalloutPlan:
    (callout,) = segment(excerpt, options).callouts
    return callout


def frames(*seconds: F) -> tuple[int, ...]:
    return tuple(int(second * 30 + F(1, 2)) for second in seconds)


def times(callout: CalloutPlan) -> tuple[int, ...]:
    """The frames at which it comes and goes, in turns."""
    return tuple(frame for ends in callout.layer.times for frame in ends)


def looks(callout: CalloutPlan) -> list[tuple[int, int, str]]:
    """The looks without their fading: (from, up to, look)."""
    found: list[tuple[int, int, str]] = []
    for state in callout.layer.states:
        if found and found[-1][2] == state.look:
            found[-1] = (found[-1][0], state.end, state.look)
        else:
            found.append((state.start, state.end, state.look))
    return found


def test_with_neither_where_nor_when_it_shows_from_the_first_click_to_the_end_of_the_tail() -> None:
    callout = shown(TWICE)
    assert times(callout) == frames(F(1), MUSIC + 2 * ONCE + TAIL)
    assert callout.span == TWICE.span


def test_its_looks_follow_every_pass() -> None:
    late = MUSIC + F(5, 4)  # the sign changes after two quarters
    assert looks(shown(TWICE)) == [
        (*frames(F(1), late), "early"),
        (*frames(late, MUSIC + ONCE), "late"),
        (*frames(MUSIC + ONCE, late + ONCE), "early"),
        (*frames(late + ONCE, MUSIC + 2 * ONCE), "late"),
        (*frames(MUSIC + 2 * ONCE, MUSIC + 2 * ONCE + TAIL), "early"),
    ]


def test_a_place_shows_while_it_is_heard_in_every_pass() -> None:
    again = MUSIC + ONCE
    assert times(shown(TWICE, where=BAR_1)) == frames(MUSIC, MUSIC + F(5, 2), again, again + F(5, 2))


def test_what_is_gone_for_less_than_two_seconds_stays() -> None:
    most = Span(F(0), F(6))  # what is left of the pass takes 25/16 s
    assert times(shown(TWICE, where=most)) == frames(MUSIC, MUSIC + ONCE + F(15, 4))


def test_each_coming_and_going_is_faded() -> None:
    states = shown(TWICE, where=BAR_1).layer.states
    first, again = (int(at * 30 + F(1, 2)) for at in (MUSIC, MUSIC + ONCE))
    opacity = {frame: state.opacity for state in states for frame in range(state.start, state.end)}
    for start in (first, again):
        assert opacity[start] < opacity[start + 1] < 1 and opacity[start + 10] == 1
        end = start + 75
        assert opacity[end - 1] < opacity[end - 2] < 1 and end not in opacity


def test_marks_come_and_go_with_their_callout() -> None:
    callout = shown(TWICE, where=BAR_1)
    (mark,) = callout.marks
    assert {frame for state in mark.states for frame in range(state.start, state.end)} == {
        frame for state in callout.layer.states for frame in range(state.start, state.end)
    }


def test_what_is_never_on_screen_together_may_stand_in_one_place() -> None:
    one, two = segment(TWICE, {"where": BAR_1, "tall": 60}, {"where": BAR_2, "tall": 60}).callouts
    assert one.layer.box == two.layer.box


def test_a_place_in_the_tail_shows_while_it_rings() -> None:
    assert times(shown(TWICE, where=BAR_3)) == frames(MUSIC + 2 * ONCE, MUSIC + 2 * ONCE + TAIL)


@pytest.mark.parametrize(("number", "start", "end"), [(1, MUSIC, MUSIC + ONCE), (2, MUSIC + ONCE, None)])
def test_a_pass_alone_is_all_of_that_pass(number: int, start: F, end: F | None) -> None:
    callout = shown(TWICE, **{"pass": number})
    assert times(callout) == frames(start, end or MUSIC + 2 * ONCE + TAIL)
    assert callout.span == TWICE.span


@pytest.mark.parametrize("number", [1, 2])
def test_a_place_in_a_pass_is_that_place_in_that_pass(number: int) -> None:
    start = MUSIC + (number - 1) * ONCE
    assert times(shown(TWICE, where=BAR_1, **{"pass": number})) == frames(start, start + F(5, 2))


def test_a_pass_that_there_is_not_is_a_complaint() -> None:
    with pytest.raises(ProjectError, match="There is no pass 3: the excerpt is heard twice"):
        shown(TWICE, **{"pass": 3})
    with pytest.raises(ProjectError, match="No excerpt is heard here"):
        shown(None, **{"pass": 1})


def test_a_sliver_of_another_pass_is_not_meant() -> None:
    # From just before the second pass until its first bar is over.
    when = (MUSIC + ONCE - F(1, 20), MUSIC + ONCE + F(5, 2))
    assert shown(TWICE, when=when).span == BAR_1


def test_what_shows_over_a_joint_speaks_of_what_is_heard_on_both_sides() -> None:
    when = (MUSIC + ONCE - F(5, 2), MUSIC + ONCE + F(5, 4))
    assert shown(TWICE, when=when).span == TWICE.span


def test_what_shows_through_a_pass_speaks_of_all_of_it_whatever_else_it_shows_over() -> None:
    assert shown(TWICE, when=(MUSIC, MUSIC + 2 * ONCE)).span == TWICE.span


# With and without: bar 2 is played otherwise in the second pass. As heard, a pass takes 2 + 9/4 + 5/4 s.

PASS = F(2) + F(9, 4) + F(5, 4)


def test_a_callout_over_more_than_what_is_replaced_stays_through_it() -> None:
    assert times(shown(OTHERWISE, where=Span(F(0), F(10)))) == frames(F(0), 2 * PASS)


def test_a_callout_about_what_is_replaced_is_gone_when_it_is() -> None:
    assert times(shown(OTHERWISE, where=BAR_2)) == frames(F(2), F(17, 4))


def test_who_asks_for_the_changed_pass_gets_it_and_it_claims_nothing() -> None:
    callout = shown(OTHERWISE, where=BAR_2, **{"pass": 2})
    assert times(callout) == frames(PASS + 2, PASS + F(17, 4))
    assert [look for _, _, look in looks(callout)] == ["early"]  # as when nothing sounds


def test_in_the_changed_pass_marks_stand_nowhere_while_it_is_changed() -> None:
    (mark,) = shown(OTHERWISE).marks
    start, end = frames(PASS + 2, PASS + F(17, 4))
    seen = {frame for state in mark.states for frame in range(state.start, state.end)}
    assert not seen & set(range(start, end)) and {start - 1, end} <= seen


def test_the_changed_pass_speaks_of_the_same_bars_as_the_one_before() -> None:
    assert shown(OTHERWISE, **{"pass": 2}).span == OTHERWISE.span


def test_the_strip_and_the_clip_last_as_long_as_what_is_heard() -> None:
    found = segment(TWICE)
    assert found.strip is not None
    assert (found.strip.start, found.strip.end) == frames(F(1), MUSIC + 2 * ONCE + TAIL)
    assert found.frames == -(-(MUSIC + 2 * ONCE + TAIL) * 30 // 1)


def test_over_what_stands_in_no_place_of_the_song_a_callout_needs_a_where() -> None:
    by_itself = Excerpt(F(0), F(0), None, (), (), F(0), F(0), plays=(Play("chord", "C", tempo=F(60)),))
    assert times(shown(by_itself, where=BAR_1)) == (0, 120)
    assert times(shown(by_itself, where=BAR_1, when=(F(1), F(2)))) == (30, 60)
    with pytest.raises(ProjectError, match="leave 'where' or 'pass' out"):
        shown(by_itself, where=BAR_1, **{"pass": 1})
    with pytest.raises(ProjectError, match="stands in no place of the song; give the callout a 'where'"):
        shown(by_itself)
