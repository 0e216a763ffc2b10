"""The ffmpeg that comes with the program: where it is, and how it is run.

imageio-ffmpeg's wheels carry a full ffmpeg for Linux, macOS and Windows, so nothing needs to be installed on
the system. It is started without a shell, fed through its standard input, and its complaints become one
sentence.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from threading import Thread
from typing import IO

from studio.sound.error import SoundError

NO_WINDOW: int = getattr(subprocess, "CREATE_NO_WINDOW", 0) if sys.platform == "win32" else 0


@dataclass(frozen=True)
class Said:
    """What one run of ffmpeg left on its two outputs."""

    out: bytes
    log: str


@cache
def ffmpeg_path() -> str:
    """Path of the bundled ffmpeg. Raises SoundError when this machine has none."""
    import imageio_ffmpeg

    try:
        return str(imageio_ffmpeg.get_ffmpeg_exe())
    except RuntimeError:
        raise SoundError(
            "The bundled ffmpeg is missing: reinstall the package imageio-ffmpeg, "
            "or set IMAGEIO_FFMPEG_EXE to the path of an ffmpeg of your own."
        ) from None


def run_ffmpeg(
    arguments: Sequence[str], feed: Iterable[bytes] = (), doing: str = "work on the sound"
) -> Said:
    """Run the bundled ffmpeg with `arguments`, its standard input fed block by block from `feed`.

    Memory stays constant however long the feed is. `doing` completes the sentence "ffmpeg could not ...".
    Raises SoundError when ffmpeg cannot be started or fails; whatever `feed` raises passes through, with
    ffmpeg stopped.
    """
    command = [ffmpeg_path(), "-hide_banner", "-nostats", *arguments]
    try:
        process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            creationflags=NO_WINDOW,
        )
    except OSError as problem:
        raise SoundError(f"ffmpeg could not be started ({problem.strerror}): {command[0]}.") from None
    assert process.stdin and process.stdout and process.stderr
    with process:
        out, log = _Listener(process.stdout), _Listener(process.stderr)
        try:
            _pour(feed, process.stdin)
            process.wait()
        except BaseException:
            process.kill()
            raise
        said = Said(out.everything(), log.everything().decode("utf-8", "replace"))
    if process.returncode != 0:
        lines = [line.strip() for line in said.log.splitlines() if line.strip()]
        reason = lines[-1].rstrip(".") if lines else f"it stopped with status {process.returncode}"
        raise SoundError(f"ffmpeg could not {doing}: {reason}.")
    return said


def _pour(feed: Iterable[bytes], pipe: IO[bytes]) -> None:
    """Write every block of `feed`. A reader that went away early says why by its exit status, not by the
    pipe.
    """
    for block in feed:
        try:
            pipe.write(block)
        except OSError:
            return
    with suppress(OSError):
        pipe.close()


class _Listener:
    """Reads a pipe to its end beside the main thread, so that neither side waits for a full pipe."""

    def __init__(self, pipe: IO[bytes]) -> None:
        self._heard = b""
        self._thread = Thread(target=self._listen, args=(pipe,), daemon=True)
        self._thread.start()

    def _listen(self, pipe: IO[bytes]) -> None:
        self._heard = pipe.read()

    def everything(self) -> bytes:
        """All that came through the pipe; waits for its end."""
        self._thread.join()
        return self._heard
