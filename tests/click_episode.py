"""A small episode whose truth is known: a click on every beat, a chord to every bar, a camera take that counts.

All made by code. Tempo 97 and a late start keep beats off the edges of frames.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import soundfile

RATE = 48_000
FIRST, TEMPO = Fraction(413, 1000), 97
BEAT = Fraction(60, TEMPO)

PROJECT = """\
episode:
  title: Clicks
  canvas: {canvas}
  loudness: -14 LUFS
song:
  title: A click
  by: Nobody
  key: G major
  meter: 4/4
  tempo: 97
  bars: {{1: 0:00.413}}
  sections: {{all: 1-8}}
  chords: {{all: "| G | C | D7 | Em | B7 | Em | Cm | G |"}}
  recording: audio/click.flac
  stems: {{click: audio/click.flac, tone: audio/tone.flac}}
  parts:
    line: |
      X:1
      M:4/4
      L:1/4
      K:G
      G B d g | c e g c | d f a d | e g b e | B d f a | e g b e | c _e g c | g d B G |
segments:
  - id: words
    title: Words only
    script: One two three four five six seven eight nine ten.
  - id: chart
    title: A chord to a bar
    script: Here it is.
    excerpt: {{where: 2-5, stems: [click], at: 0:00.75}}
    callouts: [chords]
  - id: keys
    title: Keys
    excerpt: {{where: 3.1-4.3}}
    callouts: [{{kind: keyboard, part: line}}]
  - id: take
    title: Camera
    camera: {{take: footage/count.mp4, from: 0:00.5, to: 0:02}}
    callouts: [{{kind: text, say: A take that counts}}]
"""


def click_time(beat: int) -> Fraction:
    """Seconds of the recording at which a beat clicks, counted from 0."""
    return FIRST + beat * BEAT


def write_episode(folder: Path, canvas: str = "640x360 @ 30") -> Path:
    """Write the project and all its files; returns the folder."""
    (folder / "audio").mkdir(parents=True)
    (folder / "footage").mkdir()
    (folder / "project.yaml").write_text(PROJECT.format(canvas=canvas), "utf-8")
    length = int(click_time(33) * RATE)
    click = np.zeros(length, np.float32)
    burst = np.sin(2 * np.pi * 2000 * np.arange(480) / RATE) * np.linspace(1, 0, 480)
    for beat in range(32):
        at = round(click_time(beat) * RATE)
        click[at : at + 480] += (0.9 if beat % 4 == 0 else 0.4) * burst
    soundfile.write(folder / "audio/click.flac", click, RATE, subtype="PCM_24")
    tone = 0.2 * np.sin(2 * np.pi * 220 * np.arange(length) / RATE)
    soundfile.write(folder / "audio/tone.flac", tone, RATE, subtype="PCM_24")
    write_counting_take(folder / "footage/count.mp4")
    return folder


def write_counting_take(path: Path, frames: int = 75, rate: int = 25) -> None:
    """A take whose brightness tells its frame: 40 + 2 for each."""
    with av.open(path.as_posix(), "w") as container:
        stream = container.add_stream("libx264", rate=rate, options={"crf": "10"})
        stream.width, stream.height, stream.pix_fmt = 320, 180, "yuv420p"
        for number in range(frames):
            frame = av.VideoFrame(320, 180, "yuv420p")
            for plane, value in zip(frame.planes, (40 + 2 * number, 128, 128), strict=True):
                plane.update(bytes([value]) * plane.buffer_size)
            frame.pts, frame.time_base = number, Fraction(1, rate)
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
