"""Which blocks of a map are lit, moment by moment of the song."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.place import Span
from studio.timeline.ask import Ask


@dataclass(frozen=True)
class Here:
    """Which blocks are lit, by their number."""

    blocks: tuple[int, ...] = ()


@dataclass(frozen=True)
class Moments:
    """The states of a map (from, up to, look, in quarters), what it shows when nothing of it sounds, and its still:
    the look, and the moment at which the pointer stands in it."""

    states: tuple[tuple[Fraction, Fraction, Here], ...]
    default: Here
    still: Here
    still_at: Fraction | None


def sounding(ask: Ask) -> Span | None:
    """What of the song sounds while a callout shows it; None where its segment plays nothing of that."""
    excerpt = ask.excerpt
    if excerpt is None or excerpt.span is None or ask.span is None:
        return None
    ends = (excerpt.start, excerpt.end + excerpt.tail)
    return Span(*map(ask.time.quarters_at, ends)).intersection(ask.span)


def moments(blocks: Sequence[Span], whole: Span, sounds: Span | None, meant: Span | None) -> Moments:
    """The moments of a map of `whole`, whose blocks stand for stretches of song.

    `sounds` is what is heard while it shows. The still is from the block that sounds in the middle of that, and
    from the middle of what is heard of this block: never from a border between two. `meant` is what the person
    says it is about, and is lit while nothing sounds.
    """
    states = tuple((span.start, span.end, Here((number,))) for number, span in enumerate(blocks))
    default = Here(tuple(n for n, span in enumerate(blocks) if meant and span.overlaps(meant)))
    shown = whole.intersection(sounds) if sounds else None
    if shown is None:
        return Moments(states, default, default, None)
    middle = shown.start + shown.length / 2
    for number, span in enumerate(blocks):
        heard = span.intersection(shown)
        if heard is not None and span.contains(middle):
            return Moments(states, default, Here((number,)), heard.start + heard.length / 2)
    return Moments(states, default, Here(), middle)
