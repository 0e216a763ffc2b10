"""A kind of callout of another package, behind a guard: where it fails, the package is named and not this program."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from fractions import Fraction
from pathlib import Path
from typing import Any, NoReturn

from PIL import Image

from studio.project.episode_values import Canvas
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind, Mark
from studio.timeline.slots import SlotName

_SAID = ("name", "says", "Options", "slots", "example")
_LONGEST_PROBLEM = 160


class CalloutFailedError(RuntimeError):
    """A kind of callout of another package has failed. The message is a sentence for a person.

    It is made of its message alone, so that it can come back from a worker process.
    """


class Guarded(Kind):
    """Passes everything on to `kind`, and holds it to what a `Kind` promises.

    `origin` is who offers it, to begin a sentence: "The package toy-bells"; `module`, where it was found. What goes
    wrong there is raised as CalloutFailedError; what the kind refuses is refused.
    """

    def __init__(self, kind: Kind, origin: str, module: str) -> None:
        self.kind, self.origin, self.module = kind, origin, module
        vars(self).update({said: getattr(kind, said) for said in _SAID})  # each is the class's own, elsewhere

    def slot(self, canvas: Canvas) -> SlotName:
        with self._named("as its slot was chosen"):
            slot = self.kind.slot(canvas)
            _hold(slot in self.slots, f"'{slot}' is none of its slots")
        return slot

    def compose(self, options: Any, ask: Ask) -> Composed:
        refusals: list[Exception] = []

        def complain(key: str, sentence: str) -> NoReturn:
            try:
                ask.complain(key, sentence)
            except Exception as refusal:
                refusals.append(refusal)
                raise

        with self._named("as it was composed", refusals):
            composed = self.kind.compose(options, replace(ask, complain=complain))
            _hold(isinstance(composed, Composed), f"{_a(composed)} is no Composed")
            _hold(isinstance(composed.alt, str) and bool(composed.alt), "there is no `alt`")
            _hold_plain("content", composed.content)
            timed = (*composed.states, *composed.changed)
            for look in (composed.still, composed.default, *(state[2] for state in timed)):
                _hold_plain("look", look)
        return composed

    def extent(self, content: Any, width: int, theme: Any) -> Extent:
        with self._named("as it was measured"):
            extent = self.kind.extent(content, width, theme)
            _hold(isinstance(extent, Extent), f"{_a(extent)} is no Extent")
            _hold(0 < extent.least <= extent.wanted < math.inf, f"{extent} makes no sense")
        return extent

    def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Image.Image:
        with self._named("as it was drawn"):
            picture = self.kind.draw(content, look, size, theme)
            if not isinstance(picture, Image.Image):
                raise _BrokenPromiseError(f"{_a(picture)} is no picture")
            made, wanted = _about(picture.mode, picture.size), _about("RGBA", size)
            _hold(made == wanted, f"the picture is {made} and not {wanted}")
            return picture

    def marks(self, content: Any, size: tuple[int, int], theme: Any) -> tuple[Mark, ...]:
        with self._named("as its marks were placed"):
            marks = tuple(self.kind.marks(content, size, theme))
            for mark in marks:
                _hold(isinstance(mark, Mark), f"{_a(mark)} is no Mark")
        return marks

    @contextmanager
    def _named(self, when: str, refusals: list[Exception] | None = None) -> Iterator[None]:
        try:
            yield
        except MemoryError:
            raise
        except Exception as problem:  # whatever a stranger's code raises
            if problem in (refusals or ()):
                raise
            raise CalloutFailedError(
                f"{self.origin} failed at its callout '{self.name}' {when} ({in_a_line(problem)}); update it, "
                "leave that callout out, or tell those who made the package."
            ) from problem


def in_a_line(problem: Exception) -> str:
    """What an exception says, on one line and not too long for a sentence: `KeyError: 'x'`."""
    said = " ".join(str(problem).split())
    if len(said) > _LONGEST_PROBLEM:
        said = said[:_LONGEST_PROBLEM].rstrip() + "…"
    if isinstance(problem, (_BrokenPromiseError, ImportError)):
        return said
    name = type(problem).__name__
    return f"{name}: {said}" if said else name


class _BrokenPromiseError(Exception):
    """A kind gave what a kind must not give."""


def _hold(kept: bool, otherwise: str) -> None:
    if not kept:
        raise _BrokenPromiseError(otherwise)


def _hold_plain(what: str, value: Any) -> None:
    """Contents and looks name the pictures made of them, so they must be values that do not change."""
    for odd in _odd(value):
        raise _BrokenPromiseError(f"its {what} holds {odd}, which is no plain value that cannot change")
    hash(value)


def _odd(value: Any) -> Iterator[str]:
    """What in a value is not made of texts, finite numbers, fractions, names, tuples and frozen dataclasses."""
    if is_dataclass(value) and not isinstance(value, type):
        if not type(value).__dataclass_params__.frozen:  # type: ignore[attr-defined]
            yield _a(value)
        for field in fields(value):
            yield from _odd(getattr(value, field.name))
    elif isinstance(value, (tuple, frozenset)):
        for inner in value:
            yield from _odd(inner)
    elif isinstance(value, float):
        if not math.isfinite(value):
            yield str(value)
    elif not isinstance(value, (str, int, Fraction, Enum, Path, type(None))):
        yield _a(value)


def _about(mode: str, size: tuple[int, int]) -> str:
    return f"{mode} of {size[0]} by {size[1]}"


def _a(value: Any) -> str:
    return f"a value of the type {type(value).__name__}"
