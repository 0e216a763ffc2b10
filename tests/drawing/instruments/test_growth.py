"""Instruments follow the theme's sizes, and take no more room than there is."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from studio.drawing.instruments.chord_box import DOT, FRET, TIGHTEST, box_height, string_step
from studio.drawing.instruments.growth import growth, least_symbol
from studio.drawing.instruments.keys_words import names_row, symbol_size, top_row
from studio.drawing.instruments.neck import least_width, neck_extent
from studio.drawing.kinds import KINDS
from studio.drawing.lettering.symbols import RAISED
from studio.drawing.lettering.type import plain
from studio.drawing.themes.theme import default_theme
from studio.timeline.ask import Room
from studio.timeline.kind import Composed

from ..notation_song import under_the_presenter
from ..small_song import RefusedError, ask, bars, room

USUAL = default_theme()
LARGE = replace(USUAL, sizes=replace(USUAL.sizes, small=40, label=56))
CAP = 0.66  # height of a capital of Source Sans 3, in sizes


def made(kind: str, theme: Any = USUAL, given: Room | None = None, **options: Any) -> Composed:
    options = {"slot": "lower", **options}
    asked = replace(ask(bars(1, 2)), theme=theme, room=given or room())
    return KINDS[kind].compose(KINDS[kind].Options(kind=kind, **options), asked)


SHOWN = [
    ("fretboard", {}),
    ("fretboard", {"labels": "degrees", "capo": 2}),
    ("fretboard", {"part": "lead"}),
    ("fretboard", {"scale": "A minor pentatonic"}),
    ("keyboard", {"part": "keys"}),
    ("keyboard", {}),
]


@pytest.mark.parametrize(("kind", "options"), SHOWN, ids=str)
def test_larger_words_take_more_room_and_other_pictures(kind: str, options: dict[str, Any]) -> None:
    usual, large = made(kind, **options), made(kind, LARGE, **options)
    of = KINDS[kind]
    one, two = (of.extent(c.content, 1728, t) for c, t in ((usual, USUAL), (large, LARGE)))
    assert two.least > one.least
    size = (1728, round(two.wanted * 8))
    pictures = [of.draw(c.content, c.still, size, t) for c, t in ((usual, USUAL), (large, LARGE))]
    assert (np.asarray(pictures[0]) != np.asarray(pictures[1])).any()


@pytest.mark.parametrize("theme", [USUAL, LARGE], ids=["usual", "large"])
def test_words_have_their_room_at_the_least_size(theme: Any) -> None:
    unit, small = 8.0, theme.sizes.small
    boxes = made("fretboard", theme, labels="degrees").content
    layout = boxes.layout
    digit = plain("4", small, theme.weights.heavy)
    across = 2 * DOT * TIGHTEST * growth(theme) * unit
    assert across >= np.hypot(digit.width, CAP * small)  # a finger's number lies within its dot
    assert FRET * TIGHTEST >= 2 * DOT * TIGHTEST
    step = string_step(layout, boxes.boxes, theme, TIGHTEST) * unit
    words = {word for box in boxes.boxes for word in box.under}
    assert step > max(plain(word, small, theme.weights.regular).width for word in words)
    assert box_height(layout, theme, TIGHTEST) < box_height(layout, theme, 1.0)
    neck = made("fretboard", theme, part="lead").content
    strings = neck_extent(neck, theme).least / (len(neck.strings) + 3)
    assert strings * unit > CAP * small and least_width(neck, theme) <= 1728
    keys = made("keyboard", theme).content
    assert names_row(keys, theme) * unit > CAP * small
    assert top_row(keys, theme) * unit > CAP * symbol_size(theme)
    assert least_symbol(theme) * RAISED >= small - 0.01


@pytest.mark.parametrize(
    ("kind", "options"),
    [("fretboard", {}), ("fretboard", {"part": "lead"}), ("keyboard", {"part": "keys"}), ("keyboard", {})],
    ids=str,
)
def test_under_a_presenter_in_the_middle_there_is_room(kind: str, options: dict[str, Any]) -> None:
    low = under_the_presenter()
    content = made(kind, given=low, **options).content
    assert KINDS[kind].extent(content, low.width, USUAL).least * 8 <= low.height


@pytest.mark.parametrize(
    ("kind", "options", "key", "says"),
    [
        ("fretboard", {"labels": "degrees"}, "labels", "labels: fingers"),
        ("fretboard", {"view": "neck"}, "slot", "another slot"),
        ("fretboard", {"scale": "A minor pentatonic"}, "slot", "6 strings"),
    ],
    ids=str,
)
def test_what_is_too_tall_is_refused_with_what_helps(
    kind: str, options: dict[str, Any], key: str, says: str
) -> None:
    with pytest.raises(RefusedError) as raised:
        made(kind, given=under_the_presenter(), **options)
    assert raised.value.args[0] == key and says in raised.value.args[1]
    if key == "labels":
        made(kind, given=under_the_presenter(), **{**options, "labels": "fingers"})


def test_a_keyboard_lower_than_its_names_is_refused_with_what_helps() -> None:
    low = Room(1728, 210)
    with pytest.raises(RefusedError) as raised:
        made("keyboard", given=low, part="keys")
    assert raised.value.args[0] == "labels"
    made("keyboard", given=low, part="keys", labels="none")
