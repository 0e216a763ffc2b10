"""Names by content: the same inputs give the same name on every machine."""

from __future__ import annotations

import hashlib
import json
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

_BLOCK = 1 << 20
_MADE_WITH = (
    *("Pillow", "uharfbuzz", "verovio", "resvg-py", "fontpkg-source-sans-3"),
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


@cache
def code_digest(*rooms: str) -> str:
    """A digest of the program's own modules in the named rooms, and of the libraries that draw and encode."""
    package = Path(__file__).resolve().parents[1]
    digest = hashlib.sha256()
    for room in rooms:
        for module in sorted((package / room).rglob("*.py")):
            digest.update(module.relative_to(package).as_posix().encode())
            digest.update(module.read_bytes())
    for library in _MADE_WITH:
        digest.update(f"{library} {version(library)}".encode())
    return digest.hexdigest()[:40]
