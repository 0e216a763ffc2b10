"""Names by content: the same inputs give the same name on every machine."""

from __future__ import annotations

import hashlib
import json
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

from studio.drawing.kinds import code_from_elsewhere
from studio.drawing.lettering.face import face_of
from studio.drawing.lettering.fonts import files_of
from studio.drawing.themes.theme import Theme

PACKAGE = Path(__file__).resolve().parents[1]
"""The folder of the program's own code."""
_BLOCK = 1 << 20
_MADE_WITH = (
    *("Pillow", "uharfbuzz", "verovio", "resvg-py", "uniseg", "fontpkg-source-sans-3"),
    *("av", "numpy", "soundfile", "soxr", "imageio-ffmpeg"),
)


def plain(value: Any) -> Any:
    """A value of the plan as JSON can hold it; dataclasses are named, so that kinds of content never look alike."""
    if is_dataclass(value) and not isinstance(value, type):
        inner = {field.name: plain(getattr(value, field.name)) for field in fields(value)}
        return {"is": type(value).__qualname__, **inner}
    if isinstance(value, dict):
        return {str(key): plain(inner) for key, inner in value.items()}
    if isinstance(value, (tuple, list)):
        return [plain(inner) for inner in value]
    if isinstance(value, (set, frozenset)):
        return sorted((plain(inner) for inner in value), key=str)
    if isinstance(value, Fraction):
        return f"{value.numerator}/{value.denominator}"
    if isinstance(value, Enum):
        return value.name
    if isinstance(value, Path):
        return value.as_posix()
    return value


def name_of(*values: Any) -> str:
    """A name of 40 hex digits for plan values."""
    text = json.dumps([plain(value) for value in values], sort_keys=True, ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()[:40]


_CONTENTS: dict[int, tuple[Any, str]] = {}


def content_digest(content: Any) -> str:
    """A name for what a layer shows, worked out once for each object: all chunks of a clip share theirs."""
    known = _CONTENTS.get(id(content))
    if known is None:  # the object is kept, so that its id stays its own
        known = _CONTENTS[id(content)] = content, name_of(content)
    return known[1]


def file_digest(path: Path) -> str:
    """A digest of a file's bytes, 40 hex digits. Within a run it is read once, unless its size or time change."""
    about = path.stat()
    return _digest(path.as_posix(), about.st_size, about.st_mtime_ns)


@cache
def _digest(path: str, size: int, changed: int) -> str:
    digest = hashlib.sha256()
    with Path(path).open("rb") as file:
        while block := file.read(_BLOCK):
            digest.update(block)
    return digest.hexdigest()[:40]


def theme_digest(theme: Theme) -> str:
    """A name for a theme: by its values, and by what is in its font files, wherever they lie."""
    faces = (theme.weights.regular, theme.weights.strong, theme.weights.heavy)
    files = dict.fromkeys(file for face in faces for file in files_of(face_of(face)))
    return name_of(replace(theme, fonts=tuple(file_digest(file) for file in files)))


@cache
def code_digest(*rooms: str) -> str:
    """A digest of the program's own modules in the named rooms ("sound") and single ones ("timeline/heard.py"), and of
    the libraries that draw and encode.

    With the drawing room goes the code of other packages that draw kinds of callout.
    """
    digest = hashlib.sha256()
    for room in rooms:
        place = PACKAGE / room
        for module in sorted(place.rglob("*.py")) if place.is_dir() else [place]:
            digest.update(module.relative_to(PACKAGE).as_posix().encode())
            digest.update(module.read_bytes())
    for name, module in code_from_elsewhere() if "drawing" in rooms else ():
        digest.update(name.encode())
        digest.update(module.read_bytes())
    for library in _MADE_WITH:
        digest.update(f"{library} {version(library)}".encode())
    return digest.hexdigest()[:40]
