"""The chord that sounding notes make, in the context of what comes before and after.

A chord is seldom struck all at once. Over the span of one harmony its notes are collected: arpeggios and
broken chords make one chord; passing and neighbouring notes make none; a fourth that steps down to the third
is a suspension, named as such with the chord to which it resolves. Where whole chords of other notes are
struck inside the span, each of them is named. What the notes are called is ``chord_naming``'s; that the
lowest note may decide between names (C6, Am7/C) is among its rules.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.parts.bass_and_name import name_over_bass, over_bass
from studio.theory.parts.ornaments import ornaments, passing_words
from studio.theory.parts.slices import (
    InOrder,
    Slice,
    belonging_to,
    held_at,
    leading_on,
    slices,
    sounding_in,
)
from studio.theory.parts.suspensions import parted, with_resolutions, without_held_over
from studio.theory.parts.under_chart import SURE_OF_THE_CHART, chord_under

_LATER = Fraction(4)  # quarter notes of what follows in which a suspension may resolve
_COMPLETE = 3  # different notes that make a chord when they sound together
_PASSING_DOUBT = 0.05  # what each note that is passed over takes from the sureness


@dataclass(frozen=True, slots=True)
class Sounding:
    """The chord that sounds over a span.

    ``chord`` is None where fewer than two different notes sound, or what sounds has no name. ``pitches`` are
    the notes that make it, from the bass up (what dips below the bass is put above it); ``passing`` those that
    only pass or are held over. ``resolves_to`` is the chord
    that follows if this one is a suspended fourth that steps down to its third. ``others`` are further names.
    ``sureness`` (0 to 1) is that of the name, less for notes that are passed over.
    """

    span: Span
    pitches: tuple[Pitch, ...]
    chord: Chord | None
    passing: tuple[NoteName, ...] = ()
    resolves_to: Chord | None = None
    others: tuple[Chord, ...] = ()
    reason: str = ""
    sureness: float = 0.0
    runner_up: str = ""


def sounding_at(
    notes: Sequence[Note],
    at: Fraction,
    key: Key | None = None,
    harmony: Span | None = None,
    written: Chord | None = None,
) -> Sounding:
    """The chord at a moment, in quarter notes: of what sounds just then, or over the ``harmony`` around it.

    ``written`` is the chart's chord over that harmony, if there is a chart; see ``sounding_over``. A suspended
    fourth may resolve in the bar after the harmony.
    """
    if harmony is not None and harmony.contains(at):
        found = sounding_over(notes, harmony, key, written)
        later = Span(harmony.end, harmony.end + min(harmony.length, _LATER))
        linked = with_resolutions((*found, sounding_over(notes, later, key)[0]))[:-1]
        return next((one for one in linked if one.span.contains(at)), linked[-1])
    held, span = held_at(notes, at)
    return _named(span, held, (), key)


def sounding_over(
    notes: Sequence[Note], span: Span, key: Key | None = None, written: Chord | None = None
) -> tuple[Sounding, ...]:
    """The chords that sound over the span of one harmony, in order; one of silence if nothing does.

    Notes of the chord that the chart has ``written``, if it is given, are never taken to pass, and what stands for
    that chord has its name: see ``under_chart``.
    """
    inside = belonging_to(notes, span)
    passing = ornaments(inside, span, leading_on(notes, inside, span), written)
    passing = without_held_over(inside, passing, span, key, written)
    kept = [note for note in inside if note not in passing]
    groups = ((group, sounding_in(kept, group)) for group in _groups(kept, span))
    found = []
    for group, sounding in groups:
        for part, tones in parted(group, sounding, key):
            over = [note for note in passing if part.contains(max(note.onset, span.start))]
            found.append(_under(_named(part, tones, over, key), written, key))
    return with_resolutions(_joined(found))


def sounding_through(
    notes: Sequence[Note], harmonies: Sequence[Span], key: Key | None = None
) -> tuple[Sounding, ...]:
    """The chords that sound over each of many harmonies (bars, beats or the chords of a chart), in order."""
    ordered = InOrder(notes)
    found = [one for span in harmonies for one in sounding_over(ordered.near(span), span, key)]
    return with_resolutions(found)


def _groups(notes: Sequence[Note], span: Span) -> Iterator[Span]:
    """The span cut where a whole chord of other notes is struck."""
    start, heard, whole = span.start, frozenset[int](), False
    before: Slice | None = None
    for here in slices(notes, span):
        complete = len(here.pcs) >= _COMPLETE
        if complete and whole and not here.pcs <= heard and not _adds_to(here, before):
            yield Span(start, here.span.start)
            start, heard, whole = here.span.start, frozenset(), False
        heard, whole, before = heard | here.pcs, whole or complete, here
    yield Span(start, span.end)


def _adds_to(here: Slice, before: Slice | None) -> bool:
    """Whether a slice only adds notes to those that were already held."""
    return before is not None and set(before.notes) < set(here.notes)


def _named(span: Span, notes: Sequence[Note], passing: Sequence[Note], key: Key | None) -> Sounding:
    pitches = over_bass(notes, span.start)
    ordered = sorted(passing, key=lambda note: (note.onset, note.pitch.midi))
    names = tuple(dict.fromkeys(note.pitch.name for note in ordered))
    if not pitches:
        return Sounding(span, (), None, names, reason="Nothing sounds here.")
    named = name_over_bass(pitches, key)
    if named is None or named.chord is None:
        only = ", ".join(dict.fromkeys(str(pitch.name) for pitch in pitches))
        reason = f"Only {only} sounds." if named is None else named.reason
        return Sounding(span, pitches, None, names, reason=reason, sureness=1.0 if named is None else 0.0)
    sureness = round(max(0.05, named.sureness - _PASSING_DOUBT * len(names)), 2)
    return Sounding(
        span,
        pitches,
        named.chord,
        passing=names,
        others=named.others,
        reason=named.reason + _passed_over(ordered, span),
        sureness=sureness,
        runner_up=named.runner_up,
    )


def _under(sounding: Sounding, written: Chord | None, key: Key | None) -> Sounding:
    """The sounding with the chart's name if it stands for the chart's chord and would be called otherwise."""
    own, under = sounding.chord, chord_under(sounding.pitches, written, key)
    if written is None or under is None or (own is not None and own.root.pc == under.root.pc):
        return sounding
    rootless = under.root.pc not in {pitch.name.pc for pitch in sounding.pitches}
    called = f"{under.text} without its root" if rootless else under.text
    own_name = f"; by themselves the notes are {own.text}" if own is not None else ""
    return replace(
        sounding,
        chord=under,
        others=(),
        reason=f"Over the chart's {written.text} it is {called}{own_name}.",
        sureness=SURE_OF_THE_CHART,
        runner_up=own.text if own is not None else "",
    )


def _passed_over(notes: Sequence[Note], span: Span) -> str:
    """Said of the notes that make no chord: "B is held over from before.", "D only passes."."""
    held = dict.fromkeys(note.pitch.name for note in notes if note.onset < span.start)
    passing = tuple(dict.fromkeys(note.pitch.name for note in notes if note.pitch.name not in held))
    said = "".join(f" {name} is held over from before." for name in held)
    return f"{said} {passing_words(passing)}." if passing else said


def _joined(found: Sequence[Sounding]) -> list[Sounding]:
    """Neighbours of the same name as one, over both spans."""
    kept: list[Sounding] = []
    for here in found:
        last = kept[-1] if kept else None
        if last is not None and last.chord is not None and last.chord == here.chord:
            pitches = tuple(
                sorted({*last.pitches, *here.pitches}, key=lambda pitch: (pitch.midi, pitch.height))
            )
            passing = tuple(dict.fromkeys((*last.passing, *here.passing)))
            kept[-1] = replace(
                last, span=Span(last.span.start, here.span.end), pitches=pitches, passing=passing
            )
        else:
            kept.append(here)
    return kept
