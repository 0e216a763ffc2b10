"""Which chords differ from the plain form. The forms are those of known_loops.py; what differs follows from their
numerals, and the usual changes of the blues (a quick change, a turnaround) are common practice.
"""

from __future__ import annotations

import pytest

from studio.theory.progression.differing import differing
from studio.theory.progression.plain_form import plain_form
from tests.theory.charts import COMMON_TIME, readings


@pytest.mark.parametrize(
    ("bars", "key", "marked"),
    [
        ("C G Am F", "C", []),
        ("C G Am Fm", "C", ["Fm"]),  # iv in place of IV
        ("Am Fm C G", "C", ["Fm"]),  # the same, begun on vi
        ("| C G | Am Fm | C G | Am Fm |", "C", ["Fm"]),
        ("| C Am | F . E7 Am |", "C", []),  # like no form
        ("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "C", ["F7"]),  # the quick change
        ("C7 C7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7", "C", ["G7"]),  # a turnaround
        ("C7 C7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "C", []),
        ("C G Am Em F C Fm G", "C", ["Fm"]),  # canon progression
        ("C F G Am", "C", []),  # the four chords in another order: nothing to point at
    ],
)
def test_the_chord_that_the_plain_form_has_not_is_found(bars: str, key: str, marked: list[str]) -> None:
    read = readings(bars, key)
    found = plain_form(read, COMMON_TIME)
    spans = differing(found, read)
    assert [str(one.at.chord) for one in read if one.at.span in spans] == marked
    assert bool(spans) == bool(marked)


def test_each_is_within_the_loop() -> None:
    read = readings("C G Am Fm C G Am Fm", "C")
    found = plain_form(read, COMMON_TIME)
    assert found.differences == ("iv in place of IV",)
    (span,) = differing(found, read)
    assert found.span.contains(span.start) and span.end <= found.span.end
