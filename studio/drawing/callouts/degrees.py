"""The degrees callout: a tune as a line over the chords, each note labelled by its degree over its chord.

Tones of the chord are filled, all others hollow, and the others are named in small print. A note that is held
over a change of chord has a label for each chord. Where a pass is played with another note or another chord, nothing
is lit, as what the line says of the note does not hold there.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.melody.drawing import draw_line, tick
from studio.drawing.melody.heights import least_units, tallest, wanted_units
from studio.drawing.melody.line import Singing, SungChord, SungLine
from studio.drawing.melody.placing import broken
from studio.drawing.melody.small_print import with_names
from studio.drawing.melody.tones import Labels, ToneRead, tones_of
from studio.drawing.melody.tune_part import tune_part
from studio.drawing.otherwise import changes_said, kept
from studio.drawing.themes.theme import Theme
from studio.music.note import Note
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, PartName
from studio.timeline.ask import Ask
from studio.timeline.changes import Changed
from studio.timeline.kind import Composed, Extent, Kind, Mark

MOST_BARS = 32
"""Bars in one callout."""

LEGATO = Fraction(1, 4)
"""Quarter notes by which a note may sound into the next and still be of one line, as played notes do."""

SAID = 24
"""Tones that the words in place of the picture go through."""


class DegreesOptions(CalloutOptions):
    """Options of the degrees callout."""

    part: PartName | None = Field(
        default=None, description="the part that is the line; without it, the song's tune"
    )
    labels: Labels = Field(
        default="degrees", description="what each note is called: over its chord, in its key, or by its name"
    )
    tones: bool = Field(default=True, description="name what the notes do that are not in the chord")


class DegreesKind(Kind):
    """See the module."""

    name = "degrees"
    says = "the tune as a line over the chords: what each note is, and what the foreign ones do"
    example = "{kind: degrees, part: lead}"
    Options = DegreesOptions

    def compose(self, options: DegreesOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        part = tune_part(options.part, ask)
        notes = _line(part, ask, span)
        read = _read(part, options, ask, span, notes)
        bars = _bars(ask, span)
        if len(bars) > MOST_BARS:
            ask.refuse("where", f"{len(bars)} bars are too many for one picture; choose {MOST_BARS} at most")
        slot = options.slot or self.slot(ask.canvas)
        most = ask.room.height / canvas.unit
        line = SungLine(
            canvas=canvas,
            tones=tuple(one.tone for one in read),
            chords=_chords(ask, span),
            rows=(),
            size=ask.theme.sizes.label,
            tallest=most if slot == "card" else min(most, tallest(canvas)),
            keys=_keys(ask, span) if options.labels == "scale degrees" else (),
        )
        found = broken(line, bars, ask.room.width, ask.theme)
        if found is None:
            ask.refuse(
                "labels" if options.labels != "none" else "where",
                "a bar here holds more than can be read on a phone; write 'labels: none', or choose other bars",
            )
        named = with_names(found, ask.room.width, ask.theme)
        found = named if least_units(named, ask.theme) <= most else found
        if least_units(found, ask.theme) > most:
            ask.refuse("slot", "there is not the height for a line here; choose another slot")
        alt = _alt(part, options, found, read) + changes_said(ask, lambda one: _touches(part, one))
        return _composed(found, alt, span, [one for one in ask.changed if not _touches(part, one)])

    def extent(self, content: SungLine, width: int, theme: Theme) -> Extent:
        least = least_units(content, theme)
        return Extent(least, max(least, wanted_units(content, theme)))

    def draw(self, content: SungLine, look: Singing, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_line(content, look, size, theme)

    def marks(self, content: SungLine, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
        return (tick(content, size, theme),)

    def quiet(self, look: Singing, default: Singing) -> Singing:
        return Singing(look.row)


KIND = DegreesKind()


def _line(part: str, ask: Ask, span: Span) -> tuple[Note, ...]:
    """The notes of a part of one voice, in the order of time; refuses what is no line, or has no chords under it."""
    notes = tuple(sorted(ask.notes(part, span), key=lambda note: note.onset))
    if not notes:
        ask.refuse("part", f"'{part}' has no notes in these bars; choose other bars, or another part")
    chords = [at.chord for at in ask.facts.song.chart.within(span)]
    if not chords:
        ask.refuse("where", "no chords are written for these bars; write them under song.chords")
    if not any(chords):
        ask.refuse("where", "no chord sounds in these bars, only N.C.; choose other bars")
    for one, two in pairwise(notes):
        if two.onset == one.onset or one.end - two.onset > LEGATO:
            where = ask.time.moment(max(two.onset, span.start))
            ask.refuse(
                "part", f"'{part}' plays several notes at once at {where}; choose a part that is one line"
            )
    return notes


def _read(
    part: str, options: DegreesOptions, ask: Ask, span: Span, notes: Sequence[Note]
) -> tuple[ToneRead, ...]:
    found = tones_of(ask.melody(part, span), notes, options.labels, options.tones, span, ask)
    if not found:
        ask.refuse("part", f"'{part}' has only grace notes in these bars; choose other bars, or another part")
    if options.labels == "scale degrees" and not any(one.tone.label for one in found):
        ask.refuse("labels", "no key is known here to count in; write it under song.key")
    return found


def _chords(ask: Ask, span: Span) -> tuple[SungChord, ...]:
    return tuple(
        SungChord(max(at.start, span.start), min(at.end, span.end), chord_words(at.chord))
        for at in ask.facts.song.chart.within(span)
    )


def _keys(ask: Ask, span: Span) -> tuple[tuple[Fraction, str], ...]:
    return tuple((where.start, f"in {key}") for where, key, _ in ask.facts.keys_in(span))


def _bars(ask: Ask, span: Span) -> tuple[tuple[Fraction, Fraction], ...]:
    """(start, end) of each bar that the span touches, cut to it."""
    inner = [at for _, at in ask.time.barlines(span) if span.start < at < span.end]
    return tuple(pairwise([span.start, *inner, span.end]))


def _touches(part: str, change: Changed) -> bool:
    """Whether a change is of the line, or of the chords under it."""
    return change.part == part or change.of_harmony


def _composed(line: SungLine, alt: str, span: Span, untouched: Sequence[Changed]) -> Composed:
    states = _states(line, span)
    telling = next((n for n, tone in enumerate(line.tones) if tone.shape == "other tone"), 0)
    at = line.tones[telling].start
    still = Singing(line.row_at(at), telling)
    return Composed(line, states, still, Singing(), alt, still_at=at, changed=kept(states, untouched))


def _states(line: SungLine, span: Span) -> tuple[tuple[Fraction, Fraction, Singing], ...]:
    """One state from each moment at which another tone sounds, or another row begins, to the next."""
    edges = {span.start, span.end, *(row.start for row in line.rows)}
    edges |= {at for tone in line.tones for at in (tone.start, tone.end)}
    states = []
    for start, end in pairwise(sorted(edges)):
        now = next((n for n, tone in enumerate(line.tones) if tone.start <= start < tone.end), None)
        states.append((start, end, Singing(line.row_at(start), now)))
    return tuple(states)


def _alt(part: str, options: DegreesOptions, line: SungLine, read: Sequence[ToneRead]) -> str:
    called = {
        "degrees": "in degrees over its chords",
        "scale degrees": "in degrees of the key",
        "names": "by name",
        "none": "by name",
    }
    said: list[str] = []
    chord: SungChord | None = None
    for tone, spoken in ((one.tone, one.spoken) for one in read[:SAID]):
        over = next((one for one in line.chords if one.start <= tone.start < one.end), None)
        words = " ".join(filter(None, (spoken, f"({tone.names[0]})" if tone.names else "")))
        if over is not chord:
            chord = over
            words = f"over {chord.symbol.text} {words}" if chord else words
        said.append(words.strip())
    more = f", and {len(line.tones) - SAID} more" if len(line.tones) > SAID else ""
    return f"The line of {part} over the chords, {called[options.labels]}: {', '.join(said)}{more}."
