"""The bidirectional algorithm against Unicode's own conformance cases, and against the Rust crate unicode-bidi."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from bidi import get_display  # python-bidi, which wraps the crate
from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.lettering.bidi import base_level, levels, visual_runs
from studio.drawing.lettering.bidi_resolving import _CLOSING as CLOSING

CASES = Path(__file__).parent / "data" / "bidi_character_test.txt"
LETTERS = "ab אבג دعا 12٣ ()[]<>+,.$-!♭'\u0300\u200f\u200e"


def order(found: Sequence[int]) -> Iterator[int]:
    """The characters of a line from left to right."""
    for start, end in visual_runs(found):
        yield from reversed(range(start, end)) if found[start] % 2 else range(start, end)


def cases() -> list[str]:
    lines = CASES.read_text("utf-8").splitlines()
    return [line for line in lines if not line.startswith("#")]


def test_unicode_s_own_cases() -> None:
    # UAX #9, BidiCharacterTest.txt of version 15.0, whose first cases are the annex's own examples.
    assert len(cases()) > 1400
    for case in cases():
        points, asked, paragraph, wanted, places = (field.split() for field in case.split(";"))
        text = "".join(chr(int(point, 16)) for point in points)
        base = {"0": 0, "1": 1, "2": None}[asked[0]]
        found = levels(text, base)
        assert base is not None or base_level(text) == int(paragraph[0]), case
        kept = [place for place, level in enumerate(wanted) if level != "x"]
        assert [found[place] for place in kept] == [int(wanted[place]) for place in kept], case
        assert [place for place in order(found) if place in kept] == list(map(int, places)), case


@given(st.text(st.sampled_from(LETTERS), max_size=24), st.sampled_from([None, 0, 1]))
def test_lines_are_ordered_as_by_another_implementation(text: str, base: int | None) -> None:
    shown = "".join(text[place] for place in order(levels(text, base)))
    assert shown == get_display(text, base_dir={None: None, 0: "L", 1: "R"}[base])


@given(st.text(max_size=40))
def test_every_character_stands_once_on_its_line(text: str) -> None:
    assert sorted(order(levels(text))) == list(range(len(text)))


def test_every_bracket_that_opens_has_its_own_that_closes() -> None:
    # BidiBrackets.txt is derived from these properties (UAX #9, BD14 to BD16).
    every = [chr(code) for code in range(0x110000)]
    mirrored = [c for c in every if unicodedata.mirrored(c) and unicodedata.bidirectional(c) == "ON"]
    opening = {c for c in mirrored if unicodedata.category(c) == "Ps"}
    closing = {c for c in mirrored if unicodedata.category(c) == "Pe"}
    assert opening <= set(CLOSING) and closing <= set(CLOSING.values())
    assert len(set(CLOSING.values())) == len(CLOSING)


@pytest.mark.parametrize(
    ("opening", "closing"),
    [("(", ")"), ("[", "]"), ("{", "}"), ("«", None), ("⦍", "⦐"), ("〈", "〉"), ("「", "」")],
)
def test_some_brackets(opening: str, closing: str | None) -> None:
    # BidiBrackets-15.0.0.txt; quotation marks are no brackets there.
    assert CLOSING.get(opening) == closing
