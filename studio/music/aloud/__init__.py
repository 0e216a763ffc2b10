"""A script as words for the ear: what symbols of music are called aloud, and how many words that makes."""

from studio.music.aloud.count import words_aloud
from studio.music.aloud.ear import for_the_ear

__all__ = ["for_the_ear", "words_aloud"]
