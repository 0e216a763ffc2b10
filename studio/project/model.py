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
class DuckingAsked:
    """Music under a voice goes down by `by_db` (more than 0), over `attack` and back over `release` seconds."""

    by_db: float = 15.0
    attack: Fraction = Fraction(15, 100)
    release: Fraction = Fraction(6, 10)


@dataclass(frozen=True)
class Episode:
    """`loudness` is the programme's target in LUFS, `ceiling` its highest true peak in dBTP; `figured` says
    whether numerals carry the figures of their inversions. `ducking` is None where music stays as loud under a voice.
    `scratch_voice` is the language of a voice that speaks scripts that nobody has recorded, "" for none."""

    title: str
    canvas: Canvas
    theme: str
    numerals: Numerals
    loudness: float
    ceiling: float = -1.0
    figured: bool = True
    ducking: DuckingAsked | None = DuckingAsked()
    scratch_voice: str = ""
    soundfont: Path | None = None


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
class Narration:
    """A voice recording, from `start` to `end` seconds of its own time, heard from `at` seconds of the clip on."""

    media: Media
    start: Fraction
    end: Fraction
    at: Fraction = Fraction(0)

    @property
    def length(self) -> Fraction:
        """Seconds."""
        return self.end - self.start


@dataclass(frozen=True)
class StemLevel:
    """How one stem, or one thing that is played, stands in the mix: decibels, and -1 (left) to 1 (right)."""

    gain_db: float = 0.0
    pan: float = 0.0


@dataclass(frozen=True)
class Featured:
    """One stem in front: the others go down by `by_db` (more than 0) in `span` (quarters; None: all the while),
    gliding over `over` seconds of the recording."""

    name: str
    by_db: float = 9.0
    span: Span | None = None
    over: Fraction = Fraction(1, 4)


@dataclass(frozen=True)
class Play:
    """What the program's own instrument plays.

    `what` is `chords` (those of the chart) or `part` (its notes), over the excerpt's stretch; or by itself, in
    no place of the song, a `chord`, a `scale` or the answer of a `fact`. `name` is that of the part or fact, or the
    chord symbol or scale as written. `tempo` is beats a minute, for what stands in no place of the song. `named` says
    whether its sound was asked for.
    """

    what: Literal["chords", "part", "chord", "scale", "fact"]
    name: str
    sound: str = "struck"
    tempo: Fraction = Fraction(96)
    named: bool = False

    @property
    def placed(self) -> bool:
        """Whether it is a stretch of the song."""
        return self.what in ("chords", "part")


@dataclass(frozen=True)
class Instead:
    """What is played otherwise in every second pass: over `span` (quarters; of no length for a moment), `sound` (a
    chord symbol, a note with or without its octave, or `rest`) in place of what is written.

    It is a change of what `play` names, as `Play.name`, and of nothing else that is played; "" for whatever is.
    """

    span: Span
    sound: str
    play: str = ""


@dataclass(frozen=True)
class CountIn:
    """Clicks before the music, from `start` (quarters, before the excerpt's own start) on, lasting `seconds` as
    heard."""

    start: Fraction
    seconds: Fraction


@dataclass(frozen=True)
class Excerpt:
    """A stretch of the recording, in its own seconds, and how it is heard.

    `span` is the same stretch in quarters; None for what is played in no place of the song, whose `end` is only
    known when facts are. `names` are the stems heard, with `sources` their files; without names the one source is the
    full recording, or there is none where `plays` says what the program plays. `levels` are by those names, or by
    `Play.name`. `fade_in`, `fade_out` and `at` are seconds of clip time; `at` is None for after the voice. `tail`
    is how long the recording goes on after `end`, fading, in its own seconds. `click` is dB against the music.
    """

    start: Fraction
    end: Fraction
    span: Span | None
    names: tuple[str, ...]
    sources: tuple[Media, ...]
    fade_in: Fraction
    fade_out: Fraction
    at: Fraction | None = Fraction(0)
    plays: tuple[Play, ...] = ()
    levels: dict[str, StemLevel] = field(default_factory=dict)
    featured: Featured | None = None
    tail: Fraction = Fraction(0)
    repeat: int = 1
    speed: Fraction = Fraction(1)
    cents: Fraction = Fraction(0)
    count_in: CountIn | None = None
    click: float | None = None
    instead: tuple[Instead, ...] = ()

    @property
    def length(self) -> Fraction:
        """Seconds of the recording in one pass, without the tail."""
        return self.end - self.start

    @property
    def passes(self) -> int:
        """How often the stretch is heard; with `instead`, each time as it is and then otherwise."""
        return self.repeat * (2 if self.instead else 1)

    @property
    def counted(self) -> Fraction:
        """Seconds of count-in before the music."""
        return self.count_in.seconds if self.count_in else Fraction(0)

    @property
    def heard(self) -> Fraction:
        """Seconds of clip time, from the first click or sound to the end of the tail."""
        return self.counted + (self.length * self.passes + self.tail) / self.speed


@dataclass(frozen=True)
class Segment:
    """`at` is where it starts in the episode, in seconds, or None to follow the segment before. `presenter` is
    where somebody stands in the picture, which callouts keep clear of. `ducking` is the episode's, unless the
    segment has its own."""

    id: str
    title: str
    at: Fraction | None
    script: str
    camera: Camera | None
    excerpt: Excerpt | None
    callouts: tuple[CalloutOptions, ...]
    presenter: Literal["left", "right", "middle"] | None = None
    narration: Narration | None = None
    ducking: DuckingAsked | None = DuckingAsked()


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
