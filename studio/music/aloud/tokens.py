"""A script's tokens, each with its punctuation, and what stands around one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from studio.music.aloud.symbols import symbol

_OPENING, _CLOSING = "([{\"'“‘«¿¡„", ")]}\"'”’».,;:!?…"
_SENTENCE_END = set(".!?…:")
BAR_LINE = re.compile(r":?[|‖𝄀𝄁𝄂𝄆𝄇]+:?")
_BAR_LINES = re.compile(f"({BAR_LINE.pattern})")


@dataclass(frozen=True)
class Token:
    """What stands between two spaces: punctuation, what it is, punctuation."""

    before: str
    core: str
    after: str


def tokens(text: str) -> list[Token]:
    """The tokens of a paragraph; bar lines of a chart stand apart from its chords."""
    found: list[Token] = []
    for piece in text.split():
        apart = _BAR_LINES.split(piece) if symbol(piece) is None else [piece]
        found += [_token(part) for part in apart if part]
    return found


def _token(text: str) -> Token:
    """Brackets that belong to a symbol stay with it."""
    if BAR_LINE.fullmatch(text) or symbol(text) is not None:
        return Token("", text, "")
    start, end = 0, len(text)
    while start < end and text[start] in _OPENING:
        start += 1
    while end > start and text[end - 1] in _CLOSING:
        if text[end - 1] == ")" and text.count("(", start, end) == text.count(")", start, end):
            break
        end -= 1
    return Token(text[:start], text[start:end], text[end:])


class Around:
    """What stands around one token of a paragraph."""

    def __init__(self, paragraph: Sequence[Token], at: int) -> None:
        self._tokens, self._at = paragraph, at

    def token(self, steps: int) -> Token:
        """The token so many steps on; an empty one where there is none."""
        at = self._at + steps
        return self._tokens[at] if 0 <= at < len(self._tokens) else Token("", "", "")

    def near(self, steps: int) -> str:
        """The same without its punctuation."""
        return self.token(steps).core

    @property
    def last(self) -> str:
        """The word before, in small letters; "" where punctuation parts it from here."""
        return "" if self.token(-1).after or self.token(0).before else self.near(-1).lower()

    @property
    def next(self) -> str:
        """The word after, in small letters; "" where punctuation parts it from here."""
        return "" if self.token(0).after or self.token(1).before else self.near(1).lower()

    def begins(self, steps: int = 0) -> bool:
        """Whether a sentence begins so many steps on."""
        before = self.token(steps - 1)
        return not (before.core or before.after) or bool(_SENTENCE_END & set(before.after))

    @property
    def ends(self) -> bool:
        """Whether a clause ends here."""
        return bool(self.token(0).after) or not (self.near(1) or self.token(1).before)
