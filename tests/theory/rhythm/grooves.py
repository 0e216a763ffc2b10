"""Short grooves for the tests of this room."""

from fractions import Fraction

from studio.music.groove import Drums, Groove, Stroke
from studio.music.groove_pattern import read_groove
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.theory.rhythm.reading import GrooveReading, groove_reading


def groove(meter: str = "4/4", **lines: str) -> Groove:
    """A groove from a line for each voice, underscores for the spaces of their names."""
    return read_groove({voice.replace("_", " "): line for voice, line in lines.items()}, Meter.parse(meter))


def reading(meter: str = "4/4", **lines: str) -> GrooveReading:
    return groove_reading(groove(meter, **lines))


def song_time(meter: str = "4/4", seconds_a_quarter: str = "1/2", pickup: int = 0) -> SongTime:
    second = Fraction(seconds_a_quarter)
    anchors = ((Fraction(0), Fraction(0)), (Fraction(1), second))
    return SongTime(((1, Meter.parse(meter)),), anchors, Fraction(pickup))


def played(pattern: Groove, bars: int, late: Fraction = Fraction(0), first_bar: int = 1) -> Drums:
    """A pattern played round and round in time, its off-beats (halves of a beat) ``late`` by a part of a beat."""
    loud = {"ghost": 0.25, "plain": 0.6, "accent": 0.9}
    strokes = []
    for bar in range(first_bar - 1, first_bar - 1 + bars):
        for voice, line in pattern.lines:
            for hit in line:
                if int(hit.at) == bar % pattern.bars:
                    beats = hit.at % 1 * pattern.meter.beats
                    beats += late if beats % 1 == Fraction(1, 2) else 0
                    onset = bar * pattern.meter.bar + beats * pattern.meter.beat
                    strokes.append(Stroke(onset, voice, loud[hit.touch]))
    return Drums(tuple(sorted(strokes, key=lambda stroke: (stroke.onset, stroke.voice))))
