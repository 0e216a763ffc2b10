"""What golden pictures forgive and what they do not."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PIL import Image, ImageChops

from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import SMALLEST, Theme, default_theme

from ..small_song import composed
from .likeness import LIMIT, WEIGHT, unlikeness
from .pictures import COLOURS, MARGIN, examples, smaller


def said(words: str, theme: Theme) -> Image.Image:
    """A text callout that says something, on the theme's ground, at the size of a golden picture."""
    content = composed("text", None, say=words).content
    width = round(content.canvas.lane)
    height = round(KINDS["text"].extent(content, width, theme).wanted * content.canvas.unit)
    ground = Image.new("RGBA", (width, height), (*theme.colours.ground, 255))
    ground.alpha_composite(KINDS["text"].draw(content, None, (width, height), theme))
    return smaller(ground.convert("RGB"))


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.slow
def test_a_pixel_further_on_is_the_same_picture(kind: str) -> None:
    found = examples("slate", "wide")
    picture = found.picture(dict(found)[kind], MARGIN)
    for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1)):
        assert unlikeness(smaller(picture), smaller(ImageChops.offset(picture, x, y))) < LIMIT


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.slow
def test_few_colours_are_the_same_picture(kind: str) -> None:
    found = examples("slate", "wide")
    picture = smaller(found.picture(dict(found)[kind], MARGIN))
    assert unlikeness(picture, picture.quantize(COLOURS, kmeans=4)) < LIMIT / 3


@pytest.mark.parametrize("size", [SMALLEST, 46])
@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("It lands on C♯", "It lands on C♭"),
        ("It lands on E♭", "It lands on E♮"),
        ("Then Em comes", "Then E comes"),
        ("a V7 chord", "a V9 chord"),
        ("it is the 5th", "it is the 6th"),
        ("D over G", "F over G"),
        ("vi follows", "iv follows"),
    ],
)
def test_one_wrong_sign_is_another_picture(right: str, wrong: str, size: int) -> None:
    # The smallest type that a theme may have, and the usual size of words.
    theme = replace(default_theme(), sizes=replace(default_theme().sizes, body=size))
    first, second = said(right, theme), said(wrong, theme)
    assert first.size == second.size and unlikeness(first, second) > LIMIT


def test_another_colour_is_another_picture() -> None:
    theme = default_theme()
    colours = replace(theme.colours, ink=theme.colours.next)
    assert unlikeness(said("It lands", theme), said("It lands", replace(theme, colours=colours))) > LIMIT


def test_black_and_white_are_as_far_apart_as_it_gets() -> None:
    black, white = (Image.new("RGB", (20, 20), colour) for colour in ("black", "white"))
    assert unlikeness(black, white) == pytest.approx(100 * WEIGHT, abs=0.1)
    assert unlikeness(black, black) == 0
