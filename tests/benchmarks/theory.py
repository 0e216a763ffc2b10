"""How long theory takes over a song of 200 chords with a melody of 1,000 notes. Run by hand:

    python -m tests.benchmarks.theory

Each line is the best of three and its share of a song's whole reading, after imports. The aim is one second for
all of it; machines are noisy, so that the shares tell more than the seconds.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from time import perf_counter

from studio.music.chart import Chart, ChordAt
from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.bars import bars_reading
from studio.theory.harmony.keys import infer_keys
from studio.theory.harmony.numerals import read_chart
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.modes import read_mode
from studio.theory.parts.against_chart import against_chart
from studio.theory.parts.figures import read_figures
from studio.theory.parts.voice_leading import leadings
from studio.theory.progression.cadences import find_cadences
from studio.theory.progression.plain_form import plain_form
from studio.theory.progression.sequences import find_sequences

CHORDS = (
    "C",
    "E7",
    "Am7",
    "F",
    "Dm9",
    "G13",
    "Cmaj7",
    "Bb7",
    "A7/C#",
    "Dm",
    "Fm6",
    "C/G",
    "F#dim7",
    "G7sus4",
    "Ab7",
    "G7",
    "Em7b5",
    "A7b9",
    "Dm7",
    "Db7",
)
TIME = SongTime(((1, Meter(4, 4)),), ((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2))))
KEYS = ((Fraction(0), Key.parse("C")),)


def song() -> tuple[Chart, tuple[Note, ...]]:
    """200 bars of one chord each, 5 notes to a bar."""
    symbols = [CHORDS[(7 * place * place + place) % len(CHORDS)] for place in range(200)]
    chords = (
        ChordAt(Fraction(4 * place), Fraction(4), read_chord(name)) for place, name in enumerate(symbols)
    )
    pitches = [Pitch.parse(f"{'CDEFGAB'[(place * place + place // 3) % 7]}4") for place in range(1000)]
    length = Fraction(4, 5)
    return Chart(tuple(chords)), tuple(Note(place * length, length, p) for place, p in enumerate(pitches))


def main() -> None:
    chart, notes = song()
    whole = Span(Fraction(0), Fraction(800))
    readings = read_chart(chart, KEYS)
    tasks: dict[str, Callable[[], object]] = {
        "keys, not written": lambda: infer_keys(chart, (), notes, TIME),
        "numerals": lambda: read_chart(chart, KEYS),
        "melody": lambda: read_melody(notes, chart, keys=KEYS, time=TIME),
        "mode": lambda: read_mode(notes, KEYS[0][1], whole),
        "loop": lambda: plain_form(readings, TIME),
        "cadences": lambda: find_cadences(readings, TIME, (whole,), notes),
        "sequences": lambda: find_sequences(readings),
        "voice leading": lambda: leadings(chart.chords),
        "phrases": lambda: bars_reading(whole, TIME, readings, notes),
        "figures": lambda: read_figures(notes, [at.span for at in chart.chords], KEYS[0][1], chart),
        "against the chart": lambda: against_chart(notes, chart, KEYS),
    }
    taken = {name: min(_seconds(task) for _ in range(3)) for name, task in tasks.items()}
    total = sum(taken.values())
    for name, seconds in taken.items():
        print(f"{name:20}{seconds:8.3f} s{seconds / total:7.0%}")
    print(f"{'all':20}{total:8.3f} s")


def _seconds(task: Callable[[], object]) -> float:
    start = perf_counter()
    task()
    return perf_counter() - start


if __name__ == "__main__":
    main()
