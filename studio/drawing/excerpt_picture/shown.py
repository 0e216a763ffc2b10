"""What the picture of an excerpt shows, as values: where it starts and ends, its passes, bar lines, fades and wave."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class PassShown:
    """Once through the excerpt, from `start` to `end` seconds of the clip. `names`: what it is called, in fewer and
    fewer words; none where the excerpt is heard just once."""

    names: tuple[str, ...]
    start: float
    end: float


@dataclass(frozen=True)
class ExcerptShown:
    """An excerpt as it is heard. All times are seconds of the clip, fades are seconds.

    The music sounds from `counted` (`start`, where nobody counts in) to `end`; from `rings` (`end`, where there is
    no tail) it only rings on. `bars` are (number, time) of bar lines, `clicks` (time, strong). `loudness` is
    integrated, in LUFS, and `true_peak` in dBTP; None where there is nothing to measure. `spoken_over`: whether a voice
    speaks over it in the clip, which the picture does not show. `wave` is (lowest, highest) of equal stretches from
    `start` to `end`, in thousandths of full scale.
    """

    title: str
    where: str
    start: float
    counted: float
    rings: float
    end: float
    fade_in: float
    fade_out: float
    passes: tuple[PassShown, ...]
    bars: tuple[tuple[int, float], ...] = ()
    clicks: tuple[tuple[float, bool], ...] = ()
    loudness: float | None = None
    true_peak: float | None = None
    spoken_over: bool = False
    wave: tuple[tuple[int, int], ...] = ()

    @property
    def length(self) -> float:
        """Seconds, from the first click or sound to the end of the tail."""
        return self.end - self.start
