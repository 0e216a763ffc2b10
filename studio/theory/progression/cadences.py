"""Cadences, where phrases end.

The rule. A cadence is an arrival, not a pair of chords: V–I in the middle of a phrase or inside a loop is
motion, and is not listed. A cadence is looked for

- at the end of each phrase, which are given, or else are taken to be four bars long from the start of their
  section (``four_bar_phrases``), its last chord ringing on;
- where a harmony arrives in the second half of the phrase, on a strong point (the first beat of a bar or where its
  second part begins; anywhere if the phrases are given, since then somebody has heard where they end), and lasts
  to the phrase's end, or is followed by no more than a turnaround back, or by an amen, which is told as well; the
  last harmony of a section may arrive earlier;
- inside a phrase, where V7 or a six-four's V, prepared, goes to vi on a first beat, or V comes home for two bars;
- but not where a loop of four bars or less merely comes round, exactly or with one bar changed: there only the end of
  the section counts (``loop_motion``).

A phrase that stops on V is half closed even if the next one starts with I; that reading is the runner-up. But
ii7–V7–I in jazz, and V–vi after a six-four, ii or IV, close over the phrase's end, and there half is the runner-up.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.progression.cadence_kinds import CadenceKind
from studio.theory.progression.closes import FOUR_BARS, GIVEN_PHRASE, Close, Closes
from studio.theory.progression.closing_note import Tune
from studio.theory.progression.four_bar_phrases import four_bar_phrases
from studio.theory.progression.harmonies import (
    Harmony,
    acts_as_dominant,
    harmonies,
    in_root_position,
    is_tonic,
)
from studio.theory.progression.loop_motion import loop_motion


@dataclass(frozen=True, slots=True)
class Cadence:
    """A cadence. ``at`` is where its last harmony arrives; ``span`` runs from the first chord of the formula
    to the end of the arrival; ``numerals`` are its harmonies; ``of`` names the degree that it closes on where
    that is not the tonic ("vi"); ``picardy`` says that a piece in minor closes on a major tonic. ``runner_up``
    is another name that is defensible, "" if none is.
    """

    kind: CadenceKind
    at: Fraction
    span: Span
    key: Key
    numerals: tuple[str, ...]
    reason: str
    sureness: float
    runner_up: str = ""
    of: str = ""
    picardy: bool = False


def find_cadences(
    readings: Sequence[Reading],
    time: SongTime,
    sections: Sequence[Span] = (),
    melody: Sequence[Note] = (),
    phrases: Sequence[Span] = (),
) -> tuple[Cadence, ...]:
    """The cadences of a progression, in their order.

    ``sections`` are the parts of the form (all the readings are one if there are none); ``phrases``, if somebody
    has heard where they lie, replace the four-bar guess; ``melody`` tells perfect from imperfect where it is
    given, of several voices the highest. No readings, no cadences.
    """
    chords = harmonies(readings)
    if not chords:
        return ()
    whole = Span(readings[0].at.start, readings[-1].at.end)
    parts = [cut for part in sections if (cut := part.intersection(whole)) is not None] or [whole]
    given = bool(phrases)
    loops = tuple(loop for part in parts if (loop := loop_motion(readings, part, time)) is not None)
    ends = [
        phrase
        for phrase in _with_tails(phrases or four_bar_phrases(parts, time), chords)
        if not any(loop.hides(phrase) for loop in loops)
    ]
    closes = Closes(chords, time, Tune(melody), tuple(parts), given, loops)
    usual = GIVEN_PHRASE if given else FOUR_BARS
    found = {close.place: close for phrase in ends for close in closes.at_end_of(phrase, usual)}
    for close in closes.inside(ends):
        found.setdefault(close.place, close)
    return tuple(_cadence(chords, found[place], ends) for place in sorted(found))


def last_cadence(
    readings: Sequence[Reading],
    time: SongTime,
    melody: Sequence[Note] = (),
    phrases: Sequence[Span] = (),
) -> Cadence | None:
    """The cadence that closes a stretch of music, or else the last one in it; None if it has none."""
    return next(reversed(find_cadences(readings, time, (), melody, phrases)), None)


def _with_tails(phrases: Sequence[Span], chords: Sequence[Harmony]) -> list[Span]:
    """The phrases, each one that only lets a tonic ring, or confirms it, joined to the one before."""
    kept: list[Span] = []
    for phrase in phrases:
        sounding = bisect_right(chords, phrase.start, key=lambda harmony: harmony.span.start) - 1
        ringing = sounding >= 0 and chords[sounding].span.end >= phrase.end and is_tonic(chords[sounding])
        if kept and kept[-1].end == phrase.start and (ringing or _is_amen(phrase, kept[-1], chords)):
            kept[-1] = Span(kept[-1].start, phrase.end)
        else:
            kept.append(phrase)
    return kept


def _is_amen(phrase: Span, before: Span, chords: Sequence[Harmony]) -> bool:
    """Whether a short phrase only confirms, by IV and I, the tonic that V brings as it begins."""
    first = bisect_right(chords, phrase.start, key=lambda harmony: harmony.span.start) - 1
    heard = [chord for chord in chords[max(first, 0) :] if chord.span.start < phrase.end]
    if first < 1 or len(heard) < 3 or 2 * phrase.length > before.length:
        return False
    home = heard[0].span.start == phrase.start and is_tonic(heard[0]) and is_tonic(heard[-1])
    comes = acts_as_dominant(chords[first - 1].fullest, heard[0].key)
    return home and comes and all(chord.key.above(chord.first.root) in (0, 5) for chord in heard)


def _cadence(chords: Sequence[Harmony], close: Close, phrases: Sequence[Span]) -> Cadence:
    found, place = close.formula, close.place
    members = chords[place - found.length + 1 : place + 1]
    start, end = members[-1].span.start, members[-1].span.end
    until = min((phrase.end for phrase in phrases if phrase.end > start), default=end)
    runner_up = found.runner_up
    following = chords[place + 1] if place + 1 < len(chords) else None
    if found.kind == "half" and following and is_tonic(following) and in_root_position(following.first):
        runner_up = runner_up or "authentic cadence into the next phrase"
    return Cadence(
        kind=found.kind,
        at=start,
        span=Span(members[0].span.start, min(end, until)),
        key=members[-1].key,
        numerals=tuple(member.numeral for member in members),
        reason=found.reason,
        sureness=round(found.sureness * close.trust, 2),
        runner_up=runner_up,
        of=found.of,
        picardy=found.picardy,
    )
