"""The chords that are played beside the chords that the chart writes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key, key_at
from studio.music.note import Note
from studio.theory.parts.plays_chords import Playing, playing, plays_chords
from studio.theory.parts.slices import InOrder
from studio.theory.parts.sounding import Sounding, sounding_over
from studio.theory.parts.suspensions import with_resolutions
from studio.theory.plain_english import listed

Difference = Literal["", "silent", "fewer", "line", "bass", "suspended", "more", "other"]


@dataclass(frozen=True, slots=True)
class Played:
    """A chord of the chart with the chords that sound over it.

    ``difference`` is "" if both are the same; "fewer" if only notes of the written chord sound, but not all;
    "line" if a tune goes over it; "bass" if the same notes sound over another bass; "suspended" if its third only
    comes after a fourth; "more" if the written chord sounds with notes added; "other" for another chord; "silent" if
    nothing sounds but perhaps a single note that tells nothing. Only "more" and "other" contradict the chart, since
    a part may leave notes and the bass to others; they are said of parts that play chords, and never of a tune.
    ``reason`` says both in one sentence.
    """

    written: ChordAt
    soundings: tuple[Sounding, ...]
    difference: Difference
    reason: str

    @property
    def contradicts(self) -> bool:
        """Whether what is played is more than the chart lets one expect: a finding for the musician."""
        return self.difference in ("more", "other")


def against_chart(
    notes: Sequence[Note], chart: Chart, keys: Sequence[tuple[Fraction, Key]] = ()
) -> tuple[Played, ...]:
    """What the notes of one or more parts make of each chord of the chart, in its order.

    ``keys`` are keys with the quarter note from which each holds; they decide spellings.
    """
    ordered = InOrder(notes)
    heard: list[Sounding] = []
    counts: list[int] = []
    over: list[Playing] = []
    for at in chart.chords:
        near, key = ordered.near(at.span), key_at(keys, at.start)
        found = sounding_over(near, at.span, key, at.chord)
        heard += found
        counts.append(len(found))
        over.append(playing(near, at.span, key, at.chord))
    linked, first, played = with_resolutions(heard), 0, []
    for at, count, chords in zip(chart.chords, counts, plays_chords(over), strict=True):
        one = _compare(at, linked[first : first + count])
        played.append(one if chords or one.difference not in _CHORDS_ONLY else _line(one))
        first += count
    return tuple(played)


def _line(played: Played) -> Played:
    written = played.written.chord
    says = "No chord is written" if written is None else f"The chart says {written.text}"
    return replace(played, difference="line", reason=f"{says}; a line of single notes goes over it.")


def _compare(at: ChordAt, soundings: tuple[Sounding, ...]) -> Played:
    named = [sounding for sounding in soundings if sounding.chord is not None]
    sounds = _sequence(named)
    if at.chord is None:
        says = (
            f"The chart has no chord here; {sounds} sounds."
            if named
            else "No chord is written, and none sounds."
        )
        return Played(at, soundings, "other" if named else "", says)
    if not named:
        return _without_chord(at, at.chord, soundings)
    difference = max((_difference(one, at.chord) for one in named), key=_ORDER.index)
    if difference == "fewer":
        return Played(at, soundings, difference, _part_of(at.chord, named))
    if difference == "":
        return Played(at, soundings, difference, f"{at.chord.text} sounds as the chart says.")
    return Played(at, soundings, difference, f"The chart says {at.chord.text}; {sounds} sounds.")


_ORDER: tuple[Difference, ...] = ("", "fewer", "bass", "suspended", "more", "other")
_CHORDS_ONLY = ("bass", "suspended", "more", "other")  # what is said of chords, and never of a tune


def _difference(sounding: Sounding, written: Chord) -> Difference:
    played = frozenset(pitch.name.pc for pitch in sounding.pitches)
    if sounding.resolves_to is not None and sounding.resolves_to.pcs <= written.pcs:
        return "" if played <= written.pcs else "suspended"
    if played <= written.pcs:
        bass = sounding.pitches[0].name.pc
        if bass != written.lowest.pc and len(played) >= 3 and written.root.pc in played:
            return "bass"
        return "" if played == written.pcs else "fewer"
    kept = {(written.root.pc + tone.semitones) % 12 for tone in written.tones if tone.number == 3} <= played
    same_root = sounding.chord is not None and sounding.chord.root.pc == written.root.pc
    return "more" if kept and same_root else "other"


def _without_chord(at: ChordAt, written: Chord, soundings: Sequence[Sounding]) -> Played:
    played = {pitch.name for sounding in soundings for pitch in sounding.pitches}
    foreign = [name for name in sorted(played, key=str) if name.pc not in written.pcs]
    if played and not foreign:
        return Played(at, tuple(soundings), "fewer", _part_of(written, soundings))
    if foreign and len(played) > 1:
        notes = f"{listed([str(name) for name in foreign])} {'is' if len(foreign) == 1 else 'are'}"
        return Played(at, tuple(soundings), "other", f"The chart says {written.text}; {notes} not in it.")
    return Played(at, tuple(soundings), "silent", f"The chart says {written.text}; no chord sounds.")


def _part_of(written: Chord, soundings: Sequence[Sounding]) -> str:
    played = {pitch.name for sounding in soundings for pitch in sounding.pitches}
    names = [str(note) for note in written.notes() if note.pc in {name.pc for name in played}]
    verb = "sounds" if len(names) == 1 else "sound"
    return f"The chart says {written.text}; of it, only {listed(names)} {verb}."


def _sequence(soundings: Sequence[Sounding]) -> str:
    return ", then ".join(sounding.chord.text for sounding in soundings if sounding.chord is not None)
