"""Small numbers that people write as words, and how often things happen, in words."""

from __future__ import annotations

_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
_TIMES = ("once", "twice", "thrice")


def number_meant(text: str) -> int | None:
    """The number that a word or two stand for: `two`, `twice`, `three times`, `2x`, `second`; None for another text."""
    word = text.strip().lower().removesuffix(" times")
    bare = word.removesuffix("x").strip()
    if bare.isascii() and bare.isdecimal() and len(bare) < 3 and 1 <= int(bare) <= len(_NUMBERS):
        return int(bare)
    ordinals = ("first", "second", "third", "fourth")
    found = next((words.index(word) for words in (_NUMBERS, _TIMES, ordinals) if word in words), None)
    return None if found is None else found + 1


def times_in_words(count: int) -> str:
    """How often: `once`, `twice`, `three times`; digits from nine on."""
    if count in (1, 2):
        return _TIMES[count - 1]
    return f"{_NUMBERS[count - 1] if count <= len(_NUMBERS) else count} times"
