"""Labels of a line: all can be read, none lies on another, and rows break only on bar lines."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.callouts.degrees import KIND, DegreesOptions
from studio.drawing.frame import PADDING
from studio.drawing.lettering.type import smallest
from studio.drawing.melody.line import SungLine
from studio.drawing.melody.placing import chords_of, placed
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.project.episode_values import Canvas

from ...theory.charts import line
from .tunes import SQUARE, TALL, WIDE, RefusedError, asked, tune

THEME = default_theme()
HARMONY = "| C . Am . | F/A . G7 . | Bbmaj7 . E7sus4 . | G5 . C . |"

melodies = st.lists(
    st.tuples(st.sampled_from(["C5", "D5", "Eb5", "F#5", "G5", "Bb5"]), st.integers(1, 4)),
    min_size=4,
    max_size=24,
)


def sung(melody: list[tuple[str, int]], unit: F) -> list[Note]:
    found, at = [], F(0)
    for name, count in melody:
        length = min(unit * count, 16 - at)
        if length <= 0:
            break
        found.append(Note(at, length, Pitch.parse(name)))
        at += length
    return found


def made(notes: list[Note], canvas: Canvas) -> tuple[SungLine, int]:
    """The line of notes, and the width of its picture."""
    ask = asked(tune(notes, HARMONY, "C"), None, canvas)
    content = KIND.compose(DegreesOptions(kind="degrees"), ask).content
    assert isinstance(content, SungLine)
    return content, ask.room.width


@settings(max_examples=40, deadline=None)
@given(melodies, st.sampled_from([F(1, 4), F(1, 2), F(1)]), st.sampled_from([WIDE, TALL, SQUARE]))
def test_labels_stand_side_by_side_near_their_notes_and_can_be_read(
    melody: list[tuple[str, int]], unit: F, canvas: Canvas
) -> None:
    try:
        found, width = made(sung(melody, unit), canvas)
    except RefusedError as refused:  # too dense for the canvas: it says so
        assert refused.args[0] == "labels"
        return
    u = found.canvas.unit
    for row in found.rows:
        tones = placed(found, row, width, THEME)
        assert tones is not None
        for one, two in pairwise(tones):
            assert one.label_left + one.label_width < two.label_left
        assert all(one.label_left - 3 * u < one.left < one.label_right for one in tones)
        assert all(one.label_left >= PADDING * u for one in tones)
        assert all(one.label_left + one.label_width < width for one in tones)
        lines = [one.line for one in tones] + [words for _, words, _ in chords_of(found, row, width, THEME)]
        assert smallest(lines) * 8 / u >= SMALLEST - 0.01


@settings(max_examples=25, deadline=None)
@given(melodies, st.sampled_from([WIDE, TALL, SQUARE]))
def test_rows_are_whole_bars_that_follow_on_each_other(melody: list[tuple[str, int]], canvas: Canvas) -> None:
    found, _ = made(sung(melody, F(1)), canvas)
    assert found.rows[0].start == 0 and found.rows[-1].end == 16
    assert all(one.end == two.start for one, two in pairwise(found.rows))
    assert all((row.start % 4, row.end % 4) == (F(0), F(0)) for row in found.rows)


@pytest.mark.parametrize(("notes", "bars"), [("C5:4 " * 4, 4), ("C5:1/2 " * 32, 2), ("C5:1/4 " * 64, 1)])
def test_a_row_holds_as_many_bars_as_its_labels_have_room_for(notes: str, bars: int) -> None:
    found, _ = made(list(line(notes)), WIDE)
    assert {len(row.lines) - 1 for row in found.rows} == {bars}


def test_a_tall_canvas_has_fewer_bars_in_a_row_than_a_wide_one() -> None:
    notes = list(line("C5:1/2 D5:1/2 E5 F5 E5 " * 4))
    wide, tall = (len(made(notes, canvas)[0].rows) for canvas in (WIDE, TALL))
    assert wide < tall


def test_a_row_of_short_bars_has_the_same_scale_as_the_others() -> None:
    """Time runs evenly in a row, so that the tick moves evenly: a note of twice the length is twice as long."""
    found, width = made(list(line("C5:2 D5:1 E5:1 C5:4 C5:4 C5:4")), WIDE)
    tones = placed(found, found.rows[0], width, THEME)
    assert tones is not None
    half, quarter = (tones[n].right - tones[n].left for n in (0, 1))
    assert half == pytest.approx(2 * quarter)
