"""One pass through the text of a symbol: where it stands, what comes next, where it stops making sense."""

from __future__ import annotations

import re

from studio.music import chord_complaints as complaints
from studio.music import chord_grammar as grammar
from studio.music.chord_complaints import ChordError
from studio.music.pitch import NoteName, accidental_value


class Scan:
    """A symbol and the place ``at`` of the next character to make sense of, counted from 0.

    ``written`` is the text as it was typed, ``text`` the same with small raised figures as plain ones, and
    ``start`` the place where the chord begins that is being read.
    """

    def __init__(self, text: str) -> None:
        self.written = text.rstrip()
        self.text = self.written.translate(grammar.SMALL_FIGURES)
        self.at = len(self.text) - len(self.text.lstrip())
        self.start = self.at
        self.may_follow: tuple[str, ...] = grammar.AFTER_ROOT

    @property
    def here(self) -> str:
        """The next character; empty at the end."""
        return self.text[self.at : self.at + 1]

    def match(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """What ``pattern`` finds at this place, and go on behind it."""
        found = pattern.match(self.text, self.at)
        if found is not None:
            self.at = found.end()
        return found

    def note(self) -> NoteName:
        """The note whose letter stands at this place."""
        letter, self.at = self.here, self.at + 1
        accidentals = self.match(grammar.ROOT_ACCIDENTALS)
        assert accidentals is not None  # the pattern may match nothing, but it always matches
        return NoteName(letter, accidental_value(accidentals[0]))

    def nonsense(self, at: int | None = None) -> ChordError:
        """The complaint that the text makes no sense from ``at``, or from this place, on."""
        at = self.at if at is None else at
        at += grammar.sense(self.text[at:], self.may_follow + grammar.ANYWHERE)
        return ChordError(complaints.makes_no_sense(self.written[self.start : at], self.written[at:]), at)

    def never_closed(self) -> ChordError:
        """The complaint about a bracket that is left open."""
        return ChordError(f"The bracket in “{self.written.strip()}” is never closed.", self.at)
