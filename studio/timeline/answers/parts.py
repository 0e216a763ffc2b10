"""Answers about what parts play together: figures, voicings, the chord that sounds."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from studio.project.model import FactAsked
from studio.theory.parts.figure import Figure
from studio.theory.parts.figures import read_figures
from studio.theory.parts.sounding import sounding_at
from studio.theory.parts.voicings import voicing_at
from studio.theory.wording import figure_words, inversion_words, sounding_words, voicing_words
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts

_MOST = 3  # figures that fit on a line


def _figure(fact: FactAsked, facts: SongFacts) -> Said:
    span = facts.span(fact)
    notes = facts.song.parts[fact.parts[0]].part.notes
    figures = read_figures(notes, facts.harmony_spans(span), facts.key(span.start), facts.song.chart)
    told = [figure for figure in figures if figure.kind]
    if not told:
        return Said("no plain figure", figures[0].reason if figures else "Nothing sounds here.")
    hands = sorted({figure.staff for figure in told})
    words = "; ".join(_one_hand([figure for figure in told if figure.staff == hand]) for hand in hands)
    sureness = min(figure.sureness for figure in told)
    kinds = {str(figure.kind) for figure in told}
    also = tuple(kinds) if len(kinds) == 1 else ()
    return Said(words, told[0].reason, sureness, told[0].runner_up, also=also)


def _one_hand(figures: Sequence[Figure]) -> str:
    """The figures of one hand as they follow, the hand said once: "left hand: oom-pah on F, then oom-pah on D7"."""
    words = list(dict.fromkeys(figure_words(replace(figure, staff=0)) for figure in figures))
    told = words[: _MOST if len(words) == _MOST else _MOST - 1]
    more = f", and {len(words) - len(told)} more figures" if len(words) > len(told) else ""
    return ", then ".join([figure_words(figures[0]), *told[1:]]) + more


def _voicing(fact: FactAsked, facts: SongFacts) -> Said:
    assert fact.at is not None
    found = voicing_at(facts.together(fact.parts), fact.at, facts.chord(fact.at), facts.key(fact.at))
    also = (str(found.spacing), inversion_words(found), *([found.chord.text] if found.chord else []))
    return Said(voicing_words(found), found.reason, found.sureness, found.runner_up, also=also)


def _sounding(fact: FactAsked, facts: SongFacts) -> Said:
    assert fact.at is not None
    written = facts.song.chart.at(fact.at)
    harmony = written.span if written is not None else None
    chord = written.chord if written is not None else None
    found = sounding_at(facts.together(fact.parts), fact.at, facts.key(fact.at), harmony, written=chord)
    also = (found.chord.text, *(other.text for other in found.others)) if found.chord else ()
    return Said(sounding_words(found), found.reason, found.sureness, found.runner_up, also=also)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    "figure": _figure,
    "voicing": _voicing,
    "sounding": _sounding,
}
