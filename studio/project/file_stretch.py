"""A stretch of a recorded file, from and up to times of its own."""

from __future__ import annotations

from fractions import Fraction

from studio.project.checking import Findings
from studio.project.marks import ValuePath
from studio.project.media import Media
from studio.project.times import time_text


def read_stretch(
    start: Fraction | None,
    end: Fraction | None,
    path: ValuePath,
    media: Media,
    name: str,
    what: str,
    findings: Findings,
) -> tuple[Fraction, Fraction]:
    """Seconds from and up to which a file is used, all of it where nothing is written; complaints past its end.

    `name` is the file as it is written, `what` what it is.
    """
    first, last = start or Fraction(0), media.seconds if end is None else end
    past = f"is past the end of '{name}', which lasts {time_text(media.seconds)}"
    if last > media.seconds:
        findings.complain((*path, "to"), f"{time_text(last)} {past}")
    elif first >= media.seconds:
        findings.complain((*path, "from"), f"{time_text(first)} {past}")
    elif last <= first:
        sentence = f"{what} would end at {time_text(last)}, before it starts at {time_text(first)}"
        findings.complain((*path, "to"), sentence)
    return first, last
