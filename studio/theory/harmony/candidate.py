"""One way to read one chord in one key, with what it costs and what it asks of the chord that follows.

Costs are points, a judgement of ours. What they mean, from plain to strange:

- 0 the chord belongs to the key; a little more where it belongs by the raised seventh of minor;
- about 0.5 it has a chromatic job that it does: an applied chord, a substitute dominant, an augmented sixth;
- about 1 it is borrowed from another mode of the tonic, or belongs to the blues;
- 1.5 to 2 nothing but its place in the key explains it, or it points somewhere and does not go there;
- 2.5 nothing explains it.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio.music.chord import Chord
from studio.theory.harmony.applied import Applied
from studio.theory.harmony.reading import Kind

NEVER = 6.0
"""What it costs to disappoint a reading that is nothing without the chord it leads to."""

CADENTIAL = "cadential six-four"
"""The name of a triad over its fifth that holds back V, or the V of another chord."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A reading that a chord admits.

    ``cost`` is what it costs by itself and ``why`` says for what; ``unmet`` is what it costs besides when what
    it leads to does not come. ``applied`` is what it is of, for applied chords and substitute dominants.
    ``how`` is how a chord of the key belongs to it ("natural", "harmonic"), ``source`` the mode that another
    is borrowed from. ``meant`` is the chord that it sounds as, where the chart spells it another way.
    """

    kind: Kind
    cost: float
    why: str
    name: str = ""
    how: str = ""
    source: str = ""
    applied: Applied | None = None
    unmet: float = 0.0
    meant: Chord | None = None

    @property
    def written(self) -> tuple[object, ...]:
        """What decides the numeral: readings that agree in it are written alike, whatever their kinds.

        V/iii and V/III are one reading here; a ♭VI7 that is an augmented sixth is another than a plain one.
        """
        if self.applied is None:
            return (self.kind == "augmented sixth", self.meant)
        return (self.applied.base, self.applied.target.root.pc, self.kind, self.meant)
