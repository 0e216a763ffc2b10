"""What a reviewer reads about sound, from what the report says."""

from __future__ import annotations

from typing import Any

import pytest

from studio.review.sound_sentences import sound_sentences


def said(**excerpt: Any) -> tuple[str, ...]:
    return sound_sentences({"excerpt": {"where": "bars 2–5", "stems": ["keys", "bass"], **excerpt}})


def test_an_excerpt_as_it_is_is_said_in_one_sentence() -> None:
    plain = {
        "passes": 1,
        "speed_ratio": 1.0,
        "pitch_cents": 0.0,
        "count_in_s": 0.0,
        "click": False,
        "tail_s": 0.0,
        "levels": {},
    }
    assert said(**plain) == said() == ("The excerpt is bars 2–5: keys and bass.",)
    assert sound_sentences({}) == ()


def test_how_it_is_heard_is_said_in_words() -> None:
    how = said(passes=2, speed_ratio=0.8, pitch_cents=-15.0, count_in_s=2.47, click=True, tail_s=1.5)[1]
    assert how == (
        "It is heard twice, played at 80 % of its speed, moved down by 15 cents, counted in over 2.5 s, "
        "with clicks under it, left to ring for 1.5 s."
    )
    assert said(pitch_cents=100.0)[1] == "It is moved up by a half step."


def played(*what: str, **excerpt: Any) -> tuple[str, ...]:
    return said(stems=[], played=[{"what": one, "sound": "struck"} for one in what], **excerpt)


def test_what_the_program_plays_is_named_in_the_sentence_on_its_excerpt() -> None:
    assert played("chords", "lead") == (
        "The excerpt is bars 2–5, played by the program: chords (struck) and lead (struck).",
    )
    assert played("F#m7", where=None) == ("The program plays F♯m7 (struck).",)
    assert said(played=[{"what": "lead", "sound": "plucked"}]) == (
        "The excerpt is bars 2–5: keys and bass.",
        "Beside it the program plays lead (plucked).",
    )


@pytest.mark.parametrize(
    ("passes", "written", "words"),
    [
        (2, ["C"], "The second time, bar 4 is B♭7 instead of C."),
        (4, ["F", "G"], "Every second time, bar 4 is B♭7 instead of F and G."),
        (2, ["C", "D", "E", "F", "G"], "The second time, bar 4 is B♭7 instead."),
        (2, [], "The second time, bar 4 is B♭7 instead."),
    ],
)
def test_what_is_played_instead_is_said_with_what_is_written(
    passes: int, written: list[str], words: str
) -> None:
    changed = [{"where": "bar 4", "to": "Bb7", "written": written}]
    assert played("chords", passes=passes, changed=changed)[-1] == words


def test_levels_of_stems_and_what_is_in_front_are_said() -> None:
    words = said(
        levels={
            "keys": {"gain_dB": -3.0, "pan_left_to_right": 0.2},
            "bass": {"gain_dB": 2.0, "pan_left_to_right": 0.0},
        },
        featured={"stem": "keys", "others_lower_by_dB": 9.0, "where": "bar 3"},
    )
    assert words[1] == "Keys is in front in bar 3, the others 9 dB lower."
    assert words[2] == "Levels: keys −3.0 dB, 20 % right; bass +2.0 dB."
