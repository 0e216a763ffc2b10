"""What a shape sounds like, as costs that add up: its bass, what is doubled, what is left out, what is silent.

One point is about the trouble of two more fingers, as in ``playable``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

BASS_MUTES = (0.0, 0.3, 0.8, 1.8)
"""Silent low strings: one is left out without a thought, but from the fourth string up a chord has no bass."""

BASS_MUTES_ON = 0.8
"""Each further one."""

TREBLE_MUTE = 1.2
"""A silent high string: the brightest string is missing, and the strumming hand has to stop short of it."""

TREBLE_MUTE_CLOSED = 0.6
"""Where no string is open, a finger that lies near damps it, and such chords are often plucked anyway."""

INNER_MUTE = 1.8
"""A silent string between sounding ones has to be damped by the side of a finger."""

INNER_MUTE_BESIDE_BASS = 1.6
"""Less where it lies beside the finger on the bass note, whose tip leans against it."""

INNER_MUTE_BESIDE_OPEN = 0.8
"""More where the string below is open: no finger lies there that could damp it."""

FULL = 4
THIN = 1.5
"""Each string short of four: three strings are a fragment of a chord and sound thin alone."""

POWER, POWER_MORE = 3, 0.5
"""A power chord is root, fifth and octave; each string more makes it slower to move and louder than the others."""

NOT_ROOT_IN_BASS = 1.8
"""Without the root at the bottom it is an inversion, and nobody asked for one."""

NOT_EVEN_FIFTH_IN_BASS = 0.7
"""More of it if the lowest note is not even the fifth, which guitarists let pass."""

NOT_ROOT_ON_FOUR = 0.4
"""Four strings have no bass to speak of; the root is still the better place to stand."""

HIGH_BASS = 0.5
"""A bass that a slash asks for wants to be low: each silent string below it takes some of its weight."""

GRIND = (1.3, 1.3)
"""A second above the bass grinds. By the string of the bass, as the next two: higher up nobody minds."""

THICK = (0.6, 0.0)
THICK_MINOR = (0.8, 0.2)
"""A third above the bass is thick on the lowest string, a minor one most; the open G is played in spite of it."""

UPSIDE_DOWN = (0.7, 0.7)
"""A fourth above the bass is a fifth turned over: the ear takes its upper note for the root."""

LACKS_TONE = 0.5
"""A tone that may stay out is better there, though few miss a fifth."""

DOUBLED_THIRD = 0.2
DOUBLED_COLOUR = 0.4
"""Roots and fifths are doubled freely; a doubled third is heard, and a doubled seventh or tension sticks out.

On four strings a third is doubled as well as anything else."""

SAME_PITCH = 0.6
"""Two strings at one pitch spend a string and add no note."""

REASONS = (
    "silent strings",
    "strings that sound",
    "bass",
    "the two lowest notes",
    "tones left out",
    "doubled thirds, sevenths or tensions",
    "the same pitch twice",
)
"""What each number of ``sound_points`` is for."""

_BY_HALF_STEPS = {1: GRIND, 2: GRIND, 3: THICK_MINOR, 4: THICK, 5: UPSIDE_DOWN}

Frets = Sequence[int | None]


@dataclass(frozen=True, slots=True)
class Sound:
    """What matters of a chord for the sound of a shape, in pitch classes.

    ``third`` is what stands for it in a sus chord; it and ``fifth`` are None if the chord has none. ``slash`` says
    that the bass was asked for, ``power`` that there are only root and fifth. In a ``reentrant`` tuning it does not
    matter which tone is lowest.
    """

    root: int
    third: int | None
    fifth: int | None
    may_lack: frozenset[int]
    slash: bool
    power: bool
    reentrant: bool


def sound_points(frets: Frets, pitches: Sequence[int], sound: Sound) -> tuple[float, ...]:
    """The costs of a sound, one for each of ``REASONS``; ``pitches`` are the MIDI notes, low string first."""
    strings = [string for string, fret in enumerate(frets) if fret is not None]
    classes = {pitch % 12 for pitch in pitches}
    return (
        _mutes(frets, strings, sound),
        _count(frets, strings, sound),
        _bass(len(frets), strings[0], min(pitches) % 12, sound),
        _lowest_two(strings, pitches, sound),
        LACKS_TONE * len(sound.may_lack - classes),
        _doubled(len(frets), pitches, classes, sound),
        SAME_PITCH * (len(pitches) - len(set(pitches))),
    )


def _mutes(frets: Frets, strings: Sequence[int], sound: Sound) -> float:
    first, last = strings[0], strings[-1]
    most = len(BASS_MUTES) - 1
    cost = BASS_MUTES[min(first, most)] + BASS_MUTES_ON * max(first - most, 0)
    if not sound.power:
        cost += (TREBLE_MUTE if 0 in frets else TREBLE_MUTE_CLOSED) * (len(frets) - 1 - last)
    for string in range(first, last):
        if frets[string] is None:
            below = frets[string - 1]
            beside_bass = string - 1 == first and bool(below)
            cost += INNER_MUTE_BESIDE_BASS if beside_bass else INNER_MUTE
            cost += INNER_MUTE_BESIDE_OPEN if below == 0 else 0.0
    return cost


def _count(frets: Frets, strings: Sequence[int], sound: Sound) -> float:
    if sound.power:
        return POWER_MORE * max(len(strings) - POWER, 0)
    return THIN * max(min(FULL, len(frets)) - len(strings), 0)


def _bass(count: int, first: int, low: int, sound: Sound) -> float:
    if sound.slash:
        return HIGH_BASS * first
    if sound.reentrant or low == sound.root:
        return 0.0
    if count <= FULL:
        return NOT_ROOT_ON_FOUR
    return NOT_ROOT_IN_BASS + (NOT_EVEN_FIFTH_IN_BASS if low != sound.fifth else 0.0)


def _lowest_two(strings: Sequence[int], pitches: Sequence[int], sound: Sound) -> float:
    """How the two lowest notes go together; on few strings, or over a bass that was asked for, it is as it is."""
    if sound.slash or sound.reentrant or len(strings) < FULL:
        return 0.0
    kind = _BY_HALF_STEPS.get(pitches[1] - pitches[0], ())
    return kind[strings[0]] if strings[0] < len(kind) else 0.0


def _doubled(count: int, pitches: Sequence[int], classes: set[int], sound: Sound) -> float:
    plain = {sound.root, sound.fifth}
    doubled = sum(pitch % 12 not in plain for pitch in pitches) - len(classes - plain)
    thirds = max(sum(pitch % 12 == sound.third for pitch in pitches) - 1, 0)
    return (DOUBLED_THIRD if count > FULL else 0.0) * thirds + DOUBLED_COLOUR * (doubled - thirds)
