"""How the bars of a section group into phrases.

Four bars are the norm (common practice); what argues for another grouping is heard: the tune rests or holds over a
bar line, the chords begin again as they began or leave their loop, a dominant comes home. In a section of a
multiple of four bars, chords that only half repeat speak half as loud off the four-bar grid; a bar of V or I in which
the harmony arrives speaks a little for a phrase to end with it. All groupings are weighed at once, by dynamic
programming over the bar lines; the weights are judgements. Of equals the one that has its long phrases first is meant.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise, takewhile

from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.bar_chords import BarChords, bar_chords
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import listed

_NORM = 4  # bars
_LENGTHS = {4: 0.0, 8: -0.9, 2: -0.9, 3: -1.0, 5: -0.8, 6: -0.9, 7: -1.1, 1: -2.0, 9: -1.6, 10: -1.6}
"""What a phrase of so many bars costs against one of four."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """A phrase of so many bars."""

    span: Span
    bars: int


@dataclass(frozen=True, slots=True)
class Phrases:
    """The phrases of a section in order; they fill it.

    ``heard`` says whether the tune or the chords part them, and not only the norm of four bars; ``sureness`` is
    low where it does not. ``runner_up`` is the next best grouping ("3 + 5"), "" where none is near.
    """

    phrases: tuple[Phrase, ...]
    reason: str
    sureness: float
    runner_up: str = ""
    heard: bool = False


def group_phrases(
    span: Span, time: SongTime, readings: Sequence[Reading] = (), notes: Sequence[Note] = ()
) -> Phrases:
    """The phrases of the bars that start in a span. Total: without bars there are none."""
    starts = [start for bar, start in time.barlines(span) if bar > 0]
    if not starts:
        return Phrases((), "There is no whole bar here.", 1.0)
    tune = _Tune(note for note in notes if note.sounds_in(span))
    chords = bar_chords(readings, span, time)
    arguments = [
        _present(
            tune.argument(line, time.meter(time.bar_at(line)).beat),
            _of_chords(index, chords),
            _of_dominant(line, readings),
            _of_arrival(starts[index - 1], line, readings),
        )
        for index, line in enumerate(starts)
        if index
    ]
    weights = [sum(argument.weight for argument in found) for found in arguments]
    best, runner_up, lead = _grouping(len(starts), weights)
    ends = [*starts, span.end]
    cuts = [0, *_cuts(best), len(starts)]
    phrases = tuple(Phrase(Span(ends[a], ends[b]), b - a) for a, b in pairwise(cuts))
    said = [argument for cut in cuts[1:-1] for argument in arguments[cut - 1]]
    heard = sorted({argument.why for argument in said if argument.heard})
    reason, sure = _judged(best, heard, lead, arrives=any(not argument.heard for argument in said))
    return Phrases(phrases, reason, sure, runner_up, heard=bool(heard))


@dataclass(frozen=True, slots=True)
class _Argument:
    """Something that speaks for a phrase to begin at a bar line; not ``heard`` if it only agrees with the norm."""

    weight: float
    why: str
    heard: bool = True


class _Tune:
    """The notes of a section's tune, and where it rests or holds."""

    def __init__(self, notes: Iterable[Note]) -> None:
        ordered = sorted(notes, key=lambda note: note.onset)
        self._onsets = [note.onset for note in ordered]
        self._silent_from = list(accumulate((note.end for note in ordered), max))
        gaps = sorted(late - early for early, late in pairwise(self._onsets) if late > early)
        self._usual = gaps[len(gaps) // 2] if gaps else Fraction(0)

    def argument(self, line: Fraction, beat: Fraction) -> _Argument | None:
        """A rest of a beat or more over a bar line, or a note that is held much longer than is usual."""
        after = bisect_left(self._onsets, line)
        if after in (0, len(self._onsets)):
            return None
        if self._onsets[after] - self._silent_from[after - 1] >= beat:
            return _Argument(1.3, "the tune rests")
        if self._onsets[after] - self._onsets[after - 1] >= 2 * max(beat, self._usual):
            return _Argument(0.6, "the tune holds")
        return None


def _present(*arguments: _Argument | None) -> list[_Argument]:
    return [argument for argument in arguments if argument is not None]


def _of_chords(index: int, chords: Sequence[BarChords]) -> _Argument | None:
    """Chords that begin again as they began, or go elsewhere after a loop that has come round."""
    if len(set(chords)) < 2 or not chords[index]:
        return None
    on_grid = len(chords) % _NORM or index % _NORM == 0
    again = _begins_again(index, chords)
    if again:
        whole = again >= min(index, len(chords) - index)
        return _Argument(1.5 if whole else 1.3 if on_grid else 0.65, "the chords begin again")
    if chords[index] == chords[0] != chords[index - 1]:
        return _Argument(0.5 if on_grid else 0.25, "the first chord comes back")
    for loop in (2, 4):
        last_round = chords[index - loop : index]
        came_round = len(set(last_round)) > 1 and last_round == chords[index - 2 * loop : index - loop]
        if index >= 2 * loop and came_round and chords[index] != chords[index - loop]:
            return _Argument(1.0, "the chords leave their loop")
    return None


def _begins_again(index: int, chords: Sequence[BarChords]) -> int:
    """For how many bars the chords go as they went from the start; 0 for a single bar, or for one that just goes on."""
    alike = list(takewhile(lambda pair: pair[0] == pair[1], zip(chords, chords[index:], strict=False)))
    goes_on = chords[index] == chords[index - 1] and len({bar for bar, _ in alike}) < 2
    return 0 if goes_on or len(alike) < 2 else len(alike)


def _of_dominant(line: Fraction, readings: Sequence[Reading]) -> _Argument | None:
    """A dominant just before a bar line that goes to the tonic on it."""
    before = next((reading for reading in readings if reading.at.end == line), None)
    after = next((reading for reading in readings if reading.at.start == line), None)
    if before is None or after is None or before.function != "dominant":
        return None
    return _Argument(0.2, "the dominant comes home") if _is_tonic(after) else None


def _of_arrival(start: Fraction, line: Fraction, readings: Sequence[Reading]) -> _Argument | None:
    """A bar from ``start`` to ``line`` in which the harmony stops: I after a dominant, or V that does not go home."""
    place = next((n for n, r in enumerate(readings) if r.at.start == start and r.at.end == line), None)
    if place is None or not 0 < place < len(readings) - 1 or readings[place].at.chord is None:
        return None
    before, here, after = readings[place - 1 : place + 2]
    authentic = _is_tonic(here) and before.function == "dominant"
    half = here.numeral_display.base == "V" and not here.of and not _is_tonic(after)
    stops = (authentic or half) and after.at.chord != here.at.chord and _in_root_position(here)
    return _Argument(0.15, "", heard=False) if stops else None


def _is_tonic(reading: Reading) -> bool:
    return reading.numeral_display.base in ("I", "i") and not reading.of


def _in_root_position(reading: Reading) -> bool:
    chord = reading.at.chord
    return chord is not None and chord.bass in (None, chord.root)


def _grouping(count: int, weights: Sequence[float]) -> tuple[tuple[int, ...], str, float]:
    """(the best grouping, the next best as text, how far it leads) of so many bars."""
    if count == 1:
        return (1,), "", 1.0
    best: list[list[tuple[float, tuple[int, ...]]]] = [[(0.0, ())]]
    for end in range(1, count + 1):
        found = [
            (score + cost + (weights[end - 1] if end < count else 0.0), (*groups, length))
            for length, cost in _LENGTHS.items()
            if length <= end
            for score, groups in best[end - length]
        ]
        best.append(sorted(found, key=lambda item: (-round(item[0], 6), [-group for group in item[1]]))[:2])
    ranked = best[count]
    if not ranked:
        return (count,), "", 0.0
    if len(ranked) == 1:
        return ranked[0][1], "", 1.0
    lead = ranked[0][0] - ranked[1][0]
    return ranked[0][1], grouping_text(ranked[1][1]) if lead < 0.5 else "", lead


def grouping_text(groups: Sequence[int]) -> str:
    """Such as "4 + 4"."""
    return " + ".join(str(group) for group in groups)


def _cuts(groups: Sequence[int]) -> list[int]:
    """The bars, counted from 0, at which phrases after the first begin."""
    return [sum(groups[: index + 1]) for index in range(len(groups) - 1)]


def _judged(groups: Sequence[int], heard: Sequence[str], lead: float, arrives: bool) -> tuple[str, float]:
    if len(groups) == 1:
        return "Nothing cuts it: one phrase.", 0.6
    if not heard and arrives:
        return "Phrases end where the harmony stops on V or I; groups of four are the norm.", 0.5
    if not heard:
        return "Nothing in the tune or the chords decides; groups of four are the norm.", 0.4
    sure = 0.4 + 0.15 * len(heard) + 0.25 * min(lead, 1.0)
    return f"New phrases begin where {listed(heard)}.", round(min(0.9, sure), 2)
