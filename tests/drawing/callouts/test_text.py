from __future__ import annotations

from dataclasses import replace
from math import ceil

import numpy as np
import pytest
from PIL import Image

from studio.drawing.callouts.text import KIND, TextOptions, Words
from studio.drawing.callouts.text import _set as set_words
from studio.drawing.frame import CanvasSize
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.timeline.kind import Composed
from studio.timeline.slots import SlotName

from ..small_song import TALL, WIDE, RefusedError, ask, bars, composed, room

THEME = replace(default_theme(), fonts=("heebo",))
HEBREW = "המנגינה נוחתת על {catch} מעל F♯m7"


def in_hebrew(say: str = HEBREW, slot: SlotName = "lower") -> Composed:
    options = TextOptions(kind="text", say=say, slot=slot)
    return KIND.compose(options, replace(ask(None, WIDE, slot), theme=THEME))


def ink(picture: Image.Image) -> np.ndarray:
    """The columns in which there is ink."""
    pixels = np.asarray(picture.convert("RGB")).astype(int)
    return np.flatnonzero((pixels.max(2) > 180).any(0))


def test_facts_are_filled_in() -> None:
    assert composed("text", bars(1, 1), say="It lands on {catch}").content.text == "It lands on ♭6"


def test_the_alternative_text_is_what_is_said() -> None:
    assert composed("text", bars(1, 1), say="It lands\non {catch}").alt == "It lands on ♭6"


@pytest.mark.parametrize(("slot", "most"), [("lower", 2), ("top", 2), ("left", 8), ("right", 8), ("card", 4)])
def test_long_words_wrap_and_shrink_but_stay_readable(slot: SlotName, most: int) -> None:
    for words in (4, 9, 14):
        content = composed("text", None, slot=slot, say="seven " * words).content
        wide = room(WIDE, slot).width
        found = set_words(content, wide, None, default_theme())
        assert found.size >= SMALLEST and len(found.lines) <= most and found.widest <= wide


def test_what_cannot_be_read_at_a_glance_is_refused() -> None:
    with pytest.raises(RefusedError, match="say it in fewer words'"):
        composed("text", None, say="seven " * 80)
    with pytest.raises(RefusedError, match="or give it a wider 'slot'"):
        composed("text", None, slot="left", say="seven " * 60)
    with pytest.raises(RefusedError, match="too long"):
        composed("text", None, slot="left", say="sevensevenths" * 6)


def test_nothing_is_refused() -> None:
    with pytest.raises(RefusedError, match="it says nothing"):
        composed("text", None, say=" \n ")


def test_characters_that_cannot_be_drawn_are_named_with_the_remedy() -> None:
    with pytest.raises(RefusedError, match="no font here has 漢; list one that does under 'fonts'"):
        composed("text", None, say="a 漢 b")
    with pytest.raises(RefusedError, match="no font here has ה"):
        composed("text", None, say=HEBREW)
    assert in_hebrew().content.text == HEBREW.replace("{catch}", "♭6")


def test_words_on_a_card_are_larger() -> None:
    canvas = CanvasSize.of(WIDE)
    card, lower = (set_words(Words(canvas, "One line", large), 1728, None, THEME) for large in (True, False))
    assert card.size > 2 * lower.size


def test_a_tall_canvas_may_have_a_third_line_and_asks_for_its_height() -> None:
    one, two = (composed("text", None, TALL, say="seven " * words).content for words in (4, 18))
    wide = room(TALL).width
    assert len(set_words(two, wide, None, default_theme()).lines) == 3
    assert KIND.extent(two, wide, THEME).wanted > KIND.extent(one, wide, THEME).wanted


@pytest.mark.parametrize("slot", ["lower", "card", "left"])
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_words_keep_off_the_panel_s_edges_in_every_height(slot: SlotName, share: float) -> None:
    """From the least height on: the words leave the padding free above, below and beside them."""
    say = "lands a step above the note the ear is waiting for " * {"lower": 3, "card": 3, "left": 1}[slot]
    content = composed("text", None, slot=slot, say=say).content
    width, u = room(WIDE, slot).width, content.canvas.unit
    extent = KIND.extent(content, width, default_theme())
    assert extent.least <= extent.wanted
    height = ceil((extent.least + share * (extent.wanted - extent.least)) * u)
    picture = KIND.draw(content, None, (width, height), default_theme())
    light = np.asarray(picture.convert("RGB")).max(2) > 180
    rows, columns = np.flatnonzero(light.any(1)), np.flatnonzero(light.any(0))
    edge = (content.edge - 0.7) * u  # tails reach a little into the padding
    assert rows.min() >= edge and rows.max() <= height - edge / 2
    assert columns.min() >= edge and columns.max() <= width - edge


def test_a_panel_is_as_wide_as_its_words() -> None:
    def panel(content: Words) -> np.ndarray:
        picture = np.asarray(KIND.draw(content, None, (1728, 96), THEME))
        return np.flatnonzero(picture[48, :, 3] > 0)

    short, long = (composed("text", None, say=say).content for say in ("A tune", "seven " * 12))
    words = set_words(short, 1728, None, THEME)
    assert panel(short).min() == 0 and abs(panel(short).max() - words.widest - 48) <= 2
    assert panel(long).max() > panel(short).max()
    hebrew = panel(in_hebrew("מנגינה").content)
    assert hebrew.max() == 1727 and hebrew.min() > 1728 - 400
    card = composed("text", None, slot="card", say="A tune").content
    assert panel(card).size == 1728


def test_words_that_read_from_the_right_stand_at_the_right() -> None:
    size = (1728, 96)
    latin, hebrew = (
        ink(KIND.draw(content, None, size, THEME))
        for content in (Words(CanvasSize.of(WIDE), "A tune"), Words(CanvasSize.of(WIDE), "מנגינה"))
    )
    assert latin.min() < 40 and latin.max() < 400
    assert hebrew.max() > 1728 - 40 and hebrew.min() > 1728 - 400


def test_a_box_that_is_low_makes_the_words_smaller() -> None:
    content = composed("text", None, say="seven " * 20).content
    extent = KIND.extent(content, 1728, THEME)
    sizes = []
    for height in (extent.least * 8, extent.wanted * 8):
        found = set_words(content, 1728, height - content.around + 1, THEME)
        sizes.append(found.size)
        assert found.size >= SMALLEST
    assert sizes[0] < sizes[1]
