"""Where the song breaks off, a callout stays on its page, lights nothing, and announces nothing."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from PIL import Image

from studio.drawing.chart.pages import paged
from studio.drawing.frame import PADDING
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.drawing.voices.voices import page_of
from studio.timeline.kind import Composed

from .small_song import bars, composed

THEME = default_theme()
CALLOUTS: dict[str, dict[str, Any]] = {
    "chords": {},
    "leading": {},
    "degrees": {"part": "lead"},
    "staff": {"part": "lead"},
    "keyboard": {},
    "fretboard": {},
}


def made(kind: str) -> Composed:
    return composed(kind, bars(1, 4), **CALLOUTS[kind])


def picture(kind: str, content: Any, look: Any) -> Image.Image:
    tall = KINDS[kind].extent(content, 1200, THEME).wanted * content.canvas.unit
    return KINDS[kind].draw(content, look, (1200, round(tall / 2) * 2), THEME)


def lit(drawn: Image.Image, *colours: tuple[int, int, int]) -> int:
    """How many pixels are in a colour at full strength."""
    pixels = np.asarray(drawn).astype(int)[..., :3]
    return sum(int((np.abs(pixels - colour).max(-1) < 6).sum()) for colour in colours)


@pytest.mark.parametrize("kind", CALLOUTS)
def test_quiet_once_is_quiet_for_good(kind: str) -> None:
    found = made(kind)
    for _, _, look in found.states:
        quiet = KINDS[kind].quiet(look, found.default)
        assert KINDS[kind].quiet(quiet, found.default) == quiet


@pytest.mark.parametrize("kind", sorted(CALLOUTS.keys() - {"degrees"}))
def test_a_quiet_picture_has_less_of_what_says_now_than_any_that_sounds(kind: str) -> None:
    found = made(kind)
    look = found.still
    quiet = KINDS[kind].quiet(look, found.default)
    now = THEME.colours.now
    assert lit(picture(kind, found.content, quiet), now) < lit(picture(kind, found.content, look), now)


@pytest.mark.parametrize("kind", ["chords", "fretboard", "keyboard", "leading"])
def test_the_last_look_announces_nothing(kind: str) -> None:
    found = made(kind)
    coming = [look for _, _, look in found.states if look != KINDS[kind].last(look)]
    assert coming
    shades = THEME.colours.next
    for look in coming[:2]:
        last = KINDS[kind].last(look)
        assert lit(picture(kind, found.content, last), shades) < lit(
            picture(kind, found.content, look), shades
        )
        assert KINDS[kind].last(last) == last


def test_a_chart_stays_on_the_page_of_what_sounded() -> None:
    found = composed("chords", bars(1, 8), slot="right")
    pages = paged(found.content, 400, (8 + 2 * PADDING) * found.content.canvas.unit, THEME)
    assert len(pages.pages) > 1
    for _, _, look in found.states:
        quiet = KINDS["chords"].quiet(look, found.default)
        assert pages.page(quiet, found.content) == pages.page(look, found.content) and quiet.now is None


def test_a_line_stays_on_the_row_of_the_note_that_sounded() -> None:
    found = made("degrees")
    for _, _, look in found.states:
        quiet = KINDS["degrees"].quiet(look, found.default)
        assert quiet.row == look.row and quiet.now is None


def test_voices_stay_on_the_page_of_the_chord_that_sounded() -> None:
    found = made("leading")
    for _, _, look in found.states:
        quiet = KINDS["leading"].quiet(look, found.default)
        assert page_of(found.content, quiet) == page_of(found.content, look) and quiet.now is None


def test_boxes_stay_on_the_page_of_the_one_that_sounded() -> None:
    found = made("fretboard")
    for _, _, look in found.states:
        assert KINDS["fretboard"].quiet(look, found.default).at == look.at
