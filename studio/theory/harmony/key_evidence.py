"""What one chord and the melody over it say for each key.

All is told in points, the logarithms of how many times likelier a key becomes. The weights are few and each has
a musical meaning. Their sizes were found by maximum likelihood on RomanText analyses and popular charts of our own
together, then rounded; those of starts and ends were lowered by ear, because songs begin off their tonic more often
than madrigals do, and those marked as our judgement were set by ear. What they achieve is measured in
``tests/theory/harmony/test_without_keys.py`` and ``test_key_popular.py``.
"""

from __future__ import annotations

from functools import lru_cache

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.applied import leads_to, targets
from studio.theory.harmony.belonging import belongs, borrowed_from
from studio.theory.harmony.key_motion import is_dominant_seventh, is_supertonic_seventh
from studio.theory.harmony.key_places import KeyPlace
from studio.theory.harmony.key_roles import (
    above,
    is_blues,
    is_dominant,
    is_leading,
    is_tonic,
    points_home,
    rests,
    rests_at_home,
)

KEYS: tuple[Key, ...] = tuple(
    Key(NoteName.from_fifths((7 * pc + 5) % 12 - 5), mode) for mode in ("major", "minor") for pc in range(12)
)
"""One key for each sounding tonic and mode: ``KEYS[pc]`` is major, ``KEYS[12 + pc]`` minor."""

# Chords that the key must explain, for a chord of the chart's usual length.
APPLIED, APPLIED_UNRESOLVED, BORROWED, OUTSIDE = -0.6, -0.8, -0.7, -1.5

# Chords that speak for the key by what they are in it.
TONIC, OTHER_TONIC = 0.9, 0.8  # the tonic's chord; the same with the other third (Picardy, blues, mixture)
DOMINANT, LEADING, SUBDOMINANT, SUPERTONIC = 0.5, 0.8, 0.35, 0.35
DOMINANT_SEVENTH = 0.4
SUBTONIC = 0.2  # ♭VII in minor, which stands for the dominant in Aeolian music; our judgement

# Chords that speak for it by where they come; a tonic that is left at once for a foreign chord has not arrived.
ARRIVES, LEADS, ARRIVES_PLAGALLY = 0.7, 0.3, 0.3
STARTS_SECTION, ENDS_SECTION, STARTS_SONG = 0.9, 1.0, 0.6

# Loops, by our judgement, as the corpus has none: where one turns round is its strongest bar, and what it says the
# second time has mostly been said.
STARTS_LOOP, AGAIN = 0.6, 0.7
DORIAN_VAMP = -0.5  # IV of minor that goes to and fro with its tonic; our judgement
ABSENT = -0.3  # the tonic never sounds, and no seventh points to it; our judgement
RIFF = 0.4  # the root that a riff without thirds keeps coming back to; our judgement

# The melody, as far as the chord has not told it already.
MELODY_OUTSIDE, MELODY_TONIC = -0.5, 0.5  # for all of its time
LANDS_ON_TONIC = 0.4  # where a phrase ends; our judgement

_SCALES = {"major": frozenset({0, 2, 4, 5, 7, 9, 11}), "minor": frozenset({0, 2, 3, 5, 7, 8, 9, 10, 11})}

# Key profiles of Temperley (The Cognition of Basic Musical Structures, 2001; from memory): how well each
# degree, by semitones above the tonic, sits in a major and in a minor key.
PROFILES = {
    "major": (5.0, 2.0, 3.5, 2.0, 4.5, 4.0, 2.0, 4.5, 2.0, 3.5, 1.5, 4.0),
    "minor": (5.0, 2.0, 3.5, 4.5, 2.0, 4.0, 2.0, 4.5, 3.5, 2.0, 1.5, 4.0),
}
PROFILE = 0.35  # points for each quarter note of a melody without chords and each step of the profile
_MEAN = 3.25  # roughly the mean of a profile: a note that sits no better than that says nothing


def evidence(place: KeyPlace) -> list[float]:
    """The points of each key of ``KEYS`` at a place."""
    if place.chord is None:
        return [_melody_alone(place, key) for key in KEYS]
    return [_harmony(place, place.chord, key) + _melody(place, key) for key in KEYS]


def _harmony(place: KeyPlace, chord: Chord, key: Key) -> float:
    if place.said:
        return 0.0
    resting = rests(place, key)
    blue = key.tonic.pc in place.homes
    fit = _fit(chord, key, place.goes_to, blue, place.moving)
    if chord.triad == "major" and _sways(place, key):
        fit = max(fit, DORIAN_VAMP if _is_dorian_four(chord, key) else BORROWED)
    if key.tonic.pc not in place.tonics:
        fit += ABSENT
    points = place.weight * (fit + (_rank(chord, key) if resting else 0.0))
    points += RIFF * (place.riff is not None and place.riff == chord.root.pc == key.tonic.pc)
    if resting and points_home(chord, key):
        points += LEADS * (place.after is not None and is_tonic(place.after, key))
        points += DOMINANT_SEVENTH * (
            place.seventh_tells and bool(chord.seventh) and above(chord.root, key) == 7
        )
    if rests_at_home(place, key):
        stays = (
            place.goes_to is None or bool(belongs(place.goes_to, key)) or is_dominant_seventh(place.goes_to)
        )
        points += ARRIVES * stays * (place.before is not None and points_home(place.before, key))
        points += ARRIVES_PLAGALLY * (place.before is not None and above(place.before.root, key) in (5, 10))
        points += STARTS_SECTION * place.opens + STARTS_SONG * place.first
        points += ENDS_SECTION * (place.closes and not place.looping)  # a loop's last chord is no ending
        points += STARTS_LOOP * (place.turns and not place.opens)
    return points * (AGAIN if place.again else 1.0)


def _melody(place: KeyPlace, key: Key) -> float:
    if not place.melody:
        return 0.0
    total = sum(place.melody)
    scale = _SCALES[key.mode]
    outside = sum(time for pc, time in enumerate(place.melody) if (pc - key.tonic.pc) % 12 not in scale)
    points = MELODY_OUTSIDE * outside / total + MELODY_TONIC * place.melody[key.tonic.pc] / total
    return place.weight * points + LANDS_ON_TONIC * (place.lands == key.tonic.pc)


def _melody_alone(place: KeyPlace, key: Key) -> float:
    profile = PROFILES[key.mode]
    points = sum(
        time * (profile[(pc - key.tonic.pc) % 12] - _MEAN) for pc, time in enumerate(place.melody) if time
    )
    ends = place.closes and place.lands == key.tonic.pc
    return PROFILE * points + LANDS_ON_TONIC * (place.lands == key.tonic.pc) + ENDS_SECTION * ends


@lru_cache(maxsize=16384)
def _fit(chord: Chord, key: Key, goes_to: Chord | None, blue: bool, moving: bool) -> float:
    """What it costs that the chord is not of the key: nothing if it is, little if the key explains it.

    ``blue`` is whether the key may be that of a blues, ``moving`` whether the chord is on its way.
    """
    fits = belongs(chord, key) and not _hangs_outside(chord, key)
    if fits and moving and is_dominant_seventh(chord):
        return APPLIED  # D7 on its way to G7 is no V of G minor either
    if fits or (blue and is_blues(chord, key)):
        return 0.0
    if _is_passing(chord, goes_to, key) or (moving and _is_related_supertonic(chord, key)):
        return APPLIED
    leads = leads_to(chord)
    pointed = []
    if leads is not None:
        root = (chord.root.pc + leads[1]) % 12
        pointed = [target for target in targets(key) if target.root.pc == root]
    if any(target.is_met_by(goes_to) or _leads_on(goes_to, target.root) for target in pointed):
        return APPLIED
    if borrowed_from(chord, key) or is_blues(chord, key):
        return BORROWED
    if is_riff_loan(chord, key):
        return BORROWED
    return APPLIED_UNRESOLVED if pointed else OUTSIDE


def _sways(place: KeyPlace, key: Key) -> bool:
    """Whether the chord goes to and fro with the tonic."""
    one, two = place.came_from, place.goes_to
    return one is not None and is_tonic(one, key) and (two is None or two == one)


def _is_dorian_four(chord: Chord, key: Key) -> bool:
    on_four = key.mode == "minor" and above(chord.root, key) == 5
    return on_four and chord.triad == "major" and chord.seventh != "7"


def is_riff_loan(chord: Chord, key: Key) -> bool:
    """Whether it is the ♭II5 or the ♭V5 of a riff in minor, from Phrygian and Locrian."""
    return key.mode == "minor" and chord.triad == "power" and above(chord.root, key) in (1, 6)


def _hangs_outside(chord: Chord, key: Key) -> bool:
    """Whether its suspended note is foreign: Fsus4 has a B♭, and is no IV of C."""
    hung = [tone.semitones for tone in chord.tones if tone.letters in (1, 3)]
    scale = _SCALES[key.mode]
    return chord.triad == "suspended" and any(
        (above(chord.root, key) + tone) % 12 not in scale for tone in hung
    )


def _is_passing(chord: Chord, goes_to: Chord | None, key: Key) -> bool:
    """Whether it is a diminished chord or the substitute of a dominant, falling a half step to a chord of the key."""
    if goes_to is None or (chord.root.pc - goes_to.root.pc) % 12 != 1 or not belongs(goes_to, key):
        return False
    return chord.triad == "diminished" or (chord.triad == "major" and chord.seventh == "♭7")


def _is_related_supertonic(chord: Chord, key: Key) -> bool:
    """Whether it is the ii that goes with the dominant of a chord of the key."""
    root = (chord.root.pc + 10) % 12
    return is_supertonic_seventh(chord) and any(target.root.pc == root for target in targets(key))


def _leads_on(chord: Chord | None, root: NoteName) -> bool:
    """Whether it is the next dominant of a chain on that root, as A7 after E7."""
    return chord is not None and chord.root.pc == root.pc and chord.triad == "major" and chord.seventh == "♭7"


@lru_cache(maxsize=16384)
def _rank(chord: Chord, key: Key) -> float:
    """What the chord is in the key: the chords on 1, 5, 4, 7 and 2 say more than those on 3 and 6."""
    step = above(chord.root, key)
    if is_tonic(chord, key):
        return TONIC
    if is_dominant(chord, key):
        return DOMINANT
    if is_leading(chord, key):
        return LEADING
    if step == 0 and chord.triad in ("major", "minor", "suspended"):
        return OTHER_TONIC
    if step == 10 and key.mode == "minor" and chord.triad == "major":
        return SUBTONIC
    if step == 5 and chord.triad in ("major", "minor"):
        return SUBDOMINANT
    return SUPERTONIC if step == 2 and chord.triad in ("minor", "diminished") else 0.0
