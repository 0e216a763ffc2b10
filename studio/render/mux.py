"""Joining without encoding: chunks one after the other, sound beside them, in one MP4."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from fractions import Fraction
from pathlib import Path
from typing import Any

import av

from studio.whole_file import whole_file

# The movie's own clock ticks in samples: in milliseconds its edit list would cut the sound short.
_MP4 = {"movflags": "+faststart", "movie_timescale": "48000"}
_Timed = tuple[Fraction, int, Any]  # seconds, which stream comes first at the same moment, packet


def join(chunks: Sequence[Path], sound: Path, rate: Fraction, path: Path) -> None:
    """Copy the packets of chunks and of an AAC file into `path`, index first so that it plays while it loads."""
    with whole_file(path) as part, ExitStack() as opened:
        first = opened.enter_context(av.open(chunks[0].as_posix()))
        heard = opened.enter_context(av.open(sound.as_posix()))
        out = opened.enter_context(av.open(part.as_posix(), "w", format="mp4", options=_MP4))
        pictures = out.add_stream_from_template(first.streams.video[0])
        samples = out.add_stream_from_template(heard.streams.audio[0])
        for _, _, packet in heapq.merge(_pictures(chunks, rate), _sound(heard), key=lambda timed: timed[:2]):
            packet.stream = samples if packet.stream.type == "audio" else pictures
            out.mux(packet)


def _pictures(chunks: Sequence[Path], rate: Fraction) -> Iterator[_Timed]:
    frame = 0
    for chunk in chunks:
        with av.open(chunk.as_posix()) as container:
            for packet in container.demux(video=0):
                if packet.dts is None:
                    continue
                packet.time_base = 1 / rate
                packet.pts = packet.dts = frame
                packet.duration = 1
                yield frame / rate, 0, packet
                frame += 1


def _sound(container: av.container.InputContainer) -> Iterator[_Timed]:
    for packet in container.demux(audio=0):
        if packet.dts is not None:
            yield packet.dts * packet.time_base, 1, packet
