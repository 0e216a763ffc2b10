"""Small songs to play from, made by code."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note, Part
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.model import Instead, Play, Rights, Song
from studio.project.written_part import WrittenPart
from studio.timeline.heard import Tone
from studio.timeline.song_facts import SongFacts

TIME = SongTime(((1, Meter(4, 4)),), ((Fraction(0), Fraction(1, 2)), (Fraction(4), Fraction(5, 2))))
"""4/4 at 120 beats a minute; bar 1 starts half a second into the recording."""

CHORDS = Play("chords", "chords")


def song(
    chords: str = "",
    parts: Mapping[str, Sequence[Note]] | None = None,
    key: str = "C",
    time: SongTime = TIME,
) -> SongFacts:
    """A song with a chart from bar 1 and some parts."""
    chart = Chart(read_bars(chords, 1, time) if chords else ())
    notes = {name: WrittenPart(Part(name, tuple(written)), time) for name, written in (parts or {}).items()}
    ends = [at.end for at in chart.chords] + [note.end for part in notes.values() for note in part.part.notes]
    made = Song(
        title="Lamp in the Pantry",
        by="The Borrowed Umbrellas",
        rights=Rights(),
        time=time,
        end=max(ends, default=Fraction(4)),
        sections=(),
        keys=((Fraction(0), Key.parse(key)),),
        chart=chart,
        recording=None,
        stems={},
        parts=notes,
    )
    return SongFacts(made, "relative-to-major")


def bars(first: int, last: int, time: SongTime = TIME) -> Span:
    return time.bars(first, last)


def change(sound: str, start: float | Fraction, end: float | Fraction | None = None) -> Instead:
    """`sound` in place of what is written from one moment to another, in quarters, or at one moment."""
    at = Fraction(start)
    return Instead(Span(at, at if end is None else Fraction(end)), sound)


def struck_at(tones: Sequence[Tone]) -> dict[int, list[int]]:
    """The MIDI numbers that start at each sample, from low to high."""
    found: dict[int, list[int]] = {}
    for tone in tones:
        found.setdefault(tone.start, []).append(tone.midi)
    return {at: sorted(midis) for at, midis in found.items()}
