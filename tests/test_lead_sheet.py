"""A newcomer's project about other music: a lead sheet of music21's corpus, played by a few lines of code.

Source: music21's corpus, leadSheet/fosterBrownHair ("Jeanie with the Light Brown Hair", Stephen Foster, 1854,
public domain), which has chord symbols.
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.build import build_all, open_project

pytestmark = pytest.mark.slow

RATE, TEMPO = 48_000, 84


def chart_of(score, bars: int) -> str:  # type: ignore[no-untyped-def]
    """The chord symbols of the first bars as a person would write them, one bar after the other."""
    from music21 import harmony, stream

    measures = list(score.parts[0].getElementsByClass(stream.Measure))
    full = [m for m in measures if m.number >= 1][:bars]
    written, last = [], "N.C."
    for measure in full:
        beats = [""] * 4
        for symbol in measure.getElementsByClass(harmony.ChordSymbol):
            name = symbol.figure.replace("-", "b")
            beats[int(symbol.offset)] = name
        if not beats[0]:
            beats[0] = last
        last = next(name for name in reversed(beats) if name)
        written.append(" ".join(name or "." for name in beats))
    return "| " + " | ".join(written) + " |"


def play(score, bars: int, path: Path) -> None:  # type: ignore[no-untyped-def]
    """The melody as plain decaying tones; the file starts with the pickup, if there is one."""
    melody = score.parts[0].flatten().notes
    pickup = float(score.parts[0].getElementsByClass("Measure")[0].duration.quarterLength)
    pickup = pickup if pickup < 4 else 0.0
    seconds = (pickup + 4 * bars) * 60 / TEMPO
    samples = np.zeros(int(seconds * RATE) + RATE, np.float32)
    for note in melody:
        if not note.isNote:
            continue
        start, length = float(note.offset) * 60 / TEMPO, float(note.quarterLength) * 60 / TEMPO
        times = np.arange(int(length * RATE)) / RATE
        tone = 0.3 * np.sin(2 * np.pi * note.pitch.frequency * times) * np.exp(-3 * times)
        at = int(start * RATE)
        end = min(at + len(tone), len(samples))
        if at < len(samples):
            samples[at:end] += tone[: end - at]
    soundfile.write(path, samples[: int(seconds * RATE)], RATE)


def test_a_lead_sheet_of_the_corpus_builds(tmp_path: Path) -> None:
    from music21 import corpus

    score = corpus.parse("leadSheet/fosterBrownHair")
    bars = 8
    first = score.parts[0].getElementsByClass("Measure")[0]
    pickup = Fraction(first.duration.quarterLength) if first.duration.quarterLength < 4 else Fraction(0)
    score.write("musicxml", tmp_path / "tune.musicxml")
    play(score, bars, tmp_path / "tune.wav")
    start = float(pickup) * 60 / TEMPO
    lines = [
        "episode: {title: An old song, canvas: 640x360 @ 25}",
        "song:",
        "  title: Jeanie",
        "  key: F major",
        "  meter: 4/4",
        *([f"  pickup: {pickup}"] if pickup else []),
        f"  tempo: {TEMPO}",
        f"  bars: {{1: 0:{start:06.3f}}}",
        f"  sections: {{all: 1-{bars}}}",
        f'  chords: {{all: "{chart_of(score, bars)}"}}',
        "  recording: tune.wav",
        "  parts: {tune: tune.musicxml}",
        "facts: {loop: {numerals: all bars 1-4}}",
        "segments:",
        "  - {id: first, title: First, script: 'It goes {loop}.', excerpt: {where: 1-4}, callouts: [chords]}",
        "  - {id: second, excerpt: {where: 5-6}, callouts: [{kind: staff, part: tune}, {kind: keyboard, part: tune}]}",
    ]
    (tmp_path / "project.yaml").write_text("\n".join(lines), "utf-8")
    opened = open_project(tmp_path)
    build_all(opened, (), workers=1)
    report = json.loads((tmp_path / "build" / "report.json").read_text("utf-8"))
    assert report["facts"][0]["words"].startswith("I")
    assert (tmp_path / "build" / "rough-cut.mp4").stat().st_size > 10_000
    assert len(report["segments"][1]["callouts"]) == 2
