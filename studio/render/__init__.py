"""Plan in, files out. For scripts: `as_moviepy` and `overlays_as_moviepy`."""

from __future__ import annotations

from typing import Any

_FOR_SCRIPTS = ("as_moviepy", "overlays_as_moviepy")


def __getattr__(name: str) -> Any:
    # Found when asked for: moviepy and the drawing room take time to import.
    if name in _FOR_SCRIPTS:
        from studio.render import moviepy_clips

        return getattr(moviepy_clips, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
