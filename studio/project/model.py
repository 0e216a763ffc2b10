"""A project that has been read and checked: everything a person wrote, as exact values.

Song positions are quarter notes from bar 1 beat 1, times are seconds; both are Fractions.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Literal

from studio.music.chart import Chart
from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.callouts import CalloutOptions
from studio.project.episode_values import Canvas
from studio.project.marks import Marks
from studio.project.media import Media
from studio.project.written_part import WrittenPart

Numerals = Literal["relative-to-major", "common-practice"]


@dataclass(frozen=True)
class Episode:
    """`loudness` is the programme's target in LUFS, `ceiling` its highest true peak in dBTP."""

    title: str
    canvas: Canvas
    theme: str
    numerals: Numerals
    loudness: float
    ceiling: float = -1.0


@dataclass(frozen=True)
class Section:
    name: str
    span: Span


@dataclass(frozen=True)
class Rights:
    recording: str = ""
    composition: str = ""
    licence: str = ""


@dataclass(frozen=True)
class Song:
    """`end` is where the song ends, in quarters; `keys` are (from, key) and empty where none is written."""

    title: str
    by: str
    rights: Rights
    time: SongTime
    end: Fraction
    sections: tuple[Section, ...]
    keys: tuple[tuple[Fraction, Key], ...]
    chart: Chart
    recording: Media | None
    stems: dict[str, Media]
    parts: dict[str, WrittenPart]


@dataclass(frozen=True)
class FactAsked:
    """A named question about the music: numerals of a span, or the degree of a part's note at a moment."""

    name: str
    kind: Literal["numerals", "degree"]
    span: Span | None = None
    part: str | None = None
    at: Fraction | None = None


@dataclass(frozen=True)
class Camera:
    """A stretch of a take, in the take's own seconds; `sound` says whether it is heard."""

    media: Media
    start: Fraction
    end: Fraction
    sound: bool


@dataclass(frozen=True)
class Excerpt:
    """A stretch of the recording, in its own seconds.

    `span` is the same stretch in quarters. `names` are the stems heard, with `sources` their files; without
    names the one source is the full recording. `at` is the clip time at which the excerpt starts.
    """

    start: Fraction
    end: Fraction
    span: Span | None
    names: tuple[str, ...]
    sources: tuple[Media, ...]
    fade_in: Fraction
    fade_out: Fraction
    at: Fraction = Fraction(0)

    @property
    def length(self) -> Fraction:
        """Seconds."""
        return self.end - self.start


@dataclass(frozen=True)
class Segment:
    """`at` is where it starts in the episode, in seconds, or None to follow the segment before."""

    id: str
    title: str
    at: Fraction | None
    script: str
    camera: Camera | None
    excerpt: Excerpt | None
    callouts: tuple[CalloutOptions, ...]


@dataclass(frozen=True)
class Project:
    """`marks` can point at any value of the file, for complaints that are found later on."""

    root: Path
    file: Path
    episode: Episode
    song: Song
    facts: tuple[FactAsked, ...]
    segments: tuple[Segment, ...]
    marks: Marks
