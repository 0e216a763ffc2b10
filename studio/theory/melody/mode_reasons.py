"""One sentence that says why a span is read in its mode."""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.chord import Tone
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.melody.mode_evidence import Evidence
from studio.theory.melody.mode_fits import Fit, foreign_to, is_raised_seventh, too_few_for_one
from studio.theory.melody.scales import COMPOSITE_BLUES, Scale
from studio.theory.plain_english import listed

_FEW = 3  # fewer different notes than this tell nothing


def mode_reason(
    evidence: Evidence,
    best: Sequence[Fit],
    decided_by: Sequence[NoteName],
    would_decide: Sequence[NoteName],
    key: Key | None = None,
    both: Sequence[NoteName] = (),
    from_chords: Sequence[NoteName] = (),
) -> str:
    """The sentence for an answer; ``key`` is given where the third is taken from it, ``both`` and ``from_chords``
    are those of the reading."""
    if not best:
        return "Nothing sounds here."
    if len(evidence.sounding) < _FEW:
        names = listed([str(evidence.written[place]) for place in sorted(evidence.sounding)])
        return f"Only {names} {_verb(len(evidence.sounding), 'sounds')}, too little to tell a mode."
    if not best[0].holds:
        said = _outside(evidence, best[0])
        return f"{said}; {_both_sound(both)}." if both else f"{said}."
    if both and not would_decide:
        return f"{_both_sound(both)}, which leaves it open."
    said = _undecided(evidence, would_decide) if len(best) > 1 else _decided(evidence, best[0], decided_by)
    if from_chords:
        names = listed([str(note) for note in from_chords])
        scales = listed([str(fit.scale) for fit in best], "or")
        said = f"{names} in the chords {_verb(len(from_chords), 'makes')} it {evidence.tonic} {scales}"
    if key is not None:
        said += f"; the third is that of {key}"
    return f"{said}{_passing(evidence, best[0])}."


def _decided(evidence: Evidence, fit: Fit, decided_by: Sequence[NoteName]) -> str:
    name = f"{evidence.tonic} {fit.scale}"
    if fit.scale.family == "pentatonic" and not fit.foreign:
        return f"All notes of {name} sound, and no other"
    if fit.scale == COMPOSITE_BLUES:
        return f"Both thirds, {listed([str(note) for note in decided_by])}, and the lowered seventh sound, as in {name}"
    if fit.scale.family == "blues":
        return f"The notes are those of {name}"
    if not decided_by:
        return f"The notes belong to {name}"
    return f"{listed([str(note) for note in decided_by])} {_verb(len(decided_by), 'makes')} it {name}"


def _undecided(evidence: Evidence, would_decide: Sequence[NoteName]) -> str:
    numbers = sorted({evidence.tonic.interval_to(note)[0] + 1 for note in would_decide})
    return (
        f"No {listed([Tone.of(str(number)).name for number in numbers], 'or')} sounds, which leaves it open"
    )


def _both_sound(both: Sequence[NoteName]) -> str:
    return f"{listed([str(note) for note in both])} {'both ' if len(both) == 2 else ''}sound"


def _passing(evidence: Evidence, fit: Fit) -> str:
    foreign = foreign_to(fit, evidence)
    raised = [str(evidence.written[place]) for place in foreign if is_raised_seventh(fit.scale, place)]
    passing = [str(evidence.written[place]) for place in foreign if not is_raised_seventh(fit.scale, place)]
    said = f"; {listed(passing)} only {_verb(len(passing), 'passes')}" if passing else ""
    return said + (f"; {raised[0]} is the {raised_seventh_words(fit.scale)}" if raised else "")


def raised_seventh_words(scale: Scale) -> str:
    """What a major seventh is called over a scale whose own is lowered."""
    return "leading note" if scale == COMPOSITE_BLUES else "raised seventh of minor"


def _outside(evidence: Evidence, fit: Fit) -> str:
    names = [str(evidence.written[place]) for place in fit.foreign]
    if too_few_for_one(evidence, fit):
        heard = [str(name) for _, name in sorted(evidence.written.items())]
        return f"No scale holds {listed(heard)}, and they are too few to tell one"
    share = round(100 * (1 - evidence.share(fit.foreign)))
    lies = "lies" if len(names) == 1 else "lie"
    return (
        f"No scale holds every note: {evidence.tonic} {fit.scale} holds {share} % of the time, "
        f"{listed(names)} {lies} outside it"
    )


def _verb(count: int, singular: str) -> str:
    plural = {"sounds": "sound", "makes": "make", "passes": "pass"}
    return singular if count == 1 else plural[singular]
