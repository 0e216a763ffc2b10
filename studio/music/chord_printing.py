"""How chord symbols are printed: one house style for running text, tables and pictures.

The signs ° and + stand for diminished and augmented triads and what is built on them (C°7, C°(maj7), C+), as on
a fake-book page. The half-diminished chord is printed by its tones, Cm7♭5, because players who do not know ø
still find the notes; ø stays for numerals (viiø7). A major seventh is "maj7"; a triangle is read, not printed. Over a
minor triad it stands in brackets in running text, Am(maj7), and is raised in pictures.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from studio.music.chord_qualities import ADDED, ALTERATIONS, LEFT_OUT

SIGNS = {"dim": "°", "aug": "+"}
"""Words of qualities that are printed as signs, in text and in pictures alike."""

_MAJOR_SEVENTH = re.compile(r"Maj(\d+)")
_QUALITY_PARTS = re.compile(r"(m(?!aj)|maj|dim|aug)?(.*)")


@dataclass(frozen=True, slots=True)
class ChordDisplay:
    """A chord symbol cut up for typesetting: root large, quality on the line, ``raised`` small and raised.

    ``quality`` is "m", "maj", "dim", "aug" or empty; ``SIGNS`` has the signs that are set for the words.
    ``upper`` is the chord that stands over this one in a polychord.
    """

    root: str
    quality: str
    raised: str
    bass: str
    upper: ChordDisplay | None = None


def printing_order(change: str) -> tuple[int, int]:
    """Where a change stands among the others: alterations, then added tones, then what is left out."""
    if change.startswith("add"):
        return 1, ADDED.index(change[3:])
    if change.startswith("no"):
        return 2, LEFT_OUT.index(change[2:])
    return 0, ALTERATIONS.index(change)


def cut(suffix: str) -> tuple[str, str]:
    """What follows a root, cut into the quality's word and what is set raised: "dim7" is "dim" and "7"."""
    match = _QUALITY_PARTS.fullmatch(suffix)
    assert match is not None  # both groups may be empty
    return match[1] or "", match[2].replace("Maj", "maj")


def signed(suffix: str) -> str:
    """What follows a root as it is printed in a line of text: "dim7" is "°7", "mMaj7" is "m(maj7)"."""
    word = suffix[:3]
    plain = SIGNS[word] + suffix[3:] if word in SIGNS else suffix
    return _MAJOR_SEVENTH.sub(r"(maj\1)", plain)


@lru_cache(maxsize=4096)
def written_out(quality: str, changes: tuple[str, ...]) -> str:
    """A quality and its changes in one word: "7(♭9♯11)", "add9", "dim7(add9)", "7sus4(♭9)"."""
    if not changes:
        return quality
    alterations = "".join(change for change in changes if change in ALTERATIONS)
    words = [change for change in changes if change not in ALTERATIONS]
    if not words and quality[-1:].isdigit() and "sus" not in quality:
        return quality + alterations if len(changes) == 1 else f"{quality}({alterations})"
    if quality in ("", "m") and len(changes) == 1 and words[:1] and words[0].startswith("add"):
        return quality + words[0]
    return f"{quality}({','.join([alterations] * bool(alterations) + words)})"
