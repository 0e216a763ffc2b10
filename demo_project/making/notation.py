"""Notes written as text, the way a musician would jot them down, read into events."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from making.song import quarters

_SEMITONES = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}


@dataclass(frozen=True)
class Event:
    """One or more pitches struck together: onset and length in quarters, loudness 0 to 1, and how it is played."""

    onset: Fraction
    length: Fraction
    pitches: tuple[str, ...]
    loudness: float = 0.7
    mark: str = ""

    @property
    def end(self) -> Fraction:
        return self.onset + self.length


def midi_number(pitch: str) -> int:
    """MIDI note number of a spelled pitch: ``F#4`` -> 66, ``Bb3`` -> 58 (middle C is C4, 60)."""
    letter, accidental, octave = pitch[0], pitch[1:-1], int(pitch[-1])
    return 12 * (octave + 1) + _SEMITONES[letter] + accidental.count("#") - accidental.count("b")


def frequency(pitch: str) -> float:
    """Hertz in equal temperament at A4 = 440."""
    return float(440.0 * 2 ** ((midi_number(pitch) - 69) / 12))


def read_line(first_bar: int, text: str, loudness: float = 0.7) -> list[Event]:
    """Read a single line: one text line to a bar, ``pitch length`` pairs, ``r`` rests, ``~`` holds into the next note.

    ``F#4 1.5  E4 .5  A3 2~`` is a dotted quarter, an eighth, and a half note held over the bar line.
    """
    events: list[Event] = []
    held = False
    for bar, line in enumerate(text.strip().splitlines(), start=first_bar):
        words = line.split("|")[0].split()
        position = quarters(bar)
        for pitch, written in zip(words[::2], words[1::2], strict=True):
            length = Fraction(written.rstrip("~"))
            if held and events[-1].pitches == (pitch,):
                last = events.pop()
                events.append(Event(last.onset, last.length + length, last.pitches, loudness))
            elif pitch != "r":
                events.append(Event(position, length, (pitch,), loudness))
            held = written.endswith("~")
            position += length
        expected = quarters(bar + 1) - quarters(bar)
        if position - quarters(bar) != expected:
            raise ValueError(f"bar {bar} should hold {expected} quarters: {line.strip()}")
    return events
