"""What is wrong with a piece of sound, as one plain sentence that a person can act on."""

from __future__ import annotations


class SoundError(Exception):
    """A sound file or a sound operation that cannot work; `str()` is one plain sentence: what, where, what to
    do.
    """


class SourceError(SoundError):
    """A sound file of the project that cannot be read as it should be: the file is to be mended, not the machine."""
