"""Scripts: how long they take to say, and how they divide into pages."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
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


def page_states(
    turned: Sequence[str], frames: int, covered: Iterable[tuple[int, int]] = ()
) -> tuple[State, ...]:
    """Each page stays for its share of the words, in the frames that are not covered; in those, look -1."""
    free = _free(frames, covered)
    shown = sum(end - start for start, end in free)
    total = max(_words(turned), 1)
    states, at, said = [], 0, 0
    for page, text in enumerate(turned):
        said += len(text.split())
        end = shown if page == len(turned) - 1 else int(Fraction(shown * said, total))
        states += [State(first, last, page) for first, last in _stretch(free, at, end)]
        at = end
    return _filled(states, frames)


def _free(frames: int, covered: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """The runs of frames that nothing covers."""
    free, at = [], 0
    for start, end in sorted(covered):
        if start > at:
            free.append((at, start))
        at = max(at, end)
    return [*free, (at, frames)] if at < frames else free


def _stretch(free: Sequence[tuple[int, int]], start: int, end: int) -> Iterator[tuple[int, int]]:
    """Frames `start` up to `end`, counted over the free runs alone, as frames of the clip."""
    passed = 0
    for first, last in free:
        begin, stop = max(start - passed, 0) + first, min(end - passed, last - first) + first
        if begin < stop:
            yield begin, stop
        passed += last - first


def _filled(states: Sequence[State], frames: int) -> tuple[State, ...]:
    """The states, with look -1 wherever there is none."""
    whole, at = [], 0
    for state in states:
        if state.start > at:
            whole.append(State(at, state.start, -1))
        whole.append(state)
        at = state.end
    return (*whole, State(at, frames, -1)) if at < frames else tuple(whole)
