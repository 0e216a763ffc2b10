"""Played examples: the tones of what the program plays in one excerpt, pass by pass, and where a pass is changed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from studio.music.place import Span
from studio.project.model import Excerpt, FactAsked, Instead, Play
from studio.timeline.heard import Tone, nearest_sample
from studio.timeline.playing import free_tones, replaced, tones_of
from studio.timeline.song_facts import SongFacts

Complain = Callable[[str, str], None]
"""Takes the key of an excerpt that is wrong, and a sentence."""

_UNKNOWN = Fraction(1)
"""Seconds that are taken for the length of what cannot be played, and is complained of."""


class Examples:
    """What the program plays in one excerpt. `excerpt` is the same excerpt, its length known."""

    def __init__(
        self, excerpt: Excerpt, facts: SongFacts, asked: Sequence[FactAsked], complain: Complain
    ) -> None:
        self._facts, self._complain = facts, complain
        self._free: dict[Play, tuple[Tone, ...]] = {}
        length = Fraction(0)
        for play in excerpt.plays:
            if not play.placed:
                self._free[play], seconds = self._by_itself(play, asked)
                length = max(length, seconds)
        self.excerpt = excerpt if excerpt.span else replace(excerpt, end=excerpt.start + length)

    def tones(self, play: Play, number: int) -> tuple[Tone, ...]:
        """The tones of one thing that is played, in the pass of that number, counted from 0."""
        if not play.placed:
            return self._moved(self._free[play])
        span = self._span(number == self.excerpt.passes - 1)
        instead = changes_in(self.excerpt, play, span) if is_changed(self.excerpt, number) else ()
        try:
            return tones_of(play, span, self._facts, instead, beside=self.excerpt.plays)
        except ValueError as problem:
            self._complain("instead" if instead else "play", str(problem))
            return ()

    def silent(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """The stretches, in seconds of the recording, in which a changed pass sounds otherwise."""
        time, whole = self._facts.song.time, self._span(True)
        found: list[Span] = []
        for play in self.excerpt.plays:
            if instead := changes_in(self.excerpt, play, whole):
                try:
                    found += replaced(play, whole, self._facts, instead)
                except ValueError as problem:
                    self._complain("instead", str(problem))
        return tuple((time.seconds(span.start), time.seconds(span.end)) for span in found)

    def _span(self, tail: bool) -> Span:
        """What of the song is played in a pass, with the tail or without."""
        time, excerpt = self._facts.song.time, self.excerpt
        last = excerpt.end + (excerpt.tail if tail else 0)
        return Span(time.quarters_at(excerpt.start), time.quarters_at(last))

    def _by_itself(self, play: Play, asked: Sequence[FactAsked]) -> tuple[tuple[Tone, ...], Fraction]:
        try:
            return free_tones(play, self._facts, asked)
        except ValueError as problem:
            self._complain("play", str(problem))
            return (), _UNKNOWN

    def _moved(self, tones: tuple[Tone, ...]) -> tuple[Tone, ...]:
        """Tones that count from the start of the excerpt, moved there; where it ends, they do."""
        start = nearest_sample(self.excerpt.start)
        length = nearest_sample(self.excerpt.length + self.excerpt.tail)
        return tuple(
            replace(tone, start=start + tone.start, length=min(tone.length, length - tone.start))
            for tone in tones
            if tone.start < length
        )


def is_changed(excerpt: Excerpt, number: int) -> bool:
    """Whether a pass, counted from 0, is one that is played otherwise: every second one, where any is."""
    return bool(excerpt.instead) and number % 2 == 1


def changes_in(excerpt: Excerpt, play: Play, span: Span) -> tuple[Instead, ...]:
    """What changes in one thing that is played, as far as it is in a stretch of the song."""
    return tuple(
        change
        for change in excerpt.instead
        if play.placed
        and change.play in ("", play.name)
        and (span.contains(change.span.start) or span.overlaps(change.span))
    )
