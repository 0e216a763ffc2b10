"""What it costs to change key between two places, in the points of ``key_evidence``.

Keys change seldom, to near keys rather than far ones, and after an arrival, at a new section or a breath of the
melody rather than in the middle of things. What lies between the two keys is one table; what the place adds
falls apart into what the old key and what the new key make of the chords, so that all 576 pairs of a place
cost 48 judgements.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp

from studio.music.key import Key
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.key_evidence import KEYS
from studio.theory.harmony.key_places import KeyPlace
from studio.theory.harmony.key_roles import above, is_tonic, points_home

CHANGE = -4.8  # any change
FIFTH, RELATIVE = -0.8, 0.4  # for each accidental of difference beyond the first; for the relative key
NEW_SECTION, AFTER_BREATH, AFTER_REST = 2.0, 0.4, 0.5  # after a rest on a longer chord
AFTER_ARRIVAL = 1.1  # the old key has just arrived on its tonic
ON_TONIC, ON_PREPARATION = 0.5, 0.4  # the first chord in the new key is its tonic; or its ii or IV
NO_NEED = -0.6  # the chord would do in the old key
SAME_CHORD = -1.1  # and has been sounding already
OFF_DOWNBEAT = -0.1
LOOPING = -3.0  # while a loop or a riff goes round, the key stays; our judgement, as the corpus has neither

Changes = tuple[list[float], list[float]]
"""Factors of leaving each key of ``KEYS`` and of entering each, for one place."""


def _apart(one: Key, two: Key) -> int:
    """Accidentals of difference between two signatures; at most 6, as keys are spelled in sharps or in flats."""
    apart = abs(one.signature - two.signature) % 12
    return min(apart, 12 - apart)


def _through_minor(one: Key, two: Key) -> int:
    """The same between two major keys through the minor on either tonic, as pop goes from C to E♭ by C minor.

    To change the mode counts as two. Handbooks count it as one (Schoenberg's regions; from memory), which
    served the popular charts no better and the corpus worse.
    """
    if one.mode == "minor" or two.mode == "minor":
        return 12
    return 2 + min(_apart(one.parallel, two), _apart(one, two.parallel))


def _between() -> tuple[tuple[float, ...], ...]:
    """The factor of each pair of keys, 0 for staying."""
    table = []
    for one in KEYS:
        row = []
        for two in KEYS:
            apart = _apart(one, two)
            far = min(apart, _through_minor(one, two)) - 1
            points = CHANGE + FIFTH * max(far, 0)
            points += RELATIVE * (apart == 0 and one.mode != two.mode)
            row.append(0.0 if one == two else exp(points))
        table.append(tuple(row))
    return tuple(table)


BETWEEN = _between()
"""How likely a change is by its two keys, ``BETWEEN[old][new]``, next to staying (1); 0 on the diagonal."""


def changes(before: KeyPlace, here: KeyPlace) -> Changes:
    """What the place adds to a change between the place before and this one."""
    points = NEW_SECTION * here.opens + AFTER_BREATH * here.breath + AFTER_REST * here.rested
    points += LOOPING * ((here.looping or here.riff is not None) and not here.opens)
    points += OFF_DOWNBEAT * (here.downbeat is False)
    points += SAME_CHORD * (here.chord is not None and here.chord == before.chord)
    return [exp(points + leaving) for leaving in _leaving(here)], [exp(entry) for entry in _entering(here)]


def _leaving(here: KeyPlace) -> Sequence[float]:
    old, led, chord = here.before, here.before_that, here.chord
    if old is None or chord is None:
        return [0.0] * len(KEYS)
    found = []
    for key in KEYS:
        home = above(old.root, key) == 0 and (is_tonic(old, key) or old.triad == "major") and not old.seventh
        arrived = home and led is not None and points_home(led, key)
        found.append(AFTER_ARRIVAL * arrived + NO_NEED * bool(belongs(chord, key)))
    return found


def _entering(here: KeyPlace) -> Sequence[float]:
    chord = here.chord
    if chord is None:
        return [0.0] * len(KEYS)
    found = []
    for key in KEYS:
        prepares = above(chord.root, key) in (2, 5) and bool(belongs(chord, key))
        found.append(ON_TONIC * is_tonic(chord, key) + ON_PREPARATION * prepares)
    return found
