"""A recording read by range: samples at 48 kHz in the recording's own time, and nothing else decoded.

Who reads what, and why. libsndfile (soundfile) seeks to the exact sample in WAV, FLAC, Ogg, MP3 and AIFF. For
the rest (M4A, the sound of a video) there are two ways to ffmpeg, and they were tried on the same files.
pydub's `AudioSegment.from_file` has ffmpeg decode from the file's start and drop what comes before
`start_second`, hands back 16 bits, and asks for an ffprobe that the bundled ffmpeg does not bring. PyAV seeks
through the container's index, keeps the decoder's own floats, and names the channels of surround. So PyAV
reads here; pydub is what a person's own script is handed (`studio.sound.pydub_segment`).
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np

from studio.sound import rate
from studio.sound.container_reader import ContainerReader
from studio.sound.error import SoundError
from studio.sound.libsndfile_reader import LibsndfileReader
from studio.sound.reader import Reader
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE


def read(path: str | Path, start: int, count: int) -> Samples:
    """Samples `start` to `start + count` of a recording at 48 kHz, shape (count, 2).

    Sample n is the sound at n/48000 s of the recording's own time, whatever its sample rate; mono sounds on
    both sides, surround is folded down. Raises SoundError when the file cannot be read, is damaged or cut
    short, holds values that are not numbers, or when the range is not wholly inside it.
    """
    if start < 0:
        raise SoundError(f"{path} cannot be read from {_seconds(start / RATE)} s: a recording starts at 0 s.")
    if count < 0:
        raise SoundError(f"{path} cannot be read backwards: the end must come after the start.")
    with _opened(str(path), start + count) as reader:
        if count == 0:
            return silence(0)
        samples = _at_48k(reader, str(path), start, count)
    broken = np.flatnonzero(~np.isfinite(samples).all(axis=1))
    if len(broken):
        raise SoundError(
            f"{path} holds values that are not numbers near {(start + int(broken[0])) / RATE:.3f} s; "
            "export it again."
        )
    return samples


def length(path: str | Path) -> int:
    """Samples at 48 kHz that `read` can give of a recording.

    Exact for files with an index or a header that says so; an MP3 without its header, Matroska and MPEG
    streams only estimate it. Raises SoundError like `read`.
    """
    with _opened(str(path), 0) as reader:
        return -(-reader.length * RATE // reader.rate)


def _at_48k(reader: Reader, path: str, start: int, count: int) -> Samples:
    """The range of an open file at 48 kHz; raises SoundError when the file ends before the range does."""

    def heard(first: int, number: int) -> Samples:
        """Samples at the file's rate, with silence before 0 and after the end, of which the range may not see
        any.
        """
        before = max(-first, 0)
        found = reader.read(first + before, number - before)
        if len(found) < number - before:
            end = max(-(-(first + before + len(found)) * RATE // reader.rate), 0)
            if start + count > end:
                ends = min(reader.length, first + before + len(found)) / reader.rate
                asked = _seconds((start + count) / RATE)
                raise SoundError(
                    f"{path} ends at {_seconds(ends)} s, before the {asked} s that were asked for."
                )
        return np.concatenate([silence(before), found, silence(number - before - len(found))])

    if reader.rate == RATE:
        return heard(start, count)
    return rate.converted(heard, reader.rate, start, count)


def _seconds(value: float) -> str:
    """Seconds with as many decimals as they need, so that two times one sample apart do not look alike."""
    return f"{value:.6f}".rstrip("0").rstrip(".")


@contextmanager
def _opened(path: str, end: int) -> Iterator[Reader]:
    """The file opened by the library that reads it exactly up to sample `end` (48 kHz)."""
    _refuse_what_is_no_file(Path(path))
    plain = LibsndfileReader.of(path)
    if plain is not None and plain.estimated and plain.length * RATE < end * plain.rate:
        plain.close()
        plain = None
    with plain if plain is not None else ContainerReader(path) as reader:
        if reader.length == 0:
            raise SoundError(f"{path} has no sound in it: its length is 0.")
        yield reader


def _refuse_what_is_no_file(path: Path) -> None:
    """Raise SoundError, in words of its own, for what no library explains well."""
    if path.is_dir():
        raise SoundError(f"{path} is a folder, not a sound file.")
    try:
        with path.open("rb") as file:
            empty = not file.read(1)
    except FileNotFoundError:
        raise SoundError(f"There is no sound file {path}.") from None
    except OSError as problem:
        raise SoundError(f"{path} cannot be opened: {problem.strerror}.") from None
    if empty:
        raise SoundError(f"{path} is empty: it has 0 bytes.")
