"""A song of eight bars made by code, and what a callout may ask about it."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any, NoReturn

from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import default_theme
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note, Part
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.episode_values import Canvas
from studio.project.model import Rights, Song
from studio.project.written_part import WrittenPart
from studio.timeline.ask import Ask, Room
from studio.timeline.kind import Composed
from studio.timeline.layout import region
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts
from studio.timeline.state import Box

CHART = "| A | C#7 . F#m . | D . Dm . | E/G# . E7sus4 . | A | C#7 . F#m . | D . Dm . | E/G# . E7sus4 . |"
TUNE = "0 A4 1, 1 B4 .5, 1.5 C#5 .5, 2 E5 2, 4 F5 1, 5 E#5 1, 6 C#5 1, 7 A4 3, 10 F4 2, 12 B4 4"
LEFT = "0 A2 4, 4 C#3 2, 6 F#2 2, 8 D3 4, 12 G#2 4"
RIGHT = "0 C#4 4, 0 E4 4, 4 E#4 2, 4 G#4 2, 6 A4 2, 8 F#4 2, 10 F4 2, 12 B4 4, 12 E4 4, 12 E5 4"
TIME = SongTime(((1, Meter(4, 4)),), ((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2))), Fraction(0))
WIDE = Canvas(1920, 1080, Fraction(30), "1920x1080 @ 30")
TALL = Canvas(1080, 1920, Fraction(30), "1080x1920 @ 30")


class RefusedError(Exception):
    """A kind refused: (key, sentence)."""


def notes(text: str, staff: int = 1) -> tuple[Note, ...]:
    """`0 A4 1, …`: onset and length in quarter notes around a pitch."""
    found = []
    for item in text.split(", "):
        onset, pitch, length = item.split()
        found.append(Note(Fraction(onset), Fraction(length), Pitch.parse(pitch), staff))
    return tuple(found)


@cache
def facts() -> SongFacts:
    signatures = ((Fraction(0), 3),)
    keys = tuple(sorted(notes(LEFT, 2) + notes(RIGHT), key=lambda note: (note.onset, note.pitch.midi)))
    song = Song(
        title="Bench by the Canal",
        by="The Paper Kites of Ostrow",
        rights=Rights(),
        time=TIME,
        end=Fraction(32),
        sections=(),
        keys=((Fraction(0), Key.parse("A major")),),
        chart=Chart(read_bars(CHART, 1, TIME)),
        recording=None,
        stems={},
        parts={
            "lead": WrittenPart(Part("lead", notes(TUNE)), TIME, signatures=signatures),
            "keys": WrittenPart(Part("keys", keys), TIME, ("treble", "bass"), signatures),
        },
    )
    return SongFacts(song, "relative-to-major")


def bars(first: int, last: int) -> Span:
    return TIME.bars(first, last)


def room(canvas: Canvas = WIDE, slot: SlotName = "lower") -> Room:
    """The most room that a slot can give."""
    box = region(slot, canvas, stage_of(default_theme()).slots)
    assert isinstance(box, Box)
    return Room(box.width, box.height)


def ask(span: Span | None, canvas: Canvas = WIDE, slot: SlotName = "lower") -> Ask:
    def refuse(key: str, sentence: str) -> NoReturn:
        raise RefusedError(key, sentence)

    return Ask(
        span=span,
        canvas=canvas,
        room=room(canvas, slot),
        theme=default_theme(),
        facts=facts(),
        fill=lambda text: text.replace("{catch}", "♭6"),
        complain=refuse,
    )


def composed(kind: str, span: Span | None, canvas: Canvas = WIDE, **options: Any) -> Composed:
    made = KINDS[kind].Options(kind=kind, **options)
    return KINDS[kind].compose(made, ask(span, canvas, made.slot or KINDS[kind].slot(canvas)))
