"""The program's sound as a pydub AudioSegment, and back: for people's own scripts.

pydub thinks in words that a script's author uses: slices in milliseconds, `+ 3` for louder, `overlay`,
`append` with a cross-fade, `export` to any format. It works in whole numbers, so sound is handed over at 32
bits and loses nothing that a 24-bit file would keep.
"""

from __future__ import annotations

import warnings
from typing import TYPE_CHECKING, Any

import numpy as np

from studio.sound.ffmpeg import ffmpeg_path
from studio.sound.fold import to_two_sides
from studio.sound.rate import convert_whole
from studio.sound.samples import Samples, whole_numbers
from studio.timeline.heard import RATE

if TYPE_CHECKING:
    from pydub import AudioSegment
else:
    AudioSegment = Any


def audio_segment() -> type[AudioSegment]:
    """pydub's AudioSegment class, set to the bundled ffmpeg for its exports and imports.

    Importing pydub looks for an ffmpeg on the system and warns when there is none, which is no news here.
    There is no bundled ffprobe: a script that uses `AudioSegment.from_file` on anything but WAV must say the
    codec (`codec="aac"`).
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from pydub import AudioSegment as Segment
    segment: type[AudioSegment] = Segment
    segment.converter = ffmpeg_path()
    return segment


def as_pydub(samples: Samples) -> AudioSegment:
    """Samples at 48 kHz, shape (length, 2), as a 32-bit stereo AudioSegment; beyond full scale is held at
    full scale.

    >>> hook = as_pydub(source.read("audio/keys.flac", 0, 480_000))
    >>> (hook[:5000].fade_out(200) - 3).export("hook.mp3")
    """
    data = whole_numbers(samples, 32).astype("<i4").tobytes()
    return audio_segment()(data=data, sample_width=4, frame_rate=RATE, channels=2)


def from_pydub(segment: AudioSegment) -> Samples:
    """Samples at 48 kHz, shape (length, 2), of an AudioSegment of any width, rate and number of channels."""
    values = np.array(segment.get_array_of_samples(), np.float64) / 2.0 ** (8 * segment.sample_width - 1)
    channels = values.astype(np.float32).reshape(-1, segment.channels)
    sides = to_two_sides(channels)
    return sides if segment.frame_rate == RATE else convert_whole(sides, segment.frame_rate)
