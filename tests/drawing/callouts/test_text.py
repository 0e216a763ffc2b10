from __future__ import annotations

import pytest

from studio.drawing.callouts.text import _set as set_words
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.drawing.themes.theme import SMALLEST, default_theme

from ..samples import WIDE
from ..small_song import TALL, RefusedError, bars, composed


def test_facts_are_filled_in() -> None:
    assert composed("text", bars(1, 1), say="It lands on {catch}").content.text == "It lands on ♭6"


def test_long_words_wrap_and_shrink_but_stay_readable() -> None:
    for words in (4, 14, 26):
        made = composed("text", None, say="seven " * words)
        size, lines = set_words(made.content, WIDE.lane, default_theme())
        assert size >= SMALLEST and len(lines) <= 2


def test_what_cannot_be_read_at_a_glance_is_refused() -> None:
    with pytest.raises(RefusedError, match="fewer words"):
        composed("text", None, say="seven " * 80)


def test_characters_that_cannot_be_drawn_are_named() -> None:
    with pytest.raises(RefusedError, match="漢"):
        composed("text", None, say="a 漢 b")


def test_a_tall_canvas_may_have_a_third_line_and_asks_for_its_height() -> None:
    kind = KINDS["text"]
    one, two = (composed("text", None, TALL, say="seven " * words) for words in (4, 18))
    width, theme = 896, default_theme()
    assert kind.extent(two.content, width, theme).wanted > kind.extent(one.content, width, theme).wanted
