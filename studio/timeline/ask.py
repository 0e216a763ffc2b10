"""What a kind of callout may ask about the stretch of song that it is shown over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NoReturn

from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.episode_values import Canvas
from studio.project.model import Excerpt
from studio.theory.harmony.reading import Reading
from studio.theory.melody.degrees import NoteReading
from studio.theory.progression.loops import Loop, smallest_loop
from studio.theory.wording import scale_degree_words
from studio.timeline.changes import Changed
from studio.timeline.listening import Listen, Wave, deaf
from studio.timeline.song_facts import SongFacts


@dataclass(frozen=True)
class Room:
    """The most room that a callout's slot can give it, in pixels."""

    width: int
    height: int


@dataclass(frozen=True)
class Ask:
    """Facts for one callout. `span` is what of the song it covers, or None where no song sounds under it.

    `theme` is what it will be drawn with, for measuring; it means something to the drawing room alone.
    `excerpt` is what of the recording its segment plays; `changed`, what of the span is played otherwise in passes
    during which the callout is on screen.
    """

    span: Span | None
    canvas: Canvas
    room: Room
    theme: Any
    facts: SongFacts
    fill: Callable[[str], str]  # words with their {facts} filled in
    complain: Callable[[str, str], NoReturn]
    excerpt: Excerpt | None = None
    listen: Listen = deaf
    changed: tuple[Changed, ...] = ()

    @property
    def time(self) -> SongTime:
        return self.facts.song.time

    def the_span(self) -> Span:
        """The span, or a refusal that names the remedy."""
        if self.span is None and self.excerpt is not None:
            self.refuse(
                "where", "what is played here stands in no place of the song; give the callout a 'where'"
            )
        if self.span is None:
            self.refuse("where", "it covers no music; give the segment an excerpt, or the callout a 'where'")
        return self.span

    def readings(self, span: Span | None = None) -> tuple[Reading, ...]:
        """The chords of the span, read in their key."""
        return self.facts.readings(span or self.the_span())

    def loop(self, span: Span | None = None) -> Loop:
        """The smallest unit that the span's progression repeats."""
        return smallest_loop(self.readings(span))

    def key(self, quarters: Fraction) -> Key | None:
        return self.facts.key(quarters)

    def notes(self, part: str, span: Span | None = None) -> tuple[Note, ...]:
        """The notes of a part that sound in the span."""
        return self.facts.notes(part, span or self.the_span())

    def melody(self, part: str, span: Span | None = None) -> tuple[NoteReading, ...]:
        """The same notes, each with what it is over its chord."""
        return self.facts.melody(part, span or self.the_span())

    def scale_degree(self, reading: NoteReading) -> str:
        """What a note is in its key, as the project counts: "♭3"; "" where no key is known."""
        return scale_degree_words(reading, self.facts.style).partition(" of ")[0]

    def wave(self, stem: str, span: Span, columns: int) -> Wave:
        """How loud a stem is over a stretch of song; refuses where its file cannot be read."""
        start, end = (self.time.seconds(at) for at in (span.start, span.end))
        try:
            return self.listen(self.facts.song.stems[stem].path, start, end, columns)
        except (OSError, ValueError) as problem:
            self.refuse("kind", f"the stem '{stem}' cannot be heard: {problem}")

    def number(self, part: str, note: Note) -> int:
        """A note's number in its part, which is the `n…` of its engraved id; of equal notes, the first's."""
        return self.facts.numbers(part)[note][0]

    def numbered(self, part: str, span: Span | None = None) -> tuple[tuple[int, Note], ...]:
        """The notes of a part that sound in the span, each with its own number, however alike they are."""
        over = span or self.the_span()
        return tuple(
            (n, note) for n, note in enumerate(self.facts.song.parts[part].part.notes) if note.sounds_in(over)
        )

    def musicxml(self, part: str, span: Span, labels: Mapping[Note, str]) -> str:
        """Notation of the bars that the span touches, labels under the notes, ids `n<number>`."""
        return self.facts.song.parts[part].musicxml(span, labels)

    def refuse(self, key: str, sentence: str) -> NoReturn:
        """Complain at one of the callout's own options, and stop composing it."""
        self.complain(key, sentence)
