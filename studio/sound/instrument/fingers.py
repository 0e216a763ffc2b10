"""What fingers do with keys and strings: they leave a key before they strike it again, and they cross the strings of
a chord one after the other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from studio.timeline.heard import RATE, Tone

LIFTED = RATE * 70 // 1000
"""Samples for which a key is up before it is struck again: enough for an ear to hear two notes (common practice)."""

_STRINGS = 6
"""Strings that a thumb crosses one after the other; what lies above them sounds with the last."""


def fingered(tones: Iterable[Tone]) -> list[Tone]:
    """The tones on keys that are there only once, in order of time and then of height.

    A key comes up `LIFTED` before it is struck again, or for the last third of the time between the two blows where
    that is less. Keys that are struck twice at once are struck once: as hard as the harder, as long as the longer.
    """
    keys: dict[int, dict[int, Tone]] = defaultdict(dict)
    for tone in (one for one in tones if one.loud > 0):
        other = keys[tone.midi].get(tone.start, tone)
        length, loud = max(tone.length, other.length), max(tone.loud, other.loud)
        keys[tone.midi][tone.start] = replace(tone, length=length, loud=loud)
    found: list[Tone] = []
    for struck in keys.values():
        ordered = [struck[at] for at in sorted(struck)]
        found += [_left(one, after.start - one.start) for one, after in pairwise(ordered)]
        found.append(ordered[-1])
    return sorted(found, key=lambda tone: (tone.start, tone.midi))


def strummed(tones: Sequence[Tone], apart: int) -> list[Tone]:
    """Tones that start together one after the other, from low to high, `apart` samples between two strings.

    The lowest starts where it did, and each ends where it did; a tone loses a third of its length at most.
    """
    found: list[Tone] = []
    for _, together in groupby(tones, key=lambda tone: tone.start):
        for number, tone in enumerate(sorted(together, key=lambda tone: tone.midi)):
            later = min(min(number, _STRINGS - 1) * apart, tone.length // 3)
            found.append(replace(tone, start=tone.start + later, length=tone.length - later))
    return found


def _left(tone: Tone, until: int) -> Tone:
    """A tone whose key is struck again `until` samples after it was."""
    return replace(tone, length=min(tone.length, until - min(LIFTED, until // 3)))
