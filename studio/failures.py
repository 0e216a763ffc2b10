"""What goes wrong while things are made, in one plain sentence each: mostly the machine's doing, not the project's."""

from __future__ import annotations

import errno
import os
import tempfile
import traceback
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

_REMEDIES = {
    errno.ENOSPC: "the disk is full; make room and build again, what is done is kept",
    errno.EDQUOT: "your share of the disk is used up; make room and build again, what is done is kept",
    errno.EACCES: "the program may not write or read there; close what has it open, or change its rights",
    errno.EPERM: "the program may not write or read there; close what has it open, or change its rights",
    errno.EROFS: "that disk can only be read; build a copy of the project elsewhere",
    errno.ENOTDIR: "a file stands where a folder is needed; move it away",
    errno.EISDIR: "a folder stands where a file is needed; move it away",
    errno.EEXIST: "something stands there already; move it away",
    errno.EMFILE: "too many files are open; close other programs and build again",
}


def is_the_project_s(error: Exception) -> bool:
    """Whether a file of the project is at fault, a sound file or a take that cannot be read, and not the machine."""
    from studio.render.takes import TakeError
    from studio.sound.error import SourceError

    return isinstance(error, (SourceError, TakeError))


def as_sentence(error: Exception) -> str:
    """The failure as a sentence with a remedy. For what nobody expected, the details go to a file that the
    sentence names, so that it can be reported."""
    from studio.drawing.guarded import CalloutFailedError
    from studio.drawing.offered import OfferError

    if isinstance(error, OfferError):  # first: nothing that draws can be imported then
        return str(error)
    if isinstance(error, CalloutFailedError):
        return f"{error} Details are in {_details(error)}."
    from studio.render.takes import TakeError
    from studio.sound.error import SoundError

    if isinstance(error, (SoundError, TakeError)):
        return str(error)
    if isinstance(error, BrokenProcessPool):
        return "A worker process died, most likely for want of memory; build again with --workers 1."
    if isinstance(error, MemoryError):
        return "There is not enough memory; build again with --workers 1."
    if isinstance(error, OSError) and error.errno in _REMEDIES:
        place = f"{error.filename}: " if error.filename else ""
        sentence = place + _REMEDIES[error.errno]
        return sentence[0].upper() + sentence[1:] + "."
    return f"Something failed that should not: {error or type(error).__name__}. Details are in {_details(error)}."


def _details(error: Exception) -> Path:
    number, name = tempfile.mkstemp(prefix="studio-", suffix=".txt", text=True)
    with os.fdopen(number, "w", encoding="utf-8") as file:
        file.write("".join(traceback.format_exception(error)))
    return Path(name)
