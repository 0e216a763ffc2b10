"""From readings to numerals: what each kind of reading is written as."""

from __future__ import annotations

from dataclasses import dataclass, replace

from studio.music.chord import Chord, Triad
from studio.music.key import Key
from studio.theory.harmony.applied import Applied
from studio.theory.harmony.belonging import triad_on
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.numeral_writing import write_applied, write_numeral
from studio.theory.harmony.reading import NumeralDisplay, Style
from studio.theory.harmony.standing import WITH_THIRD, Standing

_SIXTHS = {"Italian": "It", "French": "Fr", "German": "Ger"}


@dataclass(frozen=True, slots=True)
class Writing:
    """How numerals are written: the style, and whether inversions are figured."""

    style: Style
    figured: bool

    def numeral(self, standing: Standing, candidate: Candidate, key: Key) -> NumeralDisplay:
        """The numeral of a chord as it is read.

        A substitute dominant counts from its target, ♭II7/ii, as an applied chord does; of the tonic it is
        plain ♭II7. An augmented sixth is ♭VI7, as the chart spells it, or Ger+6 in common practice.
        """
        chord = self._inverted(candidate.meant or standing.chord)
        applied = candidate.applied
        if candidate.kind == "applied" and applied is not None:
            return write_applied(chord, applied.base, self.target(applied, key))
        if (
            candidate.kind == "substitute dominant"
            and applied is not None
            and applied.target.root != key.tonic
        ):
            return replace(write_applied(chord, "II", self.target(applied, key)), accidental="♭")
        if candidate.kind == "augmented sixth" and self.style == "common-practice":
            return self.second(standing, candidate, key)
        case: Triad = case_of(standing, key) if candidate.meant is None else "major"
        return write_numeral(chord, key, self.style, case)

    def second(self, standing: Standing, candidate: Candidate, key: Key) -> NumeralDisplay:
        """The numeral of a runner-up. An augmented sixth is Ger+6 there in either style, to be told from ♭VI7."""
        if candidate.kind == "augmented sixth":
            return NumeralDisplay("", _SIXTHS[candidate.name.split()[0]], "+6")
        return self.numeral(standing, candidate, key)

    def plain(self, standing: Standing, key: Key) -> NumeralDisplay:
        """The numeral of the chord's own degree in a key."""
        return write_numeral(self._inverted(standing.chord), key, self.style, case_of(standing, key))

    def target(self, applied: Applied, key: Key) -> NumeralDisplay:
        """The numeral of what an applied chord points to."""
        target = Chord.of(applied.target.root, "m" if applied.target.triad == "minor" else "")
        return write_numeral(target, key, self.style, "major")

    def _inverted(self, chord: Chord) -> Chord:
        return chord if self.figured or chord.bass is None else replace(chord, bass=None)


def case_of(standing: Standing, key: Key) -> Triad:
    """The triad that decides the case: the chord's, or the key's on that root where it has no third."""
    if standing.model.triad in WITH_THIRD:
        return standing.model.triad
    here = triad_on(standing.chord.root, key)
    return here if here != "other" else triad_on(standing.chord.root, key.parallel)
