"""Scales as they are played: up from a tonic, and down again, which is not always the same way."""

from __future__ import annotations

from dataclasses import dataclass

from studio.music.pitch import NoteName
from studio.theory.melody.scales import Scale, scale_named

_MELODIC = "melodic minor"


@dataclass(frozen=True, slots=True)
class OnTonic:
    """A scale on a tonic: half steps above it, 0 first and rising, on the way up and on the way down."""

    tonic: NoteName
    rising: tuple[int, ...]
    falling: tuple[int, ...]

    @classmethod
    def of(cls, tonic: NoteName, scale: Scale, both_ways: bool = False) -> OnTonic:
        """A scale of theory. Melodic minor comes down as natural minor (common practice of teaching and exercises),
        unless it goes `both_ways` as in jazz."""
        falls_as_natural = scale.name == _MELODIC and not both_ways
        falling = scale_named("natural minor") if falls_as_natural else scale
        return cls(tonic, scale.semitones, falling.semitones)
