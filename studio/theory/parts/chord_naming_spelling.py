"""How the notes that sound are spelled, and which names that speaks for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.parts.chord_naming_scoring import Candidate, candidates

MISSPELLED = 0.4
"""What each tone costs that the chord would spell otherwise than the notes do."""


@dataclass(frozen=True)
class Name:
    """A name that the notes might have: a candidate with its root spelled, and its cost with its spelling's."""

    cost: float
    candidate: Candidate
    root: NoteName
    bass: NoteName

    @property
    def chord(self) -> Chord:
        """The chord, its bass spelled as the chord spells it.

        A foreign bass is spelled as it sounds, and so is that of a chord that sounds alike from each tone: B°7/G♯.
        """
        entry, tone = self.candidate.entry, self.candidate.entry.tone_at(self.candidate.over)
        if self.candidate.rootless:
            return Chord.of(self.root, entry.quality, entry.changes)
        if tone is None or entry.even:
            return Chord.of(self.root, entry.quality, entry.changes, self.bass)
        bass = self.root.transposed(tone.letters, tone.semitones)
        return Chord.of(self.root, entry.quality, entry.changes, bass)


@dataclass(frozen=True)
class Heard:
    """Notes over a bass. ``key`` is given for notes from MIDI, whose spelling is only as sure as the key.

    ``spelled`` says whether every note is spelled as it is meant.
    """

    bass: NoteName
    names: frozenset[NoteName]
    key: Key | None
    spelled: bool

    @cached_property
    def in_order(self) -> tuple[NoteName, ...]:
        """The notes from the bass up inside one octave."""
        return tuple(sorted(self.names, key=lambda name: (self._above(name), self.bass.interval_to(name))))

    @cached_property
    def by_pc(self) -> dict[int, NoteName]:
        """The notes by pitch class; of two spellings the one with the lower letter."""
        return {name.pc: name for name in reversed(self.in_order)}

    @cached_property
    def known(self) -> frozenset[NoteName]:
        """The notes whose spelling counts: all of a score's; of others, those whose spelling the key decides.

        These are its scale, and in minor the raised sixth and seventh.
        """
        if self.spelled or self.key is None:
            return self.names if self.spelled else frozenset()
        tonic, minor = self.key.tonic, self.key.mode == "minor"
        raised = [tonic.transposed(5, 9), tonic.transposed(6, 11)] if minor else []
        return self.names.intersection((*self.key.scale(), *raised))

    def ranked(self) -> list[Name]:
        """The names that the notes might have, the cheapest first."""
        shape = 0
        for name in self.names:
            shape |= 1 << self._above(name)
        found = [self._spelled(candidate) for candidate in candidates(shape)]
        return sorted(found, key=lambda name: (name.cost, name.candidate.above))

    def _above(self, name: NoteName) -> int:
        return (name.pc - self.bass.pc) % 12

    def _spelled(self, candidate: Candidate) -> Name:
        """The candidate with the root that agrees best with how the notes are spelled, first as they spell it."""
        given = self._root(candidate)
        misspelled, root = self._misspelled(candidate, given), given
        if misspelled > 1 or given not in self.known:
            for letters in (1, -1):
                other = given.transposed(letters, 0)
                differing = self._misspelled(candidate, other)
                if differing < misspelled:
                    misspelled, root = differing, other
        printed = given if abs(root.alter) > 1 else root  # nobody reads F♯♯° where G sounds
        return Name(candidate.cost + MISSPELLED * misspelled, candidate, printed, self.bass)

    def _root(self, candidate: Candidate) -> NoteName:
        """The root as the notes spell it; a root that is left out, as its third asks for.

        From MIDI, a major chord between the first and second degrees stands on the flat second: D♭7 in C.
        """
        pc = (self.bass.pc + candidate.above) % 12
        if pc not in self.by_pc:
            third = next(tone for tone in candidate.entry.tones if tone.number == 3)
            return self.by_pc[(pc + third.semitones) % 12].transposed(-third.letters, -third.semitones)
        root = self.by_pc[pc]
        tonic = self.key.tonic if self.key is not None else NoteName("C")
        if not self.spelled and candidate.entry.tone_at(4) and root == tonic.transposed(0, 1):
            return tonic.transposed(1, 1)
        return root

    def _misspelled(self, candidate: Candidate, root: NoteName) -> int:
        """How many tones the chord on this root would spell otherwise than the notes whose spelling counts."""
        found = 0
        for tone in candidate.entry.tones:
            if self.by_pc.get((root.pc + tone.semitones) % 12) in self.known:
                found += root.transposed(tone.letters, tone.semitones) not in self.known
        return found
