"""Scripts: how long they take to say, and how they divide into pages."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from studio.timeline.state import State

WORDS_A_PAGE = 48
_SENTENCE = re.compile(r"(?<=[.!?…])\s+")


def pages(script: str) -> tuple[str, ...]:
    """A script in pages of about 48 words, turned between sentences where that can be; paragraphs are kept."""
    found: list[str] = []
    for paragraph in re.split(r"\n\s*\n", script.strip()):
        page: list[str] = []
        for sentence in _sentences(" ".join(paragraph.split())):
            if page and _words(page) + len(sentence.split()) > WORDS_A_PAGE:
                found.append(" ".join(page))
                page = []
            page.append(sentence)
        if page:
            found.append(" ".join(page))
    return tuple(_gathered(found))


def _sentences(text: str) -> list[str]:
    """Sentences, the overlong ones cut into runs of words."""
    runs = []
    for sentence in _SENTENCE.split(text):
        words = sentence.split()
        runs += [" ".join(words[n : n + WORDS_A_PAGE]) for n in range(0, len(words), WORDS_A_PAGE)]
    return runs


def _gathered(paragraphs: Sequence[str]) -> list[str]:
    """Neighbouring short paragraphs share a page."""
    found: list[str] = []
    for text in paragraphs:
        if found and _words([found[-1], text]) <= WORDS_A_PAGE:
            found[-1] += "\n\n" + text
        else:
            found.append(text)
    return found


def _words(texts: Sequence[str]) -> int:
    return sum(len(text.split()) for text in texts)


def page_states(turned: Sequence[str], frames: int) -> tuple[State, ...]:
    """Each page stays for its share of the words."""
    total = max(_words(turned), 1)
    states, at, said = [], 0, 0
    for page, text in enumerate(turned):
        said += len(text.split())
        end = frames if page == len(turned) - 1 else int(Fraction(frames * said, total))
        if end > at:
            states.append(State(at, end, page))
        at = end
    return tuple(states) or (State(0, frames, 0),)
