"""Words for espeak-ng: those for the ear, and what it would get wrong besides."""

from __future__ import annotations

import re

from studio.music.aloud import for_the_ear

_LETTER = "eh"
"""What espeak-ng says as the letter A in English; a lone A before a word it says as the article."""

_LEADS = {"over", "is", "and", "to", "then", "or", "as", "sus", "add"}
"""Words before which an A that begins a sentence is a note."""
_QUALITIES = {"sharp", "flat", "minor", "major", "natural"}
_NUMBERS = {"five", "six", "seven", "nine", "eleven", "thirteen"}
_VERBS = {
    "has", "leads", "goes", "moves", "comes", "sounds", "becomes", "falls", "rises", "resolves", "follows",
}  # fmt: skip
"""What may follow the name of a chord or a key; a thing that is minor, flat or sharp follows an article."""

_LETTER_A = re.compile(r"(?P<start>(?:^|[.!?…:]\s+|\n\s*)[\"'“‘(]*)?\bA(?=(?P<next>(?: \w+){1,4}))(?!['’])")


def for_a_machine(script: str, language: str) -> str:
    """The script for the ear, letters that have no sound left out, and in English the letter A as `eh`."""
    english = language.lower().partition("-")[0].partition("+")[0] == "en"
    said = for_the_ear(script, _LETTER if english else "A")
    words = "".join(letter if letter.isprintable() or letter == "\n" else " " for letter in said)
    return _LETTER_A.sub(_letter_a, words) if english else words


def _letter_a(found: re.Match[str]) -> str:
    start = found["start"]
    article = start is not None and not _names_a_note(found["next"].split())
    return f"{start or ''}{'A' if article else _LETTER}"


def _names_a_note(follows: list[str]) -> bool:
    """Whether an A that begins a sentence is a note, by up to four words after it in its clause."""
    if follows[0] not in _QUALITIES:
        return follows[0] in _LEADS
    after = next((word for word in follows if word not in _QUALITIES | _NUMBERS), None)
    return after is None or after in _LEADS | _VERBS
