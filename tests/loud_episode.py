"""The click episode with loud music in place of its clicks: chords with drum hits, whose peaks a limiter must hold."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import soundfile

from studio.sound.ffmpeg import run_ffmpeg
from tests.click_episode import RATE, click_time, write_episode


def write_loud_episode(folder: Path) -> Path:
    """Write the project and all its files; returns the folder."""
    write_episode(folder)
    length = int(click_time(33) * RATE)
    at = np.arange(length) / RATE
    chord = sum(np.sin(2 * np.pi * hertz * at) for hertz in (98.0, 196.0, 246.9, 293.7, 587.3))
    music = 0.045 * chord + np.random.default_rng(6).normal(0, 0.02, length)
    drum = np.sin(2 * np.pi * 180 * np.arange(2400) / RATE) * np.exp(-np.arange(2400) / 400)
    for beat in range(32):
        place = round(click_time(beat) * RATE)
        music[place : place + 2400] += (0.7 if beat % 4 == 0 else 0.5) * drum
    soundfile.write(folder / "audio/click.flac", music, RATE, subtype="PCM_24")
    return folder


def printed_by_ffmpeg(path: Path) -> tuple[float, float]:
    """Integrated loudness and true peak as the bundled ffmpeg's ebur128=peak=true prints them for a file."""
    said = run_ffmpeg(["-i", str(path), "-vn", "-af", "ebur128=peak=true:framelog=quiet", "-f", "null", "-"])
    summary = said.log[said.log.rindex("Summary:") :]
    return (
        float(summary.split("I:")[1].split()[0]),
        float(summary.split("Peak:")[1].split()[0]),
    )
