"""Where lines are broken: the rules named are those of UAX #14, which the uniseg library applies."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.lettering.bidi import levels, visual_runs
from studio.drawing.lettering.breaking import lines_of
from studio.drawing.lettering.face import Face
from studio.drawing.lettering.runs import LEFT_TO_RIGHT_MARK, RIGHT_TO_LEFT_MARK, reads_from_right
from studio.drawing.lettering.type import balanced, plain, side, wrap

FACE = Face(400, ("heebo", "noto-sans-arabic"))


def lines(text: str, wide: str) -> list[str]:
    """The lines of a text in a column as wide as some words."""
    return list(wrap(text, 40, FACE, plain(wide, 40, FACE).width))


def test_words_of_the_trade_stay_whole_while_they_fit() -> None:
    assert lines("the loop I–V–vi–IV goes V7/vi on", "I–V–vi–IV") == [
        "the loop",
        "I–V–vi–IV",
        "goes",
        "V7/vi on",
    ]


def test_a_word_wider_than_the_line_is_broken_after_its_dashes() -> None:
    assert lines("I–V–vi–IV–I–V–vi–IV", "I–V–vi–IV–") == ["I–V–vi–IV–", "I–V–vi–IV"]


def test_a_no_break_space_holds() -> None:  # GL
    assert lines("bar 12 of\u00a016", "bar 12 of") == ["bar 12", "of\u00a016"]


def test_no_line_of_a_script_without_spaces_begins_with_a_full_stop() -> (
    None
):  # ID may be parted, CL may not begin
    found = lines("第三の和音が来る。第三の和音が来る。", "第三の和音が来る")
    assert "".join(found) == "第三の和音が来る。第三の和音が来る。"
    assert len(found) > 2 and all(line[0] != "。" for line in found)


def test_a_script_that_needs_a_dictionary_breaks_where_the_writer_says() -> None:  # SA, ZW
    assert lines("ทำนองนี้\u200bลงที่", "ทำนองนี้") == ["ทำนองนี้", "ลงที่"]


def test_every_line_reads_as_its_paragraph_does() -> None:
    hebrew, latin, again = lines("שלום Harmony is עולם", "Harmony is")
    assert (hebrew, latin, again) == ("שלום", f"{RIGHT_TO_LEFT_MARK}Harmony is", "עולם")
    assert lines("Hear שלום", "שלום") == ["Hear", f"{LEFT_TO_RIGHT_MARK}שלום"]
    assert side("שלום Harmony") == "right" and side(latin) == "right" and side("Hear שלום") == "left"


def shown(text: str, found: Sequence[int]) -> str:
    """Characters with their levels, from left to right as they are seen: marks and spaces at the ends are not."""
    order = [
        n for start, end in visual_runs(found) for n in range(start, end)[:: -1 if found[start] % 2 else 1]
    ]
    return "".join(text[n] for n in order if text[n] not in (LEFT_TO_RIGHT_MARK, RIGHT_TO_LEFT_MARK)).strip()


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (["הגיטרה ", "E minor, ", "then G major"], ["הרטיגה", "E minor,", "then G major"]),
        (["הגיטרה ", "E minor, ", "ואז"], ["הרטיגה", ",E minor", "זאו"]),
        (["הגיטרה go ", "(then) on"], ["go הרטיגה", "(then) on"]),
        (["Hear שלום, ", "עולם now"], ["Hear ,םולש", "םלוע now"]),
        (["Hear שלום, ", "now"], ["Hear םולש,", "now"]),
    ],
)
def test_a_comma_stands_where_it_would_if_its_line_went_on(written: list[str], expected: list[str]) -> None:
    # UAX #9, 3.4: levels are found for the paragraph, and only then is it broken into lines.
    lines = lines_of(written, reads_from_right("".join(written)))
    assert [shown(line, levels(line)) for line in lines] == expected


@given(
    st.lists(st.sampled_from(["to ", "go, ", "go ,", "שלום ", "עולם, ", "טוב- "]), min_size=1, max_size=8),
    st.data(),
)
def test_every_line_is_seen_as_in_its_paragraph(words: list[str], data: st.DataObject) -> None:
    cuts = sorted(data.draw(st.sets(st.integers(1, len(words)), max_size=4)) | {0, len(words)})
    written = ["".join(words[start:end]) for start, end in pairwise(cuts)]
    whole = levels("".join(words))
    start = 0
    for line, text in zip(lines_of(written, whole[0] == 1), written, strict=True):
        found = whole[start : start + len(text.rstrip())]
        assert shown(line, levels(line)) == shown(text.rstrip(), found)
        start += len(text)


def test_lines_are_made_even_without_breaking_a_run_of_degrees() -> None:
    run = "1–5–1–♭3–5–♭3–1–5"
    text = f"The figure is Em arpeggio, rising and falling {run}"
    for width in range(400, 900, 20):
        broken = all(run not in line for line in wrap(text, 40, FACE, width))
        assert broken == all(run not in line for line in balanced(text, 40, FACE, width))


@pytest.mark.parametrize("text", ["", " ", "\u200b"])
def test_nothing_makes_no_line(text: str) -> None:
    assert [line for line in lines(text, "wide") if line] == []


@given(
    st.lists(
        st.sampled_from(["To", "AV", "♭6", "♭♭♭", "F♯m7", "I–V–vi–IV", "שלום", "מנגינה", "VAVAVA", "the"]),
        min_size=1,
        max_size=20,
    ),
    st.floats(150, 900),
)
def test_no_line_is_wider_than_it_may_be(words: list[str], width: float) -> None:
    for line in wrap(" ".join(words), 40, FACE, width):
        assert plain(line, 40, FACE).width <= width or " " not in line
