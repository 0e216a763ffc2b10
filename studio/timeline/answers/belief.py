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
_CAPITAL_M = re.compile(r"^([A-G][♭♯]*)M(?![A-Za-z])")
_ARTICLES = ("a", "an", "the")


def judge(expected: str, said: Said, phrase: bool = False) -> Verdict:
    """How a belief compares with an answer; "" for no belief.

    Two ways of writing one thing are the same: flats and sharps in letters or signs, dashes, commas or blanks
    between numerals, ``C-7`` for ``Cm7``, ``f# minor`` for ``F♯ minor``. Of an answer that
    is a ``phrase``, some of its words will do: "half" for "half cadence".
    """
    if not expected:
        return ""
    answers = (said.words, *said.also)
    if _says_one_of(expected, answers) or (phrase and _is_part_of_one(expected, answers)):
        return "agrees"
    return "open" if _says_one_of(expected, (said.runner_up, *said.possible)) else "disagrees"


def _says_one_of(expected: str, answers: tuple[str, ...]) -> bool:
    return any(answer and _forms(expected) & _forms(answer) for answer in answers)


def _is_part_of_one(expected: str, answers: tuple[str, ...]) -> bool:
    """Whether the words of a belief stand in an answer, in their order and side by side."""
    wanted = _plain(expected)
    return bool(wanted) and any(
        words[start : start + len(wanted)] == wanted
        for words in map(_plain, answers)
        for start in range(len(words) - len(wanted) + 1)
    )


def _forms(text: str) -> set[object]:
    """What a text could mean: its words in one form, the chord that it names, the key that it names."""
    forms: set[object] = {_plain(text)}
    with contextlib.suppress(ChordError):
        forms.add(read_chord(text))
    with contextlib.suppress(ValueError):
        forms.add(Key.parse(text))
    return forms


def _plain(text: str) -> tuple[str, ...]:
    """The words of a text without what does not change its meaning.

    Numerals keep their case, and the M of CM7 is spelled out before it could become the m of Cm7.
    """
    signed = _FLAT.sub("♭", text.strip().rstrip(".").replace("#", "♯"))
    words = [word for word in _BETWEEN.split(signed) if word]
    if len(words) > 1 and words[0].casefold() in _ARTICLES and words[0] != "A":
        del words[0]
    words = [_CAPITAL_M.sub(r"\1maj", word) for word in words]
    return tuple(word if _NUMERAL.match(word) else word.casefold() for word in words)
