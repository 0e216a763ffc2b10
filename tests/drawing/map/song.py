"""Songs made by code for maps: sections, keys and chords as written, a pickup, and a tempo that changes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path
from typing import Any, NoReturn

from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import Theme, default_theme, read_theme, theme_names, theme_path
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.episode_values import Canvas
from studio.project.media import Media
from studio.project.model import Excerpt, Rights, Section, Song
from studio.timeline.ask import Ask, Room
from studio.timeline.kind import Composed
from studio.timeline.layout import region
from studio.timeline.listening import Listen, deaf
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts
from studio.timeline.state import Box

WIDE = Canvas(1920, 1080, F(30), "1920x1080 @ 30")
TALL = Canvas(1080, 1920, F(30), "1080x1920 @ 30")
SQUARE = Canvas(1080, 1080, F(30), "1080x1080 @ 30")
CANVASES = (WIDE, TALL, SQUARE)
THEMES = {name: read_theme(theme_path(name)) for name in theme_names()}

_SIZES = default_theme().sizes
RESIZED = {
    words: replace(default_theme(), sizes=replace(_SIZES, **sizes))
    for words, sizes in {
        "small 40": {"small": 40.0},
        "small 60": {"small": 60.0},
        "label 56": {"label": 56.0},
        "small 44, label 90": {"small": 44.0, "label": 90.0},
        "label 28": {"label": 28.0},
        "small 400, label 400": {"small": 400.0, "label": 400.0},
    }.items()
}
"""The usual theme with other sizes of type, as a person may write them (28 to 400)."""

# Eight bars at 120, then slower: bar 9 and all that follow last three seconds. Bar 12 is a bar of two.
TIME = SongTime(
    ((1, Meter(4, 4)), (12, Meter(2, 4)), (13, Meter(4, 4))),
    ((F(0), F(1)), (F(32), F(17)), (F(36), F(20))),
    F(1),
)
LOOP = "| A | D | E | A |"
SECTIONS = {"intro": (1, 2), "verse": (3, 6), "chorus": (7, 10), "verse 2": (11, 14), "chorus 2": (15, 18)}


class RefusedError(Exception):
    """A kind refused: (key, sentence)."""


def facts(
    sections: Mapping[str, tuple[int, int]] = SECTIONS,
    keys: Mapping[int, str] | None = None,
    chart: str = "",
    stems: Mapping[str, Path] | None = None,
    time: SongTime = TIME,
    bars: int = 18,
) -> SongFacts:
    """The facts of a song of so many bars; `keys` by the bar in which they begin, inferred where there are none."""
    song = Song(
        title="The Long Way to the Ferry",
        by="The Paper Kites of Ostrow",
        rights=Rights(),
        time=time,
        end=time.bar_start(bars + 1),
        sections=tuple(Section(name, time.bars(*bars)) for name, bars in sections.items()),
        keys=tuple((time.bar_start(bar), Key.parse(key)) for bar, key in (keys or {}).items()),
        chart=Chart(read_bars(chart, 1, time)) if chart else Chart(()),
        recording=None,
        stems={name: Media(path, F(60), True, False) for name, path in (stems or {}).items()},
        parts={},
    )
    return SongFacts(song, "relative-to-major")


def composed(
    kind: str,
    about: SongFacts,
    canvas: Canvas = WIDE,
    *,
    span: Span | None = None,
    excerpt: Excerpt | None = None,
    listen: Listen = deaf,
    slot: SlotName | None = None,
    theme: Theme | None = None,
    **options: Any,
) -> Composed:
    """What a kind decides to show of a song. A span is also what the segment plays, if no excerpt is given."""
    if span is not None and excerpt is None:
        excerpt = Excerpt(TIME.seconds(span.start), TIME.seconds(span.end), span, (), (), F(0), F(0))
    made = KINDS[kind].Options(kind=kind, slot=slot, **options)
    return KINDS[kind].compose(made, ask(kind, about, canvas, span, excerpt, listen, slot, theme))


def ask(
    kind: str,
    about: SongFacts,
    canvas: Canvas = WIDE,
    span: Span | None = None,
    excerpt: Excerpt | None = None,
    listen: Listen = deaf,
    slot: SlotName | None = None,
    theme: Theme | None = None,
) -> Ask:
    def refuse(key: str, sentence: str) -> NoReturn:
        raise RefusedError(key, sentence)

    room = region(slot or KINDS[kind].slot(canvas), canvas, stage_of(default_theme()).slots)
    assert isinstance(room, Box)
    return Ask(
        span=span,
        canvas=canvas,
        room=Room(room.width, room.height),
        theme=theme or default_theme(),
        facts=about,
        fill=str,
        complain=refuse,
        excerpt=excerpt,
        listen=listen,
    )
