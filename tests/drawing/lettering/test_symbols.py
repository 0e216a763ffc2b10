from __future__ import annotations

import itertools

import pytest

from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.quality_signs import DIMINISHED, HALF_DIMINISHED
from studio.drawing.lettering.symbols import (
    NumeralWords,
    SymbolWords,
    numeral,
    smallest_symbol_size,
    symbol,
)
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.music.chord import ChordDisplay
from studio.music.chord_reader import read_chord

WEIGHTS = default_theme().weights


def words(shown: ChordDisplay) -> SymbolWords:
    upper = words(shown.upper) if shown.upper else None
    return SymbolWords(shown.root, shown.quality, shown.raised, shown.bass, upper)


def test_the_root_is_largest_and_what_follows_smaller_and_raised() -> None:
    # Common practice of fake books, as the look says: root large, extensions smaller and raised, bass after a slash.
    root, quality, raised, slash, bass = symbol(SymbolWords("F♯", "m", "7", "C♯"), 100, WEIGHTS).pieces
    assert (root.text, root.size, root.rise) == ("F♯", 100, 0)
    assert quality.size < root.size and quality.rise == 0
    assert raised.size < quality.size and raised.rise > 0
    assert slash.text == "/" and bass.size < root.size and bass.rise < 0
    assert root.x < quality.x < raised.x < slash.x < bass.x


@pytest.mark.parametrize(
    ("quality", "sign"),
    [("dim", DIMINISHED), ("°", DIMINISHED), ("aug", "+"), ("ø", HALF_DIMINISHED), ("maj", "maj")],
)
def test_signs_stand_for_words(quality: str, sign: str) -> None:
    assert symbol(SymbolWords("B", quality, "7"), 100, WEIGHTS).pieces[-1].text == f"{sign}7"


def test_pictures_set_the_signs_that_text_prints() -> None:
    for text in ("C°", "C°7", "C+", "C+(add9)", "Cm7♭5", "Cmaj7", "E♭7sus4/A♭", "D|C"):
        line = symbol(words(read_chord(text).display), 100, WEIGHTS)
        set_text = "".join(piece.text for piece in line.pieces)
        set_text = set_text.replace(DIMINISHED, "°").replace(HALF_DIMINISHED, "ø")
        assert sorted(set_text.replace("–", "")) == sorted(text.replace("Maj", "maj").replace("|", ""))


def test_a_polychord_is_set_over_a_rule() -> None:
    # Common practice: the upper chord over the lower, a level rule between them.
    line = symbol(words(read_chord("F#|C7").display), 100, WEIGHTS)
    root, seventh, *rule, upper = line.pieces
    assert (root.text, seventh.text, upper.text) == ("C", "7", "F♯")
    assert {dash.text for dash in rule} == {"–"}
    assert root.rise < rule[0].rise < upper.rise - 0.1 * upper.size
    assert rule[0].x <= root.x and rule[-1].x + rule[-1].width >= upper.x + upper.width
    for left, right in itertools.pairwise(rule):
        assert left.x + left.width > right.x
    # Centred, and round the middle of a capital of its size, so that a row of symbols keeps its line.
    assert upper.x + upper.width / 2 == pytest.approx(line.width / 2)
    top, bottom = upper.rise + CAP * upper.size, root.rise
    assert (top + bottom) / 2 == pytest.approx(100 * CAP / 2)


@pytest.mark.parametrize("text", ["D|C", "B♭m7♭5|E♭maj7♯11/G"])
def test_no_part_of_a_polychord_is_smaller_than_a_phone_shows(text: str) -> None:
    line = symbol(words(read_chord(text).display), smallest_symbol_size(), WEIGHTS)
    assert line.smallest >= SMALLEST


def test_a_polychord_of_no_size_takes_no_room() -> None:
    assert symbol(words(read_chord("D|C").display), 0, WEIGHTS).width == 0


def test_an_accidental_stands_before_its_numeral() -> None:
    assert numeral(NumeralWords("VI", "♭"), 50, WEIGHTS).pieces[0].text == "♭VI"


def test_the_quality_of_a_numeral_is_set_in_signs_of_music() -> None:
    assert numeral(NumeralWords("vii", raised="ø7"), 60, WEIGHTS).pieces[-1].text == f"{HALF_DIMINISHED}7"
    assert numeral(NumeralWords("vii", raised="°7"), 60, WEIGHTS).pieces[-1].text == f"{DIMINISHED}7"


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
