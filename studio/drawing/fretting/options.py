"""What a person may write about a fretboard."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName
from studio.project.callouts import CalloutOptions, PartName
from studio.theory.fretboard.named_tunings import read_tuning
from studio.theory.fretboard.shape import HIGHEST_FRET, read_shape
from studio.theory.fretboard.tuning import HIGHEST_CAPO
from studio.theory.melody.scales import Scale, scale_named

_FRETS = re.compile(r"(\d{1,2})\s*[-–]\s*(\d{1,2})", re.ASCII)
_SCALE = re.compile(r"([A-Ga-g][b♭#♯]?)\s+(.+)")
_SAID = {"minor": "natural minor"}


def _checked(read: Callable[[str], object]) -> AfterValidator:
    """A text that has to be readable; it is kept as it is written."""

    def check(text: str) -> str:
        read(text)
        return text

    return AfterValidator(check)


def read_frets(text: str) -> tuple[int, int]:
    """The first and the last fret of "5-9"; ValueError for what is no range on a neck."""
    found = _FRETS.fullmatch(text.strip())
    if found is None:
        raise ValueError(f"'{text}' is not a range of frets; write the first and the last, as 0-5 or 5-9")
    first, last = int(found[1]), int(found[2])
    if last > HIGHEST_FRET or last - first < 2:
        raise ValueError(
            f"'{text}' does not fit a neck; frets go from 0 to {HIGHEST_FRET}, and the last is at least two "
            "past the first"
        )
    return first, last


def read_scale(text: str) -> tuple[NoteName, Scale]:
    """Tonic and scale of "A minor pentatonic"; ValueError for what is no scale."""
    found = _SCALE.fullmatch(text.strip())
    if found is None:
        raise ValueError(f"'{text}' is not a scale; write its tonic and its name, as A minor pentatonic")
    name = found[2].strip()
    try:
        scale = scale_named(_SAID.get(name.lower(), name))
    except KeyError:
        raise ValueError(
            f"'{name}' is not a scale that is known; write major, minor, minor pentatonic, blues, Dorian or "
            "another mode after the tonic"
        ) from None
    return NoteName.parse(found[1][0].upper() + found[1][1:]), scale


def _chords_named(shapes: dict[str, str]) -> dict[str, str]:
    for chord, shape in shapes.items():
        read_chord(chord)
        read_shape(shape)
    return shapes


class FretboardOptions(CalloutOptions):
    """Options of the fretboard callout."""

    part: PartName | None = Field(None, description="a part, whose notes light up along the neck")
    scale: Annotated[str, _checked(read_scale)] | None = Field(
        None, description="a scale along the neck, as A minor pentatonic; the chord's tones light up"
    )
    shape: Annotated[str, _checked(read_shape)] | None = Field(
        None, description="your own fingering of the one chord, low string first, as x32010"
    )
    shapes: Annotated[dict[str, str], AfterValidator(_chords_named)] = Field(
        default_factory=dict, description="your own fingerings by chord, as {D: xx0232, F#m: 244222}"
    )
    view: Literal["box", "neck"] | None = Field(
        None, description="boxes of the chords, or the neck from above; parts and scales are on the neck"
    )
    labels: Literal["fingers", "degrees", "notes", "none"] | None = Field(
        None, description="fingers in boxes, note names of a part or degrees of a scale, unless you say"
    )
    tuning: Annotated[str, _checked(read_tuning)] = Field(
        "standard", description="a name, as DADGAD or ukulele, or open strings, as D2 A2 D3 F#3 A3 D4"
    )
    capo: int = Field(0, ge=0, le=HIGHEST_CAPO, description="the fret of the capo; frets count from it")
    frets: Annotated[str, _checked(read_frets)] | None = Field(
        None, description="from which fret to which, as 5-9; else where the music lies"
    )
    reach: int | None = Field(None, ge=3, le=7, description="frets that a hand covers, usually 4")
    open: bool = Field(True, description="whether open strings are used")
    hand: Literal["right", "left"] = Field("right", description="the hand that strums; left turns it round")


def chord_shapes(shapes: dict[str, str]) -> dict[Chord, str]:
    """The fingerings that a person gave, by chord."""
    return {read_chord(chord): shape for chord, shape in shapes.items()}
