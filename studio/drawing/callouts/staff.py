"""The staff callout: engraved bars, what each note is under it, and the notes that sound lit in time.

A part is shown as its notes, as tablature, or as both; a groove as a drum staff. It is what is written, and is lit as
the song goes on, whether or not that part is what is heard. Where a pass is played otherwise, notes that are replaced
are not lit, nor are degrees over a chord that does not sound.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NoReturn

from PIL import Image
from pydantic import Field, field_validator, model_validator

from studio.drawing.frame import CanvasSize
from studio.drawing.notation.arranging import arranged
from studio.drawing.notation.drawn_system import draw_system
from studio.drawing.notation.note_labels import (
    ARROWS,
    Bars,
    bar_edges,
    chords_over,
    holding,
    labels_of_notes,
)
from studio.drawing.notation.scored import Labels, Score, Sound, drum_score, part_score
from studio.drawing.notation.system import Playing, Staff, least_height, page_height, page_of
from studio.drawing.otherwise import changes_said, kept
from studio.drawing.sounding import sounding
from studio.drawing.themes.theme import Theme
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, GrooveName, PartName
from studio.theory.fretboard.named_tunings import read_tuning
from studio.theory.fretboard.tuning import HIGHEST_CAPO
from studio.timeline.ask import Ask
from studio.timeline.changes import Changed
from studio.timeline.kind import Composed, Extent, Kind

_State = tuple[Fraction, Fraction, Playing]

_LOWER_THIRD = 54.0
"""Units that a staff in the lower third takes at most on a canvas that is not tall, if one system fits in that."""

_SAID = {
    "degrees": "Degrees over the chords",
    "scale degrees": "Degrees of the key",
    "intervals": "Intervals",
}


class StaffOptions(CalloutOptions):
    """Options of the staff callout."""

    part: PartName | None = Field(None, description="a part of the song: its notes")
    groove: GrooveName | None = Field(None, description="instead of a part, a groove: a drum staff")
    labels: Labels | None = Field(
        None,
        description="under the notes; intervals are melodic, ↑M2 a major second up to the next note; chords: over the "
        "staff and no more. If nothing is said, a part has degrees and a groove has counts (1 e & a)",
    )
    tab: str | None = Field(
        None,
        description="tablature for a tuning: guitar, bass, DADGAD, …, or open strings, as E2 A2 D3 G3 B3 E4",
    )
    capo: int = Field(0, ge=0, le=HIGHEST_CAPO, description="with tab: the fret that a capo clamps")
    notes: bool = Field(True, description="with tab: notes on a staff over it as well")

    @field_validator("tab")
    @classmethod
    def _known_tuning(cls, tab: str | None) -> str | None:
        if tab is not None:
            read_tuning(tab)
        return tab

    @model_validator(mode="after")
    def _one_source(self) -> StaffOptions:
        if (self.part is None) == (self.groove is None):
            raise ValueError("a staff shows a part or a groove; write one of them, as 'part: lead'.")
        if self.groove is not None and self.tab is not None:
            raise ValueError("drums have no tablature; leave 'tab' out, or name a part.")
        if self.groove is not None and self.labels in _SAID:
            raise ValueError(f"drums have no {self.labels}; write 'labels: counts', 'chords' or 'none'.")
        return self


class StaffKind(Kind):
    """See the module."""

    name = "staff"
    says = "engraved notes, tablature or drums, what each note is under it, and what sounds lit in time"
    example = "{kind: staff, part: lead}"
    slots = ("lower", "card")
    Options = StaffOptions

    def compose(self, options: StaffOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        bars = Bars(ask.time, span)
        labels: Labels = options.labels or ("counts" if options.groove else "degrees")
        score = _score(options, labels, ask, bars)
        plain = Staff(
            canvas=canvas,
            musicxml=score.musicxml,
            across=0,
            space=0,
            labels=score.labels,
            chords=()
            if labels == "none" or (options.groove and labels != "chords")
            else chords_over(ask, bars),
            names=score.names,
        )
        content = _arranged(plain, options.slot or self.slot(ask.canvas), ask)
        if content is None:
            _refuse(plain, options, ask)
        states = tuple(_states(content, span, bars, score.sounds))
        still = next((look for _, _, look in states if look.lit), Playing())
        changed = tuple(_changed(options, labels, content, states, score.sounds, bars, ask))
        alt = _alt(options, labels, score) + changes_said(ask, lambda one: _touches(options, labels, one))
        return Composed(content, states, still, Playing(), alt, changed=changed)

    def extent(self, content: Staff, width: int, theme: Theme) -> Extent:
        return Extent(
            least_height(content, theme), float(math.ceil(page_height(content, theme, content.space)))
        )

    def draw(self, content: Staff, look: Playing, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_system(content, look, size, theme)

    def quiet(self, look: Playing, default: Playing) -> Playing:
        return Playing(look.page)


KIND = StaffKind()


def _score(options: StaffOptions, labels: Labels, ask: Ask, bars: Bars) -> Score:
    if options.groove:
        return drum_score(options.groove, labels, ask, bars)
    tuning = read_tuning(options.tab).with_capo(options.capo) if options.tab else None
    return part_score(options.part or "", labels, ask, bars, tuning, options.notes)


def _arranged(plain: Staff, slot: str, ask: Ask) -> Staff | None:
    """The staff set for its room; where its words do not fit, without the arrows that the notes show as well, and
    where it is too tall, without the names of figures."""
    bare = replace(
        plain, labels=tuple(replace(label, text=label.text.lstrip(ARROWS)) for label in plain.labels)
    )
    short = replace(bare, labels=tuple(replace(label, figure="") for label in bare.labels))
    tried = dict.fromkeys((plain, bare, short))
    return next((found for one in tried if (found := _set(one, _tallest(slot, ask), ask))), None)


def _set(plain: Staff, height: float, ask: Ask) -> Staff | None:
    return arranged(plain, ask.room.width, height, ask.room.height, ask.theme)


def _refuse(plain: Staff, options: StaffOptions, ask: Ask) -> NoReturn:
    """Say what helps, after trying it."""
    bare = replace(plain, labels=(), chords=())
    fewer = {"chords": replace(plain, labels=()), "none": bare} if plain.chords else {"none": bare}
    for word, content in fewer.items():
        if content != plain and _set(content, ask.room.height, ask) is not None:
            ask.refuse("labels", f"the notes leave no room here for these labels; write 'labels: {word}'")
    endless = 10 * ask.canvas.height
    if arranged(bare, ask.room.width, endless, endless, ask.theme) is None:
        ask.refuse("where", "a bar here holds more notes than can be read on a phone; choose other bars")
    ask.refuse(
        "slot" if options.slot else "kind",
        "these notes are taller than its slot gives; choose another slot, another place for the presenter, or bars "
        "whose notes lie nearer together",
    )


def _tallest(slot: str, ask: Ask) -> float:
    """Pixels of height that a staff takes rather than turn pages: all of a card, and about a third elsewhere."""
    if slot == "card":
        return ask.room.height
    return min(ask.room.height, max(_LOWER_THIRD * CanvasSize.of(ask.canvas).unit, ask.canvas.height / 3))


def _states(
    content: Staff, span: Span, bars: Bars, sounds: Sequence[Sound]
) -> Sequence[tuple[Fraction, Fraction, Playing]]:
    """One state from each moment at which what sounds, or what it is, changes to the next."""
    edges = {span.start, span.end, *bar_edges(bars.time, span)}
    edges |= {at for sound in sounds for at in (sound.start, sound.end)}
    edges |= {bars.zero + Fraction(label.at).limit_denominator(1000) for label in content.labels}
    inside = [at for at in edges if span.start <= at <= span.end]
    labels, states = labels_of_notes(content.labels), []
    for start, end, held in sounding(sounds, inside, lambda sound: (sound.start, sound.end)):
        lit, at = tuple(sound.id for sound in held), bars.at(start)
        states.append((start, end, Playing(page_of(content, at), lit, holding(labels, lit, at))))
    return states


def _touches(options: StaffOptions, labels: Labels, change: Changed) -> bool:
    """Whether a change is of what the staff tells: its part, or the chords that its degrees are counted over."""
    return options.part is not None and (
        change.part == options.part or (change.of_harmony and labels == "degrees")
    )


def _changed(
    options: StaffOptions,
    labels: Labels,
    content: Staff,
    states: Sequence[_State],
    sounds: Sequence[Sound],
    bars: Bars,
    ask: Ask,
) -> Iterator[_State]:
    """What is lit in changed passes: of the part that is changed, those notes that sound as they are written."""
    yield from kept(states, [one for one in ask.changed if not _touches(options, labels, one)])
    said, named = {sound.id: sound.said for sound in sounds}, labels_of_notes(content.labels)
    for change in ask.changed:
        if change.part != options.part:
            continue
        for start, end, look in kept(states, [change]):
            heard = {str(note.pitch) for note in change.notes if note.sounds_at(start)}
            lit = tuple(one for one in look.lit if said[one] in heard)
            labelled = () if change.of_harmony else holding(named, lit, bars.at(start))
            yield start, end, replace(look, lit=lit, labels=labelled)


def _alt(options: StaffOptions, labels: Labels, score: Score) -> str:
    if options.groove:
        voices = list(dict.fromkeys(sound.said for sound in score.sounds))
        return f"Drum staff of the groove {options.groove}: {', '.join(voices)}."
    said = [sound.said for sound in score.sounds]
    notes = ", ".join(said[:24]) + (" and more" if len(said) > 24 else "")
    tab = f" with tablature for {options.tab}" if options.tab else ""
    shown = ", ".join(f"{n.text} ({n.figure})" if n.figure else n.text for n in score.labels[:24])
    more = " and more" if len(score.labels) > 24 else ""
    described = f" {_SAID[labels]}: {shown}{more}." if labels in _SAID and shown else ""
    return f"Notation of {options.part}{tab}: {notes}.{described}"
