"""Every combination of frets that a hand could try for a chord, one place of the hand along the neck after another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from studio.music.chord import Chord
from studio.music.pitch import NoteName
from studio.theory.fretboard.needed_tones import Needed
from studio.theory.fretboard.tuning import Tuning

Frets = tuple[int | None, ...]
"""A fret for each string, low string first; see ``Shape.frets``."""

FIFTH_FRET = 5
"""From here up the frets are narrower, and a hand reaches one further. Common practice."""

MOST_INNER_MUTES = 1
"""Silent strings between sounding ones: one can be damped by a finger, two are a trick."""

MOST_SOUNDING = 6
"""Strings that sound at most: nobody strums across more, and an instrument with more is played in groups of them."""

FEWEST_WITH_BASS = 5
"""Strings from which on the lowest is heard as a bass. Four hardly hold a chord in any order. Common practice."""


@dataclass(frozen=True, slots=True)
class Rules:
    """What is no matter of taste, as long as there is any shape that obeys it.

    ``low`` is the pitch class that the first string to sound has to have, None for any: without a slash a guitarist
    starts from the root. ``inner_mutes`` is how many silent strings may lie between sounding ones.
    """

    low: int | None = None
    inner_mutes: int = MOST_INNER_MUTES


@dataclass(frozen=True, slots=True)
class Wishes:
    """What a search is asked for.

    ``highest_fret`` is counted from the capo; ``reach`` is how many frets in a row the hand covers below the
    fifth fret, None for what is usual on the instrument; ``bass`` is a note that has to be lowest, None for the
    one after the chord's slash; ``rootless`` lets the root stay out; ``fewest_strings`` have to sound.
    """

    highest_fret: int = 12
    reach: int | None = None
    open_strings: bool = True
    bass: NoteName | None = None
    rootless: bool = False
    fewest_strings: int = 3


ANYTHING = Wishes()


def reach_at(lowest: int, reach: int) -> int:
    """How many frets in a row a hand covers from its lowest fret on; ``reach`` is meant below the fifth fret."""
    return reach + (lowest >= FIFTH_FRET)


def rules_for(chord: Chord, tuning: Tuning, wishes: Wishes) -> tuple[Rules, ...]:
    """The rules of a search, the strictest first; the next ones hold where these leave nothing to play.

    Power chords are compact: a hand that strikes them hard has no finger to spare for damping.
    """
    has_bass = not tuning.reentrant and len(tuning.strings) >= FEWEST_WITH_BASS and not wishes.rootless
    low = chord.lowest.pc if has_bass else None
    strict = Rules(low, 0 if chord.triad == "power" else MOST_INNER_MUTES)
    return tuple(dict.fromkeys((strict, Rules(low), Rules())))


def candidates(needed: Needed, tuning: Tuning, wishes: Wishes, rules: Rules) -> Iterator[Frets]:
    """Frets that sound all that is needed, within reach; whether fingers can press them is another question.

    Each string is silent, open, or pressed where it sounds a chord tone. At each place of the hand its lowest
    fret is pressed, so that nothing comes twice; place 0 stands for open strings alone.
    """
    strings = tuning.midi
    for lowest in range(wishes.highest_fret + 1):
        highest = min(lowest + reach_at(lowest, wishes.reach or tuning.reach) - 1, wishes.highest_fret)
        frets = range(lowest, highest + 1) if lowest else range(0)
        choices = [
            _choices(needed, midi, range(0) if string in tuning.open_only else frets, wishes.open_strings)
            for string, midi in enumerate(strings)
        ]
        yield from _Together(choices, lowest, needed, wishes.fewest_strings, rules).all()


def _choices(needed: Needed, midi: int, frets: range, open_strings: bool) -> tuple[tuple[int, int], ...]:
    """What one string can sound: (fret, its pitch class as a bit)."""
    wanted = needed.allowed if needed.bass is None else needed.allowed | {needed.bass}
    possible = (*((0,) if open_strings else ()), *frets)
    return tuple((fret, 1 << (midi + fret) % 12) for fret in possible if (midi + fret) % 12 in wanted)


class _Together:
    """All that the strings can do together with the hand at one place."""

    def __init__(
        self,
        choices: Sequence[tuple[tuple[int, int], ...]],
        lowest: int,
        needed: Needed,
        fewest: int,
        rules: Rules,
    ) -> None:
        self.choices, self.lowest, self.fewest, self.rules = choices, lowest, fewest, rules
        self.low = None if rules.low is None else 1 << rules.low
        self.needs = tuple(sum(1 << pc for pc in group) for group in needed.groups)
        self.found: list[Frets] = []

    def all(self) -> list[Frets]:
        self._go_on((), self.needs, 0, 0)
        return self.found

    def _go_on(self, frets: Frets, needs: tuple[int, ...], sounding: int, silent: int) -> None:
        """Go on from some frets; ``needs`` are still missing, ``silent`` strings came after a sounding one."""
        string = len(frets)
        left = len(self.choices) - string
        if len(needs) > left or sounding + left < self.fewest:
            return
        if left == 0:
            if self.lowest == 0 or self.lowest in frets:
                self.found.append(frets)
            return
        if silent <= self.rules.inner_mutes and sounding < MOST_SOUNDING:
            for fret, bit in self.choices[string]:
                if not sounding and self.low not in (None, bit):
                    continue
                missing = tuple([need for need in needs if not bit & need]) if needs else needs
                self._go_on((*frets, fret), missing, sounding + 1, silent)
        self._go_on((*frets, None), needs, sounding, silent + (sounding > 0))
