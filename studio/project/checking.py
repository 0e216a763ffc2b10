"""Checks one group of keys against its model, and says what pydantic found in plain sentences.

What is wrong is left out and what is right is kept, so that one mistake never hides another: a segment with a
mistyped key still has its excerpt checked against the song.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from studio.project.complaints import MisfitError, nearest, unknown_name
from studio.project.decimal_commas import without_decimal_commas
from studio.project.entry import Entry, key_names
from studio.project.findings import Findings
from studio.project.marks import ValuePath

__all__ = ["Findings", "check", "unknown_key"]

Model = TypeVar("Model", bound=BaseModel)

_KEY = "[key]"  # pydantic's mark for an error in the key of a group, not in its value


def check(
    model: type[Model], written: Any, path: ValuePath, findings: Findings, context: object = None
) -> Model | None:
    """The model made from what was written there, without what is wrong; None when that leaves nothing."""
    whole = True
    written = without_decimal_commas(written, path, findings)
    while True:
        try:
            return model.model_validate(written, context=context)
        except ValidationError as error:
            seen: set[ValuePath] = set()
            # Mistyped keys first: what they were meant to be is then not called missing.
            for detail in sorted(
                error.errors(include_url=False), key=lambda e: e["type"] != "extra_forbidden"
            ):
                at = _found(written, detail["loc"])
                if at in seen:
                    continue
                seen.add(at)
                # What no longer goes together is no mistake of its own once something was left out.
                if whole or at or detail["type"] == "missing":
                    _complain(model, written, path, detail, at, findings)
            if () in seen:
                findings.broken.add(path)
                return None
            whole = False
            for at in seen:
                written = _without(written, at)


def _found(written: Any, loc: tuple[int | str, ...]) -> ValuePath:
    """The part of pydantic's path that is in the file; it also names missing keys and branches of unions."""
    found: list[str | int] = []
    for step in loc:
        in_list = isinstance(written, list) and isinstance(step, int) and step < len(written)
        if in_list or (isinstance(written, dict) and step in written):
            written = written[step]
        else:
            break
        found.append(step)
    return tuple(found)


def _without(written: Any, at: ValuePath) -> Any:
    """A copy without the key at a path; a list with one bad item is left out whole, so that indexes keep."""
    key, *rest = at
    if rest and isinstance(written.get(key), dict):
        return {**written, key: _without(written[key], tuple(rest))}
    return {name: value for name, value in written.items() if name != key}


def _complain(
    model: type[BaseModel],
    written: Any,
    path: ValuePath,
    detail: ErrorDetails,
    at: ValuePath,
    findings: Findings,
) -> None:
    whole = (*path, *at)
    error = detail.get("ctx", {}).get("error")
    if detail["type"] == "missing":
        missing = detail["loc"][-1]
        lost = (*whole, missing)  # left out whole, when something in it was wrong
        if _value(written, at) == "":
            findings.complain(whole, f"'{missing}' is empty; write something after it")
        elif not any(at[: len(lost)] == lost for at in findings.broken):
            findings.complain(whole, f"{_group(written, whole)} needs '{missing}'")
        findings.broken.add(whole)
    elif detail["type"] == "extra_forbidden":
        group = _model_at(model, at[:-1])
        where = _group(_value(written, at[:-1]), whole[:-1])
        if str(at[-1]).strip().isdigit():
            findings.complain_key(
                whole, f"'{at[-1]}' stands alone after a comma; numbers take a point, as in 6.1"
            )
            return
        belongs = group.elsewhere.get(str(at[-1])) if group and issubclass(group, Entry) else None
        if belongs is not None:
            findings.complain_key(whole, f"'{at[-1]}' {belongs}")
            return
        unknown_key(f"a key of {where}", whole, key_names(group) if group else [], findings)
    elif isinstance(error, MisfitError):
        findings.misfit(whole, error, key=detail["loc"][-1:] == (_KEY,))
    else:
        key = next((step for step in reversed(at) if isinstance(step, str)), None)
        findings.complain(whole, _sentence(detail, f"'{key}'" if key else _group(written, whole)))


def unknown_key(what: str, path: ValuePath, known: Iterable[str], findings: Findings) -> None:
    """Complain of a mistyped key; the key that was meant then counts as broken, not as missing."""
    name = str(path[-1])
    findings.complain_key(path, unknown_name(what, name, known))
    meant = nearest(name, known)
    if meant is not None:
        findings.broken.add((*path[:-1], meant))


def _value(written: Any, at: ValuePath) -> Any:
    for step in at:
        written = written[step]
    return written


def _group(written: Any, path: ValuePath) -> str:
    """What a group is called in a sentence: a callout by its kind, else its key."""
    if isinstance(written, dict) and isinstance(written.get("kind"), str):
        return f"the {written['kind']} callout"
    if not path:
        return "the project"
    if isinstance(path[-1], str):
        return f"'{path[-1]}'"
    if path[-2:-1] == ("segments",):
        return "a segment"
    return f"an item of '{path[-2]}'" if len(path) > 1 else "this"


def _model_at(model: type[BaseModel], at: ValuePath) -> type[BaseModel] | None:
    """The model of a nested group, found by the keys on the way."""
    for step in at:
        fields = {field.alias or name: field for name, field in model.model_fields.items()}
        if not isinstance(step, str) or step not in fields:
            return None
        inner = _models_in(fields[step].annotation)
        if inner is None:
            return None
        model = inner
    return model


def _models_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for argument in getattr(annotation, "__args__", ()):
        if (found := _models_in(argument)) is not None:
            return found
    return None


_WHOLE_NUMBER = "{was} is not a whole number"
_NUMBER = "{was} is not a number"
_SENTENCES = {
    "string_type": "{key} takes plain words here, not {was}",
    "bool_parsing": "{was} is neither yes nor no",
    "bool_type": "{was} is neither yes nor no",
    "int_parsing": _WHOLE_NUMBER,
    "int_type": _WHOLE_NUMBER,
    "int_from_float": _WHOLE_NUMBER,
    "int_parsing_size": "{was} is far too large",
    "float_parsing": _NUMBER,
    "float_type": _NUMBER,
    "decimal_parsing": _NUMBER,
    "finite_number": _NUMBER,
    "model_type": "{key} is a group of keys, not {was}",
    "model_attributes_type": "{key} is a group of keys, not {was}",
    "dict_type": "{key} is a group of keys, not {was}",
    "list_type": "{key} is a list, as [one, two], not {was}",
    "tuple_type": "{key} is a list, as [one, two], not {was}",
    "set_type": "{key} is a list, as [one, two], not {was}",
    "greater_than": "{was} is too small for {key}; it must be more than {gt}",
    "greater_than_equal": "{was} is too small for {key}; the least is {ge}",
    "less_than": "{was} is too large for {key}; it must be less than {lt}",
    "less_than_equal": "{was} is too large for {key}; the most is {le}",
    "too_short": "{key} needs at least {min_length}",
    "too_long": "{key} takes at most {max_length}",
    "string_too_short": "{key} needs at least {min_length} characters",
    "string_too_long": "{was} is too long for {key}, which takes at most {max_length} characters",
}


def _sentence(detail: ErrorDetails, key: str) -> str:
    ctx = detail.get("ctx", {})
    was = _shown(detail["input"])
    if detail["type"] in ("literal_error", "enum"):
        choices = re.findall(r"'([^']*)'", str(ctx.get("expected", "")))
        if isinstance(detail["input"], str):
            return unknown_name(f"a choice for {key}", detail["input"], choices)
        return f"{key} is one of {', '.join(choices)}, not {was}"
    if detail["type"] in ("value_error", "assertion_error"):
        return str(ctx.get("error", "")) or f"{was} does not fit {key}"
    return _SENTENCES.get(detail["type"], "{was} does not fit {key}").format_map(
        {**ctx, "key": key, "was": was}
    )


def _shown(value: Any) -> str:
    if isinstance(value, dict):
        return "a group of keys"
    return "a list" if isinstance(value, list | tuple) else f"'{value}'"
