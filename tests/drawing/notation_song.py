"""The small song with parts and grooves that are hard to set: sixteenths, two voices, a guitar, drums."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any, NoReturn

from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import Theme, default_theme
from studio.music.groove import Drums, Groove, Stroke
from studio.music.groove_pattern import read_groove
from studio.music.meter import Meter
from studio.music.note import Part
from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.project.model import Section
from studio.project.written_part import WrittenPart
from studio.timeline.ask import Ask, Room
from studio.timeline.kind import Composed
from studio.timeline.layout import region
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts
from studio.timeline.state import Box

from .small_song import TIME, WIDE, RefusedError, bars, facts, notes, room

F = Fraction
SCALE = [
    "C4",
    "D4",
    "Eb4",
    "F#4",
    "G4",
    "Ab4",
    "B4",
    "C5",
    "D5",
    "Eb5",
    "F5",
    "Gb5",
    "G#5",
    "A5",
    "Bb5",
    "C6",
]
SIXTEENTHS = ", ".join(f"{n}/4 {SCALE[n * 7 % 16]} 1/4" for n in range(128))
GUITAR = "0 A3 1, 1 B3 .5, 1.5 C#4 .5, 2 E4 2, 4 F4 1, 5 E#4 1, 6 C#4 1, 7 A3 3, 10 F3 2, 12 B3 4, 12 E3 2, 14 E2 2"
ROCK = {"kick": "x... ..x. x... ....", "snare": ".... X..o .... x...", "hat": "x.x. x.x. x.x. x.x."}
TWO_BARS = {"kick": "| x... .... x... .... | x... .... .... x... |", "hat": "x.x. x.x. x.x. x.x."}


def grooves() -> dict[str, Groove | Drums]:
    late = {0: ("kick", F(1, 100)), 1: ("snare", F(0)), 2: ("kick", F(-1, 80)), 3: ("snare", F(0))}
    played = [Stroke(beat + by, voice) for beat, (voice, by) in late.items()]
    return {
        "rock": read_groove(ROCK, Meter(4, 4)),
        "two": read_groove(TWO_BARS, Meter(4, 4)),
        "waltz": read_groove({"kick": "x..", "hat": ".xx"}, Meter(3, 4)),
        "played": Drums(tuple(played)),
    }


@cache
def song() -> SongFacts:
    base = facts().song
    written = {
        "dense": WrittenPart(Part("dense", notes(SIXTEENTHS)), TIME),
        "guitar": WrittenPart(Part("guitar", notes(GUITAR)), TIME, ("treble 8vb",), ((F(0), 3),)),
    }
    return SongFacts(
        replace(
            base,
            parts={**base.parts, **written},
            grooves=grooves(),
            sections=(Section("verse", bars(2, 5)),),
        ),
        "relative-to-major",
    )


def under_the_presenter() -> Room:
    """The room of the lower third while somebody stands in the middle of a wide picture."""
    box = region("lower", WIDE, stage_of(default_theme()).slots, presenter="middle")
    assert isinstance(box, Box)
    return Room(box.width, box.height)


def staff(
    span: Span,
    canvas: Canvas = WIDE,
    slot: SlotName = "lower",
    width: int | None = None,
    height: int | None = None,
    theme: Theme | None = None,
    **options: Any,
) -> Composed:
    """A staff callout composed in this song, in its slot or in so many pixels; raises RefusedError."""

    def refuse(key: str, sentence: str) -> NoReturn:
        raise RefusedError(key, sentence)

    kind, given = KINDS["staff"], room(canvas, slot)
    ask = Ask(
        span=span,
        canvas=canvas,
        room=Room(width or given.width, height or given.height),
        theme=theme or default_theme(),
        facts=song(),
        fill=str,
        complain=refuse,
    )
    return kind.compose(kind.Options(kind="staff", slot=slot, **options), ask)
