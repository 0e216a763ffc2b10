"""The kinds of callout, by name: one for each module of `studio.drawing.callouts`, and those of other packages.

A module of that room registers itself by having a `KIND`. Another package adds kinds of its own through an
entry point of the group `studio.callouts`, whose value is a `Kind`; nothing here lists either.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from importlib.metadata import EntryPoint, entry_points
from types import MappingProxyType

from studio.drawing import callouts
from studio.timeline.kind import Kind

GROUP = "studio.callouts"
"""The group of entry points under which a package offers kinds of callout."""


class NotAKindError(TypeError):
    """Another package offers something that is not a kind of callout, or one whose name is taken."""


def found() -> Mapping[str, Kind]:
    """Every kind that is installed, in alphabetical order. Raises NotAKindError naming the package at fault."""
    kinds: dict[str, Kind] = {}
    for module in pkgutil.iter_modules(callouts.__path__):
        kind: Kind = importlib.import_module(f"{callouts.__name__}.{module.name}").KIND
        kinds[kind.name] = kind
    for entry in sorted(entry_points(group=GROUP), key=lambda entry: (entry.name, entry.value)):
        kind = _offered(entry)
        if kind.name in kinds:
            raise NotAKindError(f"{_origin(entry)} offers a callout '{kind.name}', a name that is taken")
        kinds[kind.name] = kind
    return MappingProxyType(dict(sorted(kinds.items())))


def _offered(entry: EntryPoint) -> Kind:
    try:
        kind = entry.load()
    except Exception as problem:  # whatever a stranger's module raises as it loads
        raise NotAKindError(f"{_origin(entry)} offers a callout that does not load: {problem}") from problem
    if not isinstance(kind, Kind):
        raise NotAKindError(f"{_origin(entry)} offers '{entry.value}' as a callout, and it is no Kind")
    return kind


def _origin(entry: EntryPoint) -> str:
    return f"the package {entry.dist.name}" if entry.dist else f"the entry point {entry.name}"


KINDS: Mapping[str, Kind] = found()
"""Every kind of callout that there is, in alphabetical order."""
