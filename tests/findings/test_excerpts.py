"""What `studio excerpts` says of the sound that it cuts: peaks that hold it, and files with flaws."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.cli import run
from tests.click_episode import RATE, write_episode


def notes(folder: Path, capsys: pytest.CaptureFixture[str], *segments: str) -> list[str]:
    assert run(["excerpts", str(folder), *segments]) == 0
    return [line for line in capsys.readouterr().out.splitlines() if line.startswith("note: ")]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_episode(tmp_path / "clicks")


def test_an_excerpt_that_its_peaks_hold_under_the_target_is_told_of(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # Clicks of ten milliseconds with silence between them: all peak and no loudness.
    assert any(
        note.startswith("note: chart: ") and "-14 LUFS" in note for note in notes(folder, capsys, "chart")
    )


def test_a_file_with_a_flaw_is_told_of_by_its_path_where_an_excerpt_plays_it(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = folder / "audio/click.flac"
    sound, _ = soundfile.read(file)
    sound[5 * RATE : 5 * RATE + 400] = 1.0  # in bar 2
    soundfile.write(file, np.clip(sound, -1, 1), RATE, subtype="PCM_16")
    (note,) = [note for note in notes(folder, capsys) if "is clipped" in note]
    assert note.startswith("note: audio/click.flac is clipped at 0:05")
    assert not any("tone.flac" in note for note in notes(folder, capsys))
