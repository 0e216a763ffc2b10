"""Contents to draw, with music of our own: a chart in A major, a melody, a keyboard part, words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from studio.drawing.callouts.progression import Progression, Step
from studio.drawing.callouts.text import Words
from studio.drawing.chart.chart import ChartBar, ChartCell
from studio.drawing.chart.lane import Chords, Sounding
from studio.drawing.frame import CanvasSize
from studio.drawing.instruments.keys import HeldKey, Holding, Keyboard
from studio.drawing.lettering.symbols import NumeralWords as N
from studio.drawing.lettering.symbols import SymbolWords as S
from studio.drawing.notation.system import ChordOver, NoteLabel, Playing, Staff

WIDE, TALL, SQUARE = CanvasSize(1920, 1080), CanvasSize(1080, 1920), CanvasSize(1080, 1080)
SMALL = CanvasSize(1280, 720)


@dataclass(frozen=True)
class Sample:
    """One look of one content, as a callout would be drawn."""

    name: str
    kind: str
    content: Any
    look: Any


_FOUR = (
    ChartCell(0, 1, S("A", "", "add9"), N("I", raised="add9"), ("in A major",)),
    ChartCell(1, 1.5, S("C♯", "", "7"), N("V", raised="7", of="vi"), aims=True),
    ChartCell(1.5, 2, S("F♯", "m"), N("vi")),
    ChartCell(2, 2.5, S("D"), N("IV")),
    ChartCell(2.5, 3, S("D", "m"), N("iv"), ("borrowed from A minor", "borrowed")),
    ChartCell(3, 3.5, S("E", "", "", "G♯"), N("V", figures=("6",))),
    ChartCell(3.5, 4, S("E", "", "7sus4"), N("V", raised="7sus4")),
)
_EIGHT = (
    *_FOUR,
    ChartCell(4, 5, S("F♯", "ø", "7"), N("vi", raised="ø7")),
    ChartCell(5, 5.5, S("B♭", "maj", "7♯11"), N("II", "♭", "maj7♯11"), ("borrowed from A minor", "borrowed")),
    ChartCell(5.5, 6, S("A", "", "5"), N("I", raised="5")),
    ChartCell(6, 7, S("F♯", "m", "7", "C♯"), N("vi", figures=("4", "3")), ("= ii in E major", "= ii")),
    ChartCell(7, 7.5, S("B", "", "7"), N("V", raised="7"), ("in E major",)),
    ChartCell(7.5, 8, S("E"), N("I")),
)


def bars(count: int) -> tuple[ChartBar, ...]:
    return tuple(ChartBar(5 + number) for number in range(count))


def chords(canvas: CanvasSize, long: bool = False) -> Chords:
    return Chords(canvas, bars(8), _EIGHT) if long else Chords(canvas, bars(4), _FOUR)


def melody_xml(count: int = 4) -> str:
    """A little tune in A major as MusicXML, five notes to a bar, ids n0, n1, …"""
    tune = (("A", 0, 4, 4), ("B", 0, 4, 2), ("C", 1, 5, 2), ("E", 0, 5, 4), ("D", 0, 5, 4))
    names, beams = {4: "quarter", 2: "eighth"}, {1: "begin", 2: "end"}
    head = (
        "<attributes><divisions>4</divisions><key><fifths>3</fifths></key><time><beats>4</beats>"
        "<beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>"
    )
    measures = []
    for bar in range(count):
        notes = [
            f'<note id="n{bar * 5 + n}"><pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}'
            f"</octave></pitch><duration>{length}</duration><type>{names[length]}</type>"
            + (f'<beam number="1">{beams[n]}</beam>' if n in beams else "")
            + "</note>"
            for n, (step, alter, octave, length) in enumerate(tune)
        ]
        measures.append(f'<measure number="{bar + 5}">{"" if bar else head}{"".join(notes)}</measure>')
    return (
        '<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>lead</part-name>'
        f'</score-part></part-list><part id="P1">{"".join(measures)}</part></score-partwise>'
    )


def staff(canvas: CanvasSize) -> Staff:
    degrees = [
        "1",
        "9",
        "3",
        "5",
        "4",
        "♭13",
        "♭7",
        "1",
        "♭7",
        "♭6",
        "5",
        "6",
        "7",
        "9",
        "1",
        "4",
        "5",
        "6",
        "1",
        "♭7",
    ]
    onsets = (0.0, 1.0, 1.5, 2.0, 3.0)
    labels = tuple(
        NoteLabel(
            f"n{n}", onsets[n % 5] + n // 5 * 4, text, {13: "appoggiatura", 15: "appoggiatura"}.get(n, "")
        )
        for n, text in enumerate(degrees)
    )
    over = (
        ChordOver(S("A", "", "add9"), 0),
        ChordOver(S("C♯", "", "7"), 4),
        ChordOver(S("F♯", "m"), 6),
        ChordOver(S("D", "m"), 8),
        ChordOver(S("E", "", "", "G♯"), 12),
    )
    return Staff(canvas, melody_xml(), round((canvas.lane / canvas.unit - 6) / 2.75, 2), 2.75, labels, over)


def samples(canvas: CanvasSize) -> tuple[Sample, ...]:
    keyboard = Keyboard(canvas, 48, 83, True)
    held = Holding(
        (HeldKey(54, "F♯", 2), HeldKey(61, "C♯", 2), HeldKey(69, "A"), HeldKey(73, "C♯"), HeldKey(76, "E"))
    )
    loop = Progression(
        canvas,
        "The verse",
        "in A major",
        4,
        (
            Step(N("I"), S("A")),
            Step(N("V", raised="7", of="vi"), S("C♯", "", "7")),
            Step(N("vi"), S("F♯", "m")),
            Step(N("iv"), S("D", "m")),
        ),
    )
    said = "The tune lands on ♭6 over F♯m, a half step above the note the ear is waiting for"
    return (
        Sample("chords", "chords", chords(canvas), Sounding(1)),
        Sample("chords, long", "chords", chords(canvas, long=True), Sounding(8)),
        Sample("progression", "progression", loop, None),
        Sample("staff", "staff", staff(canvas), Playing(0, ("n4",), (4,))),
        Sample("keyboard", "keyboard", keyboard, held),
        Sample("text", "text", Words(canvas, said), None),
    )
