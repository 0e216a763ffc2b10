from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from studio.drawing.kinds import KINDS
from studio.drawing.notation.system import Playing, places, systems
from studio.drawing.themes.theme import default_theme

from ..samples import WIDE, staff
from ..small_song import RefusedError, bars, composed, notes

THEME = default_theme()
KIND = KINDS["staff"]


def warm(picture: object) -> np.ndarray:
    pixels = np.asarray(picture).astype(int)
    return np.asarray((np.abs(pixels[..., :3] - THEME.colours.now).max(-1) < 12) & (pixels[..., 3] > 230))


def test_the_mark_points_at_the_note_that_sounds() -> None:
    content = staff(WIDE)
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
