"""Text cut into runs: stretches in one font that read one way, from left to right as they stand on the line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from unicodedata import category, normalize

from studio.drawing.lettering.accidentals import ACCIDENTALS
from studio.drawing.lettering.bidi import base_level, levels, unicode_class, visual_runs
from studio.drawing.lettering.face import Face, Weight, face_of
from studio.drawing.lettering.fonts import Font, family, listed
from studio.drawing.lettering.quality_signs import QUALITY_SIGNS

SIGNS = ACCIDENTALS | QUALITY_SIGNS
"""The characters that are signs of music and come from no text font."""

RIGHT_TO_LEFT_MARK, LEFT_TO_RIGHT_MARK = "\u200f", "\u200e"

_IGNORABLE = frozenset("\u00ad\u034f\u061c\u200b\u200c\u200d\u2060\ufeff") | {
    chr(code) for start, end in ((0x200E, 0x200F), (0x202A, 0x202E), (0x2066, 0x2069), (0xFE00, 0xFE0F))
    for code in range(start, end + 1)
}  # fmt: skip


@dataclass(frozen=True)
class Run:
    """A stretch of text in one font, or one sign of music, for which `font` is None."""

    text: str
    font: Font | None
    from_right: bool


def runs(text: str, face: Face) -> Iterator[Run]:
    """The runs of a line in the order in which they stand on it, from the left."""
    fonts = _fonts(text, face)
    for start, end, from_right in _directed(text):
        pieces = [
            [index for index, _ in group]
            for _, group in groupby(
                enumerate(fonts[start:end], start), lambda pair: (pair[1], pair[0] * (pair[1] is None))
            )
        ]
        for piece in reversed(pieces) if from_right else pieces:
            yield Run(text[piece[0] : piece[-1] + 1], fonts[piece[0]], from_right)


def reads_from_right(text: str) -> bool:
    """Whether a paragraph reads from right to left, so that it stands at the right."""
    return base_level(text, _class_of) == 1


def missing(text: str, weight: Weight = 400) -> str:
    """The characters of `text` that no font of the face can draw, each once, in order."""
    fonts = _candidates(face_of(weight))
    lacking = (
        cluster
        for cluster in _clusters(text)
        if cluster not in SIGNS and not cluster.isspace() and not any(_draws(f, cluster) for f in fonts)
    )
    return "".join(dict.fromkeys(lacking))


def without_font(text: str, weight: Weight) -> str:
    """The complaint about characters that cannot be drawn, with its remedy; "" where there are none."""
    lacking = " ".join(_clusters(missing(text, weight)))
    return f"no font here has {lacking}; list one that does under 'fonts' in the theme" if lacking else ""


def _directed(text: str) -> Iterator[tuple[int, int, bool]]:
    """(start, end, from the right) of stretches in the order in which they stand on the line."""
    if all(unicode_class(character) not in ("R", "AL", "AN", "RLE", "RLO", "RLI") for character in text):
        yield 0, len(text), False
        return
    found = levels(text, None, _class_of)
    for start, end in visual_runs(found):
        yield start, end, found[start] % 2 == 1


def _class_of(character: str) -> str:
    """As Unicode has it, but that ♭6, F♯ and C° read from the left in a line that reads from the right.

    The algorithm allows it: a higher protocol may give characters another class (UAX #9, HL3).
    """
    return "L" if character in SIGNS or character == "°" else unicode_class(character)


@lru_cache(maxsize=64)
def _candidates(face: Face) -> tuple[Font, ...]:
    return family(face.weight), *(listed(name, face.weight) for name in face.fonts)


def _fonts(text: str, face: Face) -> list[Font | None]:
    """The font of each character; None for a sign of music.

    A letter takes the first font that has it. Space and punctuation stay in the font before them if that has
    them, so that a sentence is not cut up at its spaces.
    """
    candidates = _candidates(face)
    found: list[Font | None] = []
    before = candidates[0]
    for cluster in _clusters(text):
        if cluster in SIGNS:
            found.append(None)
            continue
        is_letter = category(cluster[0])[0] in "LN"
        if is_letter or not _draws(before, cluster):
            before = next((font for font in candidates if _draws(font, cluster)), candidates[0])
        found += [before] * len(cluster)
    return found


def _clusters(text: str) -> Iterator[str]:
    """Characters with the marks that stand on them, which must come from the same font."""
    start = 0
    for index in range(1, len(text) + 1):
        if index == len(text) or not (category(text[index])[0] == "M" or text[index] in _IGNORABLE):
            if text[start:index]:
                yield text[start:index]
            start = index


def _draws(font: Font, cluster: str) -> bool:
    """Whether a font has all of a cluster, be it as one glyph or as several."""
    seen = "".join(character for character in cluster if character not in _IGNORABLE)
    return font.has(seen) or font.has(normalize("NFC", seen)) or font.has(normalize("NFD", seen))
