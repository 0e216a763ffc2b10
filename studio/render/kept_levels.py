"""Levels beside the sound that they are of, so that what is kept need not be measured again."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from studio.sound.loudness import Levels, Loudness, Quiet
from studio.whole_file import whole_file


def keep_levels(levels: Levels, path: Path) -> None:
    """Write levels as JSON, whole or not at all. Raises OSError when the disk refuses."""
    with whole_file(path) as part:
        part.write_text(json.dumps(asdict(levels)), "utf-8")


def kept_levels(path: Path) -> Levels | None:
    """Levels as `keep_levels` wrote them, or None where there are none that can be read."""
    try:
        known = json.loads(path.read_text("utf-8"))
        before, after = Loudness(**known.pop("before")), Loudness(**known.pop("after"))
        quiet = known.pop("quiet_camera")
        return Levels(before=before, after=after, quiet_camera=Quiet(**quiet) if quiet else None, **known)
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None
