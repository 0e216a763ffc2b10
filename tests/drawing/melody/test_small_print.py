"""The names of tones under a line: each under its own note, inside the panel, in one form and one size."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.callouts.degrees import KIND, DegreesOptions
from studio.drawing.frame import PADDING
from studio.drawing.melody.line import Singing, SungLine
from studio.drawing.melody.placing import placed
from studio.drawing.melody.small_print import printed
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.project.episode_values import Canvas

from ...theory.charts import line
from .tunes import SQUARE, TALL, WIDE, RefusedError, asked, tune

THEME = default_theme()
melodies = st.lists(
    st.tuples(st.sampled_from(["C5", "D5", "Eb5", "F5", "F#5", "G5", "A5", "Bb5"]), st.sampled_from("124")),
    min_size=4,
    max_size=20,
)


def made(notes: str, chords: str, canvas: Canvas = WIDE, **options: str) -> tuple[SungLine, int]:
    ask = asked(tune(line(notes), chords, "C"), None, canvas)
    content = KIND.compose(DegreesOptions(kind="degrees", **options), ask).content  # type: ignore[arg-type]
    assert isinstance(content, SungLine)
    return content, ask.room.width


@settings(max_examples=40, deadline=None)
@given(melodies, st.sampled_from([WIDE, TALL, SQUARE]))
def test_names_stand_under_their_notes_beside_each_other_and_in_the_padding(
    melody: list[tuple[str, str]], canvas: Canvas
) -> None:
    try:
        found, width = made(
            " ".join(f"{name}:{eighths}/2" for name, eighths in melody), "| C | Am | F | G | C |", canvas
        )
    except RefusedError as refused:
        assert refused.args[0] == "labels"
        return
    u = found.canvas.unit
    assert found.print_size >= SMALLEST
    for row in found.rows:
        middles = {one.number: one.middle for one in placed(found, row, width, THEME) or ()}
        names = list(printed(found, row, width, THEME))
        for name in names:
            assert PADDING * u <= name.left and name.left + name.words.width <= width - PADDING * u + 0.01
            assert name.left <= middles[name.number] <= name.left + name.words.width
        for level in range(found.print_rows):
            beside = [name for name in names if name.row == level]
            assert all(one.left + one.words.width < two.left for one, two in pairwise(beside))


def test_all_names_of_a_line_have_one_form() -> None:
    """Two passing tones close together shorten all: no "passing" beside "passing tone"."""
    close, width = made("C5:1/2 D5:1/2 E5:1/2 D5:1/2 C5:2 " * 4, "| C | C | C | C |")
    assert close.short and close.print_rows == 1
    wide, _ = made("C5 D5 E5:2", "| C |")
    assert not wide.short
    said = {str(one.words.pieces) for row in close.rows for one in printed(close, row, width, THEME)}
    assert len(said) >= 1


def test_names_are_as_large_as_they_have_room_for() -> None:
    roomy, _ = made("C5 D5 E5:2", "| C |")
    assert roomy.print_size == THEME.sizes.label


@pytest.mark.parametrize("notes", ["C5:1/2 D5:1/2 E5:1/2 F5:1/2 G5:1/2 F5:1/2 E5:1/2 D5:1/2 " * 12])
def test_the_dots_of_pages_touch_no_name(notes: str) -> None:
    found, width = made(notes, "| C " * 12 + "|")
    extent = KIND.extent(found, width, THEME)
    u = found.canvas.unit
    for units in (extent.least, extent.wanted):
        height = round(units * u)
        for row in range(len(found.rows)):
            pixels = np.asarray(KIND.draw(found, Singing(row), (width, height), THEME)).astype(int)
            inked = np.abs(pixels[..., :3] - THEME.colours.panel).max(-1) > 40
            strip = inked[height - round(2.4 * u) : height - round(0.2 * u)].copy()
            strip[:, : round(2 * u)] = strip[:, width - round(2 * u) :] = False
            dots = strip[:, width - round(30 * u) :]
            assert dots.any(), "several pages"
            assert not strip[:, : width - round(30 * u)].any(), "no descender reaches the row of the dots"


def test_the_key_of_scale_degrees_stands_over_the_first_chord_and_on_each_page() -> None:
    found, width = made("C5 D5 E5 F5 " * 8, "| C " * 8 + "|", labels="scale degrees")
    height = round(KIND.extent(found, width, THEME).least * found.canvas.unit)
    without, _ = made("C5 D5 E5 F5 " * 8, "| C " * 8 + "|")
    assert found.keys and KIND.extent(without, width, THEME).least < KIND.extent(found, width, THEME).least
    tops = []
    for row in (0, len(found.rows) - 1):
        pixels = np.asarray(KIND.draw(found, Singing(row), (width, height), THEME)).astype(int)
        quiet = np.abs(pixels[..., :3] - THEME.colours.quiet).max(-1) < 12
        tops.append(np.flatnonzero(quiet[:, : width // 6].any(1)).min())
        left = np.flatnonzero(quiet[: tops[-1] + 20].any(0)).min()
        assert left >= PADDING * found.canvas.unit
    assert tops[0] == tops[1]
