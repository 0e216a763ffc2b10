"""The words that facts put on screen, all in one place: short, and as musicians say them.

One module for each subject; whoever needs words takes them from here.
"""

from studio.theory.wording.harmony import (
    NO_CHORD,
    key_words,
    progression_words,
    reading_note,
    sentence_for,
    spaced,
)
from studio.theory.wording.melody import degree_words

__all__ = [
    "NO_CHORD",
    "degree_words",
    "key_words",
    "progression_words",
    "reading_note",
    "sentence_for",
    "spaced",
]
