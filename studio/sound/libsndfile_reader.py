"""Files of one or two channels that libsndfile knows: WAV, FLAC, Ogg Vorbis and Opus, MP3, AIFF, CAF, W64,
AU.

libsndfile seeks to the exact sample in each of them (the tests compare with a whole decode), so only the
range is read.
"""

from __future__ import annotations

from types import TracebackType
from typing import Any

import numpy as np
import numpy.typing as npt

from studio.sound.error import SourceError
from studio.sound.fold import to_two_sides
from studio.sound.samples import Samples

UNKNOWN = 2**62
"""A length that libsndfile gives when the file has none: a FLAC written to a pipe never learns its own."""


class LibsndfileReader:
    """A `Reader`; made by `LibsndfileReader.of`."""

    def __init__(self, path: str, file: Any) -> None:
        self.path = path
        self._file = file

    @classmethod
    def of(cls, path: str) -> LibsndfileReader | None:
        """A reader of the file, or None where it should be read as a container instead.

        Raises SourceError when the file does not say how long it is.
        """
        import soundfile

        try:
            file = soundfile.SoundFile(path)
        except (soundfile.LibsndfileError, TypeError):
            # TypeError: the ending .raw makes soundfile ask for the format.
            return None
        if file.channels > 2:
            # libsndfile does not say which channel is the centre or the low-frequency one; ffmpeg does.
            file.close()
            return None
        if file.frames >= UNKNOWN:
            file.close()
            raise SourceError(f"{path} does not say how long it is, as if written to a pipe; save it again.")
        return cls(path, file)

    def close(self) -> None:
        self._file.close()

    def __enter__(self) -> LibsndfileReader:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @property
    def rate(self) -> int:
        return int(self._file.samplerate)

    @property
    def length(self) -> int:
        return int(self._file.frames)

    @property
    def estimated(self) -> bool:
        """Whether `length` may be wrong: an MP3 without its Xing header says nothing about its length."""
        return str(self._file.format) == "MP3"

    def read(self, first: int, number: int) -> Samples:
        return to_two_sides(self.read_channels(first, number))

    def read_channels(self, first: int, number: int) -> npt.NDArray[np.float32]:
        import soundfile

        promised = max(min(number, self.length - first), 0)
        if promised == 0:
            return np.zeros((0, self._file.channels), np.float32)
        try:
            self._file.seek(first)
            heard = self._file.read(promised, dtype="float32", always_2d=True)
        except soundfile.LibsndfileError:
            raise SourceError(
                f"{self.path} is damaged somewhere between {first / self.rate:.3f} s and "
                f"{(first + promised) / self.rate:.3f} s, or cut short; get a whole copy of it."
            ) from None
        if len(heard) < promised and not self.estimated:
            raise SourceError(
                f"{self.path} is cut short: it should last {self.length / self.rate:.3f} s, "
                f"but its sound stops at {(first + len(heard)) / self.rate:.3f} s; get a whole copy of it."
            )
        return np.asarray(heard, np.float32)
