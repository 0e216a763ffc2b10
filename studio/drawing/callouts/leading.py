"""The leading callout: how voices move from chord to chord, half steps marked.

Each chord is a column of note names at their own heights; lines lead each voice to the next chord. The notes are
those that a written part plays, or else the chords' own, led by the smallest motion.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise

from PIL import Image
from pydantic import Field

from studio.drawing.frame import PADDING, CanvasSize, panelled
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.otherwise import changes_said
from studio.drawing.paging import page_dots
from studio.drawing.themes.theme import Theme
from studio.drawing.voices.setting import LEAST, least_width, setting, tall
from studio.drawing.voices.voices import Column, Led, VoiceNote, Voices, Way, page_of
from studio.drawing.voices.weave import Weave
from studio.music.chart import ChordAt
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.project.callouts import CalloutOptions, PartName
from studio.theory.parts.slices import held_at
from studio.theory.parts.voice_leading_threads import joined, threads
from studio.theory.parts.voice_leading_written import VoiceMove, written_leading
from studio.theory.plain_english import capital, counted
from studio.theory.wording.common_tones import common_tones_words, outer_motion
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

MOST_CHORDS = 32
"""Chords in one callout; more of them are another callout's."""

ON_A_PAGE = 5
"""Chords on a page of a wide canvas, which is small on a phone, where bar lines allow it."""

MOST_VOICES = 8
"""Voices in one picture: what two hands play, and no more than can be followed."""


_LOWER_THIRD = 51.0
"""Units that it asks for along the bottom of a wide canvas, where it can do with so little."""


class LeadingOptions(CalloutOptions):
    """Options of the leading callout."""

    part: PartName | None = Field(
        None,
        description="a written part whose notes are led; without it the chords' own, by the smallest motion",
    )


class LeadingKind(Kind):
    """See the module."""

    name = "leading"
    says = "how voices move from chord to chord: common tones, half steps marked, leaps"
    slots = ("lower", "card", "left", "right")
    Options = LeadingOptions
    example = "{kind: leading, part: keys}"

    def compose(self, options: LeadingOptions, ask: Ask) -> Composed:
        canvas = CanvasSize.of(ask.canvas)
        sounding = [at for at in ask.facts.song.chart.within(ask.the_span()) if at.chord is not None]
        chords = [joined(list(run)) for _, run in groupby(sounding, key=lambda at: at.chord)]
        if not chords and ask.facts.song.chart.within(ask.the_span()):
            ask.refuse("where", "no chord sounds in these bars; choose others")
        if not chords:
            ask.refuse("where", "no chords are written for these bars; write them under song.chords")
        if len(chords) == 1:
            ask.refuse("where", "one chord leads nowhere; choose bars in which the chord changes")
        if len(chords) > MOST_CHORDS:
            ask.refuse(
                "where", f"{len(chords)} chords are too many; choose bars that hold {MOST_CHORDS} at most"
            )
        columns = _played(options.part, chords, ask) if options.part else _led(chords)
        if (most := max(len(column.notes) for column in columns)) > MOST_VOICES:
            ask.refuse("part", f"{counted(most, 'voice')} at once cannot be followed; choose another part")
        lower = (options.slot or self.slot(ask.canvas)) == "lower"
        tallest = _LOWER_THIRD if lower and canvas.width > canvas.height else ask.room.height / canvas.unit
        whole = Voices(canvas, columns, ((0, len(columns) - 1),), tallest)
        content = replace(whole, pages=_pages(whole, chords, ask))
        telling = max(range(len(columns) - 1), key=lambda number: _telling(columns[number]))
        alt = _alt(content, options.part)
        alt += changes_said(ask, lambda one: one.of_harmony or one.part == options.part)
        return Composed(content, tuple(_states(chords)), Led(telling), Led(), alt)

    def extent(self, content: Voices, width: int, theme: Theme) -> Extent:
        found = setting(content, width, theme)
        least, wanted = (tall(found, content, theme, share) for share in (LEAST, 1.0))
        return Extent(least, max(least, min(wanted, content.tallest)))

    def draw(self, content: Voices, look: Led, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        Weave(sheet, content, look, theme).draw()
        page_dots(sheet, len(content.pages), page_of(content, look), content.canvas, theme)
        return sheet.picture

    def last(self, look: Led) -> Led:
        return replace(look, alone=True)

    def quiet(self, look: Led, default: Led) -> Led:
        return Led(None, look.after if look.now is None else look.now)


KIND = LeadingKind()


def _led(chords: Sequence[ChordAt]) -> tuple[Column, ...]:
    """The chords' own notes, each voice going on from where it has got to."""
    found = threads(chords)
    columns = []
    for thread, following in zip(found, (*found[1:], None), strict=True):
        said = ""
        if thread.leading is not None and following is not None:
            said = _said(thread.at, following.at, common_tones_words(thread.leading))
        columns.append(_column(thread.at, thread.pitches, thread.moves, said))
    return tuple(columns)


def _played(part: str, chords: Sequence[ChordAt], ask: Ask) -> tuple[Column, ...]:
    """What a part holds as each chord begins, and how its voices go on."""
    notes = ask.notes(part)
    voicings = [_voicing(notes, at) for at in chords]
    for voicing, at in zip(voicings, chords, strict=True):
        if len(voicing) < 2:
            bar = ask.time.words(at.span)
            ask.refuse(
                "part",
                f"'{part}' does not play two notes at once where {at.chord} begins ({bar}); choose a part that "
                "plays chords, or leave 'part' out to lead the chords' own notes",
            )
    columns = []
    for (one, two), (at, following) in zip(pairwise(voicings), pairwise(chords), strict=True):
        leading = written_leading(one, two, at.span)
        said = _said(at, following, common_tones_words(leading))
        column = _column(at, one, leading.voices, said)
        columns.append(
            replace(column, motion=outer_motion(leading).removesuffix(" motion"), said=_shorter(said))
        )
    return (*columns, _column(chords[-1], voicings[-1], (), ""))


def _voicing(notes: Sequence[Note], at: ChordAt) -> list[Pitch]:
    """The pitches of the first moment of a chord at which something sounds, from low to high."""
    inside = [max(note.onset, at.start) for note in notes if note.sounds_in(at.span)]
    held, _ = held_at(notes, min(inside, default=at.start))
    pitches = {note.pitch.midi: note.pitch for note in held}
    return [pitches[midi] for midi in sorted(pitches)]


def _column(at: ChordAt, pitches: Sequence[Pitch], moves: Sequence[VoiceMove], said: str) -> Column:
    return Column(
        symbol=chord_words(at.chord),
        notes=tuple(VoiceNote(str(pitch.name), pitch.midi) for pitch in pitches),
        ways=tuple(Way(move.start.midi, move.end.midi) for move in moves),
        said=(said,) if said else (),
    )


def _said(at: ChordAt, following: ChordAt, words: str) -> str:
    return f"{at.chord} to {following.chord}: {words}"


def _shorter(said: str) -> tuple[str, ...]:
    """What is said, and the same without the motion of the voices, which the picture tells as well."""
    parts = [part for part in said.split("; ") if not part.startswith("outer voices")]
    return tuple(dict.fromkeys((said, "; ".join(parts))))


def _pages(whole: Voices, chords: Sequence[ChordAt], ask: Ask) -> tuple[tuple[int, int], ...]:
    """Pages that begin on bar lines, with as many chords on each as there is room for."""
    room = ask.room.width - 2 * PADDING * whole.canvas.unit
    widest = max(least_width(column, whole, ask.theme) for column in whole.columns)
    most = int(room // widest)
    on_bar = [n for n, at in enumerate(chords) if ask.time.place(at.start).beat == 1]
    last = len(chords) - 1
    turned_sooner = whole.canvas.width > whole.canvas.height
    pages: list[tuple[int, int]] = []
    first = 0
    while last - first >= (most if not turned_sooner else min(most, ON_A_PAGE)):
        turns = [n for n in on_bar if first < n < first + most]
        turns = [n for n in turns if turned_sooner and n < first + ON_A_PAGE] or turns
        if not turns:
            ask.refuse(
                "where", "a bar here holds more chords than can be read side by side; choose fewer bars"
            )
        pages.append((first, turns[-1]))
        first = turns[-1]
    return (*pages, (first, last))


def _states(chords: Sequence[ChordAt]) -> Iterator[tuple[Fraction, Fraction, Led]]:
    """Which chord sounds when; where none does between two, the page stays."""
    for number, at in enumerate(chords):
        yield at.start, at.end, Led(number)
        if number + 1 < len(chords) and at.end < chords[number + 1].start:
            yield at.end, chords[number + 1].start, Led(None, number)


def _telling(column: Column) -> tuple[int, int]:
    """How much there is to see where a chord goes on: half steps, then common tones."""
    sizes = [abs(way.semitones) for way in column.ways]
    return sizes.count(1), sizes.count(0)


def _alt(content: Voices, part: str | None) -> str:
    who = (
        f"Voices of {part} from chord to chord"
        if part
        else "Voices from chord to chord by the smallest motion"
    )
    said = [column.said[0] for column in content.columns if column.said]
    return f"{who}. {'. '.join(map(capital, said))}."
