"""Songs of one tune over chords, made by code, and what a callout may ask about them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NoReturn

from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import default_theme
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note, Part
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.episode_values import Canvas
from studio.project.model import Rights, Song
from studio.project.written_part import WrittenPart
from studio.timeline.ask import Ask, Room
from studio.timeline.layout import region
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts
from studio.timeline.state import Box

COMMON_TIME = SongTime(((1, Meter(4, 4)),), ((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2))))
WIDE = Canvas(1920, 1080, Fraction(30), "1920x1080 @ 30")
TALL = Canvas(1080, 1920, Fraction(30), "1080x1920 @ 30")
SQUARE = Canvas(1080, 1080, Fraction(30), "1080x1080 @ 30")


class RefusedError(Exception):
    """A kind refused: (key, sentence)."""


def tune(
    notes: Sequence[Note],
    chords: str | Chart = "",
    key: str | Key | None = None,
    time: SongTime = COMMON_TIME,
    name: str = "lead",
    end: Fraction = Fraction(0),
) -> SongFacts:
    """A song of one part; a chart as text is in 4/4 from bar 1."""
    chart = Chart(read_bars(chords, 1, COMMON_TIME) if chords else ()) if isinstance(chords, str) else chords
    home = Key.parse(key) if isinstance(key, str) else key
    song = Song(
        title="Lamp in the Pantry",
        by="The Borrowed Umbrellas",
        rights=Rights(),
        time=time,
        end=max([end, *(note.end for note in notes), *(at.end for at in chart.chords)]),
        sections=(),
        keys=((Fraction(0), home),) if home else (),
        chart=chart,
        recording=None,
        stems={},
        parts={name: WrittenPart(Part(name, tuple(notes)), time)} if notes else {},
    )
    return SongFacts(song, "relative-to-major")


def asked(facts: SongFacts, span: Span | None, canvas: Canvas = WIDE, slot: SlotName = "lower") -> Ask:
    """An `Ask` over the span, or over the whole song."""

    def refuse(key: str, sentence: str) -> NoReturn:
        raise RefusedError(key, sentence)

    theme = default_theme()
    box = region(slot, canvas, stage_of(theme).slots)
    assert isinstance(box, Box)
    return Ask(
        span=span or Span(Fraction(0), facts.song.end),
        canvas=canvas,
        room=Room(box.width, box.height),
        theme=theme,
        facts=facts,
        fill=lambda text: text,
        complain=refuse,
    )
