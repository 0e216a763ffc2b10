"""Which scale the notes of a span belong to, as far as they say.

A mode is only as sure as its notes: Aeolian and Dorian differ in the sixth, and where no sixth sounds, the
answer is both, with the notes that would decide. So a reading is a set of scales, of one if the music decides.

- A scale fits when it holds every note that sounds. Of those that fit, the usual ones are the answer: modes
  of the minor scales, and Locrian, come in only where none of the other modes of the major scale fits.
- A pentatonic scale is the answer when all of its notes sound and no other; a blues scale when its blue note
  sounds and at most one of its other notes does not.
- A foreign note is passed over when it only passes: it is never longer than a quarter note, always goes on by
  half step to a note of the scale, and all such notes together take at most a sixth of the time. In minor
  the raised seventh is passed over too, for at most a third of the time, since minor keys have both sevenths.
- The composite blues scale, "blues" for short, is an answer when both thirds and the lowered seventh sound, and
  the lowered fifth or what the tone reader calls a blue note.
- What the tone reader calls a short chromatic ornament does not count where its readings are given, nor is a set
  left open that a note of the chords closes: one that belongs to the key or is held for a sixth of the time, while
  no chord has the other form of that degree, and the scale has whatever else is held for so long.
- Where no scale holds every note, the nearest one is named only if five of its notes sound; else all that are as
  near are left open.
- Where no third sounds and the tonic is given as a key, the key's third counts, as the harmony gives it.

Rules and weights are ours, from common practice. That neighbouring modes differ in one note is in any
textbook (Open Music Theory, "Diatonic modes"; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import exp

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.mode_context import context_of
from studio.theory.melody.mode_deciding import (
    Deciding,
    both_forms,
    left_by_chords,
    that_decide,
    that_would_decide,
)
from studio.theory.melody.mode_evidence import Evidence, gather
from studio.theory.melody.mode_fits import MARGIN, Fit, fits, foreign_to, too_few_for_one
from studio.theory.melody.mode_reasons import mode_reason
from studio.theory.melody.note_reading import NoteReading
from studio.theory.melody.scales import Scale

_DEFENSIBLE = 0.2  # a scale that costs no more than this above the answer is worth naming beside it
_SUREST, _PER_MISSING, _SHORT = 0.98, 0.06, 2.0  # _SHORT in quarter notes of sounding time
_BY_CHORDS = 0.9  # sureness if the chords decide
_FEW = 0.5  # what is left of it where only one or two different notes sound


@dataclass(frozen=True, slots=True)
class ModeCandidate:
    """A scale on the tonic: ``notes`` from the tonic up, ``missing`` those of them that never sound,
    ``foreign`` the notes that sound and are not its own, as they are written. The candidates of a reading
    share its sureness."""

    scale: Scale
    notes: tuple[NoteName, ...]
    missing: tuple[NoteName, ...]
    foreign: tuple[NoteName, ...]
    sureness: float


@dataclass(frozen=True, slots=True)
class ModeReading:
    """The mode of a span.

    ``candidates`` is the answer, best first: one scale if the music decides, several if it does not, none
    where nothing sounds. ``decided_by`` are the notes, as they are written, that rule out other usual scales;
    ``would_decide`` those that would tell the candidates apart. ``others`` are further scales that hold every
    note that sounds. ``both`` are the notes of which some candidates have one and some the other, as G and G♯, and
    that both sound; ``from_chords`` those that never sound in the line but decide, since the chords have them.
    ``holds`` is false if notes lie outside the best scale that do not only pass.
    ``sureness`` (0 to 1) is of the whole set and a judgement: 0.98 at best, less for missing and for foreign
    notes and for less than two quarter notes of music. ``runner_up`` is the next best scale, if defensible.
    """

    tonic: NoteName
    span: Span
    candidates: tuple[ModeCandidate, ...]
    decided_by: tuple[NoteName, ...]
    would_decide: tuple[Deciding, ...]
    others: tuple[Scale, ...]
    holds: bool
    reason: str
    sureness: float
    runner_up: str = ""
    both: tuple[NoteName, ...] = ()
    from_chords: tuple[NoteName, ...] = ()

    @property
    def scale(self) -> Scale | None:
        """The scale, where the music decides on one."""
        return self.candidates[0].scale if len(self.candidates) == 1 else None


def read_mode(
    notes: Sequence[Note],
    tonic: NoteName | Key,
    span: Span | None = None,
    readings: Sequence[NoteReading] = (),
) -> ModeReading:
    """The scales to which the notes sounding in ``span`` may belong, on this tonic or on the tonic of a key.

    ``notes`` may be of any number of voices and in any order; without a span all of them count. The best
    answer comes first and a set is an honest one: see the rules at the top of this module. ``readings`` are what
    the tone reader says of these notes, where there is a chart.
    """
    root = tonic.tonic if isinstance(tonic, Key) else tonic
    where = span or Span(
        min((note.onset for note in notes), default=Fraction(0)),
        max((note.end for note in notes), default=Fraction(0)),
    )
    evidence = gather(notes, root, span, context_of(readings, where))
    if not evidence.sounding:
        return ModeReading(root, where, (), (), (), (), True, mode_reason(evidence, (), (), ()), 0.0)
    found = fits(evidence)
    third = tonic.mode if isinstance(tonic, Key) and not evidence.sounding & {3, 4} else None
    if third is not None:
        found = [fit for fit in found if fit.scale.third == third]
    return _reading(evidence, where, found, tonic, third is not None)


def _reading(
    evidence: Evidence, span: Span, found: Sequence[Fit], tonic: NoteName | Key, by_key: bool
) -> ModeReading:
    """``by_key``: whether the third is taken from the key."""
    best = [fit for fit in found if fit.cost <= found[0].cost + MARGIN]
    if best[0].scale.family in ("pentatonic", "blues"):
        best = best[:1]
    from_chords: tuple[NoteName, ...] = ()
    if too_few_for_one(evidence, best[0]):
        near = min(fit.foreign_cost for fit in found) + MARGIN
        best = [fit for fit in found if fit.foreign_cost <= near]
    else:
        best, from_chords = left_by_chords(evidence, best, tonic)
    rest = [fit for fit in found if fit not in best]
    would_decide = that_would_decide(evidence, best)
    decided_by = that_decide(evidence, best, {3, 4} if by_key else set())
    sureness = round(_sureness(evidence, best[0]) * (_BY_CHORDS if from_chords else 1), 2)
    key = tonic if isinstance(tonic, Key) and by_key else None
    both = both_forms(evidence, best)
    close = [fit for fit in rest if fit.cost <= best[0].cost + _DEFENSIBLE and len(best) == 1]
    return ModeReading(
        evidence.tonic,
        span,
        _candidates(evidence, best, sureness),
        decided_by,
        would_decide,
        tuple(fit.scale for fit in rest if not fit.foreign),
        best[0].holds,
        mode_reason(
            evidence, best, decided_by, [deciding.note for deciding in would_decide], key, both, from_chords
        ),
        sureness,
        str(close[0].scale) if close else "",
        both,
        from_chords,
    )


def _candidates(evidence: Evidence, best: Sequence[Fit], sureness: float) -> tuple[ModeCandidate, ...]:
    weights = [exp(-10 * fit.cost) for fit in best]
    return tuple(
        ModeCandidate(
            fit.scale,
            fit.scale.notes(evidence.tonic),
            _missing(evidence, fit.scale),
            tuple(evidence.written[place] for place in foreign_to(fit, evidence)),
            round(sureness * weight / sum(weights), 2),
        )
        for fit, weight in zip(best, weights, strict=True)
    )


def _missing(evidence: Evidence, scale: Scale) -> tuple[NoteName, ...]:
    names = zip(scale.semitones, scale.notes(evidence.tonic), strict=True)
    return tuple(name for place, name in names if place not in evidence.sounding)


def _sureness(evidence: Evidence, fit: Fit) -> float:
    """What is heard of the scale, less what is foreign; a rare scale is doubted only while notes are missing."""
    missing = sum(place not in evidence.sounding for place in fit.scale.semitones)
    heard = 1 - missing / len(fit.scale.semitones)
    sureness = _SUREST - _PER_MISSING * missing - fit.foreign_cost - fit.rarity_cost * (1 - heard)
    enough = min(1.0, evidence.quarters / _SHORT) * (_FEW if len(evidence.sounding) < 3 else 1)
    return round(max(0.05, sureness) * enough, 2)
