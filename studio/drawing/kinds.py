"""The kinds of callout, by name. A module of this room that has a `KIND` is one; nothing else lists them."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from types import MappingProxyType

from studio.timeline.kind import Kind


def _found() -> Mapping[str, Kind]:
    import studio.drawing as room

    kinds: dict[str, Kind] = {}
    for module in sorted(pkgutil.iter_modules(room.__path__), key=lambda found: found.name):
        if module.name in _NO_KINDS:
            continue
        kind = getattr(importlib.import_module(f"{room.__name__}.{module.name}"), "KIND", None)
        if kind is not None:
            kinds[kind.name] = kind
    return MappingProxyType(kinds)


_NO_KINDS = frozenset({"kinds", "draw"})  # these two import this module

KINDS: Mapping[str, Kind] = _found()
"""Every kind of callout that there is, in alphabetical order."""
