"""How a chord is laid out: which note is lowest, how close the notes lie, what is doubled and what is missing.

Inversions count the chord tone in the bass: third, fifth and seventh are the first, second and third inversion.
How close the notes lie is ``spacing``'s.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.chart import Chart
from studio.music.chord import Chord, Tone
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.melody.degree import degree_over
from studio.theory.parts.chord_naming import name_chord
from studio.theory.parts.slices import InOrder, held_at
from studio.theory.parts.spacing import Spacing, spacing
from studio.theory.parts.under_chart import SURE_OF_THE_CHART, chord_under
from studio.theory.plain_english import listed


@dataclass(frozen=True, slots=True)
class Doubling:
    """A chord tone that sounds in more than one octave or voice, and how often."""

    degree: str
    note: NoteName
    times: int


@dataclass(frozen=True, slots=True)
class Voicing:
    """The layout of a chord.

    ``pitches`` run from low to high. ``inversion`` is 0 for root position and None if the lowest note is not
    1, 3, 5 or 7 of the chord (``bass`` is what it is). ``missing`` are the chord's degrees that do not sound;
    ``spread`` is the interval from the lowest to the highest note as letters and half steps, (7, 12) for an
    octave. ``left`` and ``right`` are the pitches of the hands, both empty if one staff has all.
    ``chord`` is None, and everything about it empty, where no chord sounds.
    """

    span: Span
    pitches: tuple[Pitch, ...]
    chord: Chord | None
    bass: str
    inversion: int | None
    spacing: Spacing
    doublings: tuple[Doubling, ...]
    missing: tuple[str, ...]
    spread: tuple[int, int]
    left: tuple[Pitch, ...]
    right: tuple[Pitch, ...]
    reason: str
    sureness: float
    runner_up: str = ""

    @property
    def left_spacing(self) -> Spacing:
        """How close the left hand's notes lie."""
        return spacing(self.left, self.chord)

    @property
    def right_spacing(self) -> Spacing:
        """How close the right hand's notes lie."""
        return spacing(self.right, self.chord)


def voicing_at(
    notes: Sequence[Note], at: Fraction, chord: Chord | None = None, key: Key | None = None
) -> Voicing:
    """The voicing of what sounds at a moment, in quarter notes; ``chord`` is the chart's, if there is one.

    The chart's chord is taken if it holds every note that sounds, or with more on top if the notes stand for that;
    otherwise they are named by themselves.
    """
    held, span = held_at(notes, at)
    left = [note.pitch for note in held if note.staff == 2]
    right = [note.pitch for note in held if note.staff != 2]
    return voicing_of(
        [note.pitch for note in held], chord, key, span, (left, right) if left and right else ((), ())
    )


def read_voicings(
    notes: Sequence[Note], moments: Sequence[Fraction], chart: Chart | None = None, key: Key | None = None
) -> tuple[Voicing, ...]:
    """The voicings at many moments, in quarter notes, with the chart's chords where there is a chart."""
    ordered = InOrder(notes)
    found = []
    for at in moments:
        written = chart.at(at) if chart is not None else None
        near = ordered.near(Span(at, at))
        found.append(voicing_at(near, at, written.chord if written is not None else None, key))
    return tuple(found)


def voicing_of(
    pitches: Sequence[Pitch],
    chord: Chord | None = None,
    key: Key | None = None,
    span: Span | None = None,
    hands: tuple[Sequence[Pitch], Sequence[Pitch]] = ((), ()),
) -> Voicing:
    """The voicing of pitches, in any order; a pitch that two voices share is given twice."""
    ordered = _low_to_high(pitches)
    span = span or Span(Fraction(0), Fraction(0))
    left, right = _low_to_high(hands[0]), _low_to_high(hands[1])
    found, sureness, runner_up = _chord_of(ordered, chord, key)
    if found is None:
        return _without_chord(ordered, span, left, right)
    bass, layout = degree_over(ordered[0].name, found).label, spacing(ordered, found)
    return Voicing(
        span=span,
        pitches=ordered,
        chord=found,
        bass=bass,
        inversion=_inversion(bass),
        spacing=layout,
        doublings=_doublings(ordered, found),
        missing=_missing(ordered, found),
        spread=spread(ordered),
        left=left,
        right=right,
        reason=_reason(ordered, found, bass, layout),
        sureness=sureness,
        runner_up=runner_up,
    )


def _without_chord(
    pitches: tuple[Pitch, ...], span: Span, left: tuple[Pitch, ...], right: tuple[Pitch, ...]
) -> Voicing:
    """What is left to say of a single note, of silence, or of notes that make no chord."""
    names = list(dict.fromkeys(str(pitch.name) for pitch in pitches))
    reason = f"Only {listed(names)} {'sounds' if len(names) == 1 else 'sound'}, which is no chord."
    return Voicing(
        span=span,
        pitches=pitches,
        chord=None,
        bass="",
        inversion=None,
        spacing="",
        doublings=(),
        missing=(),
        spread=spread(pitches),
        left=left,
        right=right,
        reason=reason if pitches else "Nothing sounds here.",
        sureness=1.0 if pitches else 0.0,
    )


def spread(pitches: Sequence[Pitch]) -> tuple[int, int]:
    """The interval from the lowest to the highest pitch, in letters and half steps."""
    if not pitches:
        return 0, 0
    low, high = min(pitches, key=_height), max(pitches, key=_height)
    return high.height - low.height, high.midi - low.midi


def _chord_of(
    pitches: tuple[Pitch, ...], chord: Chord | None, key: Key | None
) -> tuple[Chord | None, float, str]:
    """The chord that the pitches lay out, how sure that is, and the next best name."""
    pcs = {pitch.name.pc for pitch in pitches}
    if chord is not None and len(pcs) > 1 and pcs <= chord.pcs:
        return chord, 1.0, ""
    under = chord_under(pitches, chord, key)
    if under is not None:
        return under, SURE_OF_THE_CHART, name_chord(pitches, key).text
    if len(pcs) < 2:
        return None, 0.0, ""
    named = name_chord(pitches, key)
    return named.chord, named.sureness, named.runner_up


def _inversion(bass: str) -> int | None:
    number = bass.lstrip("♭♯")
    return {"1": 0, "3": 1, "5": 2, "7": 3}.get(number)


def _doublings(pitches: Sequence[Pitch], chord: Chord) -> tuple[Doubling, ...]:
    """The tones that sound more than once, from the root up."""
    counts = Counter(pitch.name.pc for pitch in pitches)
    names = {pitch.name.pc: pitch.name for pitch in reversed(pitches)}
    found = [Doubling(degree_over(names[pc], chord).label, names[pc], n) for pc, n in counts.items() if n > 1]
    return tuple(sorted(found, key=lambda one: int(one.degree.lstrip("♭♯"))))


def _missing(pitches: Sequence[Pitch], chord: Chord) -> tuple[str, ...]:
    sounding = {(pitch.name.pc - chord.root.pc) % 12 for pitch in pitches}
    return tuple(tone.degree for tone in chord.tones if tone.semitones % 12 not in sounding)


def _reason(pitches: Sequence[Pitch], chord: Chord, bass: str, layout: Spacing) -> str:
    notes = ", ".join(str(pitch.name) for pitch in pitches)
    where = f"the {degree_name(bass)}"
    how = f", {layout}" if layout else ""
    return f"From low to high {notes}: {chord.text} with {where} in the bass{how}."


def degree_name(degree: str) -> str:
    """A degree by name: "third" for 3 and ♭3, "seventh" for 7 and ♭7; "♭9" and the like as they are."""
    usual = degree[0] not in "♭♯" or degree in ("♭3", "♭5", "♯5", "♭7", "♭♭7")
    return Tone.of(degree).name if usual else degree


def _low_to_high(pitches: Sequence[Pitch]) -> tuple[Pitch, ...]:
    return tuple(sorted(pitches, key=_height))


def _height(pitch: Pitch) -> tuple[int, int]:
    return pitch.midi, pitch.height
