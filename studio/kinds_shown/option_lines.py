"""The options of a kind of callout as a person writes them: name, what it takes, what holds without it, meaning."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic.fields import FieldInfo

from studio.music.key import Key
from studio.music.pitch import NoteName, Pitch
from studio.project.callouts import (
    CalloutOptions,
    FactText,
    GrooveName,
    GrooveOrPlace,
    InstantText,
    Length,
    PartName,
    PlaceText,
    Seconds,
    StemName,
    TimeRange,
)
from studio.project.texts import Text

_TAKES: Mapping[Any, str] = {
    FactText: "words with {facts}",
    GrooveName: "a groove",
    GrooveOrPlace: "a groove, or a place",
    InstantText: "a moment, as 6.3",
    Length: "seconds",
    PartName: "a part",
    PlaceText: "a place, as 5-8",
    Seconds: "a time, as 0:04",
    StemName: "a stem",
    Text: "words",
    TimeRange: "a time, as 0:04-0:12",
    bool: "yes or no",
    float: "a number",
    Fraction: "a number",
    Key: "a key",
    NoteName: "a note",
    Pitch: "a note, as C4",
    int: "a whole number",
    str: "words",
}
_LISTS = (list, tuple, set, frozenset)

COMMON = (
    ("where", "a place, as 5-8", "the stretch of song that it speaks about; else all of the excerpt"),
    ("when", "a time, as 0:04-0:12", "when it shows, in clip time; else as long as the excerpt lasts"),
    (
        "pass",
        "a whole number",
        "shows only that time that a repeated excerpt is heard, from 1; else each time",
    ),
    ("slot", "", "the part of the picture in which it stands"),
)
"""(name, what it takes, meaning) of the options that every kind has."""


@dataclass(frozen=True)
class OptionLine:
    """One option. `otherwise` is what holds where it is not written: "" where nothing does, `NEEDED` where it
    must be."""

    name: str
    takes: str
    otherwise: str
    meaning: str


NEEDED = "needed"


def option_lines(options: type[CalloutOptions]) -> tuple[OptionLine, ...]:
    """The options that a kind adds to those of every callout, in the order in which it has them."""
    hints = get_type_hints(options, include_extras=True)
    return tuple(
        OptionLine(
            field.alias or name, _takes(hints[name], field), _otherwise(field), field.description or ""
        )
        for name, field in options.model_fields.items()
        if name not in CalloutOptions.model_fields
    )


def _takes(hint: Any, field: FieldInfo) -> str:
    words = _words(hint)
    least = next((at.ge for at in field.metadata if hasattr(at, "ge")), None)
    most = next((at.le for at in field.metadata if hasattr(at, "le")), None)
    if least is not None and most is not None:
        return f"{words}, {least} to {most}"
    if least is not None:
        return f"{words}, {least} or more"
    return f"{words}, {most} at most" if most is not None else words


def _words(hint: Any) -> str:
    """What a type of value is called."""
    try:
        if hint in _TAKES:
            return _TAKES[hint]
    except TypeError:  # a type whose parts cannot be compared
        pass
    origin, inside = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _words(inside[0])
    if origin is Literal:
        return _either([_written(value) for value in inside])
    if origin in (Union, types.UnionType):
        return _either(list(dict.fromkeys(_words(one) for one in inside if one is not types.NoneType)))
    if origin in _LISTS:
        return f"{_words(inside[0])}, or a list" if inside else "a list"
    if origin in (dict, Mapping, typing.get_origin(Mapping[str, str])):
        return "a group of names"
    return "a value"


def _either(words: list[str]) -> str:
    return " or ".join(filter(None, [", ".join(words[:-1]), words[-1]])) if words else ""


def _otherwise(field: FieldInfo) -> str:
    if field.is_required():
        return NEEDED
    value = field.get_default(call_default_factory=True, validated_data={})
    return "" if value is None else _written(value)


def _written(value: Any) -> str:
    """A value as a project file writes it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (list, tuple, set, frozenset)):
        return ", ".join(map(_written, value))
    if isinstance(value, Mapping):
        return ", ".join(f"{key}: {_written(inner)}" for key, inner in value.items())
    return str(value)
