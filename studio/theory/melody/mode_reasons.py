"""One sentence that says why a span is read in its mode."""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.melody.mode_evidence import Evidence
from studio.theory.melody.mode_fits import Fit, is_raised_seventh

_ORDINALS = {2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh"}
_FEW = 3  # fewer different notes than this tell nothing


def mode_reason(
    evidence: Evidence,
    best: Sequence[Fit],
    decided_by: Sequence[NoteName],
    would_decide: Sequence[NoteName],
    key: Key | None = None,
) -> str:
    """The sentence for an answer; ``key`` is given where the third is taken from it."""
    if not best:
        return "Nothing sounds here."
    if len(evidence.sounding) < _FEW:
        names = joined([str(evidence.written[place]) for place in sorted(evidence.sounding)])
        return f"Only {names} {_verb(len(evidence.sounding), 'sounds')}, too little to tell a mode."
    if not best[0].holds:
        return _outside(evidence, best[0])
    if len(best) > 1 and not would_decide:
        return _both_ways(evidence, best)
    said = _undecided(evidence, would_decide) if len(best) > 1 else _decided(evidence, best[0], decided_by)
    if key is not None:
        said += f"; the third is that of {key}"
    return f"{said}{_passing(evidence, best[0])}."


def _decided(evidence: Evidence, fit: Fit, decided_by: Sequence[NoteName]) -> str:
    name = f"{evidence.tonic} {fit.scale}"
    if fit.scale.family == "pentatonic" and not fit.foreign:
        return f"All notes of {name} sound, and no other"
    if fit.scale.family == "blues":
        return f"The notes are those of {name}"
    if not decided_by:
        return f"The notes belong to {name}"
    return f"{joined([str(note) for note in decided_by])} {_verb(len(decided_by), 'makes')} it {name}"


def _undecided(evidence: Evidence, would_decide: Sequence[NoteName]) -> str:
    numbers = sorted({evidence.tonic.interval_to(note)[0] + 1 for note in would_decide})
    return f"No {joined([_ORDINALS[number] for number in numbers], 'or')} sounds, which leaves it open"


def _both_ways(evidence: Evidence, best: Sequence[Fit]) -> str:
    """The notes of one scale that are foreign to another sound, and so do their neighbours."""
    places = sorted({place for fit in best for place in fit.foreign})
    names = [str(evidence.written[place]) for place in places]
    return f"{joined(names)} {'both ' if len(names) == 2 else ''}sound, which leaves it open."


def _passing(evidence: Evidence, fit: Fit) -> str:
    raised = [str(evidence.written[place]) for place in fit.foreign if is_raised_seventh(fit.scale, place)]
    passing = [
        str(evidence.written[place]) for place in fit.foreign if not is_raised_seventh(fit.scale, place)
    ]
    said = f"; {joined(passing)} only {_verb(len(passing), 'passes')}" if passing else ""
    return said + (f"; {raised[0]} is the raised seventh of minor" if raised else "")


def _outside(evidence: Evidence, fit: Fit) -> str:
    names = [str(evidence.written[place]) for place in fit.foreign]
    share = round(100 * (1 - evidence.share(fit.foreign)))
    lies = "lies" if len(names) == 1 else "lie"
    return (
        f"No scale holds every note: {evidence.tonic} {fit.scale} holds {share} % of the time, "
        f"{joined(names)} {lies} outside it."
    )


def joined(names: Sequence[str], word: str = "and") -> str:
    """Names in a row: "A", "A and B", "A, B and C"."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {word} {names[-1]}"


def _verb(count: int, singular: str) -> str:
    plural = {"sounds": "sound", "makes": "make", "passes": "pass"}
    return singular if count == 1 else plural[singular]
