"""The groups of the project file and what each key holds.

Each text is converted by its own reader. What depends on the song (places, names) is read with `Known` as
pydantic's context.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo

from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.place import Span
from studio.project.callouts import FactText, Length, Seconds, StemName
from studio.project.complaints import MisfitError
from studio.project.entry import Entry
from studio.project.episode_values import Canvas, read_canvas, read_loudness
from studio.project.segment_id import read_segment_id


def from_text(read: Callable[[str], Any]) -> PlainValidator:
    """A field that is converted from its text by its own reader."""

    def validate(written: Any) -> Any:
        if not isinstance(written, str):
            raise MisfitError("This must be a single value, not a list or a group of keys")
        return read(written)

    return PlainValidator(validate)


def _text(text: str) -> str:
    if not text.strip():
        raise MisfitError("This is empty; write the words, or leave the key out")
    return text.strip()


def _number(text: str) -> Fraction:
    if not re.fullmatch(r"\d{1,4}(\.\d{1,6})?", text.strip(), re.ASCII):
        raise MisfitError(f"'{text}' is not a number")
    return Fraction(text.strip())


def _tempo(text: str) -> Fraction:
    tempo = _number(text.strip()) if not text.strip().isdecimal() else Fraction(text.strip())
    if not 20 <= tempo <= 400:
        raise MisfitError(f"'{text}' is no tempo; beats a minute go from 20 to 400")
    return tempo


def _pickup(text: str) -> Fraction:
    """Beats: `1`, `0.5`, `1/2` or `1+1/2`."""
    if re.fullmatch(
        r"\d{1,2}(\+\d{1,2}/[1-9]\d?)?|\d{1,2}/[1-9]\d?|\d{1,2}\.\d{1,4}", text.strip(), re.ASCII
    ):
        return sum((Fraction(piece) for piece in text.strip().split("+")), Fraction(0))
    raise MisfitError(f"'{text}' is not a number of beats; write the beats before bar 1, as 1 or 1/2")


_MODE = re.compile(r"\s*(\S+)\s+(dorian|phrygian|locrian|aeolian|lydian|mixolydian|ionian)\s*", re.IGNORECASE)
_LIKE_MINOR = ("dorian", "phrygian", "locrian", "aeolian")


def _key(text: str) -> Key:
    if mode := _MODE.fullmatch(text):
        parallel = f"{mode[1]} {'minor' if mode[2].lower() in _LIKE_MINOR else 'major'}"
        raise MisfitError(
            f"'{text}' is a mode, and a key here is major or minor: write {parallel}, which has the same third, "
            "and ask for the mode with a fact, as {mode: lead}"
        )
    key = Key.parse(text)
    if abs(key.signature) > 7:
        raise MisfitError(
            f"'{text}' would need {abs(key.signature)} accidentals; write it as the key that sounds the same"
        )
    return key


def _from_bar_1(written: Any) -> Any:
    """A value that holds for the whole song stands for one that holds from bar 1."""
    return written if isinstance(written, dict) else {"1": written}


def one_or_more(written: Any) -> Any:
    """One name stands for a list of one."""
    return [written] if isinstance(written, str | dict) else written


def _chart(text: str) -> str:
    """As it stands, blanks and all, so that the place of a wrong chord in it can be told."""
    _text(text)
    return text


Text = Annotated[str, from_text(_text)]
ChartText = Annotated[str, from_text(_chart)]
Numerals = Literal["relative-to-major", "common-practice"]
Inversions = Literal["figured", "plain"]


class EpisodeText(Entry):
    title: Text | None = None
    canvas: Annotated[Canvas, from_text(read_canvas)] = read_canvas("1920x1080 @ 30")
    theme: Text = "slate"
    numerals: Numerals = "relative-to-major"
    inversions: Inversions = "figured"
    loudness: Annotated[float, from_text(read_loudness)] = -14.0


class RightsText(Entry):
    recording: Text = ""
    composition: Text = ""
    licence: Text = ""


class SongText(Entry):
    """Keys of `meter`, `key`, `bars`, `sections` and `chords` stay text here and are read in their order."""

    title: Text | None = None
    by: Text = ""
    rights: RightsText = RightsText()
    key: Annotated[dict[str, Annotated[Key, from_text(_key)]], BeforeValidator(_from_bar_1)] = Field(
        default_factory=dict
    )
    meter: Annotated[dict[str, Annotated[Meter, from_text(Meter.parse)]], BeforeValidator(_from_bar_1)] = (
        Field(default_factory=lambda: {"1": Meter(4, 4)})
    )
    pickup: Annotated[Fraction, from_text(_pickup)] = Fraction(0)
    tempo: Annotated[Fraction, from_text(_tempo)] | None = None
    bars: dict[str, Seconds] = Field(default_factory=dict)
    sections: dict[str, Text] = Field(default_factory=dict)
    chords: dict[str, ChartText] = Field(default_factory=dict)
    recording: Text | None = None
    stems: dict[str, Text] = Field(default_factory=dict)
    parts: dict[str, Text] = Field(default_factory=dict)
    grooves: dict[str, Any] = Field(default_factory=dict)  # read by studio.project.grooves


class CameraText(Entry):
    take: Text
    start: Seconds | None = Field(None, alias="from")
    end: Seconds | None = Field(None, alias="to")
    sound: bool | None = None


class FadesText(Entry):
    """Lengths of the fade at each end, in seconds."""

    start: Length | None = Field(None, alias="in")
    end: Length | None = Field(None, alias="out")


def _both_ends(written: Any) -> Any:
    return {"in": written, "out": written} if isinstance(written, str) else written


def _stretch(written: Any, info: ValidationInfo) -> Any:
    if not isinstance(written, str):
        raise MisfitError(
            "This must be one place or one stretch of time, such as verse bars 1-4 or 1:03-1:10"
        )
    assert info.context is not None
    return info.context.stretch(written)


class ExcerptText(Entry):
    where: Annotated[tuple[Span, tuple[Fraction, Fraction]], PlainValidator(_stretch)]
    stems: Annotated[list[StemName], BeforeValidator(one_or_more)] = Field(default_factory=list)
    fade: Annotated[FadesText, BeforeValidator(_both_ends)] = Field(
        default_factory=lambda: FadesText.model_validate({})
    )
    at: Length = Fraction(0)


class SegmentText(Entry):
    """`callouts` are checked one by one, each against its own kind."""

    id: Annotated[str, from_text(read_segment_id)] | None = None
    title: Text | None = None
    at: Seconds | None = None
    script: FactText = ""
    camera: CameraText | None = None
    presenter: Literal["left", "right", "middle"] | None = None
    excerpt: ExcerptText | None = None
    callouts: Annotated[list[Any], BeforeValidator(one_or_more)] = Field(default_factory=list)
