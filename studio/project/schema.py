"""The groups of the project file and what each key holds.

Each text is converted by its own reader. What depends on the song (places, names) is read with `Known` as
pydantic's context.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BeforeValidator, Field

from studio.music.key import Key
from studio.music.meter import Meter
from studio.project.callouts import FactText, Seconds
from studio.project.complaints import MisfitError
from studio.project.entry import Entry
from studio.project.episode_values import Canvas, read_canvas, read_loudness
from studio.project.extras import read_scratch_voice
from studio.project.segment_id import read_segment_id
from studio.project.sound_text import Ducking, DuckingText, ExcerptText, Narration
from studio.project.texts import Text, from_text, one_or_more, read_tempo, read_text


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


def _chart(text: str) -> str:
    """As it stands, blanks and all, so that the place of a wrong chord in it can be told."""
    read_text(text)
    return text


ChartText = Annotated[str, from_text(_chart)]
Numerals = Literal["relative-to-major", "common-practice"]
Inversions = Literal["figured", "plain"]


class EpisodeText(Entry):
    elsewhere: ClassVar[Mapping[str, str]] = {
        "narration": "belongs to a segment",
        "excerpt": "belongs to a segment",
        "script": "belongs to a segment",
    }

    title: Text | None = None
    canvas: Annotated[Canvas, from_text(read_canvas)] = read_canvas("1920x1080 @ 30")
    theme: Text = "slate"
    numerals: Numerals = "relative-to-major"
    inversions: Inversions = "figured"
    loudness: Annotated[float, from_text(read_loudness)] = -14.0
    ducking: Ducking = DuckingText()
    scratch_voice: Annotated[str, from_text(read_scratch_voice)] = Field("", alias="scratch-voice")
    soundfont: Text | None = None


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
    tempo: Annotated[Fraction, from_text(read_tempo)] | None = None
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


class SegmentText(Entry):
    """`callouts` are checked one by one, each against its own kind."""

    elsewhere: ClassVar[Mapping[str, str]] = {
        "scratch-voice": "belongs to the episode, and speaks every script that nobody has recorded",
        "soundfont": "belongs to the episode",
        **{
            key: f"belongs in 'excerpt', as excerpt: {{where: chorus, {key}: {example}}}"
            for key, example in {
                "stems": "[keys]", "mute": "[drums]", "play": "chords", "repeat": "2", "speed": "80 %",
                "count-in": "1 bar", "click": "yes", "tail": "yes", "fade": "0.05", "feature": "keys",
            }.items()
        },
    }  # fmt: skip

    id: Annotated[str, from_text(read_segment_id)] | None = None
    title: Text | None = None
    at: Seconds | None = None
    script: FactText = ""
    camera: CameraText | None = None
    presenter: Literal["left", "right", "middle"] | None = None
    narration: Narration | None = None
    ducking: Ducking = DuckingText()
    excerpt: ExcerptText | None = None
    callouts: Annotated[list[Any], BeforeValidator(one_or_more)] = Field(default_factory=list)
