"""What sounds otherwise in a changed pass, as values for pictures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.note import Note, Part
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.project.model import Excerpt, Instead, Play
from studio.project.written_part import WrittenPart
from studio.timeline.changes import Changed, changes_of, unheard
from studio.timeline.clock import Heard
from studio.timeline.heard import Played
from studio.timeline.passes import without
from studio.timeline.song_facts import SongFacts

from .long_song import SONG, TIME, placed
from .test_examples import BAR_2, CHORDS, LEAD, example

FACTS = SongFacts(SONG, "relative-to-major")


def found(excerpt: Excerpt, facts: SongFacts = FACTS) -> tuple[Changed, ...]:
    return changes_of(excerpt, facts)


def pitches(one: Changed) -> list[str]:
    return [str(note.pitch) for note in one.notes]


def test_another_chord_keeps_the_rhythm_of_those_that_are_written_and_has_its_numeral() -> None:
    one, two = found(example(CHORDS, end=F(10), instead=(Instead(BAR_2, "Dm"),)))
    assert (one.span, two.span) == (Span(F(4), F(6)), Span(F(6), F(8)))
    assert (one.written, two.written, one.sound, two.sound) == ("F", "G", "Dm", "Dm")
    # D minor is ii of C major: any table of diatonic chords.
    assert [each.reading.numeral for each in (one, two) if each.reading] == ["ii", "ii"]
    assert one.of_harmony and one.part == ""


def test_the_keys_are_those_that_are_heard() -> None:
    excerpt = example(CHORDS, end=F(10), instead=(Instead(BAR_2, "Bbm/Db"),))
    played = placed(excerpt).plan.laid.cut.passes[1].sources[0]
    assert isinstance(played, Played)
    for one in found(excerpt):
        start = TIME.seconds(one.span.start) * 48_000
        heard = {tone.midi for tone in played.tones if abs(tone.start - start) < 1}
        assert heard and {note.pitch.midi for note in one.notes} == heard
        # B♭ minor is spelled B♭ D♭ F, its bass in the left hand.
        assert {str(note.pitch.name) for note in one.notes} == {"B♭", "D♭", "F"}
        assert [str(note.pitch.name) for note in one.notes if note.staff == 2] == ["D♭"]


def test_a_rest_sounds_as_nothing_and_is_no_chord() -> None:
    one, _ = found(example(CHORDS, instead=(Instead(BAR_2, "rest"),)))
    assert one.chord is None and one.reading is None and one.notes == () and one.of_harmony
    assert one.sound == "nothing"


def test_another_note_leaves_the_harmony_as_it_is() -> None:
    (one,) = found(example(LEAD, end=F(10), instead=(Instead(Span(F(4), F(4)), "Bb"),)))
    assert (one.part, one.written, one.sound) == ("lead", "A4", "B♭")
    assert pitches(one) == ["B♭4"] and one.span == Span(F(4), F(5)) and not one.of_harmony


def test_another_chord_of_a_part_is_another_harmony_on_the_keys_near_by() -> None:
    triad = tuple(
        Note(F(4), F(4), Pitch.parse(name), staff) for name, staff in (("F3", 2), ("A4", 1), ("C5", 1))
    )
    facts = SongFacts(
        replace(SONG, parts={"keys": WrittenPart(Part("keys", triad), TIME)}), "relative-to-major"
    )
    (one,) = found(example(Play("part", "keys"), instead=(Instead(BAR_2, "Fm"),)), facts)
    assert one.of_harmony and one.reading is not None and one.reading.numeral == "iv"
    assert pitches(one) == ["F3", "A♭4", "C5"] and [note.staff for note in one.notes] == [2, 1, 1]


def test_what_cannot_be_played_is_no_change_and_is_told_elsewhere() -> None:
    assert found(example(LEAD, instead=(Instead(Span(F(6), F(6)), "D5"),))) == ()
    assert found(example(CHORDS)) == ()


TIMES = st.fractions(min_value=0, max_value=20, max_denominator=8)


@given(TIMES, TIMES, st.lists(st.tuples(TIMES, TIMES), max_size=4))
def test_what_is_unheard_is_what_the_clock_leaves_out(clip: F, source: F, pairs: list[tuple[F, F]]) -> None:
    whole = Heard(clip, source, F(12), F(4, 5))
    heard = without(whole, [(min(pair), max(pair)) for pair in pairs])
    gaps = unheard((whole,), heard)
    pieces = sorted([*heard, *gaps], key=lambda one: one.clip)
    assert pieces[0].clip == whole.clip and pieces[-1].end == whole.end
    assert all(one.end == two.clip for one, two in pairwise(pieces))
    assert all(one.clip == whole.clip_time(one.source) for one in gaps)


@pytest.mark.parametrize("changed", [(), (Instead(BAR_2, "Dm"),)])
def test_only_changed_passes_have_gaps(changed: tuple[Instead, ...]) -> None:
    one = placed(example(CHORDS, end=F(10), instead=changed, repeat=2))
    gaps = unheard(one.passes, one.heard)
    assert [gap.source for gap in gaps] == [TIME.seconds(F(4))] * (2 if changed else 0)
