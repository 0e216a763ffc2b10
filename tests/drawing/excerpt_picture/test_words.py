from __future__ import annotations

from dataclasses import replace

import pytest

from studio.drawing.excerpt_picture.words import (
    described,
    level_words,
    ordinal,
    pass_names,
    shift_words,
    signed,
    sound_words,
)

from .excerpts_shown import COUNTED_TWICE, WITHOUT, excerpt


def test_passes_are_counted_and_one_alone_needs_no_name() -> None:
    assert pass_names(1) == ((),)
    assert [names[0] for names in pass_names(3)] == ["1st time", "2nd time", "3rd time"]


def test_changed_passes_take_turns_with_what_is_written() -> None:
    names = [names[0] for names in pass_names(4, ["Bb7", "rest"])]
    assert names == ["as written", "with B♭7 and a rest instead"] * 2
    assert pass_names(2, ["G", "G"])[1][0] == "with G instead"


def test_every_name_has_shorter_ones() -> None:
    for names in (*pass_names(8), *pass_names(8, ["Bbmaj7", "D5"])):
        assert list(names) == sorted(names, key=len, reverse=True) and len(set(names)) == len(names) > 1


@pytest.mark.parametrize(
    ("sound", "words"), [("F#m7b5", "F♯m7♭5"), ("Bb4", "B♭4"), ("D5", "D5"), ("rest", "a rest"), ("N?", "N?")]
)
def test_what_is_played_instead_is_printed_with_true_signs(sound: str, words: str) -> None:
    assert sound_words(sound) == words


@pytest.mark.parametrize(
    ("number", "words"), [(2, "2nd"), (11, "11th"), (13, "13th"), (21, "21st"), (103, "103rd")]
)
def test_places_in_a_row_are_said_as_in_english(number: int, words: str) -> None:
    assert ordinal(number) == words


def test_levels_have_a_true_minus_and_what_was_not_measured_is_left_out() -> None:
    assert level_words(COUNTED_TWICE) == "−14.0 LUFS · −1.2 dBTP"
    assert level_words(replace(COUNTED_TWICE, loudness=None)) == "−1.2 dBTP"
    assert level_words(replace(COUNTED_TWICE, loudness=None, true_peak=None)) == ""
    assert signed(-0.04) == "0.0" and signed(0.31) == "0.3"


def test_the_picture_is_told_to_whoever_does_not_see_it() -> None:
    assert described(COUNTED_TWICE) == (
        "Wave of the excerpt of bars 2–5, 20.0 s from 1.2 s of the clip. A count-in of 2.0 s comes first. "
        "It is heard twice. It fades in over 1.0 s and out over 2.0 s. The last 2.0 s are the tail. "
        "9 bar lines in it, the first of bar 2. Its loudness is −14.0 LUFS, true peak −1.2 dBTP."
    )
    assert "heard four times, in turn as written and with G instead." in described(WITHOUT)
    assert "It is shown alone, without the voice that speaks over it." in described(excerpt(spoken_over=True))
    plain = described(excerpt(bars=0, where="", fades=(0.0, 0.05), loudness=None, true_peak=None))
    assert plain == "Wave of the excerpt, 8.0 s from 0.0 s of the clip. It fades out over 50 ms."


@pytest.mark.parametrize(
    ("cents", "words"),
    [
        (100.0, "up by a half step"),
        (-200.0, "down by two half steps"),
        (1200.0, "up by twelve half steps"),
        (-15.0, "down by 15 cents"),
        (1.0, "up by 1 cent"),
        (150.0, "up by 150 cents"),
        (101.0, "up by 101 cents"),
    ],
)
def test_a_shift_of_pitch_is_said_in_half_steps_where_it_is_whole_ones(cents: float, words: str) -> None:
    assert shift_words(cents) == words
