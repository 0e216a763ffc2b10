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
from studio.sound.error import SoundError, SourceError
from studio.sound.libsndfile_reader import LibsndfileReader
from studio.sound.reader import Reader
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE

BLOCK = 1 << 19
"""Samples that `blocks` gives at a time: 11 s, four megabytes."""


def read(path: str | Path, start: int, count: int) -> Samples:
    """Samples `start` to `start + count` of a recording at 48 kHz, shape (count, 2).

    Sample n is the sound at n/48000 s of the recording's own time, whatever its sample rate; mono sounds on
    both sides, surround is folded down. Raises SourceError when the file cannot be read, is damaged or cut
    short, holds values that are not numbers, or when the range is not wholly inside it.
    """
    if start < 0:
        raise SourceError(
            f"{path} cannot be read from {_seconds(start / RATE)} s: a recording starts at 0 s."
        )
    if count < 0:
        raise SourceError(f"{path} cannot be read backwards: the end must come after the start.")
    with opened(str(path), start + count) as reader:
        if count == 0:
            return silence(0)
        samples = _at_48k(reader, str(path), start, count)
    _refuse_what_is_no_number(samples, path, start)
    return samples


def blocks(path: str | Path, start: int, count: int) -> Iterator[Samples]:
    """The same range as blocks, one after the other; it may leave the recording, which is silent outside of itself.

    Each block is of shape (n, 2), so that a long range needs no more memory than a short one. The file is
    opened once. A container that has to be decoded from its start is read in one go instead, not again for
    each block. Raises SourceError like `read`, but for where the recording starts and ends.
    """
    if count <= 0:
        return
    with opened(str(path), start + count) as reader:
        step = BLOCK if isinstance(reader, LibsndfileReader) else count
        for at in range(start, start + count, step):
            samples = _at_48k(reader, str(path), at, min(step, start + count - at), strict=False)
            _refuse_what_is_no_number(samples, path, at)
            yield samples


def reaches(path: str | Path, end: int) -> bool:
    """Whether a recording lasts until sample `end`. Raises SourceError like `length`."""
    if length(path) >= end:
        return True
    with opened(str(path), end) as reader:  # some lengths are estimates; what is there can be read
        try:
            _at_48k(reader, str(path), end - 1, 1)
        except SoundError:
            return False
        return True


def length(path: str | Path) -> int:
    """Samples at 48 kHz that `read` can give of a recording.

    Exact for files with an index or a header that says so; an MP3 without its header, Matroska and MPEG
    streams only estimate it. Raises SourceError like `read`.
    """
    with opened(str(path), 0) as reader:
        return -(-reader.length * RATE // reader.rate)


@contextmanager
def opened(path: str, end: int) -> Iterator[Reader]:
    """The file opened by the library that reads it exactly up to sample `end` (48 kHz). Raises SourceError when it
    cannot be read."""
    _refuse_what_is_no_file(Path(path))
    plain = LibsndfileReader.of(path)
    if plain is not None and plain.estimated and plain.length * RATE < end * plain.rate:
        plain.close()
        plain = None
    with plain if plain is not None else ContainerReader(path) as reader:
        if reader.length == 0:
            raise SourceError(f"{path} has no sound in it: its length is 0.")
        yield reader


def _refuse_what_is_no_number(samples: Samples, path: str | Path, start: int) -> None:
    if np.isfinite(samples).all():
        return
    broken = start + int(np.argmin(np.isfinite(samples).all(axis=1)))
    raise SourceError(
        f"{path} holds values that are not numbers near {broken / RATE:.3f} s; export it again."
    )


def _at_48k(reader: Reader, path: str, start: int, count: int, strict: bool = True) -> Samples:
    """The range of an open file at 48 kHz. Raises SourceError when the file ends before the range does, if
    `strict`; else it is silent there.
    """

    def heard(first: int, number: int) -> Samples:
        """Samples at the file's rate, with silence before 0 and after the end, of which a strict range may not
        see any.
        """
        before = min(max(-first, 0), number)
        outside = before == number or (not strict and first + before >= reader.length)
        found = silence(0) if outside else reader.read(first + before, number - before)
        if strict and len(found) < number - before:
            end = max(-(-(first + before + len(found)) * RATE // reader.rate), 0)
            if start + count > end:
                ends = min(reader.length, first + before + len(found)) / reader.rate
                asked = _seconds((start + count) / RATE)
                raise SourceError(
                    f"{path} ends at {_seconds(ends)} s, before the {asked} s that were asked for."
                )
        after = number - before - len(found)
        return np.concatenate([silence(before), found, silence(after)]) if before or after else found

    if reader.rate == RATE:
        return heard(start, count)
    return rate.converted(heard, reader.rate, start, count)


def _seconds(value: float) -> str:
    """Seconds with as many decimals as they need, so that two times one sample apart do not look alike."""
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _refuse_what_is_no_file(path: Path) -> None:
    """Raise SoundError, in words of its own, for what no library explains well."""
    if path.is_dir():
        raise SourceError(f"{path} is a folder, not a sound file.")
    try:
        with path.open("rb") as file:
            empty = not file.read(1)
    except FileNotFoundError:
        raise SourceError(f"There is no sound file {path}.") from None
    except OSError as problem:
        raise SourceError(f"{path} cannot be opened: {problem.strerror}.") from None
    if empty:
        raise SourceError(f"{path} is empty: it has 0 bytes.")
