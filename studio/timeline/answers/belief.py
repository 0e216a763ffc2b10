"""Comparing what a person believes with what theory says."""

from __future__ import annotations

import contextlib
import re

from studio.music.chord_reader import ChordError, read_chord
from studio.music.key import Key
from studio.timeline.answers.said import Said, Verdict

_FLAT = re.compile(r"(?<![A-Za-z])b(?=[\divIV]+)|(?<=\b[A-Ga-g])b(?![a-z])")
_BETWEEN = re.compile(r"[\s\-–—,|→]+")
_NUMERAL = re.compile(r"[♭♯]*[ivIV]+(?![a-zA-Z])")
_ARTICLES = ("a", "an", "the")


def judge(expected: str, said: Said) -> Verdict:
    """How a belief compares with an answer; "" for no belief.

    Two ways of writing one thing are the same: flats and sharps in letters or signs, dashes, commas or blanks
    between numerals, ``C-7`` for ``Cm7``, ``f# minor`` for ``F♯ minor``.
    """
    if not expected:
        return ""
    if _says_one_of(expected, (said.words, *said.also)):
        return "agrees"
    return "open" if _says_one_of(expected, (said.runner_up, *said.possible)) else "disagrees"


def _says_one_of(expected: str, answers: tuple[str, ...]) -> bool:
    return any(answer and _forms(expected) & _forms(answer) for answer in answers)


def _forms(text: str) -> set[object]:
    """What a text could mean: its words in one form, the chord that it names, the key that it names."""
    forms: set[object] = {_plain(text)}
    with contextlib.suppress(ChordError):
        forms.add(read_chord(text))
    with contextlib.suppress(ValueError):
        forms.add(Key.parse(text))
    return forms


def _plain(text: str) -> tuple[str, ...]:
    """The words of a text without what does not change its meaning. Numerals keep their case."""
    signed = _FLAT.sub("♭", text.strip().rstrip(".").replace("#", "♯"))
    words = [word for word in _BETWEEN.split(signed) if word]
    if len(words) > 1 and words[0].casefold() in _ARTICLES and words[0] != "A":
        del words[0]
    return tuple(word if _NUMERAL.match(word) else word.casefold() for word in words)
