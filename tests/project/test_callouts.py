"""Options of callouts, as a kind declares them and as pydantic's errors are said to a user."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from pydantic import Field, field_validator, model_validator

from studio.music.place import Span
from studio.project.callouts import CalloutOptions, InstantText, Length, PartName, StemName, TimeRange
from studio.project.checking import Findings, check
from studio.project.surroundings import Known
from studio.project.written import read_text


class EveryOptions(CalloutOptions):
    part: PartName | None = None
    stem: StemName | None = None
    at: InstantText | None = None
    last: Length = Fraction(1)
    shown: TimeRange | None = None
    size: int = Field(3, ge=1, le=8)
    ratio: float = Field(1.0, gt=0)
    names: bool = True
    side: Literal["left", "right"] = "left"
    strings: tuple[str, ...] = ()
    fret: int | Literal["open"] = "open"

    @field_validator("ratio")
    @classmethod
    def _not_seven(cls, ratio: float) -> float:
        if ratio == 7:
            raise ValueError("Seven is taken.")
        return ratio


KNOWN = Known(parts=frozenset({"lead"}), stems=frozenset({"bass"}), rate=Fraction(30))


def said(option: str) -> list[str]:
    written = read_text(f"kind: every\n{option}\n", "p")
    findings = Findings(written.marks)
    check(EveryOptions, written.data, (), findings, KNOWN)
    return [str(complaint) for complaint in findings.complaints]


@pytest.mark.parametrize(
    ("option", "expected"),
    [
        ("part: led", "p:2:7: 'led' is not a part of the song; did you mean 'lead'?"),
        ("stem: bas", "p:2:7: 'bas' is not a stem; did you mean 'bass'?"),
        ("part: [lead]", "p:2:7: This must be a single value"),
        ("size: 0", "p:2:7: '0' is too small for 'size'; the least is 1."),
        ("size: 9", "p:2:7: '9' is too large for 'size'; the most is 8."),
        ("size: big", "p:2:7: 'big' is not a whole number."),
        ("size: 1.5", "p:2:7: '1.5' is not a whole number."),
        ("size: {a: b}", "p:2:7: A group of keys is not a whole number."),
        ("ratio: 0", "p:2:8: '0' is too small for 'ratio'; it must be more than 0"),
        ("ratio: x", "p:2:8: 'x' is not a number."),
        ("ratio: 7", "p:2:8: Seven is taken."),
        ("names: perhaps", "p:2:8: 'perhaps' is neither yes nor no."),
        ("side: lift", "p:2:7: 'lift' is not a choice for 'side'; did you mean 'left'?"),
        ("side: [left]", "p:2:7: 'side' is one of left, right, not a list."),
        ("strings: E", "p:2:10: 'strings' is a list, as [one, two], not 'E'."),
        ("strings: [E, [A]]", "p:2:14: 'strings' takes plain words here, not a list."),
        ("sides: left", "p:2:1: 'sides' is not a key of the every callout; did you mean 'side'?"),
        ("shown: 0:04", "p:2:8: '0:04' is not a stretch of time"),
        ("fret: nut", "p:2:7: 'nut' is not a whole number."),
    ],
)
def test_what_does_not_fit_is_said_without_jargon(option: str, expected: str) -> None:
    sentences = said(option)
    assert len(sentences) == 1 and sentences[0].startswith(expected), sentences


@pytest.mark.parametrize(
    "option", ["names: no", "names: on", "last: 0.5", "last: 0:01", "size: 8", "fret: 3", "part:"]
)
def test_what_fits(option: str) -> None:
    assert said(option) == []


def test_options_are_made_from_values_outside_a_project() -> None:
    options = EveryOptions(
        kind="every", where=Span(Fraction(16), Fraction(24)), when=(Fraction(1), Fraction(2))
    )
    assert options.where == Span(Fraction(16), Fraction(24)) and options.when == (1, 2)
    assert hash(options) == hash(options.model_copy())
    with pytest.raises(ValueError, match="outside a project this is a Span"):
        EveryOptions(kind="every", where="5-8")  # type: ignore[arg-type]


class OneOfTwoOptions(CalloutOptions):
    part: PartName | None = None
    stem: StemName | None = None

    @model_validator(mode="after")
    def _one_of_them(self) -> OneOfTwoOptions:
        if self.part is None and self.stem is None:
            raise ValueError("Write a part or a stem.")
        return self


@pytest.mark.parametrize(
    ("option", "expected"),
    [
        ("part: led", ["p:2:7: 'led' is not a part of the song; did you mean 'lead'?"]),
        ("", ["p:1:1: Write a part or a stem."]),
    ],
)
def test_what_is_wrong_is_not_called_missing_too(option: str, expected: list[str]) -> None:
    written = read_text(f"kind: two\n{option}\n", "p")
    findings = Findings(written.marks)
    assert check(OneOfTwoOptions, written.data, (), findings, KNOWN) is None
    assert [str(complaint) for complaint in findings.complaints] == expected
