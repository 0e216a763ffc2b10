"""The demo episode's material, read by outside libraries: music21 for scores, PyYAML for the project file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml

DEMO = Path(__file__).resolve().parents[2] / "demo_project"


@dataclass(frozen=True)
class Sounding:
    """A note as music21 reads it: name without octave (``Bb``, ``F#``), MIDI number, start and end in quarters."""

    name: str
    midi: int
    onset: Fraction
    end: Fraction


@dataclass(frozen=True)
class ChordSymbol:
    """A chord of the chart as it is written in the project file."""

    symbol: str
    start: Fraction
    end: Fraction


class Song:
    """The song as the project file writes it, with just enough arithmetic to find a place in it."""

    def __init__(self, written: dict[str, Any]) -> None:
        self.written = written
        self.sections = {
            name: tuple(int(n) for n in bars.split("-")) for name, bars in written["sections"].items()
        }
        self._lengths = {int(bar): Fraction(meter.split("/")[0]) for bar, meter in written["meter"].items()}
        self.anchors = {int(bar): _seconds(time) for bar, time in written["bars"].items()}

    def bar_length(self, bar: int) -> Fraction:
        return self._lengths[max(first for first in self._lengths if first <= bar)]

    def at(self, bar: int, beat: float = 1) -> Fraction:
        """Quarters from bar 1 beat 1."""
        return sum((self.bar_length(n) for n in range(1, bar)), Fraction(0)) + Fraction(beat) - 1

    def seconds(self, place: Fraction) -> float:
        """Time of a place: linear between the anchors around it."""
        marks = [(self.at(bar), time) for bar, time in self.anchors.items()]
        pairs = list(pairwise(marks))
        (left, early), (right, late) = next((p for p in pairs if place < p[1][0]), pairs[-1])
        return float(early + (place - left) * (late - early) / (right - left))

    def chart(self) -> Iterator[ChordSymbol]:
        for section, (first, _) in self.sections.items():
            last = ""
            for bar, text in enumerate(self.written["chords"][section].strip("| ").split("|"), start=first):
                tokens = text.split()
                slot = self.bar_length(bar) / len(tokens)
                starts = [i for i, token in enumerate(tokens) if token != "."]
                for i, following in zip(starts, [*starts[1:], len(tokens)], strict=True):
                    last = last if tokens[i] == "%" else tokens[i]
                    yield ChordSymbol(last, self.at(bar) + i * slot, self.at(bar) + following * slot)


def _seconds(time: str) -> Fraction:
    minutes, seconds = time.split(":")
    return 60 * Fraction(minutes) + Fraction(seconds)


@lru_cache(maxsize=8)
def read_part(name: str) -> tuple[Sounding, ...]:
    """The notes of a MusicXML part, ties joined, counted from bar 1 beat 1."""
    from music21 import converter

    score = converter.parse(DEMO / "scores" / f"{name}.musicxml")
    found = []
    for staff in score.parts:
        pickup = staff.getElementsByClass("Measure")[0].quarterLength
        for element in staff.stripTies().flatten().notes:
            onset = Fraction(element.offset - pickup)
            for pitch in element.pitches:
                spelled = pitch.name.replace("-", "b")
                found.append(Sounding(spelled, pitch.midi, onset, onset + Fraction(element.quarterLength)))
    return tuple(sorted(found, key=lambda note: (note.onset, note.midi)))


@pytest.fixture(scope="session")
def project() -> dict[str, Any]:
    text = (DEMO / "project.yaml").read_text(encoding="utf-8")
    found: dict[str, Any] = yaml.load(text, Loader=yaml.BaseLoader)
    return found


@pytest.fixture(scope="session")
def song(project: dict[str, Any]) -> Song:
    return Song(project["song"])
