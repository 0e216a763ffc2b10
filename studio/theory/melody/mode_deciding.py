"""Which notes tell the scales that a span may be in apart: in the line, in the chords, or nowhere.

The rules are in ``modes``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.melody.mode_evidence import Evidence
from studio.theory.melody.mode_fits import Fit, is_raised_seventh
from studio.theory.melody.scales import COMPOSITE_BLUES, SCALES, Scale

_HELD_BY_CHORDS = 1 / 6  # share of the time for which the chords hold a note


@dataclass(frozen=True, slots=True)
class Deciding:
    """A note that does not sound, and the scales of the answer that would be left if it did."""

    note: NoteName
    leaves: tuple[Scale, ...]


def left_by_chords(
    evidence: Evidence, best: list[Fit], tonic: NoteName | Key
) -> tuple[list[Fit], tuple[NoteName, ...]]:
    """Those of the scales that have the notes of the chords which tell them apart, and these notes."""
    known = _told_by_chords(evidence, best, tonic)
    held = {place for place, share in evidence.chords.items() if share >= _HELD_BY_CHORDS}
    needed = held | {_place(note, evidence) for note in known}
    left = [fit for fit in best if all(_has(fit.scale, place) for place in needed)]
    return (left, known) if known and left else (best, ())


def _told_by_chords(evidence: Evidence, best: list[Fit], tonic: NoteName | Key) -> tuple[NoteName, ...]:
    """The notes of the chords that belong to some of the scales only, of which no other form is in the chords."""
    own = {note.pc for note in tonic.scale()} if isinstance(tonic, Key) else set()
    telling = [deciding.note for deciding in that_would_decide(evidence, best)]
    shares = {note: evidence.chords.get(_place(note, evidence), 0.0) for note in telling}
    letters = [note.letter for note, share in shares.items() if share]
    return tuple(
        note
        for note, share in shares.items()
        if share and letters.count(note.letter) == 1 and (note.pc in own or share >= _HELD_BY_CHORDS)
    )


def _place(note: NoteName, evidence: Evidence) -> int:
    return (note.pc - evidence.tonic.pc) % 12


def _has(scale: Scale, place: int) -> bool:
    return scale.holds(place) or is_raised_seventh(scale, place)


def both_forms(evidence: Evidence, best: Sequence[Fit]) -> tuple[NoteName, ...]:
    """The notes that sound and belong to some of the scales but not to all."""
    foreign = sorted({place for fit in best for place in fit.foreign})
    return tuple(evidence.written[place] for place in foreign if any(fit.scale.holds(place) for fit in best))


def that_would_decide(evidence: Evidence, best: Sequence[Fit]) -> tuple[Deciding, ...]:
    """The notes that do not sound and belong to some of the scales but not to all, from the tonic up."""
    found = []
    for place in sorted({place for fit in best for place in fit.scale.semitones} - evidence.sounding):
        leaves = tuple(fit.scale for fit in best if fit.scale.holds(place))
        note = leaves[0].note_at(evidence.tonic, place)
        if len(leaves) < len(best) and note is not None:
            found.append(Deciding(note, leaves))
    return tuple(found)


def that_decide(evidence: Evidence, best: Sequence[Fit], taken: set[int]) -> tuple[NoteName, ...]:
    """The notes without which another scale, no rarer than the answer, would do as well."""
    answer = best[0].scale
    if answer.family == "pentatonic":
        return ()
    if answer == COMPOSITE_BLUES:
        return evidence.written[3], evidence.written[4]
    own = evidence.sounding & set(answer.semitones)
    known = own | (set(answer.semitones) & taken)
    chosen = [fit.scale for fit in best]
    rivals = [
        scale
        for scale in SCALES
        if scale not in chosen
        and scale.rarity <= answer.rarity
        and scale.family not in ("pentatonic", "blues")
    ]
    deciding = {place for scale in rivals for place in own if known - set(scale.semitones) == {place}}
    return tuple(evidence.written[place] for place in sorted(deciding))
