"""A project that has been read and checked: everything a person wrote, as exact values.

Song positions are quarter notes from bar 1 beat 1, times are seconds; both are Fractions.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Literal

from studio.music.chart import Chart
from studio.music.groove import Drums, Groove
from studio.music.key import Key
from studio.music.pitch import NoteName
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
    """`loudness` is the programme's target in LUFS, `ceiling` its highest true peak in dBTP; `figured` says
    whether numerals carry the figures of their inversions."""

    title: str
    canvas: Canvas
    theme: str
    numerals: Numerals
    loudness: float
    ceiling: float = -1.0
    figured: bool = True


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
    grooves: dict[str, Groove | Drums] = field(default_factory=dict)


@dataclass(frozen=True)
class FactAsked:
    """A named question about the music; ``kind`` is one of ``studio.project.questions.QUESTIONS``.

    ``span`` is the stretch asked about, in quarters, or None for the whole song; ``at`` the moment, in
    quarters. A ``groove`` may be compared with that of another name, or with itself at another stretch
    (``against``). ``expect`` is the answer that the writer believes to be right, "" if they say nothing.
    """

    name: str
    kind: str
    span: Span | None = None
    at: Fraction | None = None
    parts: tuple[str, ...] = ()
    groove: str = ""
    against: str | Span | None = None
    tonic: NoteName | None = None
    expect: str = ""


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
    """`at` is where it starts in the episode, in seconds, or None to follow the segment before. `presenter` is
    where somebody stands in the picture, which callouts keep clear of."""

    id: str
    title: str
    at: Fraction | None
    script: str
    camera: Camera | None
    excerpt: Excerpt | None
    callouts: tuple[CalloutOptions, ...]
    presenter: Literal["left", "right", "middle"] | None = None


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
