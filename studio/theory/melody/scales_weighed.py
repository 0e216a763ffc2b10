"""Scales weighed against what a part plays: which may be meant, which come next to them, which notes tell."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.mode_context import context_of
from studio.theory.melody.mode_deciding import Deciding
from studio.theory.melody.mode_evidence import Evidence, gather
from studio.theory.melody.mode_fits import (
    FEWEST_OF_THE_NEAREST,
    MARGIN,
    OUTSIDE,
    fits,
    may_take_turns,
    other_seventh,
)
from studio.theory.melody.modes import ModeCandidate, ModeReading, read_mode
from studio.theory.melody.note_reading import NoteReading
from studio.theory.melody.scales import SCALES, Scale

Telling = Literal["decides", "would decide", ""]
"""What a note does to tell scales apart: it sounds and decides, it would decide if it sounded, or neither."""

MOST_RIVALS = 2
"""Scales that are shown beside the one that the music decides on."""

FEWEST_NOTES = 3
"""Different notes, fewer than which tell no scale."""


@dataclass(frozen=True)
class Weighed:
    """`scales` in the order of their rows; `reading` is of those that may be meant. `telling` are the notes
    that tell the scales apart, by half steps above the tonic; `heard` the names of what sounds, spelled as the
    scales have them; `mostly` whether most of what sounds is of the first scale."""

    tonic: NoteName
    heard: Mapping[int, NoteName]
    scales: tuple[Scale, ...]
    reading: ModeReading
    telling: Mapping[int, Telling]
    mostly: bool = True

    @cached_property
    def fitting(self) -> tuple[Scale, ...]:
        """The scales that may be meant; none where a person's scales all lack what sounds."""
        candidates = self.reading.candidates
        return tuple(one.scale for one in candidates) if self.reading.holds or len(candidates) == 1 else ()

    @property
    def told(self) -> bool:
        """Whether enough sounds to name a scale: one holds it all, or enough of the nearest sounds."""
        nearest = self.reading.candidates[0]
        near = self.reading.holds or len(nearest.notes) - len(nearest.missing) >= FEWEST_OF_THE_NEAREST
        return near and len(self.heard) >= FEWEST_NOTES


@dataclass(frozen=True)
class TunePlayed:
    """The notes of a part over a stretch, with what the tone reader says of them, on a tonic or in a key."""

    notes: Sequence[Note]
    readings: Sequence[NoteReading]
    home: NoteName | Key
    span: Span

    @property
    def tonic(self) -> NoteName:
        return self.home.tonic if isinstance(self.home, Key) else self.home

    @cached_property
    def evidence(self) -> Evidence:
        return gather(self.notes, self.tonic, self.span, context_of(self.readings, self.span))

    def place(self, note: NoteName) -> int:
        """Half steps from the tonic up to a note."""
        return (note.pc - self.tonic.pc) % 12


def weighed(tune: TunePlayed) -> Weighed:
    """The scales that the music leaves open; where it decides on one, that one and what it is told from."""
    reading = read_mode(tune.notes, tune.home, tune.span, tune.readings)
    own = tuple(candidate.scale for candidate in reading.candidates)
    telling: dict[int, Telling] = {tune.place(one.note): "would decide" for one in reading.would_decide}
    telling |= {tune.place(note): "decides" for note in reading.from_chords}
    rivals: tuple[Scale, ...] = ()
    if len(own) == 1 and reading.holds:
        rivals = _rivals(tune, reading)[:MOST_RIVALS]
        decided = [tune.place(note) for note in reading.decided_by]
        telling |= {place: "decides" for place in decided if any(not rival.holds(place) for rival in rivals)}
    return _spelled_alike(tune, (*own, *rivals), reading, telling)


def weighed_against(tune: TunePlayed, scales: Sequence[Scale]) -> Weighed:
    """The scales that a person names, and which of them the music allows.

    A minor key has both sevenths: where both sound, neither tells Aeolian from harmonic minor.
    """
    evidence, fitting = tune.evidence, _fitting(scales, tune.evidence)
    open_ = {p for one in fitting for p in one.semitones if not all(other.holds(p) for other in fitting)}
    telling: dict[int, Telling] = dict.fromkeys(open_ - evidence.sounding, "would decide")
    if fitting:
        common = {p for p in evidence.sounding if all(one.holds(p) for one in fitting)}
        telling |= {p: "decides" for p in common if not all(one.holds(p) for one in scales)}
    reading = ModeReading(
        tonic=tune.tonic,
        span=tune.span,
        candidates=tuple(_candidate(scale, tune) for scale in fitting or scales),
        decided_by=_names(telling, evidence) if len(fitting) == 1 else (),
        would_decide=_would_decide(fitting, open_ - evidence.sounding, tune.tonic),
        others=(),
        holds=bool(fitting),
        reason="",
        sureness=1.0,
        both=_names(open_, evidence),
    )
    return _spelled_alike(tune, tuple(scales), reading, telling)


def _rivals(tune: TunePlayed, reading: ModeReading) -> tuple[Scale, ...]:
    """The scales that would do as well as the answer but for one note that decides, the usual ones first."""
    if reading.from_chords:
        left_open = read_mode(tune.notes, tune.home, tune.span)
        return tuple(one.scale for one in left_open.candidates if one.scale != reading.scale)
    answer, sounding = reading.candidates[0].scale, tune.evidence.sounding
    known = sounding & set(answer.semitones)
    if isinstance(tune.home, Key) and not sounding & {3, 4}:
        known |= set(answer.semitones) & {3, 4}  # the third is taken from the key
    telling = [{tune.place(note)} for note in reading.decided_by]
    return tuple(
        scale
        for scale in SCALES
        if scale.rarity <= answer.rarity
        and scale.family not in ("pentatonic", "blues")
        and known - set(scale.semitones) in telling
    )


def _fitting(scales: Sequence[Scale], evidence: Evidence) -> list[Scale]:
    """The scales that hold what sounds, or from which notes only pass if none holds it all; rarity is no matter."""
    costs = {scale: _cost(scale, evidence) for scale in scales}
    least = min(costs.values())
    return [scale for scale in scales if costs[scale] < OUTSIDE and costs[scale] <= least + MARGIN]


def _cost(scale: Scale, evidence: Evidence) -> float:
    """What the notes outside a scale cost, but for the other seventh of a minor key."""
    if may_take_turns(scale, evidence):
        other = other_seventh(scale)
        lengths = (0.0 if place == other else length for place, length in enumerate(evidence.lengths))
        evidence = replace(evidence, lengths=tuple(lengths))
    cost = next((fit.foreign_cost for fit in fits(evidence) if fit.scale == scale), OUTSIDE)
    return 0.0 if evidence.sounding <= set(scale.semitones) else cost


def _candidate(scale: Scale, tune: TunePlayed) -> ModeCandidate:
    notes, evidence = scale.notes(tune.tonic), tune.evidence
    missing = tuple(note for note in notes if tune.place(note) not in evidence.sounding)
    foreign = tuple(name for place, name in sorted(evidence.written.items()) if not scale.holds(place))
    return ModeCandidate(scale, notes, missing, foreign, 1.0)


def _names(places: Iterable[int], evidence: Evidence) -> tuple[NoteName, ...]:
    """The names of those of the places that sound."""
    return tuple(evidence.written[place] for place in sorted(places) if place in evidence.sounding)


def _would_decide(fitting: Sequence[Scale], places: set[int], tonic: NoteName) -> tuple[Deciding, ...]:
    found = []
    for place in sorted(places):
        leaves = tuple(scale for scale in fitting if scale.holds(place))
        note = leaves[0].note_at(tonic, place)
        assert note is not None, "the scale holds it"
        found.append(Deciding(note, leaves))
    return tuple(found)


def _spelled_alike(
    tune: TunePlayed, scales: tuple[Scale, ...], reading: ModeReading, telling: Mapping[int, Telling]
) -> Weighed:
    """All with one name for each note: as written where a scale has it so, else as the first scale has it."""
    names = {
        place: _spelled(written, [scale.note_at(tune.tonic, place) for scale in scales])
        for place, written in tune.evidence.written.items()
    }

    def alike(notes: Sequence[NoteName]) -> tuple[NoteName, ...]:
        return tuple(names.get(tune.place(note), note) for note in notes)

    candidates = tuple(replace(one, foreign=alike(one.foreign)) for one in reading.candidates)
    decided, both = alike(reading.decided_by), alike(reading.both)
    reading = replace(reading, candidates=candidates, decided_by=decided, both=both)
    return Weighed(tune.tonic, names, scales, reading, telling, bool(scales) and _mostly(scales[0], tune))


def _spelled(written: NoteName, by_scales: Sequence[NoteName | None]) -> NoteName:
    known = [name for name in by_scales if name is not None]
    return written if not known or written in known else known[0]


def _mostly(scale: Scale, tune: TunePlayed) -> bool:
    own = [place for place in tune.evidence.sounding if scale.holds(place)]
    return len(own) >= FEWEST_NOTES and tune.evidence.share(own) > 1 / 2
