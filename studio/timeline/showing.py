"""When a callout is on screen, and what of the song is heard while it is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NoReturn

from studio.music.place import Span
from studio.project.callouts import CalloutOptions
from studio.project.model import Excerpt
from studio.theory.plain_english import times_words
from studio.timeline.changes import Changed
from studio.timeline.clock import ClipClock, Heard
from studio.timeline.layout import Presenter, Times

SOON = Fraction(2)
"""Seconds: what is gone for less than that would come and go under the reader, and stays (a judgement of our own)."""

Refuse = Callable[[str, str], NoReturn]
"""Complains at one option of a callout, in a sentence, and leaves the callout out."""


@dataclass(frozen=True)
class Clip:
    """What callouts need to know of their clip: its segment's index, its length, its clock, the excerpt, the frames
    at which it sounds, when each of its passes is heard, changed or not, and what sounds otherwise in those that are;
    whether a title stands on its ground, and where the presenter stands."""

    index: int
    frames: int
    clock: ClipClock
    playing: tuple[int, int] | None
    excerpt: Excerpt | None = None
    passes: tuple[Heard, ...] = ()
    changes: tuple[Changed, ...] = ()
    titled: bool = True
    presenter: Presenter | None = None


def on_screen(clip: Clip, options: CalloutOptions, refuse: Refuse) -> Times:
    """The frames at which a callout shows.

    Its own `when`; else while its `where` is heard, in every pass in which it is; else, as what it speaks of is not
    played here, all of the clip. With neither it lasts as long as the excerpt, from the first click to the end of the
    tail. With `pass`, the same of that pass alone.
    """
    if options.when:
        start, end = (clip.clock.frame(seconds) for seconds in options.when)
        if start >= clip.frames:
            length = float(clip.frames / clip.clock.rate)
            refuse("when", f"this starts after the clip is over; the clip is {length:.2f} s long")
        return ((start, min(end, clip.frames)),)
    if options.pass_ is not None:
        return (_in_pass(clip, options.pass_, options.where, refuse),)
    if options.where:
        return _hearings(clip, options.where) or ((0, clip.frames),)
    return (clip.playing or (0, clip.frames),)


def _hearings(clip: Clip, where: Span) -> Times:
    """When a stretch of song is heard: in each pass from where it begins to where it ends, though a bar in between
    be changed; what comes again soon stays."""
    found: list[tuple[int, int]] = []
    for one in clip.passes:
        pieces = tuple(piece for piece in clip.clock.heard if one.clip <= piece.clip < one.end)
        heard = list(replace(clip.clock, heard=pieces).frames(where))
        if not heard:
            continue
        start, end = heard[0][0], min(heard[-1][1], clip.frames)
        if found and start - found[-1][1] < SOON * clip.clock.rate:
            start = found.pop()[0]
        if start < end:
            found.append((start, end))
    return tuple(found)


def _in_pass(clip: Clip, number: int, where: Span | None, refuse: Refuse) -> tuple[int, int]:
    """The frames at which a pass, counted from 1, is heard, or a stretch of song in it.

    It does not matter whether the pass is changed there: who asks for it speaks of the change.
    """
    if not clip.passes:
        refuse("pass", "no excerpt is heard here, so it has no passes; leave 'pass' out")
    if number > len(clip.passes):
        heard = times_words(len(clip.passes))
        refuse("pass", f"there is no pass {number}: the excerpt is heard {heard}")
    one = clip.passes[number - 1]
    if where is None:
        return clip.clock.frame(one.clip), min(clip.clock.frame(one.end), clip.frames)
    if clip.excerpt is None or clip.excerpt.span is None:
        refuse("where", "what is played here stands in no place of the song; leave 'where' or 'pass' out")
    found = next(replace(clip.clock, heard=(one,)).frames(where), None)
    if found is None:
        refuse("where", "this is not in the excerpt, so no pass has it; choose a place inside it")
    return found[0], min(found[1], clip.frames)


def changed_while(clip: Clip, span: Span | None, times: Times) -> tuple[Changed, ...]:
    """What of a stretch of song is heard otherwise while a callout over it is on screen."""
    if span is None:
        return ()
    return tuple(
        one
        for one in clip.changes
        if one.span.overlaps(span)
        and any(
            start < last and first < end
            for start, end in times
            for first, last in clip.clock.changes(one.span)
        )
    )


def heard_while(clip: Clip, start: int, end: int) -> Span | None:
    """What of the song is heard from frame `start` up to `end`.

    The excerpt's own bars where that holds a whole pass, since frames only come near to them; else to the nearest
    beats. Nobody means a sliver of less than half a beat, such as is heard of a pass that is almost over.
    """
    excerpt, clock = clip.excerpt, clip.clock
    if excerpt is None or excerpt.span is None:
        return None
    for one in clip.passes:
        if start <= clock.frame(one.clip) and clock.frame(one.clip_time(excerpt.end)) <= end:
            return excerpt.span
    spans = list(clock.spans(start, end))
    meant = [
        span for span in spans if 2 * span.length >= clock.time.meter(clock.time.bar_at(span.start)).beat
    ]
    hull = _hull(meant or spans)
    return clock.time.to_beats(hull) if hull else None


def _hull(spans: Sequence[Span]) -> Span | None:
    """From where the first starts to where the last ends."""
    return Span(min(span.start for span in spans), max(span.end for span in spans)) if spans else None
