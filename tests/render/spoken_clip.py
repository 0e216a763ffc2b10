"""A clip with somebody speaking in it, as far as levels go."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import soundfile

from studio.build.opening import Opened
from studio.timeline.heard import RATE, Cut, Ducking, Laid, Source
from studio.timeline.plan import SegmentPlan, Voice


def write_voice(path: Path) -> Path:
    """Four bursts of a second that glide in pitch, from 3 s to 7 s."""
    at = np.arange(10 * RATE) / RATE
    line = sum(np.sin(2 * np.pi * n * (150 * at + 8 * np.sin(3 * at))) / n for n in range(1, 12))
    line *= 0.05 * ((at > 3) & (at < 7)) * (0.55 + 0.45 * np.sin(2 * np.pi * 4 * at))
    soundfile.write(path, line, RATE, subtype="PCM_24")
    return path


def whole(path: Path, seconds: int = 10) -> Laid:
    """A file from the start of a clip on."""
    return Laid(Cut.of((Source(str(path)),), 0, seconds * RATE, 0, 0), 0)


def spoken_over(opened: Opened, voice_file: Path, ducking: Ducking | None) -> SegmentPlan:
    """The second segment, ten seconds long, with a narration over its excerpt."""
    voice = Voice(whole(voice_file), "narration")
    return replace(opened.plan.segments[1], frames=300, voice=voice, ducking=ducking)
