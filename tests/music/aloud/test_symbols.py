"""Symbols of music as musicians say them. The names are common practice."""

from __future__ import annotations

import pytest

from studio.music.aloud.signs import SIGNS
from studio.music.aloud.symbols import (
    chord,
    degree,
    fraction,
    meter,
    numeral,
    numeral_in_a_chain,
    sixth,
    stack,
    symbol,
)
from studio.music.pitch import NoteName
from tests.music.chord_symbols import symbols

CHORDS = {
    "F♯": "F sharp", "B♭": "B flat", "Bb": "B flat", "C#": "C sharp", "E♭♭": "E double flat", "F𝄪": "F double sharp",
    "F♯7": "F sharp seven", "Bm7": "B minor seven", "Am": "A minor", "F#m": "F sharp minor", "C-7": "C minor seven",
    "Asus4": "A sus four", "E7sus4": "E seven sus four", "Dadd9": "D add nine", "Cmaj7": "C major seven",
    "CM7": "C major seven", "CΔ": "C major seven", "CΔ9": "C major nine", "Am(maj7)": "A minor major seven",
    "A/C♯": "A over C sharp", "F♯7/A♯": "F sharp seven over A sharp", "C6/9": "C six nine",
    "C6/9/E": "C six nine over E",
    "C°": "C diminished", "C°7": "C diminished seven", "Bdim": "B diminished", "Bø7": "B half diminished",
    "Cm7♭5": "C minor seven flat five", "C+": "C augmented", "Caug": "C augmented", "C7+9": "C seven sharp nine",
    "C7(♭9,♯11)": "C seven flat nine sharp eleven", "C7alt": "C seven altered", "G5": "G five", "C13": "C thirteen",
    "C7no3": "C seven no three", "D|C": "D over C", "N.C.": "no chord", "A3": "A three",
    "G+7": "G augmented seven", "C+9": "C augmented nine", "C+5": "C augmented", "Gm+7": "G minor major seven",
}  # fmt: skip

NUMERALS = {
    "V": "five", "IV": "four", "vi": "six", "ii": "two", "iii": "three", "iv": "minor four", "II": "major two",
    "♭VII": "flat seven", "bVI": "flat six", "♭iii": "flat three minor", "♯iv°": "sharp four diminished",
    "V7": "five seven", "ii7": "two minor seven", "Imaj7": "one major seven", "i(maj7)": "one minor major seven",
    "vii°": "seven diminished", "vii°7": "seven diminished seven", "viiø7": "seven half diminished",
    "III+": "three augmented", "V7/vi": "five seven of six", "V/V": "five of five",
    "vii°7/ii": "seven diminished seven of two",
    "V7/♭III": "five seven of flat three", "I6": "one six", "I6/4": "one six four", "V6/5": "five six five",
    "V4/2": "five four two", "V4/3/V": "five four three of five", "Vsus4": "five sus four", "IVadd9": "four add nine",
    "I6/9": "one six nine", "ii6": "two six", "iv6": "minor four six", "i6": "minor one six", "vi6": "six six",
    "ii65": "two six five", "ii6/5": "two six five", "V42": "five four two", "V5/3": "five five three",
    "ivm7": "four minor seven", "IIm7": "two minor seven", "ii-7": "two minor seven", "V+7": "five augmented seven",
}  # fmt: skip


@pytest.mark.parametrize(("written", "said"), CHORDS.items())
def test_a_chord_is_said_as_it_is_written(written: str, said: str) -> None:
    assert chord(written) == said == symbol(written)


@pytest.mark.parametrize(("written", "said"), NUMERALS.items())
def test_a_numeral_is_a_number_with_what_its_case_says(written: str, said: str) -> None:
    assert numeral(written) == said == symbol(written)


@pytest.mark.parametrize(
    ("written", "said"), [("I", "one"), ("i", "minor one"), ("v", "minor five"), ("VII", "seven")]
)
def test_in_a_chain_letters_are_numerals_too(written: str, said: str) -> None:
    assert numeral_in_a_chain(written) == said


@pytest.mark.parametrize(
    ("written", "said"),
    [("♭6", "flat six"), ("♯11", "sharp eleven"), ("♭♭7", "double flat seven"), ("♮7", "natural seven"),
     ("♭13", "flat thirteen"), ("b6", "flat six"), ("b3", "flat three"), ("b9", "flat nine"),
     ("#4", "sharp four"), ("#11", "sharp eleven"), ("♭9th", "flat 9th")],
)  # fmt: skip
def test_a_degree_is_said_with_its_accidental(written: str, said: str) -> None:
    assert degree(written) == said == symbol(written)


@pytest.mark.parametrize(
    ("written", "said"), [("4/4", "four four"), ("6/8", "six eight"), ("12/8", "twelve eight")]
)
def test_a_meter_is_two_numbers(written: str, said: str) -> None:
    assert meter(written) == said == symbol(written)


@pytest.mark.parametrize(
    ("written", "said"),
    [("It6", "Italian sixth"), ("Ger+6", "German sixth"), ("Ger6", "German sixth"), ("Fr6", "French sixth"),
     ("N6", "Neapolitan sixth"), ("Ger6/5", "German six five"), ("Fr4/3", "French four three"),
     ("It6/V", "Italian sixth of five")],
)  # fmt: skip
def test_a_sixth_with_a_name_is_said_by_it(written: str, said: str) -> None:
    assert sixth(written) == said == symbol(written)


@pytest.mark.parametrize(("written", "said"), [("5/3", "five three"), ("7/5/3", "seven five three")])
def test_figures_over_a_bass_are_said_from_the_top(written: str, said: str) -> None:
    assert stack(written) == said == symbol(written)


@pytest.mark.parametrize(
    ("written", "said"),
    [("3/4", "three quarters"), ("1/2", "one half"), ("2/3", "two thirds"), ("7/16", "seven sixteenths"),
     ("6/8", None), ("2/4", None), ("4/4", None), ("5/4", None), ("0/4", None), ("1/17", None)],
)  # fmt: skip
def test_a_share_is_less_than_all_and_in_its_lowest_terms(written: str, said: str | None) -> None:
    assert fraction(written) == said


@pytest.mark.parametrize(
    "word",
    ["I", "i", "a", "A", "B", "Do", "Go", "Add", "Ebb", "Dad", "Bass", "Cab", "mix", "vivid", "civil", "six", "1/2",
     "6/9", "7", "Dim", "Gum", "and/or", "A/the", "C/", "G20", "F-", "did", "Ma", "e", "", "/", "|", "(", "Civic",
     "It", "N", "Fr", "b2b", "b", "#", "#20", "Im", "vim", "im"],
)  # fmt: skip
def test_a_word_is_no_symbol(word: str) -> None:
    assert symbol(word) is None


@pytest.mark.parametrize("root", ["C", "F♯", "B♭", "A"])
def test_every_chord_that_the_program_writes_can_be_said(root: str) -> None:
    for one in symbols(NoteName.parse(root)):
        if (text := one.text) == root and len(root) == 1:
            continue  # a lone letter is a letter
        said = symbol(text)
        assert said is not None, f"{text} is not said"
        assert not set(said) & {*"♭♯()+,/|0123456789", *SIGNS}, f"{text} is said as {said}"
        assert said.startswith(root[0])
