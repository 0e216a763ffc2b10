"""Sound: read by range, cut, mixed, levelled, written and encoded. It knows nothing of segments."""

from studio.sound.error import SoundError

__all__ = ["SoundError"]
