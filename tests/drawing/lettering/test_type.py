from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.lettering.outlines import outline
from studio.drawing.lettering.type import Line, balanced, mask, plain, shortened, wrap


@pytest.mark.parametrize("sign", ["♭", "♯", "♮", "°", "ø", "+", "𝄪", "𝄫"])
def test_every_sign_of_the_trade_has_ink(sign: str) -> None:
    ink, _, _ = mask(plain(sign, 74, 600))
    assert ink.getextrema()[1] == 255
    assert ink.width > 5 and ink.height > 5


def test_an_accidental_stands_between_its_letter_and_what_follows() -> None:
    letter, _, _ = mask(plain("B", 200, 600))
    both, _, _ = mask(plain("B♭", 200, 600))
    flat = both.crop((letter.width, 0, both.width, both.height))
    assert flat.getbbox() is not None
    empty = [x for x in range(both.width) if both.crop((x, 0, x + 1, both.height)).getbbox() is None]
    assert empty, "the sign touches its letter"


def test_a_sharp_is_as_tall_as_a_capital_or_a_little_taller() -> None:
    # Common practice in fake books: accidentals beside a chord's root have about the root's height.
    capital, _, _ = mask(plain("A", 200, 600))
    sharp, _, top = mask(plain("♯", 200, 600))
    assert 1.0 <= sharp.height / capital.height <= 1.25
    middle = -top - sharp.height / 2
    assert middle == pytest.approx(0.33 * 200, abs=0.03 * 200)


@pytest.mark.parametrize("weight", [400, 600, 700])
def test_digits_are_equally_wide_so_that_they_do_not_jiggle(weight: float) -> None:
    assert len({plain(digit, 40, weight).width for digit in "0123456789"}) == 1


@given(st.text(max_size=30), st.sampled_from([400, 600, 700]))
def test_no_text_makes_it_fail(text: str, weight: float) -> None:
    assert outline(text, weight).advance >= 0


def test_pairs_are_kerned() -> None:
    assert plain("To", 100, 600).width < plain("T", 100, 600).width + plain("o", 100, 600).width


@given(st.floats(0.25, 4))
def test_widths_scale_exactly(factor: float) -> None:
    line = plain("F♯m7/C♯", 60, 600)
    assert line.scaled(factor).width == pytest.approx(plain("F♯m7/C♯", 60 * factor, 600).width)


def test_wrapping_keeps_every_word_and_the_width() -> None:
    text = "The tune lands on ♭6 over F♯m, a half step above the note the ear is waiting for"
    lines = wrap(text, 40, 600, 500)
    assert " ".join(lines) == text
    assert all(plain(line, 40, 600).width <= 500 for line in lines)


def test_balanced_lines_are_as_many_and_more_even() -> None:
    text = "The tune lands on ♭6 over F♯m, a half step above the note the ear is waiting for"
    widths = [plain(line, 46, 600).width for line in balanced(text, 46, 600, 1200)]
    ragged = [plain(line, 46, 600).width for line in wrap(text, 46, 600, 1200)]
    assert len(widths) == len(ragged) == 2
    assert max(widths) - min(widths) < max(ragged) - min(ragged)


def test_an_empty_line_has_no_ink() -> None:
    ink, _, _ = mask(Line())
    assert ink.getbbox() is None


def test_a_line_that_is_too_long_ends_in_an_ellipsis() -> None:
    text = "Why the bridge feels like daylight"
    assert shortened(text, 40, 600, 10_000) == plain(text, 40, 600)
    (piece,) = shortened(text, 40, 600, 300).pieces
    assert piece.text.endswith("…") and text.startswith(piece.text[:-1]) and piece.width <= 300
    assert plain(text[: len(piece.text)] + "…", 40, 600).width > 300


def test_more_room_stands_before_a_sign_that_begins_a_word() -> None:
    # A letter has side bearings and a sign has none: on ♭6, not on♭6.
    joined = plain("n♭6", 1000, 600).width
    assert plain("n ♭6", 1000, 600).width > joined + plain(" ", 1000, 600).width + 30
