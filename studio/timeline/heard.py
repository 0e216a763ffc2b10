"""What is heard, as data: what sounds, from which sample, for how many samples, and where in the clip.

Positions and lengths are samples at 48 000 Hz (`RATE`). There are two clocks. *Recording time*: sample n is the
sound at n/48000 seconds of the recording, whatever sample rate its file has; notes that the program plays stand
on the same clock, as if they were one more stem. *Clip time*: as it is heard, slowed, repeated and counted in.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

RATE = 48_000
"""Samples in a second, everywhere inside the program."""


def nearest_sample(seconds: Fraction) -> int:
    """The sample nearest to a time; halves go up."""
    return int((seconds * RATE * 2 + 1) // 2)


@dataclass(frozen=True)
class Dip:
    """A stretch in which something is softer by `by_db` (more than 0), glided into and out of.

    `start` and `end` are samples of recording time; from the one up to the other it is at its softest. The glides
    take `over` samples each and lie outside: down before `start`, back after `end`. Where a pass begins or ends
    inside a glide, it has only the rest of it.
    """

    start: int
    end: int
    by_db: float
    over: int


@dataclass(frozen=True)
class Source:
    """A sound file that takes part, at `gain_db` decibels (0: as recorded), at `pan` from -1 (left) to 1 (right)."""

    path: str
    gain_db: float = 0.0
    pan: float = 0.0
    dips: tuple[Dip, ...] = ()


@dataclass(frozen=True)
class Tone:
    """One note that the program plays: `start` and `length` in samples of recording time.

    `midi` is its MIDI number (69 is A4 at 440 Hz, ISO 16), `loud` how hard it is played, from 0 to 1.
    """

    start: int
    length: int
    midi: int
    loud: float = 0.7


@dataclass(frozen=True)
class Played:
    """What the program's own instrument plays. `sound`: plucked, struck, sustained, or `soundfont N` with N the
    General MIDI program from 1 to 128, out of the file `soundfont`."""

    tones: tuple[Tone, ...]
    sound: str = "struck"
    soundfont: str = ""
    gain_db: float = 0.0
    pan: float = 0.0
    dips: tuple[Dip, ...] = ()


@dataclass(frozen=True)
class Spoken:
    """Words that the scratch voice says from sample 0 on, so that they take `length` samples. `language` as
    espeak-ng names it."""

    words: str
    length: int
    language: str = "en"


Sounding: TypeAlias = Source | Played | Spoken


@dataclass(frozen=True)
class Pass:
    """The same stretch of recording time of one or more sources, added together."""

    sources: tuple[Sounding, ...]
    start: int
    length: int

    @property
    def end(self) -> int:
        """The first sample of the recording that is no longer in the pass."""
        return self.start + self.length


@dataclass(frozen=True)
class Click:
    """A click at sample `at` of its cut, counted from the cut's start; `strong` on the first beat of a bar."""

    at: int
    strong: bool


@dataclass(frozen=True)
class Cut:
    """Passes one after the other, as they are heard.

    The passes are joined edge to edge, at `speed` (1/2: half as fast, pitch kept) and `cents` higher. `lead`
    samples of clip time stand before the music, for a count-in. Clicks sound over all of it, `click_db` against the
    music. `fade_in` and `fade_out` are samples of clip time, at the two ends of the music. `matched`: each pass is
    brought to the loudness of the first.
    """

    passes: tuple[Pass, ...]
    fade_in: int
    fade_out: int
    speed: Fraction = Fraction(1)
    cents: float = 0.0
    lead: int = 0
    clicks: tuple[Click, ...] = ()
    click_db: float = 0.0
    matched: bool = False

    @classmethod
    def of(cls, sources: tuple[Sounding, ...], start: int, length: int, fade_in: int, fade_out: int) -> Cut:
        """One pass, as it is."""
        return cls((Pass(sources, start, length),), fade_in, fade_out)

    @property
    def music(self) -> int:
        """Samples of clip time that the passes take together."""
        return self.at(sum(one.length for one in self.passes)) - self.lead

    @property
    def length(self) -> int:
        """Samples of clip time in all."""
        return self.lead + self.music

    def at(self, passed: int) -> int:
        """The sample of the cut at which `passed` samples of its passes are over; halves go up."""
        return self.lead + nearest_sample(passed / self.speed / RATE)

    @property
    def files(self) -> tuple[str, ...]:
        """Paths of the sound files in it, each once, in order."""
        found = (source.path for one in self.passes for source in one.sources if isinstance(source, Source))
        return tuple(dict.fromkeys(found))


@dataclass(frozen=True)
class Laid:
    """A cut and its place: `at` is the sample of the clip where the cut starts."""

    cut: Cut
    at: int

    @property
    def end(self) -> int:
        """The first sample of the clip after the cut."""
        return self.at + self.cut.length


@dataclass(frozen=True)
class Ducking:
    """How music makes room for a voice: it goes down by `by_db` (more than 0), over `attack` samples before the
    words begin, and comes back over `release` samples after them."""

    by_db: float = 15.0
    attack: int = RATE * 15 // 100
    release: int = RATE * 6 // 10
