"""What only those need who ask for it: a scratch voice and a SoundFont, each an extra of the package.

A SoundFont's player asks for PyAudio, which plays to loudspeakers, needs headers of the system to be built, and is
never used here: so the remedy leaves its dependencies out.
"""

from __future__ import annotations

import importlib
import importlib.util
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from studio.project.amounts import OFF, ON, PROGRAMS
from studio.project.complaints import MisfitError, nearest
from studio.project.folder import Folder

_CODE = re.compile(r"[a-z]{2,3}([-_][a-z0-9]{1,8})*", re.ASCII | re.IGNORECASE)
_SHORT_CODE = 3  # any two or three letters are near another language's
_SPOKEN_UNLESS_SAID = "en"


def read_scratch_voice(text: str) -> str:
    """The language of a scratch voice: `yes`, or a name that espeak-ng has for it, as en-gb; "" for `no`.

    Raises MisfitError for another language, or where the package that speaks is not installed.
    """
    text = text.strip()
    if text.lower() in OFF:
        return ""
    _need("espeakng_loader", "A scratch voice", "pip install 'stave-and-slate[scratch]'")
    if text.lower() in ON:
        return _SPOKEN_UNLESS_SAID
    known = _languages()
    if text.lower() in known:
        return text.lower()
    codes = [code for code, name in known.items() if name.lower().split(" (")[0] == text.lower()]
    if codes:
        raise MisfitError(f"'{text}' is written {min(codes, key=len)} here")
    meant = nearest(text, known) if _CODE.fullmatch(text) and len(text) > _SHORT_CODE else None
    remedy = f"did you mean '{meant}'?" if meant else "write yes, or a short name such as en-gb, de or fr-fr"
    raise MisfitError(f"'{text}' is not a language of the scratch voice; {remedy}")


@dataclass(frozen=True)
class SoundFont:
    """A SoundFont file, and the names of its programs by their numbers, which musicians count from 1."""

    path: Path
    programs: Mapping[int, str]


def read_soundfont(written: str, folder: Folder) -> SoundFont:
    """The SoundFont that a path names. Raises MisfitError where it is none, or its player is not installed.

    A SoundFont is a RIFF file of the form `sfbk` (SoundFont technical specification 2.04, section 4).
    """
    _need("tinysoundfont", "A SoundFont", "pip install --no-deps tinysoundfont")
    path = folder.file(written)
    with path.open("rb") as file:
        head = file.read(12)
    if head[:4] != b"RIFF" or head[8:] != b"sfbk":
        raise MisfitError(f"'{written}' is not a SoundFont; those are files that end in .sf2 or .sf3")
    state = path.stat()
    programs = _programs(path, state.st_size, state.st_mtime_ns)
    if programs is None:
        raise MisfitError(f"'{written}' cannot be read as a SoundFont; is it whole?")
    if not programs:
        raise MisfitError(f"'{written}' has no programs in its first bank, so nothing can be played on it")
    return SoundFont(path, programs)


@lru_cache(maxsize=4)
def _programs(path: Path, size: int, changed: int) -> Mapping[int, str] | None:
    """Names of the programs of the first bank by their numbers from 1; None for what cannot be read.

    `size` and `changed` are there so that a file that was written anew is read anew.
    """
    from tinysoundfont import SoundFontException, Synth

    synth = Synth()
    try:
        loaded = synth.sfload(str(path))
    except (RuntimeError, SoundFontException, OSError, ValueError):
        return None
    names = {number: synth.sfpreset_name(loaded, 0, number - 1) for number in range(1, PROGRAMS + 1)}
    synth.sfunload(loaded)
    return {number: name for number, name in names.items() if name is not None}


def _need(package: str, what: str, remedy: str) -> None:
    if importlib.util.find_spec(package) is None:
        raise MisfitError(f"{what} needs the package {package}, which is not installed: {remedy}")


@lru_cache(maxsize=1)
def _languages() -> dict[str, str]:
    """The languages that espeak-ng speaks, by its short names, with their English ones, from its own files."""
    folder = Path(importlib.import_module("espeakng_loader").get_data_path()) / "lang"
    found: dict[str, str] = {}
    for file in sorted(file for file in folder.rglob("*") if file.is_file()):
        text = file.read_text(encoding="utf-8", errors="replace")
        name = re.search(r"^name[ \t]+(.+?)[ \t]*$", text, re.MULTILINE)
        for code in re.findall(r"^language[ \t]+(\S+)", text, re.MULTILINE):
            found.setdefault(code.lower(), name[1] if name else code)
    return found
