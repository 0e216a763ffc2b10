"""What the body of an instrument does to all its partials."""

from __future__ import annotations

from studio.sound.instrument.partials import Floats

_SMALL = 60.0  # Hz


def radiated(hertz: Floats) -> Floats:
    """How much of each partial a small body sends out: less and less below `_SMALL`, so that low notes are heard by
    their upper partials and do not boom."""
    return hertz / (hertz + _SMALL)
