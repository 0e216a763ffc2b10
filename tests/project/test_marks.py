"""Where a character of a value stands in the file, however YAML quotes it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.project.written import read_text


@pytest.mark.parametrize(
    ("text", "path", "needle", "place"),
    [
        ("say: hello {lop}", ("say",), "lop", "1:13"),
        ("say: 'it''s {lop}'", ("say",), "lop", "1:14"),
        ('say: "well {lop}"', ("say",), "lop", "1:13"),
        ("say: |\n  One\n\n  two {lop}\n", ("say",), "lop", "4:8"),
        ("say: >-  # folded\n    One\n    two {lop}\n", ("say",), "lop", "3:10"),
        ("say: one\n  two {lop}\n", ("say",), "lop", "2:8"),
        ("a:\n  - [x, {b: 'c {lop}'}]", ("a", 0, 1, "b"), "lop", "2:17"),
    ],
)
def test_a_character_is_found_where_it_is_written(
    text: str, path: tuple[str | int, ...], needle: str, place: str
) -> None:
    written = read_text(text, "p")
    value = written.data
    for step in path:
        value = value[step]  # type: ignore[index, assignment]
    complaint = written.marks.complaint(path, "here", str(value).index(needle))
    assert f"{complaint.line}:{complaint.column}" == place


def test_behind_an_escape_the_value_has_to_do() -> None:
    written = read_text(r'say: "a \u266d {lop}"', "p")
    complaint = written.marks.complaint(("say",), "here", 5)
    assert (complaint.line, complaint.column) == (1, 6)


def test_a_path_that_is_not_written_points_at_what_holds_it() -> None:
    written = read_text("a:\n  b: {c: 1}\n", "p")
    assert (
        str(written.marks.complaint(("a", "b", "missing", 3), "“x” is missing")) == "p:2:6: 'x' is missing."
    )
    assert str(written.marks.key_complaint(("a", "b", "c"), "here")) == "p:2:7: Here."


WORDS = st.lists(st.text("abc{}é♭", min_size=1, max_size=5), min_size=1, max_size=8)


@given(lines=st.lists(WORDS, min_size=1, max_size=4), indent=st.integers(1, 6))
def test_every_visible_character_of_a_block_is_found(lines: list[list[str]], indent: int) -> None:
    block = "\n".join(" " * indent + " ".join(words) for words in lines)
    source = f"say: |\n{block}\n"
    written = read_text(source, "p")
    rows = source.split("\n")
    for offset, letter in enumerate(written.data["say"]):
        if not letter.isspace():
            at = written.marks.complaint(("say",), "x", offset) if offset else None
            if at is not None:
                assert rows[at.line - 1][at.column - 1] == letter


def test_a_long_quotation_is_shortened_and_what_stands_between_two_is_not() -> None:
    marks = read_text("a: b\n", "p").marks
    long = marks.complaint(("a",), f"'{'x' * 90}' is no place").sentence
    assert long == f"'{'x' * 60}…' is no place."
    between = (
        "'bass' plays no two notes at once where Dm9 begins (bar 1); choose another, or leave 'part' out"
    )
    assert marks.complaint(("a",), between).sentence == f"{between}."
