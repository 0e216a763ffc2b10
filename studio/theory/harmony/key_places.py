"""The places at which a key is asked for: each sounding chord of a chart with all that is known around it.

Where a song has no chords at all, the bars of its melody take their place.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import sqrt
from statistics import median

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.key_loops import Loops, find_loops
from studio.theory.harmony.key_melody import Histogram, Line
from studio.theory.harmony.key_motion import home_sevenths, on_the_way, possible_tonics
from studio.theory.harmony.key_riffs import riff_root

_BAR = Fraction(4)  # quarter notes to a bar where nobody says
_SHORT, _LONG = 0.5, 2.0  # the weight of very short and of very long chords
_LONGER = Fraction(3, 2)  # times the usual length: a chord on which the music comes to rest


@dataclass(frozen=True, slots=True)
class KeyPlace:
    """One sounding chord, or a bar of melody where no chords are (``chord`` is None then).

    ``weight`` grows with the root of the chord's length, 1 for the chart's usual one: twice as long is not
    twice as telling. ``before`` and ``after`` are the neighbouring chords, ``before_that`` what led to
    ``before`` (the song's first chord comes after its last: it may come round), ``came_from`` and ``goes_to``
    the different chords on both sides. ``opens`` and ``closes`` mark the ends of sections, ``first`` the start
    of the song. ``downbeat`` is None where the bars are not known. ``rested`` is whether the chord before was
    longer than usual. ``looping`` is whether a loop of chords is on its way round, ``turns`` whether it begins
    (again) here, ``again`` whether it has been round before. ``breath`` is whether the melody begins anew here,
    ``lands`` the pitch class on which it comes to rest here, None if it does not. ``seventh_tells`` is False
    where most chords of the chart are seventh chords of the blues, so that a seventh makes no dominant.
    ``moving`` is whether the chord is on its way (see ``key_motion``); ``said`` is whether the whole chart is
    on one root and this is not its first bar, which says it all; ``riff`` is, in a chart that has no thirds,
    the pitch class of the root that opens it, comes back and sounds longest; ``tonics`` are the pitch classes
    that may be one: the roots of the chart, and what its dominant sevenths point to; ``homes`` are the pitch
    classes on which a dominant seventh is a tonic.
    """

    span: Span
    chord: Chord | None
    before_that: Chord | None = None
    before: Chord | None = None
    after: Chord | None = None
    came_from: Chord | None = None
    goes_to: Chord | None = None
    weight: float = 1.0
    opens: bool = False
    closes: bool = False
    first: bool = False
    downbeat: bool | None = None
    rested: bool = False
    looping: bool = False
    turns: bool = False
    again: bool = False
    seventh_tells: bool = True
    moving: bool = False
    said: bool = False
    riff: int | None = None
    tonics: frozenset[int] = frozenset(range(12))
    homes: frozenset[int] = frozenset()
    melody: Histogram = ()
    breath: bool = False
    lands: int | None = None


def key_places(
    chart: Chart, sections: Sequence[Span], melody: Sequence[Note], time: SongTime | None
) -> tuple[KeyPlace, ...]:
    """The places of a song in order; none if it has neither chords nor notes."""
    line = Line(melody)
    if all(at.chord is None for at in chart.chords):
        return _melody_places(line, time)
    surveyed = _Survey(chart, sections)
    return tuple(surveyed.place(number, line, time) for number in range(len(surveyed.sounding)))


class _Survey:
    """The chart as a whole: its usual length, its loops, whether it is a blues, and where its sections lie."""

    def __init__(self, chart: Chart, sections: Sequence[Span]) -> None:
        self.sounding = [
            ChordAt(at.start, at.length, _heard(at.chord)) for at in chart.chords if at.chord is not None
        ]
        self._usual = median(at.length for at in self.sounding)
        self._starts = {self.sounding[0].start, *(span.start for span in sections)}
        self._ends = {self.sounding[-1].end, *(span.end for span in sections)}
        openings = [number for number, at in enumerate(self.sounding) if at.start in self._starts]
        self._loops: Loops = find_loops([at.chord for at in self.sounding], openings)
        heard = [at.chord for at in self.sounding if at.chord is not None]
        self._one_root = len({chord.root.pc for chord in heard}) == 1
        self._tonics = possible_tonics(heard)
        self._homes = home_sevenths(heard)
        self._moving = on_the_way(heard, self._homes)
        sevenths = sum(_is_blues_seventh(at.chord) for at in self.sounding)
        self._blues = bool(self._homes) and 2 * sevenths > len(self.sounding)
        self._riff = riff_root(self.sounding)

    def place(self, number: int, line: Line, time: SongTime | None) -> KeyPlace:
        here = self.sounding[number]
        return KeyPlace(
            span=here.span,
            chord=here.chord,
            before_that=self._chord(number - 2),
            before=self._chord(number - 1),
            after=self._chord(number + 1) or self._chord(0),
            came_from=self._different(number, range(number - 1, -1, -1)),
            goes_to=self._different(number, range(number + 1, len(self.sounding))),
            weight=min(_LONG, max(_SHORT, sqrt(here.length / self._usual))),
            opens=here.start in self._starts,
            closes=here.end in self._ends,
            first=number == 0,
            downbeat=None if time is None else time.place(here.start).beat == 1,
            rested=number > 0 and self.sounding[number - 1].length >= _LONGER * self._usual,
            looping=number in self._loops.inside,
            turns=number in self._loops.round,
            again=number in self._loops.again,
            seventh_tells=not self._blues,
            moving=number in self._moving,
            said=number > 0 and self._one_root,
            riff=self._riff,
            tonics=self._tonics,
            homes=self._homes,
            melody=line.histogram(here.span),
            breath=line.breathes_before(here.span),
            lands=line.lands_in(here.span),
        )

    def _chord(self, number: int) -> Chord | None:
        return self.sounding[number].chord if 0 <= number < len(self.sounding) else None

    def _different(self, number: int, others: range) -> Chord | None:
        """The first chord of some others that is not the chord of this number."""
        here = self.sounding[number].chord
        return next((chord for other in others if (chord := self._chord(other)) != here), None)


def _is_blues_seventh(chord: Chord | None) -> bool:
    return chord is not None and chord.triad == "major" and chord.seventh == "♭7"


def _heard(chord: Chord) -> Chord:
    """The chord by its sound: F/G and Dm7/G are heard as G9sus4, whatever is written above the slash."""
    if chord.bass is None or chord.bass_tone is not None:
        return chord
    distance = (chord.bass.pc - chord.root.pc) % 12
    eleventh = (distance, chord.triad) in ((2, "major"), (5, "minor"))
    return Chord.of(chord.bass, "9sus4") if eleventh else chord


def _melody_places(line: Line, time: SongTime | None) -> tuple[KeyPlace, ...]:
    """The bars that hold notes, the first and the last marked as such."""
    if not line.notes:
        return ()
    spans = _bars(line, time)
    return tuple(
        KeyPlace(
            span,
            None,
            first=number == 0,
            opens=number == 0,
            closes=number == len(spans) - 1,
            melody=line.histogram(span),
            breath=line.breathes_before(span),
            lands=line.lands_in(span),
        )
        for number, span in enumerate(spans)
    )


def _bars(line: Line, time: SongTime | None) -> list[Span]:
    """Bars from the first note to the last, of four quarter notes where the meter is not known."""
    start, end = line.notes[0].onset, max(note.end for note in line.notes)
    edges = [start]
    if time is not None:
        edges += [at for _, at in time.barlines(Span(start, end)) if at > start] + [end]
    while edges[-1] < end:
        edges.append(edges[-1] + _BAR)
    return [Span(one, two) for one, two in pairwise(edges)]
