"""The keys of a song in their order, and how each is related to the first.

Near keys go by their names (relative, parallel, dominant, subdominant: any harmony textbook); other keys of the same
mode by the step from the home key, up to a fourth whichever way is nearer, as players say it (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.repeats import NamedSpan
from studio.theory.plain_english import capital, half_steps_words

_STEPS = {
    6: f"{half_steps_words(6)} away",
    **{distance: f"up {half_steps_words(distance)}" for distance in range(1, 6)},
    **{12 - distance: f"down {half_steps_words(distance)}" for distance in range(1, 6)},
}


@dataclass(frozen=True, slots=True)
class KeyStage:
    """A stretch in one key. ``relation`` is to the home key ("" for the home key itself, "the dominant" …), ``step``
    that to the key before. ``sections`` are the names of those that begin in it."""

    key: Key
    span: Span
    relation: str
    step: str
    sections: tuple[str, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class KeyPlan:
    """The keys in order; ``home`` is the first, ``returns`` says whether the song ends in it.

    ``sureness`` is that of the least sure of the keys: 1 where they are written.
    """

    stages: tuple[KeyStage, ...]
    home: Key | None
    returns: bool
    sureness: float = 1.0


def relation(key: Key, home: Key) -> str:
    """How a key is related to a home key, by sound rather than spelling: "" for the same, "the relative minor" …"""
    up = home.above(key.tonic)
    if key.mode == home.mode:
        if up == 0:
            return ""
        return {7: "the dominant", 5: "the subdominant"}.get(up) or _STEPS[up]
    if up == 0:
        return f"the parallel {key.mode}"
    if up == (9 if home.mode == "major" else 3):
        return f"the relative {key.mode}"
    if up == 7:
        return f"the dominant {key.mode}"
    if up == 5:
        return f"the subdominant {key.mode}"
    return _STEPS[up]


def key_plan(
    keys: Sequence[tuple[Fraction, Key]],
    sections: Sequence[NamedSpan],
    time: SongTime,
    end: Fraction,
    sureness: float = 1.0,
) -> KeyPlan:
    """The plan of keys that are given as (from quarters, key), ascending, in a song that ends at ``end``.

    ``sureness`` is that of the least sure key. Keys that follow themselves are one stage. Total: no keys make an
    empty plan.
    """
    joined: list[tuple[Fraction, Key]] = []
    for start, key in keys:
        if not joined or joined[-1][1] != key:
            joined.append((start, key))
    if not joined:
        return KeyPlan((), None, False, 0.0)
    home = joined[0][1]
    stages = []
    for index, (start, key) in enumerate(joined):
        stop = joined[index + 1][0] if index + 1 < len(joined) else max(end, start)
        span = Span(start, max(stop, start))
        within = tuple(name for name, section in sections if span.contains(section.start))
        step = relation(key, joined[index - 1][1]) if index else ""
        stages.append(KeyStage(key, span, relation(key, home), step, within, _reason(key, home, span, time)))
    return KeyPlan(tuple(stages), home, len(joined) > 1 and joined[-1][1] == home, sureness)


def _reason(key: Key, home: Key, span: Span, time: SongTime) -> str:
    related = relation(key, home)
    if not related:
        return f"{key} is the home key."
    preposition = "of" if related.startswith("the") else "from"
    return f"{capital(time.words(span))}: {key} is {related} {preposition} {home}."
