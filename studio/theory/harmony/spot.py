"""One chord of a chart among its neighbours: which readings it admits, and which of them is chosen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from studio.music.chart import ChordAt
from studio.music.chord import Chord, Triad
from studio.music.key import Key
from studio.theory.harmony import reasons
from studio.theory.harmony.applied import Applied, applied_dominant, applied_supertonic
from studio.theory.harmony.belonging import belongs, borrowed_from, triad_on
from studio.theory.harmony.functions import is_cadential
from studio.theory.harmony.numeral_writing import with_bass_seventh, write_applied, write_numeral
from studio.theory.harmony.outsiders import name_outsider
from studio.theory.harmony.reading import Kind, NumeralDisplay, Style

_WITH_THIRD = ("major", "minor", "diminished", "augmented")
_MODELS = {"major": ("", "7"), "minor": ("m", "m7"), "diminished": ("dim", "m7♭5"), "augmented": ("aug", "7")}

# How sure each kind of reading is; a judgement of ours, with room on both sides.
_DIATONIC, _HARMONIC, _RESOLVED, _BORROWED, _UNRESOLVED = 0.98, 0.97, 0.95, 0.9, 0.6
_MISSING_THIRD = 0.9
_RESPELLED = 0.75


@dataclass(frozen=True, slots=True)
class Found:
    """The reading that was chosen: its numeral, where it comes from, and why."""

    numeral: NumeralDisplay
    kind: Kind
    reason: str
    sureness: float
    applied: Applied | None = None
    resolved: bool = False
    source: str = ""
    runner_up: str = ""


class Spot:
    """The chord at ``place``, which must not be N.C., read in ``key``."""

    def __init__(self, chords: tuple[ChordAt, ...], place: int, key: Key, style: Style) -> None:
        written = chords[place].chord
        assert written is not None
        self.chords, self.place, self.key, self.style = chords, place, key, style
        self.written = written
        self.chord = with_bass_seventh(written)
        self.model = self._model()
        self.before = next(self._others(-1), None)
        self.after = next(self._others(1), None)

    def read(self, after_applied: Applied | None) -> Found:
        """The best reading. ``after_applied`` is the applied reading of the next chord, if it has one."""
        found = (
            self._diatonic(after_applied)
            or self._resolved()
            or self._supertonic(after_applied)
            or self._borrowed()
            or self._unresolved()
            or self._other()
        )
        if self.chord.triad in _WITH_THIRD:
            return found
        if self.chord.triad == "power":
            found = replace(found, reason=reasons.missing_third(found.reason))
        return replace(found, sureness=found.sureness * _MISSING_THIRD)

    def plain(self) -> NumeralDisplay:
        """The numeral of its degree in the key, whatever it may be applied to."""
        return write_numeral(self.chord, self.key, self.style, self._case())

    def earlier(self) -> tuple[Chord, ...]:
        """The two different harmonies before, the nearer one first."""
        others = self._others(-1)
        return tuple(chord for chord in (next(others, None), next(others, None)) if chord is not None)

    # The readings, in the order in which they are tried

    def _diatonic(self, after_applied: Applied | None) -> Found | None:
        how = belongs(self.model, self.key)
        if not how:
            return None
        onward = applied_dominant(self.model, self.key, self.after) if self.model.seventh else None
        runner_up = ""
        if after_applied is not None and self._prepares(after_applied):
            runner_up = str(self._numeral_applied(Applied("ii", after_applied.target)))
        elif onward is not None and onward[1]:
            runner_up = str(self._numeral_applied(onward[0]))
        sureness = _DIATONIC if how == "natural" else _HARMONIC
        reason = reasons.diatonic(self.written, self.key, how)
        return Found(self.plain(), "diatonic", reason, sureness, runner_up=runner_up)

    def _resolved(self) -> Found | None:
        if self._is_blues_tonic():
            return None
        found = applied_dominant(self.model, self.key, self._goal())
        if found is None or not found[1]:
            return self._respelled()
        doubtful = bool(borrowed_from(self.model, self.key)) or self._above() == 0
        return Found(
            self._numeral_applied(found[0]),
            "applied",
            reasons.applied(self.written, found[0], self._goal(), resolved=True),
            _RESOLVED - (0.1 if doubtful else 0),
            found[0],
            resolved=True,
            runner_up=str(self.plain()) if doubtful else "",
        )

    def _respelled(self) -> Found | None:
        """A diminished seventh that resolves as if another tone were its root, as B°7 to Am in C."""
        if self.chord.quality != "dim7" or self.chord.changes:
            return None
        for tone in self.chord.notes()[1:]:
            guess = Chord.of(tone, "dim7")
            found = applied_dominant(guess, self.key, self.after)
            if found is None or not found[1]:
                continue
            root = found[0].target.root.transposed(-1, -1)
            chord = Chord.of(root, "dim7", (), self.chord.bass or self.chord.root)
            numeral = write_applied(chord, "vii", self._numeral_of(found[0]))
            reason = reasons.respelled(self.chord, chord, found[0])
            plain = str(self.plain())
            return Found(numeral, "applied", reason, _RESPELLED, found[0], resolved=True, runner_up=plain)
        return None

    def _supertonic(self, after_applied: Applied | None) -> Found | None:
        if after_applied is None or not self._prepares(after_applied):
            return None
        applied = Applied("ii", after_applied.target)
        borrowed = borrowed_from(self.model, self.key)
        return Found(
            self._numeral_applied(applied),
            "applied",
            reasons.applied(self.written, applied, self.after, resolved=True),
            _RESOLVED - (0.1 if borrowed else 0),
            applied,
            resolved=True,
            runner_up=str(self.plain()) if borrowed else "",
        )

    def _borrowed(self) -> Found | None:
        source = borrowed_from(self.model, self.key)
        if not source:
            return None
        reason = reasons.borrowed(self.written, self.model, self.key, source)
        return Found(self.plain(), "borrowed", reason, _BORROWED, source=source)

    def _unresolved(self) -> Found | None:
        found = applied_dominant(self.model, self.key, self.after)
        if found is None or self.model.triad == "augmented" or self._above() == 0:
            return None
        if found[0].base == "vii" and not self._leads(found[0]):
            return None
        reason = reasons.applied(self.written, found[0], self.after, resolved=False)
        numeral = self._numeral_applied(found[0])
        return Found(numeral, "applied", reason, _UNRESOLVED, found[0], runner_up=str(self.plain()))

    def _leads(self, applied: Applied) -> bool:
        """Whether an unresolved diminished chord still claims to be applied.

        It does not when it is spelled another way (E♭dim7 does not lead to E, as D♯dim7 would), nor when
        it keeps the root of the chord that follows (F♯dim7 before C/G).
        """
        spelled = self.chord.root.step == (applied.target.root.step - 1) % 7
        return spelled and (self.after is None or self.after.root.pc not in self.chord.pcs)

    def _other(self) -> Found:
        found = applied_dominant(self.model, self.key, self.after)
        runner_up = str(self._numeral_applied(found[0])) if found else ""
        outsider = name_outsider(self.chord, self.key, self.before, self.after)
        return Found(self.plain(), "other", outsider.reason, outsider.sureness, runner_up=runner_up)

    # What they are made of

    def _above(self) -> int:
        return (self.chord.root.pc - self.key.tonic.pc) % 12

    def _goal(self) -> Chord | None:
        """The harmony that this one moves to, looking through a six-four that only holds it back."""
        others = self._others(1)
        after = next(others, None)
        beyond = next(others, None)
        return beyond if after is not None and is_cadential(after, self.key, beyond) else after

    def _is_blues_tonic(self) -> bool:
        """I7 that moves to IV7: both sevenths are colour, and neither chord is a dominant."""
        after = self.after
        if after is None or self._above() != 0 or self.key.mode != "major":
            return False
        return after.seventh == "♭7" and (after.root.pc - self.key.tonic.pc) % 12 == 5

    def _prepares(self, after_applied: Applied | None) -> bool:
        if after_applied is None or after_applied.base == "vii":
            return False
        following = self.chords[self.place + 1].chord
        if after_applied.base == "ii" and (following is None or following.root.pc != self.chord.root.pc):
            return False
        return applied_supertonic(self.model, following, after_applied.target)

    def _numeral_applied(self, applied: Applied) -> NumeralDisplay:
        return write_applied(self.chord, applied.base, self._numeral_of(applied))

    def _numeral_of(self, applied: Applied) -> NumeralDisplay:
        target = Chord.of(applied.target.root, "m" if applied.target.triad == "minor" else "")
        return write_numeral(target, self.key, self.style, target.triad)

    def _case(self) -> Triad:
        if self.model.triad in _WITH_THIRD:
            return self.model.triad
        here = triad_on(self.chord.root, self.key)
        return here if here != "other" else triad_on(self.chord.root, self.key.parallel)

    def _model(self) -> Chord:
        """The chord that decides the reading: itself, or for a sus or power chord the one beside it."""
        if self.chord.triad in _WITH_THIRD:
            return self.chord
        for place in (self.place + 1, self.place - 1):
            beside = self.chords[place].chord if 0 <= place < len(self.chords) else None
            if beside is not None and beside.root.pc == self.chord.root.pc and beside.triad in _WITH_THIRD:
                triad, seventh = _MODELS[beside.triad]
                return Chord.of(self.chord.root, seventh if self.chord.seventh == "♭7" else triad)
        return self.chord

    def _others(self, step: int) -> Iterator[Chord]:
        """The different harmonies after (or before) this one, through N.C. and repetitions."""
        last = self.chord
        place = self.place + step
        while 0 <= place < len(self.chords):
            chord = self.chords[place].chord
            if chord is not None and not _same_harmony(last, chord):
                last = with_bass_seventh(chord)
                yield last
            place += step


def _same_harmony(one: Chord, two: Chord) -> bool:
    """Whether two chords are one harmony: same root and no change from minor to major or back."""
    if one.root.pc != two.root.pc:
        return False
    kinds = {{"augmented": "major"}.get(chord.triad, chord.triad) for chord in (one, two)}
    return len(kinds & set(_WITH_THIRD)) < 2
