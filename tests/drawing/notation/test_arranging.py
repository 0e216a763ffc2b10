from __future__ import annotations

import time
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from studio.drawing.kinds import KINDS
from studio.drawing.lettering.symbols import degree
from studio.drawing.notation.arranging import arranged
from studio.drawing.notation.system import (
    LEAST_SPACE,
    NoteLabel,
    Playing,
    Staff,
    label_size,
    least_space,
    page_height,
    places,
    stand,
    systems,
    widest,
)
from studio.drawing.notation.zones import zones
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.project.episode_values import Canvas

from ..notation_song import staff, under_the_presenter
from ..samples import WIDE as WIDE_SIZE
from ..samples import melody_xml
from ..small_song import TALL, WIDE, RefusedError, bars, room

THEME = default_theme()
SQUARE = Canvas(1080, 1080, Fraction(30), "1080x1080 @ 30")
CANVASES = pytest.mark.parametrize("canvas", [WIDE, TALL, SQUARE], ids=["wide", "tall", "square"])
SLOTS = pytest.mark.parametrize("slot", ["lower", "card"])
SHOWN = [
    {"part": "lead"},
    {"part": "lead", "labels": "intervals"},
    {"part": "dense", "labels": "scale degrees"},
    {"part": "keys", "labels": "chords"},
    {"part": "guitar", "tab": "guitar"},
    {"groove": "rock"},
]


@CANVASES
@SLOTS
@pytest.mark.parametrize("options", SHOWN, ids=str)
@pytest.mark.slow
def test_whatever_is_shown_fits_its_slot_and_can_be_read(
    canvas: Canvas, slot: str, options: dict[str, Any]
) -> None:
    content = staff(bars(1, 4), canvas, slot, **options).content  # type: ignore[arg-type]
    unit = content.canvas.unit
    width = room(canvas, slot).width  # type: ignore[arg-type]
    assert widest(content) * content.space * unit <= width - 6 * unit + 1
    assert content.space >= LEAST_SPACE
    assert label_size(content, content.space * unit, THEME) >= SMALLEST - 0.25
    assert KINDS["staff"].extent(content, width, THEME).least * unit <= room(canvas, slot).height  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "options",
    [{"part": "lead"}, {"part": "lead", "labels": "none"}, {"groove": "rock", "labels": "none"}],
    ids=str,
)
def test_under_a_presenter_in_the_middle_two_bars_are_one_low_system(options: dict[str, Any]) -> None:
    low = under_the_presenter()
    content = staff(bars(1, 2), height=low.height, **options).content
    extent = KINDS["staff"].extent(content, low.width, THEME)
    assert extent.least * 8 <= low.height and len(systems(content)) == 1
    size = (low.width, low.height)
    assert KINDS["staff"].draw(content, Playing(), size, THEME).size == size


def test_what_is_taller_than_its_room_is_refused_with_what_helps() -> None:
    low = under_the_presenter().height
    with pytest.raises(RefusedError) as raised:
        staff(bars(1, 2), height=low, groove="rock")
    assert raised.value.args[0] == "labels" and "labels: none" in raised.value.args[1]
    with pytest.raises(RefusedError) as raised:
        staff(bars(1, 2), height=low, part="keys", labels="none")
    assert raised.value.args[0] == "slot" and "taller" in raised.value.args[1]


@pytest.mark.parametrize("options", SHOWN, ids=str)
def test_larger_words_have_larger_room(options: dict[str, Any]) -> None:
    large = replace(THEME, sizes=replace(THEME.sizes, small=40, label=56))
    content = staff(bars(1, 1), slot="card", theme=large, **options).content
    for ease in (0.0, 1.0):
        room, usual = zones(large, ease), zones(THEME, ease)
        # A capital of Source Sans 3 is 0.66 of its size; with its tail, 0.87.
        assert room.label * 8 >= 0.66 * 56 and room.figure * 8 >= 0.87 * 40
        assert room.chords * 8 >= 0.66 * 40 / 0.62 and room.label > usual.label and room.chords > usual.chords
    pixels = least_space(content, large) * 8
    assert label_size(content, pixels, large) >= 40 - 0.25
    for system in systems(content):
        assert all(fret.size * pixels >= 40 - 0.25 for fret in system.frets)


@pytest.mark.slow
def test_a_hundred_bars_are_set_in_seconds() -> None:
    notes, beats = 480, (0.0, 1.0, 1.5, 2.0, 3.0)
    labels = tuple(NoteLabel(f"n{n}", beats[n % 5] + n // 5 * 4, "♭13") for n in range(notes))
    content = Staff(WIDE_SIZE, melody_xml(96), 0, 0, labels)
    start = time.perf_counter()
    found = arranged(content, 1728, 432, 764, THEME)
    assert found is not None and sum(found.bars) == 96
    assert time.perf_counter() - start < 5


@pytest.mark.parametrize("options", [{"part": "dense"}, {"part": "lead", "labels": "intervals"}], ids=str)
def test_labels_do_not_touch_at_the_least_height_either(options: dict[str, Any]) -> None:
    content: Staff = staff(bars(1, 4), **options).content
    pixels = least_space(content, THEME) * content.canvas.unit
    size, where = label_size(content, pixels, THEME), places(content)
    assert size >= SMALLEST - 0.01
    standing = [
        (
            where.page(label.at),
            stand(where, (label.at, label.since)) * pixels,
            degree(label.text, size, THEME.weights),
        )
        for label in content.labels
    ]
    for (page, x, line), (next_page, next_x, next_line) in pairwise(standing):
        if page == next_page:
            assert x + line.width / 2 < next_x - next_line.width / 2


def test_little_music_is_large_and_more_is_smaller_before_it_takes_pages() -> None:
    one, three, eight = (staff(bars(1, last), part="dense", labels="none").content for last in (1, 3, 8))
    assert one.space > three.space
    assert len(systems(one)) == len(systems(three)) == 1
    assert len(systems(eight)) > 1


def test_on_a_card_systems_stand_under_one_another() -> None:
    lower = staff(bars(1, 8), slot="lower", part="dense", labels="none").content
    card = staff(bars(1, 8), slot="card", part="dense", labels="none").content
    assert lower.rows == 1 and card.rows > 1
    assert page_height(card, THEME, card.space) * 8 <= room(WIDE, "card").height


def test_pages_turn_at_bar_lines_and_hold_about_as_many_bars_each() -> None:
    made = staff(bars(1, 8), part="dense", labels="none")
    counts = [system.bars for system in systems(made.content)]
    assert sum(counts) == 8 and max(counts) - min(counts) <= 1
    turns = [
        start
        for (start, _, look), (_, _, before) in zip(made.states[1:], made.states, strict=False)
        if look.page != before.page
    ]
    assert turns and all(start % 4 == 0 for start in turns)


def test_what_cannot_be_labelled_is_refused_with_the_remedy() -> None:
    with pytest.raises(RefusedError) as raised:
        staff(bars(1, 1), width=600, part="dense")
    assert raised.value.args[0] == "labels" and "labels: chords" in raised.value.args[1]
    with pytest.raises(RefusedError) as raised:
        staff(bars(1, 1), width=400, part="dense", labels="none")
    assert raised.value.args[0] == "where"
