"""The keyboard callout: the keys that are held now, the hands told apart by shape as well as by colour.

With a part the keys are those that it plays; without one, the chords of the chart in close position. Where a pass is
played otherwise, they are the keys that sound.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CanvasSize
from studio.drawing.instruments.held_keys import HIGHEST, LOWEST, Labels, Moment, changed, chords_held, played
from studio.drawing.instruments.keys import (
    HeldKey,
    Holding,
    Keyboard,
    is_short,
    key_middle,
    key_width,
)
from studio.drawing.instruments.keys_drawing import draw_keyboard
from studio.drawing.instruments.keys_words import LEAST_LONG, keyboard_height, legend_width, symbols_width
from studio.drawing.lettering.type import plain
from studio.drawing.otherwise import changes_said, kept
from studio.drawing.themes.theme import Theme
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, PartName
from studio.timeline.ask import Ask
from studio.timeline.changes import Changed
from studio.timeline.kind import Composed, Extent, Kind

LEAST = 24
"""Keys that are shown at least: two octaves are recognised as a keyboard."""

_LEFT_ENDS, _RIGHT_ENDS = (0, 5), (4, 11)
"""Pitch classes at which a picture of a keyboard ends well, with no short key cut: C and F, E and B."""

_NARROWEST = 2.5
"""Units that a long key is wide at least, so that a finger's place can be seen on a phone."""

_State = tuple[Fraction, Fraction, Holding]


class KeyboardOptions(CalloutOptions):
    """Options of the keyboard callout."""

    part: PartName | None = Field(
        None, description="a part of the song; without one, the chords of the chart in close position"
    )
    labels: Labels = Field("names", description="on the held keys: names, degrees over each chord, or none")
    next: bool | None = Field(
        None,
        description="a dashed outline on the keys that come next; for chords they are, unless this says no",
    )


class KeyboardKind(Kind):
    """See the module."""

    name = "keyboard"
    says = "the keys that are held now, or the chords under the hands, the hands told apart"
    example = "{kind: keyboard, part: keys}"
    slots = ("lower", "card", "left", "right")
    Options = KeyboardOptions

    def compose(self, options: KeyboardOptions, ask: Ask) -> Composed:
        span = ask.the_span()
        labels = options.labels
        held = played(options.part, labels, ask, span) if options.part else chords_held(labels, ask, span)
        moments = list(held)
        others = [one for change in ask.changed for one in _otherwise(options, change, ask, span)]
        content = _keyboard(options, ask, [*moments, *others])
        states = _states(content, moments)
        if content.previewed:
            states = _with_next(states)
        other_states = _changed(content, options, states, others, ask)
        content = replace(content, legend=_legend_fits(content, [*states, *other_states], ask))
        fullest = max((look for _, _, look in states), key=lambda look: len(look.keys), default=Holding())
        if content.previewed:  # a still that shows what an outline means
            fullest = next((look for _, _, look in states if look.keys and look.coming), fullest)
        alt = _alt(options, moments) + changes_said(ask, lambda change: _touches(options, change))
        return Composed(content, tuple(states), fullest, Holding(), alt, changed=other_states)

    def extent(self, content: Keyboard, width: int, theme: Theme) -> Extent:
        return Extent(keyboard_height(content, theme, LEAST_LONG), keyboard_height(content, theme))

    def draw(self, content: Keyboard, look: Holding, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_keyboard(content, look, size, theme)

    def last(self, look: Holding) -> Holding:
        return replace(look, coming=(), next_chord=None)


KIND = KeyboardKind()


def _touches(options: KeyboardOptions, change: Changed) -> bool:
    """Whether a change is of what the keyboard shows: a part, or the harmony."""
    return change.part == options.part if options.part else change.of_harmony


def _otherwise(options: KeyboardOptions, change: Changed, ask: Ask, span: Span) -> Iterator[Moment]:
    return changed(change, options.labels, ask, span) if _touches(options, change) else iter(())


def _states(content: Keyboard, moments: Iterable[Moment]) -> list[_State]:
    return [
        (
            one.start,
            one.end,
            Holding(
                one.keys,
                chord=one.chord if content.chords else None,
                instead=one.instead if content.chords else None,
            ),
        )
        for one in moments
    ]


def _changed(
    content: Keyboard, options: KeyboardOptions, states: Sequence[_State], others: Sequence[Moment], ask: Ask
) -> tuple[_State, ...]:
    """What is held in changed passes where they differ from what is written; nothing is said of what comes next."""
    found = _states(content, others)
    room = key_width(content, ask.room.width) * content.long_keys
    found = [
        (start, end, look if symbols_width(content, look, ask.theme) <= room else replace(look, instead=None))
        for start, end, look in found
    ]
    untouched = [change for change in ask.changed if not _touches(options, change)]
    return tuple(sorted([*found, *kept(states, untouched)], key=lambda state: state[:2]))


def _keyboard(options: KeyboardOptions, ask: Ask, moments: Sequence[Moment]) -> Keyboard:
    """The keyboard that the moments need; refuses where its keys would be too narrow to be read."""
    keys = [key for moment in moments for key in moment.keys]
    first, last = key_range(min(key.midi for key in keys), max(key.midi for key in keys))
    content = Keyboard(
        CanvasSize.of(ask.canvas),
        first,
        last,
        two_hands=len({key.hand for key in keys}) > 1,
        named=options.labels != "none",
        previewed=options.next if options.next is not None else options.part is None,
        chords=options.part is None,
    )
    wide = key_width(content, ask.room.width)
    if wide < _NARROWEST * content.canvas.unit:
        ask.refuse(
            "slot" if options.slot else "kind",
            f"{content.long_keys} white keys are too narrow here to be seen on a phone; choose a wider slot, or "
            "fewer bars",
        )
    if _names_touch(content, moments, wide, ask.theme):
        ask.refuse("labels", "the keys are too narrow here for what is written on them; write 'labels: none'")
    if keyboard_height(content, ask.theme, LEAST_LONG) * content.canvas.unit > ask.room.height:
        bare = replace(content, named=False)
        if (
            content.named
            and keyboard_height(bare, ask.theme, LEAST_LONG) * content.canvas.unit <= ask.room.height
        ):
            ask.refuse("labels", "names over the keys have no room here; write 'labels: none'")
        ask.refuse(
            "slot" if options.slot else "kind",
            "a keyboard is taller than its slot gives; choose another slot, or another place for the presenter",
        )
    return content


def _names_touch(content: Keyboard, moments: Sequence[Moment], wide: float, theme: Theme) -> bool:
    """Whether a name is wider than its long key, or those of two held short keys meet over the keyboard."""
    small = content.canvas.pixels(theme.sizes.small)

    def width(key: HeldKey) -> float:
        return plain(key.name, small, theme.weights.heavy).width

    held = {key for moment in moments for key in moment.keys}
    if any(width(key) > wide for key in held if not is_short(key.midi)):
        return True
    pairs = {
        pair for moment in moments for pair in pairwise(key for key in moment.keys if is_short(key.midi))
    }
    return any(
        (key_middle(content, two.midi) - key_middle(content, one.midi)) * wide < (width(one) + width(two)) / 2
        for one, two in pairs
    )


def _legend_fits(content: Keyboard, states: Sequence[_State], ask: Ask) -> bool:
    """Whether the widest names of chords leave room for the legend beside them."""
    width = key_width(content, ask.room.width) * content.long_keys
    names = max((symbols_width(content, look, ask.theme) for _, _, look in states), default=0.0)
    legend = legend_width(content, ask.theme, width)
    return names + legend + 3 * content.canvas.unit < width or (not content.chords and legend <= width)


def key_range(lowest: int, highest: int) -> tuple[int, int]:
    """The keys to show for all from `lowest` to `highest` (MIDI notes): two octaves at least, from a C or an F up
    to an E or a B, or to the ends of a piano."""
    first, last = _end(lowest, -1, _LEFT_ENDS), _end(highest, 1, _RIGHT_ENDS)
    while last - first + 1 < LEAST:
        if (lowest - first < last - highest and first > LOWEST) or last == HIGHEST:
            first = _end(first - 1, -1, _LEFT_ENDS)
        else:
            last = _end(last + 1, 1, _RIGHT_ENDS)
    return first, last


def _end(midi: int, way: int, ends: Sequence[int]) -> int:
    while LOWEST < midi < HIGHEST and midi % 12 not in ends:
        midi += way
    return max(LOWEST, min(midi, HIGHEST))


def _with_next(states: Sequence[_State]) -> list[_State]:
    """The same states, each with the keys of the next one that holds other keys."""
    found: list[_State] = []
    coming = Holding()
    following = Holding()
    for start, end, look in reversed(states):
        if _midis(look) != _midis(following):
            coming = following
        following = look if look.keys else following
        found.append((start, end, replace(look, coming=coming.keys, next_chord=coming.chord)))
    return found[::-1]


def _midis(look: Holding) -> tuple[int, ...]:
    return tuple(key.midi for key in look.keys)


def _alt(options: KeyboardOptions, moments: Sequence[Moment]) -> str:
    said: list[str] = []
    for moment in moments:
        words = " ".join(str(pitch) for pitch in moment.pitches)
        if moment.chord is not None and words:
            words = f"{moment.chord.text}: {words}"
        if words and (not said or said[-1] != words):
            said.append(words)
    more = f" and {len(said) - 12} more" if len(said) > 12 else ""
    whose = f"Keys held by {options.part}" if options.part else "Keys of the chords"
    return f"{whose}, from low to high: {'; '.join(said[:12])}{more}."
