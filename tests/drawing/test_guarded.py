"""What the guard before a kind of another package lets through, and what it names."""

from __future__ import annotations

import pickle
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from PIL import Image

from studio.drawing.guarded import CalloutFailedError, Guarded
from studio.drawing.themes.theme import default_theme
from studio.project.callouts import CalloutOptions
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind, Leg, Mark

from .small_song import WIDE, RefusedError, ask, bars

THEME = default_theme()
REFUSE, NO_MUSIC = object(), object()


class Weather(Enum):
    FAIR = 1


@dataclass(frozen=True)
class Fixed:
    held: Any


@dataclass(unsafe_hash=True)
class Loose:
    held: int


class Dice(Kind):
    """A kind that gives what a test hands it."""

    name = "dice"
    says = "whatever it is told to"
    Options = CalloutOptions
    slots = ("top", "card")
    example = "{kind: dice}"

    def __init__(self, given: Any = None) -> None:
        self.given = given

    def compose(self, options: Any, ask: Ask) -> Composed:
        if isinstance(self.given, Exception):
            raise self.given
        if self.given is REFUSE:
            ask.refuse("where", "this is too short")
        if self.given is NO_MUSIC:
            ask.the_span()
        return Composed(self.given, (), None, None, "Dice lie here.")

    def extent(self, content: Any, width: int, theme: Any) -> Extent:
        return self.given or Extent(10, 12)

    def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Any:
        return self.given or Image.new("RGBA", size)

    def marks(self, content: Any, size: tuple[int, int], theme: Any) -> tuple[Mark, ...]:
        return self.given or ()


def guarded(given: Any = None) -> Guarded:
    return Guarded(Dice(given), "The package toy-dice", "toy_dice.kind")


def composed(given: Any, where: Ask | None = None) -> Composed:
    return guarded(given).compose(CalloutOptions(kind="dice"), where or ask(bars(1, 2)))


def test_a_kind_that_keeps_its_promises_is_passed_on_as_it_is() -> None:
    kind, mark = guarded(), Mark("dot", (8, 8), (Leg(Fraction(0), Fraction(4), (0, 0), (90, 0)),))
    assert (kind.name, kind.says, kind.slots, kind.example) == ("dice", Dice.says, Dice.slots, Dice.example)
    assert kind.Options is CalloutOptions and kind.slot(WIDE) == "top"
    assert kind.extent(None, 800, THEME) == Extent(10, 12)
    assert kind.draw(None, None, (80, 60), THEME).size == (80, 60)
    assert guarded((mark,)).marks(None, (80, 60), THEME) == (mark,)


@pytest.mark.parametrize(
    "content",
    [None, 3, 2.5, "♭7", True, Fraction(1, 3), (1, ("a", None)), Weather.FAIR, Fixed((1, Fixed("b")))],
)
def test_plain_contents_pass(content: Any) -> None:
    assert composed(content) == Composed(content, (), None, None, "Dice lie here.")


@pytest.mark.parametrize(
    "content",
    [
        [1],
        {"a": 1},
        pytest.param(object(), id="an object"),
        np.int64(3),
        np.zeros(3),
        float("nan"),
        (1, [2]),
        Fixed({"a": 1}),
        Loose(3),
        b"a",
    ],
    ids=repr,
)
def test_contents_that_name_no_picture_are_told_of(content: Any) -> None:
    with pytest.raises(CalloutFailedError, match=r"its content holds .* which is no plain value"):
        composed(content)


def test_a_refusal_stays_one() -> None:
    with pytest.raises(RefusedError, match="this is too short"):
        composed(REFUSE)
    with pytest.raises(RefusedError, match="covers no music"):
        composed(NO_MUSIC, ask(None))


def test_what_the_machine_lacks_is_not_the_package_s_fault() -> None:
    class Large(Dice):
        def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Any:
            raise MemoryError

    with pytest.raises(MemoryError):
        Guarded(Large(), "The package toy-dice", "toy_dice.kind").draw(None, None, (8, 8), THEME)


def test_a_failure_is_one_line_and_comes_whole_out_of_a_worker() -> None:
    with pytest.raises(CalloutFailedError) as failure:
        composed(KeyError("a\n" * 400))
    assert len(str(failure.value)) < 400 and "\n" not in str(failure.value)
    assert isinstance(failure.value.__cause__, KeyError)
    again = pickle.loads(pickle.dumps(failure.value))
    assert isinstance(again, CalloutFailedError) and str(again) == str(failure.value)


@pytest.mark.parametrize("extent", [Extent(12, 10), Extent(0, 10), Extent(1, float("inf")), (10, 12)])
def test_heights_that_make_no_sense_are_told_of(extent: Any) -> None:
    with pytest.raises(CalloutFailedError, match="failed at its callout 'dice' as it was measured"):
        guarded(extent).extent(None, 800, THEME)


@pytest.mark.parametrize("picture", [Image.new("RGB", (80, 60)), Image.new("RGBA", (80, 61)), "a picture"])
def test_pictures_that_are_none_are_told_of(picture: Any) -> None:
    with pytest.raises(CalloutFailedError, match="failed at its callout 'dice' as it was drawn"):
        guarded(picture).draw(None, None, (80, 60), THEME)


def test_marks_that_are_none_are_told_of() -> None:
    with pytest.raises(CalloutFailedError, match="as its marks were placed"):
        guarded(("dot",)).marks(None, (80, 60), THEME)
