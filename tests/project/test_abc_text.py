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
        ("^F, F F' %F F|", "^F, ^F ^f %F F|"),
        ("^F2 \\\nF2|", "^F2 \\\n^F2|"),
        ("(3^FGF z|", "^F2/3G2/3^F2/3 z|"),
        ("^F/2F/2 F>F|", "^F/2^F/2 ^F3/2^F/2|"),
        ("^^c c|", "^^c ^^c|"),
        ("^F4 :: F4 :|", "^F4 :: F4 :|"),
    ],
)
def test_what_holds_is_written_out(written: str, expected: str) -> None:
    assert spelled_out(HEAD + written) == f"%abc-2.1\n{HEAD}{expected}"


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("[C2E2G2] [CEG]/ [CE]3/2|", "[CEG]2 [CEG]/2 [CE]3/2|"),  # 4.17
        ("(3:2:2C2D (3CDE|", "C4/3D2/3 C2/3D2/3E2/3|"),  # 4.13
        ("C>D C<<D|", "C3/2D/2 C/4D7/4|"),  # 4.4
        ("C/ D// E3/4|", "C/2 D/4 E3/4|"),  # 4.3
        ("C4|[L:1/8]D8|", "C4|D4|"),
        ("C4|\nL:1/8\nD8|", "C4|\nD4|"),  # 3.1.7
        ("C2 y3 D`D|", "C2  DD|"),  # 6.1.2, 4.7
        ("C,' c'' c,|", "C c'' C|"),  # 4.1
    ],
)
def test_every_note_has_its_true_length_and_place(written: str, expected: str) -> None:
    assert spelled_out(HEAD + written) == f"%abc-2.1\n{HEAD}{expected}"


@pytest.mark.parametrize(
    ("said", "written"),
    # ABC 2.1, 4.6: -8 sounds an octave lower, octave= moves by octaves.
    [
        ("clef=treble-8", "C, c ^f"),
        ("treble-8", "C, c ^f"),
        ("octave=-1", "C, c ^f"),
        ("bass+8", "c c'' ^f''"),
    ],
)
def test_notes_are_written_where_they_sound(said: str, written: str) -> None:
    assert spelled_out(f"L:1/4\nK:C {said}\nC c' ^f'|") == f"%abc-2.1\nL:1/4\nK:C\n{written}|"


@pytest.mark.parametrize(
    ("key", "major"),
    # The table of ABC 2.1, 3.1.14.
    [
        ("A", "A"),
        ("Am", "C"),
        ("A minor", "C"),
        ("D dor", "C"),
        ("EPhr", "C"),
        ("F Lydian", "C"),
        ("Gmix", "C"),
        ("Bloc", "C"),
        ("Bb", "Bb"),
        ("F#m", "A"),
        ("C#", "C#"),
        ("Abm", "Cb"),
        ("E mixolydian", "A"),
        ("none", "C"),
    ],
)
def test_a_key_of_any_mode_is_written_as_the_major_key_of_its_signature(key: str, major: str) -> None:
    assert spelled_out(f"L:1/4\nK:{key}\nC|") == f"%abc-2.1\nL:1/4\nK:{major}\nC|"


def test_the_unit_length_that_is_not_written_follows_from_the_meter() -> None:  # 3.1.7
    heads = [spelled_out(f"X:1\nM:{meter}\nK:C\nC|").splitlines()[3] for meter in ("2/4", "3/4", "4/4", "C|")]
    assert heads == ["L:1/16", "L:1/8", "L:1/8", "L:1/8"]


def test_a_voice_does_not_lend_its_accidentals_to_the_next() -> None:
    tune = HEAD + "V:1\n^F4\nV:2\nF4|\n"
    assert spelled_out(tune).endswith("V:1\n^F4\nV:2\nF4|\n")


def test_words_and_fields_are_left_alone() -> None:
    tune = HEAD + "^F F F F|\nw: Fa fa fa Fee\nK:F\nF4|\n"
    assert spelled_out(tune) == f"%abc-2.1\n{HEAD}^F ^F ^F ^F|\nw: Fa fa fa Fee\nK:F\nF4|\n"


@pytest.mark.parametrize("head", ["%abc-1.6\n", "%%propagate-accidentals not\n"])
def test_a_tune_with_rules_of_its_own_keeps_them(head: str) -> None:
    assert spelled_out(head + HEAD + "^F F|") == head + HEAD + "^F F|"
