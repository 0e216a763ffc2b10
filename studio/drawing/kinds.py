"""The kinds of callout, by name: one for each module of `studio.drawing.callouts`, and those of other packages.

A module of that room registers itself by having a `KIND`. Another package adds kinds of its own through an
entry point of the group `studio.callouts`, whose value is a `Kind`; nothing here lists either.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from studio.drawing import callouts, furniture
from studio.drawing.guarded import Guarded
from studio.drawing.offered import OfferError, code_of, offered
from studio.timeline.kind import Kind


def found() -> Mapping[str, Kind]:
    """Every kind that is installed, in alphabetical order. Raises OfferError naming the package at fault."""
    kinds: dict[str, Kind] = {}
    taken = {module.name for module in pkgutil.iter_modules(furniture.__path__)}
    for module in pkgutil.iter_modules(callouts.__path__):
        kind: Kind = importlib.import_module(f"{callouts.__name__}.{module.name}").KIND
        kinds[kind.name] = kind
    for entry, kind in offered():
        if kind.name in kinds:
            raise OfferError(entry, f"a kind of callout has its name, '{kind.name}', already")
        if kind.name in taken:
            raise OfferError(entry, f"this program draws something else by its name, '{kind.name}'")
        kinds[kind.name] = kind
    return MappingProxyType(dict(sorted(kinds.items())))


KINDS: Mapping[str, Kind] = found()
"""Every kind of callout that there is, in alphabetical order."""


def code_from_elsewhere() -> tuple[tuple[str, Path], ...]:
    """(name, file) of what other packages draw the kinds with that they offer; what is drawn depends on it."""
    found = {code for kind in KINDS.values() if isinstance(kind, Guarded) for code in code_of(kind)}
    return tuple(sorted(found))
