"""The keyboard callout: the keys that are held now, the hands told apart by shape as well as by colour."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.instruments.keys import HeldKey, Holding, Keyboard, draw_keyboard, keyboard_height
from studio.drawing.themes.theme import Theme
from studio.music.note import Note
from studio.project.callouts import CalloutOptions, PartName
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

LEAST = 24
"""Keys that are shown at least: two octaves are recognised as a keyboard."""

LOWEST, HIGHEST = 21, 108
"""A0 and C8, the ends of a piano."""


class KeyboardOptions(CalloutOptions):
    """Options of the keyboard callout."""

    part: PartName
    names: bool = True


class KeyboardKind(Kind):
    """See the module."""

    name = "keyboard"
    says = "the keys that are held now, the hands told apart"
    example = "{kind: keyboard, part: keys}"
    Options = KeyboardOptions

    def compose(self, options: KeyboardOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        notes = ask.notes(options.part, span)
        if not notes:
            ask.refuse("part", f"'{options.part}' has no notes in these bars")
        pitches = [note.pitch.midi for note in notes]
        outside = [note for note in notes if not LOWEST <= note.pitch.midi <= HIGHEST]
        if outside:
            ask.refuse("part", f"{outside[0].pitch} is not on a piano's keyboard, which runs from A0 to C8")
        first, last = _range(min(pitches), max(pitches))
        two = len({note.staff for note in notes}) > 1
        states = _states(notes, span.start, span.end, options.names)
        fullest = max((look for _, _, look in states), key=lambda look: len(look.keys), default=Holding())
        content = Keyboard(canvas, first, last, two)
        return Composed(content, states, fullest, Holding(), _alt(options.part, states))

    def extent(self, content: Keyboard, width: int, theme: Theme) -> Extent:
        wanted = keyboard_height(content)
        return Extent(wanted * 0.75, wanted)

    def draw(self, content: Keyboard, look: Holding, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_keyboard(content, look, size, theme)


KIND = KeyboardKind()


def _range(lowest: int, highest: int) -> tuple[int, int]:
    """Whole octaves, from a C up to a B, that hold all from `lowest` to `highest` (MIDI notes)."""
    first, last = lowest // 12 * 12, highest // 12 * 12 + 11
    while last - first + 1 < LEAST:
        if lowest - first < last - highest:
            first -= 12
        else:
            last += 12
    return first, last


def _states(
    notes: Sequence[Note], start: Fraction, end: Fraction, names: bool
) -> tuple[tuple[Fraction, Fraction, Holding], ...]:
    edges = {start, end}
    edges |= {at for note in notes for at in (note.onset, note.end) if start < at < end}
    states = []
    for one, two in pairwise(sorted(edges)):
        held = {
            note.pitch.midi: HeldKey(note.pitch.midi, str(note.pitch.name) if names else "", note.staff)
            for note in sorted(notes, key=lambda note: -note.staff)
            if note.onset <= one < note.end
        }
        states.append((one, two, Holding(tuple(held[midi] for midi in sorted(held)))))
    return tuple(states)


def _alt(part: str, states: Sequence[tuple[Fraction, Fraction, Holding]]) -> str:
    chords: list[str] = []
    for _, _, look in states:
        words = " ".join(key.name or str(key.midi) for key in look.keys)
        if words and (not chords or chords[-1] != words):
            chords.append(words)
    more = f" and {len(chords) - 12} more" if len(chords) > 12 else ""
    return f"Keys held by {part}, from low to high: {'; '.join(chords[:12])}{more}."
