"""Kinds of callout that other packages offer, through entry points of the group `studio.callouts`."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from importlib.metadata import EntryPoint, entry_points
from pathlib import Path

from studio.drawing.guarded import Guarded, in_a_line
from studio.project.callouts import CalloutOptions
from studio.timeline.kind import Kind
from studio.timeline.slots import SLOTS

GROUP = "studio.callouts"
"""The group of entry points under which a package offers kinds of callout; the value of each is a `Kind`."""

_NAME = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
_COUNTED_OTHERWISE = {*sys.stdlib_module_names, "studio"}


class OfferError(TypeError):
    """Another package offers something that is not a kind of callout, or one whose name is taken.

    The message is a sentence for a person: it names the package, and what to do.
    """

    def __init__(self, entry: EntryPoint, wrong: str) -> None:
        package = entry.dist.name if entry.dist else ""
        remedy = f"update it, or remove it: pip uninstall {package}" if package else "remove it"
        super().__init__(f"{_origin(entry)} offers the callout '{entry.name}', and {wrong}; {remedy}.")


def offered() -> Iterator[tuple[EntryPoint, Guarded]]:
    """Every kind that is offered, always in the same order, each behind its guard. Raises OfferError."""
    for entry in sorted(entry_points(group=GROUP), key=lambda entry: (entry.name, entry.value)):
        yield entry, Guarded(_loaded(entry), _origin(entry), entry.module)


def code_of(kind: Guarded) -> tuple[tuple[str, Path], ...]:
    """(name, file) of all that lies in the packages that a kind's code comes from: what it draws with may be a
    picture, a font or a table as well as a module. Of a module that is in no package, its own file.

    Left out are compiled modules of Python, as they change by themselves, and hidden files.
    """
    modules = (kind.module, *(cls.__module__ for cls in type(kind.kind).__mro__))
    tops = sorted({module.partition(".")[0] for module in modules} - _COUNTED_OTHERWISE)
    return tuple(code for top in tops for code in _files(top))


def _files(top: str) -> Iterator[tuple[str, Path]]:
    module = sys.modules[top]
    for folder in map(Path, getattr(module, "__path__", ())):
        for path in sorted(path for path in folder.rglob("*") if path.is_file()):
            place = path.relative_to(folder)
            if not any(part == "__pycache__" or part.startswith(".") for part in place.parts):
                yield f"{top}/{place.as_posix()}", path
    if not hasattr(module, "__path__") and (file := getattr(module, "__file__", None)):
        yield top, Path(file)


def _origin(entry: EntryPoint) -> str:
    return f"The package {entry.dist.name}" if entry.dist else f"The entry point {entry.name}"


def _loaded(entry: EntryPoint) -> Kind:
    try:
        kind = entry.load()
    except Exception as problem:  # whatever a stranger's module raises as it loads
        raise OfferError(entry, f"it does not load ({in_a_line(problem)})") from problem
    if isinstance(kind, type) and issubclass(kind, Kind):
        raise OfferError(entry, f"'{entry.value}' is a class and not a kind made from it")
    if not isinstance(kind, Kind):
        raise OfferError(entry, f"'{entry.value}' is no Kind")
    if wrong := _misfit(kind):
        raise OfferError(entry, wrong)
    return kind


def _misfit(kind: Kind) -> str:
    """What a kind lacks to be used, or ""."""
    for attribute in ("name", "says", "example"):
        said = getattr(kind, attribute, None)
        if not isinstance(said, str) or not said:
            return f"it has no `{attribute}`"
    if not _NAME.fullmatch(kind.name):  # names of files begin with it
        return f"its name, {kind.name!r}, is not one of small letters, digits and dashes such as 'two-bells'"
    options = getattr(kind, "Options", None)
    if not (isinstance(options, type) and issubclass(options, CalloutOptions)):
        return "its `Options` are no CalloutOptions"
    if not kind.slots or not set(kind.slots) <= set(SLOTS):
        return f"its `slots` are not some of {', '.join(SLOTS)}"
    return ""
