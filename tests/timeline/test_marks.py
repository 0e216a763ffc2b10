"""Moving marks: at every frame where the song says, through tempo changes, repeats and slowed excerpts."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.timeline.clock import ClipClock, Heard
from studio.timeline.kind import Leg, Mark
from studio.timeline.marks import mark_at, mark_layer
from studio.timeline.motion import faded, faded_with
from studio.timeline.state import Box, Layer, State

# Tempo changes at bars 3 and 5: 120, then 60, then 96 quarters a minute.
TIME = SongTime(((1, Meter(4, 4)),), ((F(0), F(1)), (F(8), F(5)), (F(16), F(13)), (F(48), F(33))))
CALLOUT = Box(100, 700, 1600, 300)
SIZE = (12, 200)
WAY = Mark("line", SIZE, (Leg(F(0), F(24), (0.0, 150.0), (1200.0, 150.0)),))
REPEATED = (Heard(F(0), F(1), F(12), F(4, 5)), Heard(F(15), F(1), F(12), F(4, 5)))


def middle(layer: Layer, frame: int) -> float | None:
    for state in layer.states:
        if state.start <= frame < state.end:
            return layer.box_at(state, frame).x + layer.box.width / 2 - CALLOUT.x
    return None


@given(
    st.integers(0, 899),
    st.sampled_from([REPEATED, (Heard(F(0), F(1), F(18)),), (Heard(F(3), F(2), F(9), F(1, 2)),)]),
)
def test_a_mark_stands_where_the_song_is(frame: int, heard: tuple[Heard, ...]) -> None:
    clock = ClipClock(F(30), TIME, heard)
    layer = mark_layer(WAY, CALLOUT, 0, 900, clock)
    sounding = next((piece for piece in heard if piece.clip <= F(frame, 30) < piece.end), None)
    shown = middle(layer, frame)
    if sounding is None:
        assert shown is None or frame in {clock.frame(piece.end) for piece in heard}
        return
    quarters = TIME.quarters_at(sounding.source_time(F(frame, 30)))
    if quarters < 24:
        # A frame of time moves it 3 pixels at most; ends of legs are rounded to whole frames.
        assert shown is not None and abs(shown - float(quarters) * 50) <= 50 * 2.0 / 30 + 2


def test_each_hearing_of_a_repeat_moves_it_again() -> None:
    layer = mark_layer(WAY, CALLOUT, 0, 900, ClipClock(F(30), TIME, REPEATED))
    assert middle(layer, 30) == middle(layer, 480)
    assert middle(layer, 440) != middle(layer, 460)


def test_states_never_overlap_and_stay_within_the_callouts_time() -> None:
    layer = mark_layer(WAY, CALLOUT, 60, 300, ClipClock(F(30), TIME, REPEATED))
    assert layer.start >= 60 and layer.end <= 300
    assert all(one.end <= two.start for one, two in zip(layer.states, layer.states[1:], strict=False))


def test_a_mark_appears_and_leaves_with_its_callout() -> None:
    shown = faded((State(60, 300, "x"),), 5, 4)
    layer = mark_layer(WAY, CALLOUT, 60, 300, ClipClock(F(30), TIME, REPEATED))
    opacity = {
        frame: state.opacity
        for state in faded_with(layer.states, shown)
        for frame in range(state.start, state.end)
    }
    assert [opacity[frame] for frame in (60, 64, 65, 295, 299)] == [1 / 6, 5 / 6, 1.0, 1.0, 1 / 5]
    assert sorted(opacity) == list(range(60, 300))


def test_where_a_mark_stands_in_a_still() -> None:
    box = mark_at(WAY, CALLOUT, F(12))
    assert box == Box(100 + 600 - 6, 700 + 150 - 100, 12, 200)
    assert mark_at(WAY, CALLOUT, F(24)) is not None
    assert mark_at(WAY, CALLOUT, F(25)) is None
