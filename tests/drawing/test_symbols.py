from __future__ import annotations

import pytest

from studio.drawing.symbols import (
    NumeralWords,
    SymbolWords,
    numeral,
    smallest_symbol_size,
    symbol,
)
from studio.drawing.theme import SMALLEST, default_theme

WEIGHTS = default_theme().weights


def test_the_root_is_largest_and_what_follows_smaller_and_raised() -> None:
    # Common practice of fake books, as the look says: root large, extensions smaller and raised, bass after a slash.
    root, quality, raised, slash, bass = symbol(SymbolWords("F♯", "m", "7", "C♯"), 100, WEIGHTS).pieces
    assert (root.text, root.size, root.rise) == ("F♯", 100, 0)
    assert quality.size < root.size and quality.rise == 0
    assert raised.size < quality.size and raised.rise > 0
    assert slash.text == "/" and bass.size < root.size and bass.rise < 0
    assert root.x < quality.x < raised.x < slash.x < bass.x


@pytest.mark.parametrize(("quality", "sign"), [("dim", "°"), ("aug", "+"), ("ø", "ø"), ("maj", "maj")])
def test_signs_stand_for_words(quality: str, sign: str) -> None:
    assert symbol(SymbolWords("B", quality, "7"), 100, WEIGHTS).pieces[-1].text == f"{sign}7"


def test_an_accidental_stands_before_its_numeral() -> None:
    assert numeral(NumeralWords("VI", "♭"), 50, WEIGHTS).pieces[0].text == "♭VI"


def test_figures_are_stacked() -> None:
    # Figured bass: the larger number above (any harmony textbook).
    _, six, five = numeral(NumeralWords("ii", figures=("6", "5")), 60, WEIGHTS).pieces
    assert six.x == five.x
    assert six.rise > five.rise


def test_an_applied_chord_keeps_its_slash_and_target() -> None:
    pieces = numeral(NumeralWords("V", raised="7", of="vi"), 60, WEIGHTS).pieces
    assert [piece.text for piece in pieces] == ["V", "7", "/", "vi"]
    assert pieces[2].rise == pieces[3].rise == 0


def test_at_the_smallest_size_nothing_is_smaller_than_a_phone_shows() -> None:
    line = symbol(SymbolWords("A♭", "m", "7♭5", "E♭"), smallest_symbol_size(), WEIGHTS)
    assert line.smallest >= SMALLEST
    assert (
        numeral(NumeralWords("V", figures=("6", "5")), smallest_symbol_size(), WEIGHTS).smallest >= SMALLEST
    )
