"""What every callout may say, and the field types with which a kind of callout declares its own options.

A kind (in ``studio.drawing``) names its options and no more::

    class StaffOptions(CalloutOptions):
        part: PartName                                       # a name of song.parts
        labels: Literal["degrees", "chords", "none"] = "degrees"

    class TextOptions(CalloutOptions):
        say: FactText                                        # words with {facts} in them

The project room reads each callout against the song: names are looked up, places become spans, times
become seconds, and whatever does not fit becomes a complaint at its own line and column. A kind never sees a
value that the song does not have. Plain ``int``, ``float``, ``bool``, ``str`` and ``Literal`` fields work
too, and so do pydantic's ``Field(ge=..., le=...)`` and validators that raise
``ValueError("One plain sentence.")``.

Outside a project (in a test, in a script) options are made from values:
``StaffOptions(kind="staff", part="lead", where=Span(Fraction(16), Fraction(24)))``.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any, Literal, Protocol

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo

from studio.music.place import Span
from studio.project.complaints import MisfitError
from studio.project.entry import Entry
from studio.project.number_words import number_meant


class Surroundings(Protocol):
    """What a text is read against. Each method raises `MisfitError` where the text does not fit."""

    def span(self, text: str) -> Span:
        """A stretch of song, in quarter notes."""

    def instant(self, text: str) -> Fraction:
        """A moment of the song, in quarter notes."""

    def seconds(self, text: str) -> Fraction:
        """A time, in seconds."""

    def length(self, text: str) -> Fraction:
        """A length of time in seconds, for which a bare number will do."""

    def seconds_range(self, text: str) -> tuple[Fraction, Fraction]:
        """A stretch of clip time, from and up to."""

    def part(self, name: str) -> str:
        """A name of song.parts."""

    def stem(self, name: str) -> str:
        """A name of song.stems."""

    def groove(self, name: str) -> str:
        """A name of song.grooves."""

    def groove_or_span(self, text: str) -> str | Span:
        """A name of song.grooves, or a stretch of song."""

    def words(self, text: str) -> str:
        """Text whose {facts} all exist; the braces stay, to be filled when the facts are computed."""


def _against(read: Callable[[Surroundings, str], Any], *values: type) -> PlainValidator:
    """A field read from text against the surroundings, or taken as it is when it is a value already."""

    def validate(written: Any, info: ValidationInfo) -> Any:
        surroundings: Surroundings | None = info.context
        if surroundings is None:
            if isinstance(written, values):
                return written
            raise MisfitError(f"outside a project this is a {values[0].__name__}, not {written!r}.")
        if not isinstance(written, str):
            raise MisfitError("this must be a single value, not a list or a group of keys.")
        return read(surroundings, written)

    return PlainValidator(validate)


PlaceText = Annotated[Span, _against(lambda s, text: s.span(text), Span)]
"""A stretch of song, written `5-8` or `verse bar 2`; read, a `Span` in quarter notes from bar 1 beat 1."""

InstantText = Annotated[Fraction, _against(lambda s, text: s.instant(text), Fraction)]
"""A moment of the song, written `6.3`; read, quarter notes from bar 1 beat 1."""

Seconds = Annotated[Fraction, _against(lambda s, text: s.seconds(text), Fraction)]
"""A time, written `1:03.25`, `63.25s` or as timecode; read, exact seconds."""

Length = Annotated[Fraction, _against(lambda s, text: s.length(text), Fraction)]
"""A length of time, written as a time or as a bare number of seconds; read, exact seconds."""

TimeRange = Annotated[tuple[Fraction, Fraction], _against(lambda s, text: s.seconds_range(text), tuple)]
"""A stretch of clip time, written `0:04-0:12`; read, (start, end) in exact seconds."""

PartName = Annotated[str, _against(lambda s, text: s.part(text), str)]
"""The name of one of the song's written parts."""

StemName = Annotated[str, _against(lambda s, text: s.stem(text), str)]
"""The name of one of the song's stems."""

GrooveName = Annotated[str, _against(lambda s, text: s.groove(text), str)]
"""The name of one of the song's grooves."""

GrooveOrPlace = Annotated[str | Span, _against(lambda s, text: s.groove_or_span(text), str, Span)]
"""The name of a groove, or a stretch of song over which one is played."""

FactText = Annotated[str, _against(lambda s, text: s.words(text), str)]
"""Words for the screen; `{name}` stands for the answer of a fact and `{{` for a brace."""


def _pass(written: Any) -> Any:
    """One pass, counted from 1."""
    if isinstance(written, list):
        raise MisfitError(
            "A callout shows in one pass or in each; write one callout for each of these passes"
        )
    if isinstance(written, str) and not written.strip().lstrip("-").isdecimal():
        sentence = f"'{written}' is not the number of a pass; write {number_meant(written) or 2}"
        raise MisfitError(sentence)
    return written


class CalloutOptions(Entry):
    """What every callout may say. A kind adds its own options in a subclass.

    `where`: the stretch of song that the callout speaks about, in quarter notes, or None for all of the
    excerpt. `when`: (start, end) in seconds of clip time at which it shows, or None for as long as the
    excerpt lasts. `slot`: the part of the picture in which it stands, or None for the kind's own. `pass_`: the
    only pass of a repeated excerpt during which it shows, from 1, or None for each.
    """

    kind: str
    where: PlaceText | None = None
    when: TimeRange | None = None
    slot: Literal["lower", "left", "right", "card", "top"] | None = None
    pass_: Annotated[int, BeforeValidator(_pass)] | None = Field(None, alias="pass", ge=1)
