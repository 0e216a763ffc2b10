"""What libsndfile does not read, through PyAV (ffmpeg's libraries): M4A, the sound of a video file, surround.

Time 0 is where the file's own presentation starts, so the sound of a take stays with its picture. Containers
whose index leads to the exact sample are read from just before the range; in the others (Matroska counts
milliseconds, MPEG streams have no index) a sample's place is only known by counting, so they are decoded from
their start: right, but slow.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from types import TracebackType

import av
import numpy as np
import numpy.typing as npt
from av.error import FFmpegError

from studio.sound.error import SourceError
from studio.sound.fold import to_two_sides
from studio.sound.samples import Samples

Channels = npt.NDArray[np.float32]
"""Sound of shape (length, channels)."""
Form = Callable[[Channels, Sequence[str]], Channels]
"""Makes of a decoded frame, and the names of its channels, what is wanted of it."""
EXACT_INDEX = frozenset({"mov", "mp4", "wav", "w64", "flac", "aiff", "caf", "ogg"})
ONLY_A_FILE = {
    # A playlist in disguise would have ffmpeg open other files and the network: only what holds sound itself.
    "protocol_whitelist": "file",
    "format_whitelist": "wav,w64,aiff,caf,au,flac,ogg,mp3,aac,ac3,eac3,amr,wv,ape,tta,dsf,mov,mp4,m4a,3gp,"
    "matroska,webm,avi,asf,flv,mpegts,mpeg,mxf",
}
UNREADABLE = "is not a sound file that can be read: it is damaged, or its name does not match what is in it."
RUN_UP = Fraction(1, 4)
"""Seconds decoded before a range, so that a lossy decoder has settled when the range begins."""
SLACK = Fraction(1, 4)
"""Seconds by which sound may end before its file says so: picture and sound of a take seldom end together."""


class ContainerReader:
    """A `Reader` of the best sound stream of any file that ffmpeg opens; SourceError when there is none."""

    def __init__(self, path: str) -> None:
        self.path = path
        try:
            self._container = av.open(path, options=ONLY_A_FILE)
        except (FFmpegError, ValueError):
            raise SourceError(f"{path} {UNREADABLE}") from None
        stream = self._container.streams.best("audio")
        if not isinstance(stream, av.AudioStream) or not stream.rate:
            silent = not self._container.streams.audio
            self._container.close()
            raise SourceError(f"{path} {'has no sound in it.' if silent else UNREADABLE}")
        self._stream = stream
        self._origin = Fraction(self._container.start_time or 0, av.time_base)
        self._exact = not EXACT_INDEX.isdisjoint(self._container.format.name.split(","))

    def __enter__(self) -> ContainerReader:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._container.close()

    @property
    def rate(self) -> int:
        return int(self._stream.rate)

    @property
    def length(self) -> int:
        """Samples until the longest stream of the file ends; where the sound ends sooner, silence follows."""
        whole = Fraction(self._container.duration or 0, av.time_base)
        return max(round(whole * self.rate), self._sound_end or 0)

    @property
    def _sound_end(self) -> int | None:
        """The sample where the container's index ends the sound; None where there is no index to go by."""
        stream = self._stream
        if not self._exact or stream.duration is None or stream.time_base is None:
            return None
        return self._sample((stream.start_time or 0) + stream.duration)

    def _sample(self, timestamp: int) -> int:
        time_base = self._stream.time_base
        assert time_base is not None
        return round((timestamp * time_base - self._origin) * self.rate)

    def read(self, first: int, number: int) -> Samples:
        return self._read(first, number, to_two_sides, 2)

    def read_channels(self, first: int, number: int) -> Channels:
        width = self._stream.channels
        return self._read(first, number, lambda piece, _: _as_wide(piece, width), width)

    def _read(self, first: int, number: int, form: Form, width: int) -> Channels:
        """The range, each decoded frame in a form of `width` channels."""
        sound_end = self._sound_end
        stop = first + number
        heard, ended = self._sounding(first, stop if sound_end is None else min(stop, sound_end), form, width)
        promised = min(stop, self.length if sound_end is None else sound_end)
        if ended is not None and ended < promised - SLACK * self.rate:
            raise SourceError(
                f"{self.path} is cut short: it should last {self.length / self.rate:.3f} s, "
                f"but its sound stops at {ended / self.rate:.3f} s; get a whole copy of it."
            )
        rest = min(stop, self.length) - first - len(heard)
        return np.concatenate([heard, np.zeros((max(rest, 0), width), np.float32)])

    def _sounding(self, first: int, stop: int, form: Form, width: int) -> tuple[Channels, int | None]:
        """The decoded samples from `first` up to `stop`, gaps between time stamps filled with silence.

        Where the sound ends before `stop`, the second value is the sample where it ends.
        """
        pieces = [np.zeros((0, width), np.float32)]
        reached, end = first, 0
        try:
            for at, piece in self._placed(first, form):
                end = at + len(piece)
                if at > reached:
                    gap = min(at, stop) - reached
                    pieces.append(np.zeros((gap, width), np.float32))
                    reached += gap
                wanted = piece[reached - at : max(stop - at, 0)]
                pieces.append(wanted)
                reached += len(wanted)
                if reached >= stop:
                    return np.concatenate(pieces), None
        except FFmpegError:
            raise SourceError(
                f"{self.path} is damaged near {end / self.rate:.3f} s, or cut short; get a whole copy of it."
            ) from None
        return np.concatenate(pieces), end

    def _placed(self, first: int, form: Form = to_two_sides) -> Iterator[tuple[int, Channels]]:
        """Decoded frames and the sample where each starts, from just before `first` if the index allows."""
        time_base = self._stream.time_base
        assert time_base is not None
        run_up = Fraction(first, self.rate) - RUN_UP
        if self._exact and run_up > 0:
            timestamp = int((run_up + self._origin) / time_base)
            self._container.seek(timestamp, stream=self._stream, backward=True)
        expected: int | None = None
        for frame in self._container.decode(self._stream):
            if frame.sample_rate != self.rate:
                raise SourceError(
                    f"{self.path} changes its sample rate on the way; convert it to WAV or FLAC first."
                )
            piece = form(_floats(frame), [channel.name for channel in frame.layout.channels])
            stamped = expected if frame.pts is None else self._sample(frame.pts)
            # Time stamps may be coarser than samples: they say where sound begins and resumes, no more.
            if expected is None or (stamped is not None and abs(stamped - expected) > self.rate // 10):
                expected = stamped or 0
            yield expected, piece
            expected += len(piece)


def _as_wide(piece: Channels, width: int) -> Channels:
    """A piece with `width` channels: a file may change their number on the way."""
    return np.pad(piece[:, :width], ((0, 0), (0, max(width - piece.shape[1], 0))))


def _floats(frame: av.AudioFrame) -> Channels:
    """Samples of a frame as float32, shape (length, channels), full scale ±1.0, whatever the codec gives."""
    values = frame.to_ndarray()
    if not frame.format.is_planar:
        values = values.reshape(-1, frame.layout.nb_channels).T
    if values.dtype.kind == "u":
        values = (values.astype(np.float64) - 128) / 128
    elif values.dtype.kind == "i":
        values = values / 2.0 ** (8 * values.dtype.itemsize - 1)
    return np.ascontiguousarray(values.T, np.float32)
