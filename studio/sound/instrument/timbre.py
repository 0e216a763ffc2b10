"""What a timbre is: the partials of a key at a loudness, how fast it speaks, and how long it takes to fall silent."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from studio.sound.instrument.partials import Partials

MIDDLE = 0.7
"""How hard a key is struck in the middle of what players use; levels are given for it."""


@dataclass(frozen=True)
class Timbre:
    """`partials(hertz, loud)`: the bank of a key, at any level.

    `level` is the root mean square with which a key struck at `MIDDLE` begins; it is set so that a chord of five keys
    stands near −20 LUFS. `attack` and `release` are in seconds; so is `strum`, from string to string of a chord.
    """

    partials: Callable[[float, float], Partials]
    level: float
    attack: float
    release: float
    strum: float = 0.0
