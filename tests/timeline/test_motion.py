"""States over the frames of a clip: without gaps, in order, calm at both ends."""

import itertools
from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.episode_values import read_canvas
from studio.timeline.burnt import burnt_layers
from studio.timeline.clock import ClipClock, Heard
from studio.timeline.kind import Composed, Looks
from studio.timeline.motion import faded, states_of, strip_layer

CANVAS = read_canvas("1920x1080 @ 30")
TIME = SongTime(((1, Meter(4, 4)),), ((F(0), F(0)), (F(1), F(1, 2))))
CLOCK = ClipClock(F(30), TIME, (Heard(F(1), F(4), F(8)),))

looks = st.lists(
    st.tuples(
        st.fractions(6, 26, max_denominator=8), st.fractions(0, 4, max_denominator=8), st.integers(0, 3)
    ),
    max_size=6,
)


@given(looks, st.integers(0, 60), st.integers(1, 300), st.integers(0, 6))
def test_a_callout_has_one_look_at_every_frame_while_it_is_on_screen(
    written: list[tuple[F, F, int]], start: int, length: int, fade: int
) -> None:
    composed = Composed(None, tuple((a, a + more, look) for a, more, look in written), None, "rest", "")
    states = faded(states_of(composed, start, start + length, CLOCK), fade, fade // 2)
    assert states[0].start == start and states[-1].end == start + length
    assert all(a.end == b.start for a, b in itertools.pairwise(states))
    assert all(0 < state.opacity <= 1 and state.start < state.end for state in states)


def test_looks_begin_when_their_music_sounds() -> None:
    # At 120 a minute quarter 8 is second 4 of the recording, which is second 1 of the clip, frame 30.
    composed = Composed(None, ((F(8), F(10), "A"), (F(10), F(12), "B")), None, None, "")
    states = states_of(composed, 30, 270, CLOCK)
    assert [(state.start, state.end, state.look) for state in states] == [
        (30, 60, "A"),
        (60, 90, "B"),
        (90, 270, None),
    ]


@given(
    st.sampled_from([F(1, 2), F(4, 5), F(3, 4), F(5, 4)]),
    st.integers(0, 899),
    st.integers(2, 6),
    st.booleans(),
)
def test_a_slowed_repeated_excerpt_lights_what_sounds(speed: F, frame: int, length: int, gap: bool) -> None:
    # Bars of half a second a quarter: looks are the number of the quarter; heard twice, with or without a rest.
    once = Heard(F(1), F(2), F(length), speed)
    twice = Heard(once.end + (1 if gap else 0), F(2), F(length), speed)
    clock = ClipClock(F(30), TIME, (once, twice))
    looks = tuple((F(n), F(n + 1), n) for n in range(40))
    states = states_of(Composed(None, looks, None, "rest", ""), 0, 900, clock)
    shown = next(state for state in states if state.start <= frame < state.end)
    sounding = next((piece for piece in (once, twice) if piece.clip <= F(frame, 30) < piece.end), None)
    if sounding is None:
        assert shown.look == "rest" or frame in (clock.frame(once.end), clock.frame(twice.end))
        return
    quarter = TIME.quarters_at(sounding.source_time(F(frame, 30)))
    near = {
        TIME.quarters_at(sounding.source_time(F(frame, 30) + part)) // 1 for part in (-F(1, 60), F(1, 60))
    }
    assert shown.look in {
        quarter // 1,
        *near,
        "rest" if frame == clock.frame(sounding.clip) else quarter // 1,
    }


def test_appearing_takes_its_frames_and_no_more() -> None:
    composed = Composed(None, (), None, "x", "")
    states = faded(states_of(composed, 0, 60, CLOCK), 5, 2)
    assert [state.opacity for state in states[:5]] == [1 / 6, 2 / 6, 3 / 6, 4 / 6, 5 / 6]
    assert (states[5].start, states[5].end, states[5].opacity) == (5, 58, 1.0)


def test_the_strip_fills_once_from_the_start_of_its_excerpt_to_the_end() -> None:
    layer = strip_layer(30, 270, CANVAS)
    assert [state.look for state in layer.states] == list(range(1, layer.content.bars + 1))
    assert (layer.start, layer.end) == (30, 270)


def test_the_burnt_timecode_shows_every_frame_its_own_number() -> None:
    _, seconds, counts = burnt_layers(3, "hook", 75, CANVAS)
    shown = [
        next(s.look for s in seconds.states if s.start <= frame < s.end)
        + next(s.look for s in counts.states if s.start <= frame < s.end)
        for frame in range(75)
    ]
    assert shown[0] == "00:00:00:00" and shown[29] == "00:00:00:29" and shown[74] == "00:00:02:14"
    assert len(set(shown)) == 75


WRITTEN = ((F(8), F(10), "A"), (F(10), F(12), "B"), (F(12), F(14), "C"))
SECONDS = TIME.seconds(F(10)), TIME.seconds(F(12))


def changed_clock() -> ClipClock:
    """The stretch twice; in the second pass something else sounds from quarter 10 to 12."""
    start, end = TIME.seconds(F(8)), TIME.seconds(F(14))
    once = Heard(F(0), start, end - start)
    again = replace(once, clip=once.end)
    first, last = SECONDS
    return ClipClock(
        F(30),
        TIME,
        (once, replace(again, length=first - start), Heard(again.clip_time(last), last, end - last)),
        (Heard(again.clip_time(first), first, last - first),),
    )


class Announcing(Looks):
    """Looks that tell where nothing that is known follows."""

    def last(self, look: str) -> str:
        return f"{look} alone"


def shown(changed: tuple[tuple[F, F, str], ...]) -> list[str]:
    clock = changed_clock()
    composed = Composed(None, WRITTEN, None, "rest", "", changed=changed)
    states = states_of(composed, 0, clock.frame(clock.heard[-1].end), clock, Announcing())
    return [state.look for state in states]


def test_looks_of_a_change_show_in_the_changed_pass_alone() -> None:
    assert shown(((F(10), F(12), "D"),)) == ["A", "B", "C", "A alone", "D", "C alone"]


def test_without_looks_for_a_change_nothing_is_lit_in_it() -> None:
    assert shown(()) == ["A", "B", "C", "A alone", "rest", "C alone"]


def test_what_a_change_does_not_touch_goes_on_as_if_there_were_none() -> None:
    assert shown(((F(10), F(12), "B"),)) == ["A", "B", "C", "A", "B", "C alone"]


def test_a_change_at_the_end_is_the_last_that_is_told() -> None:
    clock = changed_clock()
    cut = replace(clock, heard=clock.heard[:2])
    composed = Composed(None, WRITTEN, None, "rest", "", changed=((F(10), F(12), "D"),))
    states = states_of(composed, 0, clock.frame(clock.heard[-1].end), cut, Announcing())
    assert [state.look for state in states][-2:] == ["D alone", "rest"]
