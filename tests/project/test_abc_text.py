"""Accidentals of ABC hold to the bar line, in and out of chords (ABC 2.1, 11.3)."""

from __future__ import annotations

import pytest

from studio.project.abc_text import spelled_out

HEAD = "X:1\nM:4/4\nL:1/4\nK:C\n"


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("^F A F f|F4|", "^F A ^F ^f|F4|"),
        ("[^FA]2 [FA]2|", "[^FA]2 [^FA]2|"),
        ("^F [FA]2 F|", "^F [^FA]2 ^F|"),
        ("_B B =B B|B4|", "_B _B =B =B|B4|"),
        ("^F2-F2|F4|", "^F2-^F2|F4|"),
        ('"F#m7b5"^F "F"F !fermata!F {F}F|', '"F#m7b5"^F "F"^F !fermata!^F {^F}^F|'),
        ("^F F [K:G] F|", "^F ^F [K:G] ^F|"),
        ("^F, F F' %F F|", "^F, ^F ^F' %F F|"),
        ("^F2 \\\nF2|", "^F2 \\\n^F2|"),
        ("(3^FGF z|", "(3^FG^F z|"),
        ("^F/2F/2 F>F|", "^F/2^F/2 ^F>^F|"),
        ("^^c c|", "^^c ^^c|"),
        ("^F4 :: F4 :|", "^F4 :: F4 :|"),
    ],
)
def test_what_holds_is_written_out(written: str, expected: str) -> None:
    assert spelled_out(HEAD + written) == f"%abc-2.1\n{HEAD}{expected}"


def test_a_voice_does_not_lend_its_accidentals_to_the_next() -> None:
    tune = HEAD + "V:1\n^F4\nV:2\nF4|\n"
    assert spelled_out(tune).endswith("V:1\n^F4\nV:2\nF4|\n")


def test_words_and_fields_are_left_alone() -> None:
    tune = HEAD + "^F F F F|\nw: Fa fa fa Fee\nK:Fmaj\nF4|\n"
    assert spelled_out(tune) == f"%abc-2.1\n{HEAD}^F ^F ^F ^F|\nw: Fa fa fa Fee\nK:Fmaj\nF4|\n"


@pytest.mark.parametrize("head", ["%abc-1.6\n", "%%propagate-accidentals not\n"])
def test_a_tune_with_rules_of_its_own_keeps_them(head: str) -> None:
    assert spelled_out(head + HEAD + "^F F|") == head + HEAD + "^F F|"
