"""Sound as AAC, encoded once from PCM, block by block, into an .m4a whose packets a video file can take over.

An AAC encoder puts 1024 samples of its own before the sound. The file's edit list says so, players and ffmpeg
leave them out, and so sample 0 of what was given is heard at time 0. Copying the packets with PyAV keeps
that: take the stream with `add_stream_from_template` and pass the packets on with their negative first time
stamp.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from av.error import FFmpegError

from studio.sound.error import SoundError
from studio.sound.loudness import Loudness, measure_file
from studio.sound.samples import Samples
from studio.timeline.heard import RATE
from studio.whole_file import whole_file

OPTIONS = {
    "fflags": "+bitexact",  # neither a date nor the version of the library in the file
    "movflags": "+faststart",
    "movie_timescale": str(RATE),  # the edit list ends at the last sample, not at the last whole millisecond
}

ROOM = 0.1
"""Decibels under the ceiling that the sound is held at before it is encoded: AAC at 256 kbit/s changes the wave a
little, and its true peaks with it. Measured on limited music: 0 to 0.14 dB upwards."""
_TRIES = 5
"""Times that it is encoded at most; the loudest noise and square waves need two."""


def encode_held(
    play: Callable[[float], Iterable[Samples]], path: Path, ceiling: float, bit_rate: int = 256_000
) -> Loudness:
    """Encode to an .m4a that appears whole or not at all, so that no true peak of what is decoded again is over
    `ceiling` dBTP, and give the decoded sound's loudness.

    `play` gives blocks at 48 kHz, each of shape (any length, 2), with their peaks held at a ceiling of its own, in
    dBTP; it is asked again for a lower one while what ffmpeg decodes is over. Memory is constant, and the same samples
    give the same bytes however they are cut into blocks. Raises SoundError when there are no samples, the encoder
    fails, or the peaks stay over the ceiling; OSError when the disk refuses.
    """
    room = ROOM
    with whole_file(path) as unfinished:
        for _ in range(_TRIES):
            _encoded(play(ceiling - room), unfinished, path, bit_rate)
            heard = measure_file(unfinished)
            if heard.true_peak is None or heard.true_peak <= ceiling:
                return heard
            room += heard.true_peak - ceiling + ROOM / 4
        raise SoundError(
            f"Encoded, the sound has true peaks of {heard.true_peak:.2f} dBTP, over the ceiling of {ceiling:g} dBTP, "
            f"though it was held {room - ROOM:.1f} dB lower before; a lower loudness for the episode would help."
        )


def _encoded(blocks: Iterable[Samples], unfinished: Path, path: Path, bit_rate: int) -> None:
    try:
        _encode(blocks, unfinished, bit_rate)
    except OSError:
        raise
    except FFmpegError as problem:
        raise SoundError(f"The sound could not be encoded to {path}: {problem.strerror}.") from None


def _encode(blocks: Iterable[Samples], path: Path, bit_rate: int) -> None:
    with av.open(str(path), "w", format="mp4", options=OPTIONS) as file:
        stream = file.add_stream("aac", rate=RATE, layout="stereo", bit_rate=bit_rate)
        at = 0
        for block in blocks:
            if len(block) == 0:
                continue
            frame = av.AudioFrame.from_ndarray(np.ascontiguousarray(block.T), format="fltp", layout="stereo")
            frame.sample_rate, frame.pts, frame.time_base = RATE, at, Fraction(1, RATE)
            at += len(block)
            file.mux(stream.encode(frame))
        if at == 0:
            raise SoundError("There is no sound to encode.")
        file.mux(stream.encode(None))
