"""The questions that a project may ask about its music: what each kind of fact takes, and what it needs.

A fact is a group whose first key is its kind: ``{degree: lead, at: 6.1}``. Kinds that take the same keys share
a shape; a new kind is one line in ``QUESTIONS``.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, ClassVar

from pydantic import BeforeValidator, Field, create_model

from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.project.callouts import GrooveName, GrooveOrPlace, InstantText, PartName, PlaceText
from studio.project.entry import Entry
from studio.project.model import FactAsked, Song
from studio.project.song import chords_in
from studio.project.texts import Text, from_text, one_or_more


@dataclass(frozen=True, slots=True)
class Misfit:
    """Why a song has no answer: the ``key`` whose value has none ("" for the kind's own), and the ``sentence``.

    {written} and {part} in it stand for what the project says. ``for_chords`` is whether chords would help.
    """

    key: str
    sentence: str
    for_chords: bool = False


_SILENT = "There are no chords at '{written}'; write them in song: chords"
_NO_NOTE = "No note of {part} sounds at {written}; name a moment at which one does"
_NO_CHORD = "No chord sounds at {written}, so there is no answer; write one in song: chords"
_NO_NOTES = "There are no notes of {part} at '{written}'; name a stretch in which it plays"


class Question(Entry):
    """A question, with the answer that its writer believes to be right, if they say so."""

    expect: Text = ""
    example: ClassVar[str]

    @abstractmethod
    def asked(self, name: str, kind: str) -> FactAsked:
        """The question as a value."""

    def misfits(self, song: Song) -> Iterator[Misfit]:
        """Why the song has no answer."""
        yield from ()


class OfPlace(Question):
    """Asked of a stretch; ``chords`` says whether chords must sound in it."""

    main: PlaceText
    example = "{{{kind}: verse}}"
    chords: ClassVar[bool] = True

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(name, kind, span=self.main, expect=self.expect)

    def misfits(self, song: Song) -> Iterator[Misfit]:
        if self.chords and not chords_in(song.chart, self.main.start, self.main.end):
            yield Misfit("", _SILENT, for_chords=True)


class OfForm(OfPlace):
    """Asked of a stretch that may have no chords."""

    chords = False


class OfLeading(OfPlace):
    """Asked of the chords of a stretch, or of how a part plays them."""

    part: PartName | None = None

    def asked(self, name: str, kind: str) -> FactAsked:
        parts = (self.part,) if self.part else ()
        return FactAsked(name, kind, span=self.main, parts=parts, expect=self.expect)


class AtMoment(Question):
    """Asked of the chord that sounds at a moment."""

    main: InstantText
    example = "{{{kind}: 6.1}}"

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(name, kind, at=self.main, expect=self.expect)

    def misfits(self, song: Song) -> Iterator[Misfit]:
        if not _chord_at(song, self.main):
            yield Misfit("", _NO_CHORD, for_chords=True)


class OfNote(Question):
    """Asked of the note that a part plays at a moment; ``over_chord`` says whether a chord must sound there."""

    main: PartName
    at: InstantText
    example = "{{{kind}: lead, at: 6.1}}"
    over_chord: ClassVar[bool] = True

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(name, kind, parts=(self.main,), at=self.at, expect=self.expect)

    def misfits(self, song: Song) -> Iterator[Misfit]:
        part = song.parts.get(self.main)
        if part is not None and not any(note.sounds_at(self.at) for note in part.part.notes):
            yield Misfit("at", _NO_NOTE)
        elif self.over_chord and not _chord_at(song, self.at):
            yield Misfit("at", _NO_CHORD, for_chords=True)


class OfNoteInKey(OfNote):
    """Asked of a note whatever sounds under it."""

    over_chord = False


class OfSounding(OfNote):
    """Asked of all that a part, or several parts together, sound at a moment."""

    main: Annotated[  # type: ignore[assignment]
        tuple[PartName, ...], Field(min_length=1), BeforeValidator(one_or_more)
    ]
    over_chord = False
    example = "{{{kind}: keys, at: 6.1}}"

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(name, kind, parts=self.main, at=self.at, expect=self.expect)

    def misfits(self, song: Song) -> Iterator[Misfit]:
        known = [song.parts[name].part.notes for name in self.main if name in song.parts]
        sounding = any(note.sounds_at(self.at) for notes in known for note in notes)
        if len(known) == len(self.main) and not sounding:
            yield Misfit("at", _NO_NOTE)


class OfPart(Question):
    """Asked of what a part plays over a stretch, or over the whole song."""

    main: PartName
    over: PlaceText | None = None
    example = "{{{kind}: lead, over: verse}}"

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(name, kind, parts=(self.main,), span=self.over, expect=self.expect)

    def misfits(self, song: Song) -> Iterator[Misfit]:
        part = song.parts.get(self.main)
        span = self.over or Span(-song.time.pickup, song.end)
        if part is not None and not any(note.sounds_in(span) for note in part.part.notes):
            yield Misfit("over" if self.over else "", _NO_NOTES)


class OfScale(OfPart):
    """Asked of a part over a stretch; the tonic is the key's where none is written."""

    tonic: Annotated[NoteName, from_text(NoteName.parse)] | None = None

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(name, kind, parts=(self.main,), span=self.over, tonic=self.tonic, expect=self.expect)


class OfGroove(Question):
    """Asked of a groove, or of what is different in another one, or in itself at another place."""

    main: GrooveName
    over: PlaceText | None = None
    against: GrooveOrPlace | None = None
    example = "{{{kind}: main}}"

    def asked(self, name: str, kind: str) -> FactAsked:
        return FactAsked(
            name, kind, groove=self.main, span=self.over, against=self.against, expect=self.expect
        )


def _chord_at(song: Song, at: Fraction) -> bool:
    sounding = song.chart.at(at)
    return sounding is not None and sounding.chord is not None


def _questions(shape: type[Question], *kinds: str) -> dict[str, type[Question]]:
    """The shape under each kind's name, which is the key of its ``main`` value in the file."""
    annotation = shape.model_fields["main"].rebuild_annotation()
    return {
        kind: create_model(f"{shape.__name__}: {kind}", __base__=shape, main=(annotation, Field(alias=kind)))
        for kind in kinds
    }


QUESTIONS: dict[str, type[Question]] = {
    **_questions(OfPlace, "numerals", "key", "loop", "cadence", "sequence", "cliche", "pedal", "pace"),
    **_questions(OfLeading, "leading"),
    **_questions(AtMoment, "chord", "numeral", "function"),
    **_questions(OfNote, "degree", "tone"),
    **_questions(OfNoteInKey, "scale degree"),
    **_questions(OfPart, "range", "highest", "lowest", "approaches", "figure"),
    **_questions(OfScale, "mode"),
    **_questions(OfSounding, "voicing", "sounding"),
    **_questions(OfGroove, "groove"),
    **_questions(OfForm, "form", "bars", "key plan"),
}
