"""Decimal commas: in {gain: {keys: -3,5 dB}} YAML reads a key `keys` with `-3`, and a key `5 dB` with nothing."""

from __future__ import annotations

import re
from typing import Any

from studio.project.findings import Findings
from studio.project.marks import ValuePath

_BEGUN = re.compile(r"(?:.*\s)?[+−-]?[\d:.]*\d", re.ASCII)
_REST = re.compile(r"\d+(?:\s*(?:%|[A-Za-z][A-Za-z -]*))?", re.ASCII)


def without_decimal_commas(written: Any, path: ValuePath, findings: Findings) -> Any:
    """The groups without numbers that a comma cut in two, after one complaint about each."""
    if not isinstance(written, dict):
        return written
    kept: dict[str, Any] = {}
    before: str | None = None
    for key, value in written.items():
        at = (*path, key)
        begun = kept.get(before) if before is not None else None
        rest = key.rstrip()  # a rest that comes twice has a blank after it the second time
        cut = value == "" and isinstance(begun, str) and _BEGUN.fullmatch(begun) and _REST.fullmatch(rest)
        if cut and before is not None and findings.marks.stands_alone(at):
            sentence = f"'{rest}' stands alone after a comma; numbers take a point, as in {begun}.{rest}"
            findings.complain_key(at, sentence)
            findings.broken.add((*path, before))
            del kept[before]
            before = None
            continue
        kept[key] = without_decimal_commas(value, at, findings)
        before = key
    return kept
