"""Finding the key of each section from its chords, where the project does not write it.

Evidence, in the order of its weight: how much of the time the chords belong to the key (or are borrowed or
applied in it); how long the tonic chord sounds; whether the section starts or ends on it; whether V moves to
it. Sections are then read together, since a song changes key seldom. The weights are ours, set by ear. That
duration, section starts and the tonic chord carry more than the mere set of chords is what Temperley and de
Clercq report for rock (Journal of New Music Research, 2013; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import exp

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.harmony.applied import applied_dominant
from studio.theory.harmony.belonging import belongs, borrowed_from

_FIT = {"natural": 1.0, "harmonic": 0.95}
_BLUES, _APPLIED, _BORROWED, _OUTSIDE = 0.8, 0.6, 0.45, 0.0
_DEGREES = {0: 0.5, 7: 0.15, 5: 0.1}  # what the chords on 1, 5 and 4 add, by semitones above the tonic
_STARTS, _ENDS, _ENDS_ON_FIFTH, _MOVES_HOME, _LEADING_TONE = 0.2, 0.15, 0.05, 0.12, 0.1
_CHANGE, _CHANGE_PER_FIFTH = 0.2, 0.03  # what it costs to change key, and for each accidental of difference
_ENOUGH = 16  # quarter notes of chords that let a section speak for itself
_STEEPNESS = 6.0  # how fast a lead in points becomes sureness


@dataclass(frozen=True, slots=True)
class InferredKey:
    """The key of a span: ``sureness`` from 0 to 1, the next best key, and the reason in a sentence."""

    span: Span
    key: Key
    sureness: float
    runner_up: Key | None
    reason: str


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A section with its chords; all keys are scored on it."""

    name: str
    span: Span
    chords: tuple[ChordAt, ...]

    @property
    def weight(self) -> float:
        return min(1.0, float(sum(at.length for at in self.chords)) / _ENOUGH)


def infer_keys(chart: Chart, sections: Sequence[tuple[str, Span]] = ()) -> tuple[InferredKey, ...]:
    """The keys of a chart, in order; neighbouring sections in one key are one span.

    ``sections`` are names with their spans; chords outside all of them are stretches of their own. Without
    sections the whole chart is one. A chart without chords has no keys.
    """
    stretches = _stretches(chart, sections)
    if not stretches:
        return ()
    scores = [{key: stretch.weight * _score(stretch, key) for key in _KEYS} for stretch in stretches]
    chosen = _best_path(scores)
    found = [
        _inferred(stretch, key, _with_context(scores, chosen, place))
        for place, (stretch, key) in enumerate(zip(stretches, chosen, strict=True))
    ]
    return _joined(found)


def _keys() -> tuple[Key, ...]:
    majors = [Key(NoteName.from_fifths(place), "major") for place in range(-5, 7)]
    return tuple(majors + [key.relative for key in majors])


_KEYS = _keys()


def _stretches(chart: Chart, sections: Sequence[tuple[str, Span]]) -> list[_Stretch]:
    """The sections that have chords, and what lies between them, in order."""
    sounding = [at for at in chart.chords if at.chord is not None]
    if not sounding:
        return []
    edge, last = sounding[0].start, chart.chords[-1].end
    spans: list[tuple[str, Span]] = []
    for name, span in sorted(sections, key=lambda section: section[1].start):
        if edge < span.start:
            spans.append(("", Span(edge, span.start)))
        if edge < span.end:
            spans.append((name, Span(max(edge, span.start), span.end)))
            edge = span.end
    if edge < last:
        spans.append(("", Span(edge, last)))
    found = [_Stretch(name, span, _sounding(chart, span)) for name, span in spans]
    return [stretch for stretch in found if stretch.chords]


def _sounding(chart: Chart, span: Span) -> tuple[ChordAt, ...]:
    return tuple(at for at in chart.within(span) if at.chord is not None)


def _score(stretch: _Stretch, key: Key) -> float:
    chords = [(at.length, at.chord) for at in stretch.chords if at.chord is not None]
    following = [chord for _, chord in chords[1:]] + [None]
    total = float(sum(length for length, _ in chords))
    fit = sum(
        float(length)
        * (_fit(chord, key, after) + _DEGREES.get(_above(chord, key), 0.0) * _in_mode(chord, key))
        for (length, chord), after in zip(chords, following, strict=True)
    )
    first, last = chords[0][1], chords[-1][1]
    evidence = _STARTS * _is_tonic(first, key) + _ENDS * _is_tonic(last, key)
    evidence += _ENDS_ON_FIFTH * (_above(last, key) == 7 and last.triad == "major")
    homecomings = sum(
        _is_tonic(after, key) and _above(chord, key) == 7 and chord.triad != "minor"
        for chord, after in pairwise(chord for _, chord in chords)
    )
    evidence += _MOVES_HOME * min(homecomings, 2)
    evidence += _LEADING_TONE * any(belongs(chord, key) == "harmonic" for _, chord in chords)
    return fit / total + evidence


def _fit(chord: Chord, key: Key, after: Chord | None) -> float:
    how = belongs(chord, key)
    if how:
        return _FIT[how]
    if _is_blues_in(chord, key):
        return _BLUES
    applied = applied_dominant(chord, key, after)
    if applied is not None and applied[1]:
        return _APPLIED
    return _BORROWED if borrowed_from(chord, key) else _OUTSIDE


def _above(chord: Chord, key: Key) -> int:
    return (chord.root.pc - key.tonic.pc) % 12


def _in_mode(chord: Chord, key: Key) -> bool:
    """Whether a chord's third does not speak against the key's mode; only the tonic's is asked."""
    return _above(chord, key) != 0 or chord.triad not in ("major", "minor") or chord.triad == key.mode


def _is_blues_in(chord: Chord, key: Key) -> bool:
    """Whether a chord could be the I7 or IV7 of a blues."""
    on_place = key.mode == "major" and _above(chord, key) in (0, 5)
    return on_place and chord.triad == "major" and chord.seventh == "♭7"


def _is_tonic(chord: Chord, key: Key) -> bool:
    return _above(chord, key) == 0 and _in_mode(chord, key) and chord.triad != "diminished"


def _change(one: Key, two: Key) -> float:
    """What it costs to go from one key to another."""
    if one == two:
        return 0.0
    fifths = abs(one.signature - two.signature)
    return _CHANGE + _CHANGE_PER_FIFTH * min(fifths, 12 - fifths)


def _best_path(scores: Sequence[dict[Key, float]]) -> list[Key]:
    """The keys whose scores, less the cost of changes, add up to most (Viterbi)."""
    best = dict(scores[0])
    came_from: list[dict[Key, Key]] = []
    for here in scores[1:]:
        source = {key: _best_source(best, key) for key in _KEYS}
        best = {key: here[key] + best[source[key]] - _change(source[key], key) for key in _KEYS}
        came_from.append(source)
    path = [max(_KEYS, key=lambda key: best[key])]
    for source in reversed(came_from):
        path.append(source[path[-1]])
    return path[::-1]


def _best_source(best: dict[Key, float], key: Key) -> Key:
    return max(_KEYS, key=lambda other: best[other] - _change(other, key))


def _with_context(scores: Sequence[dict[Key, float]], chosen: Sequence[Key], place: int) -> dict[Key, float]:
    """The scores of one stretch, with what its neighbours' keys take away."""
    beside = [chosen[other] for other in (place - 1, place + 1) if 0 <= other < len(chosen)]
    return {key: score - sum(_change(key, other) for other in beside) for key, score in scores[place].items()}


def _inferred(stretch: _Stretch, key: Key, scores: dict[Key, float]) -> InferredKey:
    second = max((other for other in scores if other != key), key=lambda other: scores[other])
    sureness = 1 / (1 + exp(-_STEEPNESS * (scores[key] - scores[second])))
    spelled = _spelled(key, stretch)
    reason = _reason(stretch, spelled)
    return InferredKey(stretch.span, spelled, round(sureness, 2), _spelled(second, stretch), reason)


def _spelled(key: Key, stretch: _Stretch) -> Key:
    """The key with the enharmonic name that is nearest to how the chart is spelled."""
    fifths = [at.chord.root.fifths for at in stretch.chords if at.chord is not None]
    middle = sum(fifths) / len(fifths)
    places = [key.tonic.fifths + move for move in (-12, 0, 12)]
    keys = [Key(NoteName.from_fifths(place), key.mode) for place in places]
    usable = [candidate for candidate in keys if abs(candidate.signature) <= 7]
    return min(usable, key=lambda candidate: abs(candidate.signature - middle))


def _reason(stretch: _Stretch, key: Key) -> str:
    chords = [at.chord for at in stretch.chords if at.chord is not None]
    inside = sum(bool(belongs(chord, key)) for chord in chords)
    count = f"all {inside}" if inside == len(chords) else f"{inside} of {len(chords)}"
    said = [f"{count} chords belong to {key}" if len(chords) > 1 else f"its one chord belongs to {key}"]
    if 2 * sum(_is_blues_in(chord, key) for chord in chords) >= len(chords):
        said = [f"its seventh chords are those of a blues in {key.tonic}"]
    if _is_tonic(chords[0], key) and _is_tonic(chords[-1], key):
        said.append("it starts and ends on the tonic")
    elif _is_tonic(chords[0], key) or _is_tonic(chords[-1], key):
        said.append(f"it {'starts' if _is_tonic(chords[0], key) else 'ends'} on the tonic")
    if any(_above(one, key) == 7 and _is_tonic(two, key) for one, two in pairwise(chords)):
        said.append("V leads home")
    article = "" if stretch.name[-1:].isdigit() else "the "  # the verse, but verse 2
    where = f"In {article}{stretch.name}, " if stretch.name else ""
    sentence = f"{where}{', and '.join([', '.join(said[:-1]), said[-1]]) if len(said) > 1 else said[0]}."
    return sentence if where else sentence[0].upper() + sentence[1:]


def _joined(found: Sequence[InferredKey]) -> tuple[InferredKey, ...]:
    kept: list[InferredKey] = []
    for here in found:
        last = kept[-1] if kept else None
        if last is not None and last.key == here.key:
            kept[-1] = _join(last, here)
        else:
            kept.append(here)
    return tuple(kept)


def _join(one: InferredKey, two: InferredKey) -> InferredKey:
    """One key over two spans: the surer reason, and a sureness between the two by their lengths."""
    surer = max(one, two, key=lambda found: found.sureness)
    lengths = one.span.length, two.span.length
    total = float(sum(lengths, Fraction(0)))
    sureness = (one.sureness * float(lengths[0]) + two.sureness * float(lengths[1])) / total
    span = Span(one.span.start, two.span.end)
    return InferredKey(span, one.key, round(sureness, 2), surer.runner_up, surer.reason)
