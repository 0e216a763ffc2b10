"""Short charts and lines for the tests of this room."""

from fractions import Fraction

from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.songtime import SongTime
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import Reading, Style

COMMON_TIME = SongTime(((1, Meter(4, 4)),), ((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2))))


def chart(bars: str, first_bar: int = 1) -> Chart:
    """A chart in 4/4 from its text; words without bar lines are one bar each."""
    text = bars if "|" in bars else " | ".join(bars.split())
    return Chart(read_bars(text, first_bar, COMMON_TIME))


def readings(bars: str, key: str, style: Style = "relative-to-major") -> tuple[Reading, ...]:
    return read_chart(chart(bars), ((Fraction(0), Key.parse(key)),), style)


def numerals(bars: str, key: str, style: Style = "relative-to-major") -> str:
    return " ".join(reading.numeral or "N.C." for reading in readings(bars, key, style))


def line(text: str) -> tuple[Note, ...]:
    """Notes from "E4 F4:2 r:1 G4:1/2": pitch and length in quarter notes (1 if not said), r for a rest."""
    notes: list[Note] = []
    at = Fraction(0)
    for token in text.split():
        name, _, written = token.partition(":")
        length = Fraction(written or 1)
        if name != "r":
            notes.append(Note(at, length, Pitch.parse(name)))
        at += length
    return tuple(notes)
