"""A stretch of a piano's keyboard and what is held on it, and where each key lies; `keys_drawing` draws it."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.symbols import SymbolWords

WIDEST = 8.5
"""Units that a long key is wide at most."""

_STEPS = {0: 0, 2: 1, 4: 2, 5: 3, 7: 4, 9: 5, 11: 6}
"""Which long key of the octave a pitch class is."""

_LEAN = {1: -0.10, 3: 0.10, 6: -0.14, 8: 0.0, 10: 0.14}
"""How far a short key stands beside the crack that it covers, in long keys, as on a piano."""


@dataclass(frozen=True)
class HeldKey:
    """A key that is down: MIDI note, the name to write on it, and 1 for the right hand or 2 for the left."""

    midi: int
    name: str
    hand: int = 1


@dataclass(frozen=True)
class Holding:
    """The keys that are down, from low to high, and those that come next; the chords that they are, if named, and
    the one that is written where another sounds."""

    keys: tuple[HeldKey, ...] = ()
    coming: tuple[HeldKey, ...] = ()
    chord: SymbolWords | None = None
    next_chord: SymbolWords | None = None
    instead: SymbolWords | None = None


@dataclass(frozen=True)
class Keyboard:
    """The keys from `first` to `last` (MIDI notes of long keys), played by one hand or by two.

    `named` says whether held keys carry names, `previewed` whether the keys that come next are outlined,
    `chords` whether the chord's symbol stands over the keyboard, and `legend` whether there is room to say which
    hand is which.
    """

    canvas: CanvasSize
    first: int
    last: int
    two_hands: bool
    named: bool = True
    previewed: bool = False
    chords: bool = False
    legend: bool = True

    @property
    def long_keys(self) -> int:
        return long_key(self.last) - long_key(self.first) + 1


def is_short(midi: int) -> bool:
    """Whether a MIDI note is a short (black) key."""
    return midi % 12 not in _STEPS


def long_key(midi: int) -> int:
    """The number of a long key, counted from C-1; of a short key, that of the long key on its left."""
    octave, pitch_class = divmod(midi, 12)
    return octave * 7 + _STEPS[pitch_class if pitch_class in _STEPS else pitch_class - 1]


def key_middle(content: Keyboard, midi: int) -> float:
    """The middle of a key, in long keys from the left edge of the keyboard."""
    place = long_key(midi) - long_key(content.first)
    return place + (1 + _LEAN[midi % 12] if is_short(midi) else 0.5)


def key_width(content: Keyboard, width: float) -> float:
    """Pixels that a long key is wide in a picture `width` pixels wide."""
    u = content.canvas.unit
    return min(WIDEST * u, (width - 2 * PADDING * u) / content.long_keys)
