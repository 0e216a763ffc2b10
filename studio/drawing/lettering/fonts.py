"""Fonts: the text family that comes with the program, and those that a theme lists for what it lacks.

A listed font is an installed package of fonts (`heebo` is the package `fontpkg-heebo`) or the path of a font file. The
fonts of the machine are never asked, so that every machine draws the same letters.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from studio.drawing.lettering.face import Face

_FILES = (".ttf", ".otf", ".ttc", ".otc")


class FontError(ValueError):
    """A font that cannot be had; says which, and what to do."""


@dataclass(frozen=True)
class Font:
    """A font that is loaded: the characters that it has, and HarfBuzz's own object to shape with."""

    characters: frozenset[int]
    shaper: Any

    def has(self, text: str) -> bool:
        """Whether it has every character of `text`."""
        return all(ord(character) in self.characters for character in text)


@cache
def family(weight: float) -> Font:
    """The text family, Source Sans 3, a variable font under the SIL Open Font Licence."""
    import fontpkg_source_sans_3

    return _loaded(Path(fontpkg_source_sans_3.ROOT) / "files" / "SourceSans3[wght].ttf", weight)


@cache
def listed(name: str, weight: float) -> Font:
    """The font that a theme lists as `name`, as near to `weight` as it comes. Raises FontError."""
    return _loaded(_file(name, weight), weight)


def files_of(face: Face) -> tuple[Path, ...]:
    """The files of the fonts that a face lists, whose bytes decide what is drawn. Raises FontError."""
    return tuple(_file(name, face.weight) for name in face.fonts)


def is_path(name: str) -> bool:
    """Whether a font is listed by its path and not by the name of a package."""
    return "/" in name or "\\" in name or name.casefold().endswith(_FILES)


def _file(name: str, weight: float) -> Path:
    if is_path(name):
        return Path(name)
    import fontpkg

    try:
        return Path(fontpkg.path(name, int(weight), nearest=True))
    except fontpkg.FamilyNotInstalled as problem:
        package = f"fontpkg-{fontpkg.slugify(name)}"
        raise FontError(
            f"the font '{name}' is not installed: install the package {package}, or write the path of a font file"
        ) from problem
    except fontpkg.FontpkgError as problem:
        raise FontError(f"the font '{name}' has no upright letters; list another") from problem


def _loaded(file: Path, weight: float) -> Font:
    import uharfbuzz

    try:
        face = uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(file)))
    except (OSError, uharfbuzz.HarfBuzzError) as problem:
        raise FontError(f"the font file '{file.name}' cannot be read") from problem
    if not face.glyph_count or not face.unicodes:
        raise FontError(f"'{file.name}' is no font that can be read: name a TrueType or OpenType file")
    shaper = uharfbuzz.Font(face)
    shaper.scale = (1000, 1000)
    shaper.set_variations({"wght": weight})
    return Font(frozenset(face.unicodes), shaper)
