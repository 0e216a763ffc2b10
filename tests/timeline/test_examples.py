"""Played examples in excerpts: with and without, by themselves, and what no picture may claim meanwhile."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from studio.music.place import Span
from studio.project.model import Excerpt, Instead, Play
from studio.timeline.clock import ClipClock
from studio.timeline.heard import RATE, Pass, Played
from studio.timeline.kind import Composed, Looks
from studio.timeline.motion import states_of

from .long_song import TIME, excerpt_of, placed, second_of, sound, tried

CHORDS, LEAD = Play("chords", "chords"), Play("part", "lead", "plucked")
BAR_2 = Span(F(4), F(8))


def example(*plays: Play, start: F = F(0), end: F = F(8), **more: object) -> Excerpt:
    return excerpt_of(start, end, sources=(), plays=plays, **more)


def tones(one: Pass) -> set[tuple[int, int, int]]:
    """(start, length, MIDI number) of all that is played in a pass."""
    return {
        (tone.start, tone.length, tone.midi)
        for source in one.sources
        if isinstance(source, Played)
        for tone in source.tones
    }


def sample(quarters: F) -> int:
    return round(second_of(quarters) * RATE)


def test_with_and_without_take_turns_and_are_matched() -> None:
    found = placed(example(CHORDS, instead=(Instead(BAR_2, "Dm"),), repeat=2)).plan.laid.cut
    one, two, three, four = map(tones, found.passes)
    assert one == three and two == four and one != two and found.matched
    assert len({(one.start, one.length) for one in found.passes}) == 1


def test_only_what_is_replaced_sounds_otherwise() -> None:
    one, two = (
        tones(each) for each in placed(example(CHORDS, instead=(Instead(BAR_2, "Dm"),))).plan.laid.cut.passes
    )
    early = {tone for tone in one if tone[0] < sample(F(4))}
    assert early and early <= two
    # F, G become D minor: B, which is in G alone, is gone.
    assert {tone[2] % 12 for tone in one - two} >= {11, 7} and {tone[2] % 12 for tone in two - early} == {
        2,
        5,
        9,
    }


def test_of_several_things_played_each_has_its_own_changes() -> None:
    plays = (LEAD, CHORDS)
    change = Instead(BAR_2, "Dm", "chords")
    one, two = placed(example(*plays, instead=(change,))).plan.laid.cut.passes
    assert one.sources[0] == two.sources[0] and one.sources[1] != two.sources[1]
    tuned = Instead(Span(F(0), F(0)), "A4", "lead")
    one, two = placed(example(*plays, instead=(tuned,))).plan.laid.cut.passes
    assert one.sources[0] != two.sources[0]


def test_in_a_changed_pass_the_clock_does_not_hear_what_is_replaced() -> None:
    found = placed(example(CHORDS, end=F(10), instead=(Instead(BAR_2, "Dm"),), speed=F(4, 5)))
    first, before, after = found.heard
    assert first == found.passes[0]
    assert (before.source, before.source + before.length) == (second_of(F(0)), second_of(F(4)))
    assert (after.source, after.source + after.length) == (second_of(F(8)), second_of(F(10)))
    assert after.clip == found.passes[1].clip_time(second_of(F(8)))


class Told(Looks):
    """Looks that tell how they give way."""

    def last(self, look: str) -> str:
        return f"{look} alone"

    def quiet(self, look: str, default: str) -> str:
        return f"after {look}"


def test_a_picture_of_the_chords_claims_none_of_those_that_are_replaced() -> None:
    found = placed(example(CHORDS, end=F(10), instead=(Instead(BAR_2, "Dm"),)))
    looks = ((F(0), F(4), "C"), (F(4), F(6), "F"), (F(6), F(8), "G"), (F(8), F(10), "Am"))
    clock = ClipClock(F(30), TIME, found.heard)
    composed = Composed(None, looks, None, "none", "")
    states = states_of(composed, 0, clock.frame(found.end), clock, Told())
    assert [state.look for state in states] == ["C", "F", "G", "Am", "C alone", "after C", "Am alone"]


def test_a_note_of_a_part_may_be_replaced_too() -> None:
    found = placed(example(LEAD, instead=(Instead(Span(F(4), F(4)), "rest"),)))
    one, two = map(tones, found.plan.laid.cut.passes)
    assert one - two == {(sample(F(4)), sample(F(5)) - sample(F(4)), 69)} and not two - one
    assert [heard.source for heard in found.heard] == [second_of(F(q)) for q in (0, 0, 5)]


def test_in_the_tail_of_the_last_pass_nothing_new_is_played() -> None:
    excerpt = example(LEAD, end=F(4), tail=F(4), repeat=2)
    one, two = map(tones, placed(excerpt).plan.laid.cut.passes)
    assert {tone[2] for tone in one} == {tone[2] for tone in two} == {72}


def test_by_itself_it_is_as_long_as_it_takes_and_no_picture_moves() -> None:
    by_itself = Excerpt(
        F(0),
        F(0),
        None,
        (),
        (),
        F(0),
        F(0),
        plays=(Play("chord", "F#m7", tempo=F(60)),),
        repeat=2,
        speed=F(1, 2),
    )
    found = placed(by_itself)
    (one, two) = found.plan.laid.cut.passes
    # Four beats at 60 a minute take four seconds, at half the speed eight, twice.
    assert (found.start, found.end) == (0, 16) and found.plan.laid.cut.length == 16 * RATE
    assert one == two and {midi % 12 for _, _, midi in tones(one)} == {6, 9, 1, 4}
    assert found.heard == () and found.plan.span is None and found.plan.bars == ()


def test_what_cannot_be_played_is_said_at_the_excerpt_and_once() -> None:
    _, complaints = tried(example(Play("part", "lead"), instead=(Instead(Span(F(5), F(5)), "D5"),), repeat=3))
    (sentence,) = complaints
    assert sentence.endswith((".", "?"))


def test_fades_longer_than_what_is_played_by_itself_are_a_complaint() -> None:
    by_itself = Excerpt(F(0), F(0), None, (), (), F(3), F(3), plays=(Play("chord", "C", tempo=F(60)),))
    (sentence,) = tried(by_itself)[1]
    assert "0:04" in sentence and "shorter" in sentence


@pytest.mark.parametrize("plays", [(), (LEAD,)])
def test_stems_that_sound_with_it_sound_in_every_pass(plays: tuple[Play, ...]) -> None:
    excerpt = replace(example(*plays, repeat=3), names=("drums",), sources=(sound("drums.wav"),))
    assert all(
        one.sources[0].path == "/song/audio/drums.wav"  # type: ignore[union-attr]
        for one in placed(excerpt).plan.laid.cut.passes
    )


def test_chords_that_are_played_beside_a_tune_leave_it_its_keys() -> None:
    alone, beside = (
        placed(example(*plays)).plan.laid.cut.passes[0].sources[0] for plays in ((CHORDS,), (CHORDS, LEAD))
    )
    assert isinstance(alone, Played) and isinstance(beside, Played)
    # In bar 2 the tune strikes A4 (MIDI 69), which the right hand would hold in F.
    keys = [{tone.midi for tone in one.tones if tone.start == sample(F(4))} for one in (alone, beside)]
    assert 69 in keys[0] and keys[1] == keys[0] - {69}
