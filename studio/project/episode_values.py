"""The values of the `episode` group: canvas and loudness."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from studio.project.complaints import MisfitError
from studio.project.times import needs_rewriting

_RATES = {
    "23.976": Fraction(24000, 1001),
    "24": Fraction(24),
    "25": Fraction(25),
    "29.97": Fraction(30000, 1001),
    "30": Fraction(30),
    "50": Fraction(50),
    "60": Fraction(60),
}
_CANVAS = re.compile(r"(\d{2,5})\s*[x×]\s*(\d{2,5})(?:\s*@\s*([\d.]+)\s*(?:fps)?)?", re.ASCII)
_SMALLEST, _LARGEST = 240, 4096
_LOUDNESS = re.compile(r"([-−]\d{1,2}(?:\.\d{1,2})?)\s*LUFS", re.IGNORECASE)
_BARE_LOUDNESS = re.compile(r"[-−]?(\d{1,2}(?:\.\d{1,2})?)", re.ASCII)
_QUIETEST, _LOUDEST = -40.0, -9.0


@dataclass(frozen=True)
class Canvas:
    """The picture: width and height in pixels, exact frames a second, and the text that says so."""

    width: int
    height: int
    rate: Fraction
    text: str


def read_canvas(text: str) -> Canvas:
    """Read `1920x1080 @ 30`. Raises MisfitError."""
    found = _CANVAS.fullmatch(text.strip())
    if found is None:
        raise MisfitError(
            f"'{text}' is not a canvas; write width x height @ frames a second, as 1920x1080 @ 30"
        )
    width, height = int(found[1]), int(found[2])
    if width % 2 or height % 2:
        raise MisfitError(f"'{text}' has an odd number of pixels, which H.264 cannot hold; make both even")
    if not (_SMALLEST <= width <= _LARGEST and _SMALLEST <= height <= _LARGEST):
        raise MisfitError(
            f"'{text}' is out of range; width and height go from {_SMALLEST} to {_LARGEST} pixels"
        )
    rate = _RATES.get(found[3] or "30")
    if rate is None:
        raise MisfitError(
            f"'{found[3]}' frames a second is not a rate here; use {', '.join(_RATES)}", found.start(3)
        )
    return Canvas(width, height, rate, text.strip())


def read_loudness(text: str) -> float:
    """LUFS from `-14 LUFS`. Raises MisfitError.

    The upper bound is care for ears: no delivery standard asks for programmes louder than -9 LUFS.
    """
    found = _LOUDNESS.fullmatch(text.strip())
    if found is None:
        if bare := _BARE_LOUDNESS.fullmatch(text.strip()):
            raise MisfitError(f"'{text}' has no unit; write -{bare[1]} LUFS")
        raise MisfitError(
            needs_rewriting(text)
            or f"'{text}' is not a loudness; write it as -14 LUFS, or -23 LUFS for broadcast"
        )
    loudness = float(found[1].replace("−", "-"))
    if not _QUIETEST <= loudness <= _LOUDEST:
        raise MisfitError(
            f"'{text}' is out of range; a programme lies between {_QUIETEST:g} and {_LOUDEST:g} LUFS, "
            "and -14 LUFS is usual for web video"
        )
    return loudness
