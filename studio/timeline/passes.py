"""The passes of an excerpt: when each moment of the recording is heard in its clip, before anything is rounded."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise

from studio.project.model import Excerpt
from studio.timeline.clock import Heard
from studio.timeline.heard import nearest_sample


def passes_of(excerpt: Excerpt, at: Fraction = Fraction(0)) -> tuple[Heard, ...]:
    """The passes of an excerpt whose first click or sound is at second `at` of its clip; the last has the tail."""
    music, once = at + excerpt.counted, excerpt.length / excerpt.speed
    last = excerpt.passes - 1
    return tuple(
        Heard(
            music + number * once,
            excerpt.start,
            excerpt.length + (excerpt.tail if number == last else 0),
            excerpt.speed,
        )
        for number in range(excerpt.passes)
    )


def without(heard: Heard, silent: Iterable[tuple[Fraction, Fraction]]) -> tuple[Heard, ...]:
    """What is left of a pass in which stretches of the recording, from and up to seconds of it, do not sound."""
    last = heard.source + heard.length
    edges = [heard.source]
    for start, end in sorted(silent):
        edges += [max(edges[-1], min(start, last)), max(edges[-1], min(end, last))]
    kept = zip(edges[::2], [*edges[1::2], last], strict=True)
    return tuple(
        Heard(heard.clip_time(start), start, end - start, heard.speed) for start, end in kept if start < end
    )


def pass_lengths(excerpt: Excerpt) -> tuple[int, ...]:
    """Samples of recording time in each pass.

    It is their joints that are rounded, each once: passes may differ by a sample, so that a hundred of them are as
    long as they should be.
    """
    joints = [nearest_sample(number * excerpt.length) for number in range(excerpt.passes)]
    joints.append(nearest_sample(excerpt.passes * excerpt.length + excerpt.tail))
    return tuple(end - start for start, end in pairwise(joints))
