"""Facts that can be heard by themselves: the chord at a moment, the notes of a voicing, the scale of a mode or key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from studio.music.chord import Chord
from studio.music.pitch import Pitch
from studio.project.model import FactAsked
from studio.theory.melody.modes import read_mode
from studio.theory.melody.scales import scale_named
from studio.theory.parts.slices import held_at
from studio.theory.plain_english import listed
from studio.timeline.playing.on_tonic import OnTonic
from studio.timeline.song_facts import SongFacts


@dataclass(frozen=True, slots=True)
class Pitches:
    """Notes that sound together, as they lie."""

    pitches: tuple[Pitch, ...]


def fact_played(fact: FactAsked, facts: SongFacts) -> Chord | Pitches | OnTonic:
    """What a fact sounds like. Raises ValueError, in one plain sentence, where it is nothing that can be played."""
    if fact.kind not in PLAYED:
        kinds = listed(sorted(PLAYED), last="or")
        raise ValueError(
            f"'{fact.name}' is a fact of {fact.kind}, which is not played by itself; name one of {kinds}"
        )
    return PLAYED[fact.kind](fact, facts)


def _chord(fact: FactAsked, facts: SongFacts) -> Chord:
    assert fact.at is not None
    chord = facts.chord(fact.at)
    if chord is None:
        raise ValueError(f"no chord sounds at {facts.song.time.moment(fact.at)}; write one in song: chords")
    return chord


def _pitches(fact: FactAsked, facts: SongFacts) -> Pitches:
    assert fact.at is not None
    held, _ = held_at(facts.together(fact.parts), fact.at)
    if not held:
        moment = facts.song.time.moment(fact.at)
        raise ValueError(
            f"no note of {listed(fact.parts)} sounds at {moment}; name a moment at which one does"
        )
    by_height = {note.pitch.midi: note.pitch for note in held}
    return Pitches(tuple(by_height[midi] for midi in sorted(by_height)))


def _mode(fact: FactAsked, facts: SongFacts) -> OnTonic:
    span = facts.span(fact)
    notes = facts.notes(fact.parts[0], span)
    if not notes:
        raise ValueError(
            f"{fact.parts[0]} plays nothing in {facts.words(span)}; name a stretch in which it plays"
        )
    home = fact.tonic or facts.home(max(notes[0].onset, span.start))
    found = read_mode(notes, home, span, facts.melody(fact.parts[0], span))
    names = [f"{found.tonic} {one.scale.name}" for one in found.candidates]
    if found.scale is None:
        open_between = f"is open between {listed(names)}" if names else "finds no scale"
        raise ValueError(
            f"'{fact.name}' {open_between}; choose one, as {{scale: {(names or ['D Dorian'])[0]}}}"
        )
    return OnTonic.of(found.tonic, found.scale)


def _key(fact: FactAsked, facts: SongFacts) -> OnTonic:
    keys = list(dict.fromkeys(key for _, key, _ in facts.keys_in(facts.span(fact))))
    if len(keys) != 1:
        told = f"goes through {listed(map(str, keys))}" if keys else "finds no key"
        raise ValueError(
            f"'{fact.name}' {told}; choose one scale, as {{scale: {keys[0] if keys else 'D major'}}}"
        )
    return OnTonic.of(keys[0].tonic, scale_named("natural minor" if keys[0].mode == "minor" else "major"))


PLAYED: Mapping[str, Callable[[FactAsked, SongFacts], Chord | Pitches | OnTonic]] = {
    "chord": _chord,
    "numeral": _chord,
    "function": _chord,
    "voicing": _pitches,
    "sounding": _pitches,
    "mode": _mode,
    "key": _key,
}
"""The kinds of fact that are played by themselves."""
