from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest

from studio.drawing.kinds import KINDS
from studio.drawing.notation.system import Playing, places, stand, systems
from studio.drawing.themes.theme import default_theme
from studio.music.note import Part
from studio.project.written_part import WrittenPart
from studio.timeline.song_facts import SongFacts

from .. import samples
from ..notation_song import staff
from ..small_song import TIME, RefusedError, ask, bars, composed, facts, notes

THEME = default_theme()
KIND = KINDS["staff"]


def warm(picture: object) -> np.ndarray:
    pixels = np.asarray(picture).astype(int)
    return np.asarray((np.abs(pixels[..., :3] - THEME.colours.now).max(-1) < 12) & (pixels[..., 3] > 230))


def test_the_mark_points_at_the_note_that_sounds() -> None:
    content = samples.staff(samples.WIDE)
    for note, at in ((0, 0.0), (4, 3.0), (12, 9.5)):
        picture = KIND.draw(content, Playing(0, (f"n{note}",), (note,)), (1728, 400), THEME)
        x = 24 + places(content).x(at) * 2.75 * 8
        below = np.flatnonzero(warm(picture)[260:300].any(0))
        assert below.size and abs((below.min() + below.max()) / 2 - x) < 3


def test_every_state_lights_the_notes_that_sound_and_shows_their_page() -> None:
    made = composed("staff", bars(1, 4), part="lead")
    tune = notes("0 A4 1, 1 B4 .5, 1.5 C#5 .5, 2 E5 2, 4 F5 1, 5 E#5 1, 6 C#5 1, 7 A4 3, 10 F4 2, 12 B4 4")
    for start, end, look in made.states:
        lit = {int(identity[1:]) for identity in look.lit}
        assert lit == {n for n, note in enumerate(tune) if note.onset <= start and note.end >= end}
    assert made.states[0][0] == 0 and made.states[-1][1] == 16


def test_degrees_are_those_over_the_chord_and_change_under_a_held_note() -> None:
    # Counted from the root: B over A is its 9th or 2nd, E♯ over C♯7 its 3rd; A held from F♯m (♭3) into D is its 5th.
    content = composed("staff", bars(1, 4), part="lead").content
    found = [(label.id, label.at, label.text) for label in content.labels]
    assert ("n0", 0.0, "1") in found
    assert ("n5", 5.0, "3") in found
    assert ("n7", 7.0, "♭3") in found and ("n7", 8.0, "5") in found


def test_scale_degrees_are_those_of_the_key_and_stay_under_a_held_note() -> None:
    # In A major: A is 1, B is 2, E♯ is ♯5; A held from F♯m into D stays 1.
    made = composed("staff", bars(1, 4), part="lead", labels="scale degrees")
    found = [(label.id, label.at, label.text) for label in made.content.labels]
    assert ("n0", 0.0, "1") in found and ("n1", 1.0, "2") in found
    assert ("n5", 5.0, "♯5") in found
    assert [label for label in found if label[0] == "n7"] == [("n7", 7.0, "1")]
    assert "Degrees of the key: 1, 2" in made.alt


def test_labels_can_be_chords_or_nothing() -> None:
    chords = composed("staff", bars(1, 2), part="lead", labels="chords").content
    none = composed("staff", bars(1, 2), part="lead", labels="none").content
    assert chords.chords and not chords.labels
    assert not none.chords and not none.labels


def test_many_notes_at_once_have_no_degrees() -> None:
    with pytest.raises(RefusedError, match="labels: chords"):
        composed("staff", bars(4, 4), part="keys")


def test_a_grand_staff_has_ten_lines() -> None:
    content = composed("staff", bars(1, 2), part="keys", labels="chords").content
    assert len(systems(content)[0].lines) == 10


def test_bars_without_notes_are_refused() -> None:
    with pytest.raises(RefusedError, match="no notes"):
        composed("staff", bars(7, 8), part="lead")


def test_the_still_shows_something_lit() -> None:
    made = composed("staff", bars(1, 2), part="lead")
    assert made.still.lit and made.default == Playing()
    assert made.states[0][1] == Fraction(1)


def test_intervals_are_from_each_note_to_the_next_and_stand_between_them() -> None:
    # A4 B4 C♯5 E5 F5 E♯5 C♯5 A4 F4 B4, by any textbook of music theory.
    made = composed("staff", bars(1, 4), part="lead", labels="intervals")
    said = [label.text for label in made.content.labels]
    assert said == ["↑M2", "↑M2", "↑m3", "↑m2", "d2", "↓M3", "↓M3", "↓M3", "↑A4"]
    label, where = made.content.labels[0], places(made.content)
    middle = stand(where, (label.at, label.since))
    assert where.x(0.0) < middle < where.x(1.0)
    assert middle == pytest.approx((where.x(0.0) + where.x(1.0)) / 2)


def test_intervals_need_a_line() -> None:
    with pytest.raises(RefusedError, match="along a line"):
        composed("staff", bars(1, 4), part="keys", labels="intervals")


def test_counts_are_what_musicians_say() -> None:
    # Sixteenths are counted 1 e & a (common practice).
    made = staff(bars(1, 1), part="dense", labels="counts")
    said = " ".join(label.text for label in made.content.labels)
    assert said == "1 e & a 2 e & a 3 e & a 4 e & a"


def test_a_part_or_a_groove_and_not_both() -> None:
    with pytest.raises(ValueError, match="a part or a groove"):
        KIND.Options(kind="staff")
    with pytest.raises(ValueError, match="a part or a groove"):
        KIND.Options(kind="staff", part="lead", groove="rock")
    with pytest.raises(ValueError, match="drums have no tablature"):
        KIND.Options(kind="staff", groove="rock", tab="guitar")
    with pytest.raises(ValueError, match="labels: counts"):
        KIND.Options(kind="staff", groove="rock", labels="degrees")
    with pytest.raises(ValueError, match="is not a tuning"):
        KIND.Options(kind="staff", part="lead", tab="kazoo")


def test_a_drum_staff_repeats_its_pattern_and_lights_each_stroke_as_it_sounds() -> None:
    made = staff(bars(1, 2), groove="rock")
    content = made.content
    assert {name.text for name in content.names} == {"kick", "snare", "hat"}
    assert len(systems(content)[0].heads) == 2 * (3 + 3 + 8)
    first, again = (next(look for start, _, look in made.states if start == at) for at in (0, 4))
    assert len(first.lit) == len(again.lit) == 2 and first.lit != again.lit
    for start, end, look in made.states:
        assert look.lit or (start, end) == (Fraction(7, 4), 2)
    assert made.alt == "Drum staff of the groove rock: kick, hat, snare."


def test_a_pattern_of_two_bars_begins_with_its_section() -> None:
    # The verse starts in bar 2: bar 3 is the pattern's second bar, whose kick falls on beat 4 and not on beat 3.
    made = staff(bars(3, 3), groove="two")
    counted = {label.text for label in made.content.labels}
    assert counted == {"1", "&", "2", "3", "4"}
    lit = {start - 8: len(look.lit) for start, _, look in made.states}
    assert lit[0] == 2 and lit[2] == 1 and lit[3] == 2


def test_drums_that_were_played_are_written_on_their_grid() -> None:
    made = staff(bars(1, 1), groove="played")
    assert [start for start, _, look in made.states if look.lit] == [0, 1, 2, 3]


def test_a_groove_in_another_meter_is_refused_with_the_bar() -> None:
    with pytest.raises(RefusedError, match="in 3/4 and bar 1 in 4/4"):
        staff(bars(1, 2), groove="waltz")


def test_tablature_lights_its_numbers_with_the_notes() -> None:
    made = staff(bars(1, 4), part="guitar", tab="guitar")
    picture = np.asarray(KIND.draw(made.content, Playing(0, ("n0",)), (1728, 600), THEME)).astype(int)
    dark = np.asarray(KIND.draw(made.content, Playing(), (1728, 600), THEME)).astype(int)
    rows = np.flatnonzero((np.abs(picture[..., :3] - THEME.colours.now).max(-1) < 12).any(1))
    gaps = np.flatnonzero(np.diff(rows) > 3)
    assert len(gaps) == 2  # the note's head, its number, the mark under both
    assert not (np.abs(dark[..., :3] - THEME.colours.now).max(-1) < 12).any()


def test_tablature_alone_has_no_note_heads() -> None:
    content = staff(bars(1, 4), part="guitar", tab="guitar", notes=False).content
    (system,) = systems(content)
    assert not system.heads and [fret.text for fret in system.frets][:4] == ["2", "0", "2", "0"]


def test_what_an_instrument_cannot_play_is_refused_by_name() -> None:
    with pytest.raises(RefusedError, match="A4"):
        staff(bars(1, 4), part="lead", tab="E1")
    with pytest.raises(RefusedError, match="two staves"):
        staff(bars(1, 4), part="keys", tab="guitar", labels="chords")


def test_the_same_look_is_drawn_to_the_same_bytes_and_every_size_is_kept() -> None:
    made = composed("staff", bars(1, 4), part="lead")
    extent = KIND.extent(made.content, 1728, THEME)
    for units in (extent.least, extent.wanted, extent.wanted * 1.5):
        size = (1728, round(units * 8))
        pictures = [KIND.draw(made.content, made.still, size, THEME) for _ in range(2)]
        assert pictures[0].size == size and pictures[0].tobytes() == pictures[1].tobytes()


def test_both_heads_of_a_unison_are_lit_and_it_has_one_label() -> None:
    twice = "0 A4 2, 0 A4 2, 2 B4 2"
    part = WrittenPart(Part("twice", notes(twice)), TIME, signatures=((Fraction(0), 3),))
    base = facts()
    song = replace(base.song, parts={"twice": part})
    asked = replace(ask(bars(1, 1)), facts=SongFacts(song, "relative-to-major"))
    for labels, said in (("degrees", ["1", "2"]), ("intervals", ["↑M2"])):
        made = KIND.compose(KIND.Options(kind="staff", part="twice", labels=labels), asked)
        assert [look.lit for _, _, look in made.states] == [("n0", "n1"), ("n2",)]
        assert [label.text for label in made.content.labels] == said
        drawn = {head.id for system in systems(made.content) for head in system.heads}
        assert drawn == {"n0", "n1", "n2"}
