"""Sound as AAC, encoded once from PCM, block by block, into an .m4a whose packets a video file can take over.

An AAC encoder puts 1024 samples of its own before the sound. The file's edit list says so, players and ffmpeg
leave them out, and so sample 0 of what was given is heard at time 0. Copying the packets with PyAV keeps
that: take the stream with `add_stream_from_template` and pass the packets on with their negative first time
stamp.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from av.error import FFmpegError

from studio.sound.error import SoundError
from studio.sound.samples import Samples
from studio.timeline.heard import RATE
from studio.whole_file import whole_file

OPTIONS = {
    "fflags": "+bitexact",  # neither a date nor the version of the library in the file
    "movflags": "+faststart",
    "movie_timescale": str(RATE),  # the edit list ends at the last sample, not at the last whole millisecond
}


def encode_aac(blocks: Iterable[Samples], path: Path, bit_rate: int = 256_000) -> None:
    """Encode blocks at 48 kHz, each of shape (any length, 2), to an .m4a that appears whole or not at all.

    Memory is constant, and the same samples give the same bytes however they are cut into blocks. Raises
    SoundError when there are no samples or the encoder fails, OSError when the disk refuses.
    """
    with whole_file(path) as unfinished:
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
