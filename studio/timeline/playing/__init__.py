"""What the program's own instrument plays: chords of the chart, parts, chords and scales by themselves, as tones."""

from studio.timeline.playing.free import free_tones
from studio.timeline.playing.placed import replaced, tones_of

__all__ = ["free_tones", "replaced", "tones_of"]
