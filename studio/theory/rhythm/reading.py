"""What is said of a groove: its backbeat and feel, kicks, timekeeper, swing, syncopation, and names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.groove import Drums, Groove, Hit
from studio.music.kit import BACKBEAT_VOICES, CYMBAL_MARKS
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.rhythm.feel import Feel, Push, feel_of, four_on_the_floor, pushes
from studio.theory.rhythm.named_patterns import NamedPattern, named_patterns
from studio.theory.rhythm.playing import put_on_grid
from studio.theory.rhythm.swing import Swing
from studio.theory.rhythm.syncopation import Syncopation, syncopation
from studio.theory.rhythm.timekeeping import Timekeeper, timekeeper
from studio.theory.rhythm.typical import TypicalBar, repeating_unit, typical_bar
from studio.theory.rhythm.written_swing import SWUNG, swung_pattern, written_swing

_EXACT = 0.9  # sureness of a rhythm that is exactly one with a name
_SKELETON = ("kick", *BACKBEAT_VOICES)


@dataclass(frozen=True, slots=True)
class GrooveReading:
    """A groove, read.

    ``groove`` is its typical bar (or two, or four), without the crashes that mark the form, and ``whole`` a pattern
    with those that are written in it; ``played`` says that it was read from a drum part; ``span`` is where it
    was heard, None for a groove that is only written. ``alike`` and ``varied`` are bar numbers: the song's where it
    was heard, else counted from 1; ``left_out`` are bars of another meter. ``syncopation`` is that of kick, snare,
    clap and side stick together (of all voices where none of them plays), ``kick`` that of the kick alone.
    ``swing`` is measured where the drums were played, else as written; None where nothing tells.
    """

    groove: Groove
    span: Span | None
    feel: Feel
    four_on_the_floor: bool
    pushes: tuple[Push, ...]
    claps: tuple[Fraction, ...]
    timekeeper: Timekeeper | None
    swing: Swing | None
    syncopation: Syncopation
    kick: Syncopation
    names: tuple[NamedPattern, ...]
    alike: tuple[int, ...]
    varied: tuple[int, ...]
    left_out: tuple[int, ...]
    reason: str
    sureness: float
    runner_up: str = ""
    crashes: tuple[tuple[str, tuple[Hit, ...]], ...] = ()
    played: bool = False

    @property
    def whole(self) -> Groove:
        """The groove with the crashes that are written in it."""
        lines = (*self.groove.lines, *self.crashes)
        return Groove.of(self.groove.meter, self.groove.bars, dict(lines))

    @property
    def named_rhythm(self) -> NamedPattern | None:
        """The rhythm with a name that says all of what marks the beat, where there is no backbeat."""
        return _named_rhythm(self.names, self.feel)


def read_groove_over(source: Groove | Drums, time: SongTime, span: Span | None = None) -> GrooveReading:
    """What a project calls a groove, read: a pattern as it is written, a drum part as it is played over the span.

    Without a span a drum part is read from its first bar to its last.
    """
    if isinstance(source, Groove):
        return groove_reading(source, span)
    if span is None:
        onsets = [stroke.onset for stroke in source.strokes] or [Fraction(0)]
        span = time.bars(max(time.bar_at(onsets[0]), 1), max(time.bar_at(onsets[-1]), 1))
    return drums_reading(source, time, span)


def groove_reading(groove: Groove, span: Span | None = None) -> GrooveReading:
    """A groove that is written as a pattern, read whole. Total: a silent groove has nothing to say."""
    return _read(repeating_unit(groove), span)


def _read(typical: TypicalBar, span: Span | None) -> GrooveReading:
    unit = typical.groove.without(*CYMBAL_MARKS)
    feel, keeper = feel_of(unit), timekeeper(unit)
    swung = swung_pattern(keeper, unit)
    names = (*([swung] if swung is not None else []), *named_patterns(unit))
    named = _named_rhythm(names, feel)
    reason = named.reason if named is not None and named.reason else feel.reason
    sure = max(feel.sureness, _EXACT) if named is not None else feel.sureness
    count = len(typical.alike) + len(typical.varied)
    settled = 0.5 + 0.5 * float(typical.share)
    marking = [voice for voice in _SKELETON if voice in unit.voices]  # all voices where none of these plays
    return GrooveReading(
        groove=unit,
        span=span,
        feel=feel,
        four_on_the_floor=four_on_the_floor(unit),
        pushes=pushes(unit),
        claps=unit.onsets("clap"),
        timekeeper=keeper,
        swing=written_swing(keeper, unit),
        syncopation=syncopation(unit.onsets(*marking, ghosts=False), unit.bars, unit.meter),
        kick=syncopation(unit.onsets("kick", ghosts=False), unit.bars, unit.meter),
        names=names,
        alike=typical.alike,
        varied=typical.varied,
        left_out=(),
        reason=f"{reason} {len(typical.alike)} of {count} bars are alike." if typical.varied else reason,
        sureness=round(sure * settled, 2),
        runner_up=feel.runner_up,
        crashes=tuple(line for line in typical.groove.lines if line[0] in CYMBAL_MARKS),
    )


def _named_rhythm(names: Sequence[NamedPattern], feel: Feel) -> NamedPattern | None:
    if not names or feel.backbeat or not set(feel.voices) <= set(names[0].voices):
        return None
    return names[0]


def drums_reading(drums: Drums, time: SongTime, span: Span) -> GrooveReading:
    """A drum part as played over a span, read by its most typical bar. Total: silence is read as silence."""
    played = put_on_grid(drums, time, span)
    read = _read(typical_bar(played.groove), span)
    numbers = dict(enumerate(played.bars, 1))
    swing = played.swing if played.swing is not None else read.swing
    if swing is not None and read.swing is not None and swing.straight and read.swing.straight:
        swing = replace(swing, level=read.swing.level)
    names = read.names
    if swing is not None and swing.straight:
        names = tuple(name for name in names if name.name not in SWUNG)
    return replace(
        read,
        swing=swing,
        names=names,
        alike=tuple(numbers[bar] for bar in read.alike if bar in numbers),
        varied=tuple(numbers[bar] for bar in read.varied if bar in numbers),
        left_out=played.left_out,
        crashes=(),
        played=True,
    )
