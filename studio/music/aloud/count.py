"""How many words a script has when somebody says it."""

from __future__ import annotations

import re

from studio.music.aloud.ear import for_the_ear

_BETWEEN = re.compile(r"[\s/…,;:!?()\[\]{}\"“”„«»|_–—-]+|\.(?=[^\W\d])|(?<=[^\W\d])\.")
_NUMBER = re.compile(r"([0-9]+)(?:st|nd|rd|th)?")
_CALLED = re.compile(r"[%&@+=$€£#]|(?<=\d)\.(?=\d)")
"""Signs that have a name, and the point of a decimal number."""

_LARGE = (10**9, 10**6, 10**3, 10**2)  # numbers with a word of their own
_LONG = 12  # figures: a longer number is said figure by figure


def words_aloud(script: str) -> int:
    """The words of a script for the ear: symbols of music as they are said, numbers in full.

    Each part of a word with a hyphen counts.

    >>> words_aloud("F♯7/A♯"), words_aloud("I–V/vi"), words_aloud("in 24 bars"), words_aloud("off-beat")
    (6, 4, 4, 2)
    """
    return sum(map(_words_in, filter(None, _BETWEEN.split(for_the_ear(script)))))


def _words_in(piece: str) -> int:
    letters, numbers = _NUMBER.subn("", piece)
    figures = sum(_in_figures(found[1]) for found in _NUMBER.finditer(piece)) if numbers else 0
    return figures + any(letter.isalnum() for letter in letters) + len(_CALLED.findall(piece))


def _in_figures(figures: str) -> int:
    return len(figures) if len(figures) > _LONG else max(_in_number(int(figures)), 1)


def _in_number(value: int) -> int:
    """Words of a whole number in English, without "and"; 0 for zero, which is silent after a hundred."""
    for unit in _LARGE:
        if value >= unit:
            return _in_number(value // unit) + 1 + _in_number(value % unit)
    if value == 0:
        return 0
    return 1 if value <= 20 or value % 10 == 0 else 2
