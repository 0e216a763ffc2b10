"""What `report.json` says of sound. Every number says its unit in its name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from studio.sound.condition import Condition
from studio.sound.loudness import Levels

_PLACES = 20
"""Clipped places whose times are given; their number is always whole."""


def sound_of(levels: Levels) -> dict[str, Any]:
    """How loud a piece of sound is, without its clicks but for the true peak, and what brought it there. None: silence,
    or too short to have one. `quiet_camera`: how the camera's own sound in it was left quiet, if it was."""
    quiet = levels.quiet_camera
    return {
        "integrated_LUFS": _hundredths(levels.after.integrated),
        "short_term_maximum_LUFS": _hundredths(levels.after.short_term_max),
        "loudness_range_LU": _hundredths(levels.after.range),
        "true_peak_dBTP": _hundredths(levels.after.true_peak),
        "gain_dB": _hundredths(levels.gain_db),
        "most_gain_reduction_dB": _hundredths(levels.limited_by_db),
        "short_of_target_held_by_peaks": levels.held_by_peak,
        "quiet_camera": {
            "integrated_before_LUFS": _hundredths(quiet.integrated),
            "lifted_dB": _hundredths(quiet.lifted_db),
        }
        if quiet
        else None,
    }


def sources_of(sources: Mapping[str, Condition]) -> list[dict[str, Any]]:
    """The condition of each sound file by its name, of what is heard of it."""
    return [
        {
            "file": name,
            "sample_peak_dBFS": _hundredths(found.sample_peak),
            "true_peak_dBTP": _hundredths(found.true_peak),
            "clipped_places": len(found.clipped),
            "clipped_at_s": list(found.clipped[:_PLACES]),
            "dc_offset": None if found.offset is None else round(found.offset, 4) + 0.0,
        }
        for name, found in sources.items()
    ]


def _hundredths(value: float | None) -> float | None:
    return None if value is None else round(value, 2) + 0.0  # no minus before a zero
