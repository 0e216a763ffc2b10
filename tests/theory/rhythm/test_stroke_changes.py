"""Stroke by stroke: the changes turn one groove into the other."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from studio.music.groove import Groove, Hit
from studio.music.meter import Meter
from studio.theory.rhythm.difference import groove_difference
from studio.theory.rhythm.reading import groove_reading
from studio.theory.rhythm.stroke_changes import stroke_changes

TOUCHES = st.sampled_from(["ghost", "plain", "accent"])


@st.composite
def grooves(draw: st.DrawFn) -> Groove:
    hits = {
        voice: [Hit(Fraction(place, 8), draw(TOUCHES)) for place in sorted(draw(st.sets(st.integers(0, 7))))]
        for voice in ("kick", "snare", "hat", "open hat", "crash")
    }
    return Groove.of(Meter(4, 4), 1, hits)


@given(grooves(), grooves())
def test_what_is_left_out_and_what_is_marked_turn_one_groove_into_the_other(one: Groove, two: Groove) -> None:
    for line, strokes in stroke_changes(one, two).items():
        voices = ("hat", "open hat") if line == "hats" else (line,)
        before, after = set(one.onsets(*voices)), set(two.onsets(*voices))
        assert strokes.gone == before - after
        assert after - before <= strokes.marked <= after


@given(grooves(), grooves())
def test_backwards_what_came_goes(one: Groove, two: Groove) -> None:
    there, back = stroke_changes(one, two), stroke_changes(two, one)
    for line, strokes in there.items():
        assert (strokes.added, strokes.ghosts) == (back[line].left, back[line].ghosts_left)
        assert (strokes.softer, strokes.opened) == (back[line].louder, back[line].closed)
        assert strokes.accents == back[line].accents


@given(grooves(), grooves())
def test_the_words_have_something_to_tell_just_where_a_stroke_is_marked(one: Groove, two: Groove) -> None:
    marked = any(strokes.marked or strokes.gone for strokes in stroke_changes(one, two).values())
    assert groove_difference(groove_reading(one), groove_reading(two)).same == (not marked)
