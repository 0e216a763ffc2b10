"""Segment ids, which name files and folders on every system and links on the review page."""

from __future__ import annotations

import re

from studio.project.complaints import MisfitError

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,59}", re.ASCII)

# Windows gives these names to devices, in any case: no file can be called so.
# (Microsoft, "Naming Files, Paths, and Namespaces".)
_DEVICES = re.compile(r"con|prn|aux|nul|com\d|lpt\d", re.IGNORECASE | re.ASCII)


def read_segment_id(text: str) -> str:
    """The id as it is, if it can name a file anywhere. Raises MisfitError."""
    if not _ID.fullmatch(text):
        near = re.sub(r"[^A-Za-z0-9_-]+", "-", text, flags=re.ASCII).strip("-_")[:60]
        remedy = f", as '{near}'" if near and not _DEVICES.fullmatch(near) else ""
        odd = re.search(r"^[_-]|[^A-Za-z0-9_-]", text, re.ASCII)
        raise MisfitError(
            f"'{text}' names files, so it is written with letters a to z, digits, '-' and '_' only, "
            f"at most 60 of them{remedy}",
            odd.start() if odd else 0,
        )
    if _DEVICES.fullmatch(text):
        raise MisfitError(f"'{text}' cannot be a file name on Windows; write another, as '{text}-1'")
    return text
