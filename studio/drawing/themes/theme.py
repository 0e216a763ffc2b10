"""Themes: where they are, and how a file becomes one. A person edits the file; nothing of it is code."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import fields
from functools import cache, partial
from pathlib import Path
from typing import Any

from studio.drawing.lettering.fonts import is_path
from studio.drawing.themes.judging import faults
from studio.drawing.themes.mending import mended, remedy
from studio.drawing.themes.reading import GROUPS, SOUGHT, Reader
from studio.drawing.themes.values import SMALLEST, Colours, Sizes, Theme, Timing, Weights, words
from studio.places import templates
from studio.project.checking import Findings
from studio.project.complaints import Complaint, ProjectError, nearest
from studio.project.folder import Folder
from studio.project.written import read

__all__ = [
    "SMALLEST",
    "Colours",
    "Sizes",
    "Theme",
    "ThemeError",
    "Timing",
    "Weights",
    "default_theme",
    "read_theme",
    "theme_names",
    "theme_path",
]


class ThemeError(ValueError):
    """A theme that cannot be used. `complaints` holds one plain sentence for each thing to mend."""

    def __init__(self, complaints: Iterable[str]) -> None:
        self.complaints = tuple(complaints)
        super().__init__("\n".join(self.complaints))


def theme_names() -> tuple[str, ...]:
    """The themes that come with the program, the usual one first."""
    known = sorted(path.stem for path in (templates() / "themes").glob("*.yaml"))
    return tuple(sorted(known, key=lambda name: name != "slate"))


def theme_path(name: str, beside: Path | None = None) -> Path:
    """Where the theme called `name` is: one that comes with the program, or a path of the person's own.

    A path is relative to the folder `beside`. Raises ThemeError when there is no such file.
    """
    ours = templates() / "themes" / f"{name}.yaml"
    if re.fullmatch(r"[\w-]+", name) and ours.is_file():
        return ours
    own = (beside or Path()) / name
    if own.is_file():
        return own
    guess = nearest(name, theme_names())
    meant = f"did you mean '{guess}'? Write" if guess else "write"
    known = " or ".join(theme_names())
    raise ThemeError([f"there is no theme '{name}': {meant} {known}, or the path of a theme file."])


def read_theme(path: Path) -> Theme:
    """The theme in the file at `path`. Raises ThemeError with every complaint at once."""
    try:
        data, findings = _written(path, ())
    except ProjectError as error:
        raise ThemeError(map(_sentence, error.complaints)) from error
    theme = Reader(findings).theme(path.stem, data)
    if not findings.complaints:
        _judge(theme, findings)
    if findings.complaints:
        raise ThemeError(map(_sentence, sorted(set(findings.complaints))))
    return theme


def _judge(theme: Theme, findings: Findings) -> None:
    """A complaint for each fault of the colours, at the one that is to be changed."""
    wrong = tuple(faults(theme))
    found = mended(theme, _own_colours(theme)) if wrong else {}
    for fault in wrong:
        at = next((role for role in fault.roles if role in found), fault.roles[0])
        findings.complain(("colours", words(at)), f"{fault.sentence}: {remedy(fault, found)}")


def _own_colours(theme: Theme) -> frozenset[str]:
    """The roles in which a theme differs from that one of the program's which it is most like."""
    every = [role.name for role in fields(Colours)]
    others = [read_theme(theme_path(name)).colours for name in theme_names() if name != theme.name]
    own = [
        frozenset(role for role in every if getattr(theme.colours, role) != getattr(other, role))
        for other in others
    ]
    return min(own, key=len, default=frozenset())


@cache
def default_theme() -> Theme:
    """The theme `slate`, for whoever has no project that names another."""
    return read_theme(theme_path("slate"))


def _written(path: Path, before: tuple[Path, ...]) -> tuple[dict[str, Any], Findings]:
    """What a theme file says, laid over what the theme says that it is based on."""
    written = read(path, "theme", (*SOUGHT[:1], *GROUPS))
    findings = Findings(written.marks, list(written.complaints))
    data, folder = dict(written.data), Folder(path.parent)
    if "fonts" in data:
        data["fonts"] = _beside(folder, data["fonts"], findings)
    other = _base(data.get("based on"), folder, findings)
    if other is None:
        return data, findings
    if other.resolve() in (path.resolve(), *before):
        findings.complain(("based on",), "these themes are based on each other, without end; name another")
        return data, findings
    under, found = _written(other, (*before, path.resolve()))
    findings.complaints += found.complaints
    return _laid_over(data, under), findings


def _base(written: Any, folder: Folder, findings: Findings) -> Path | None:
    """The file of the theme that another is based on: one of the program's, or one that lies beside it."""
    if written is None:
        return None
    if isinstance(written, str) and written in theme_names():
        return theme_path(written)
    if isinstance(written, str) and _is_path(written):
        return findings.attempt(("based on",), lambda: folder.file(written))
    known = " or ".join(theme_names())
    guess = nearest(written, theme_names()) if isinstance(written, str) else None
    meant = f"; did you mean '{guess}'?" if guess else ""
    sentence = f"a theme is based on {known}, or on a theme file that lies beside it{meant}"
    findings.complain(("based on",), sentence)
    return None


def _laid_over(data: Any, under: Any) -> Any:
    """Groups key by key; everything else whole."""
    if not isinstance(data, dict) or not isinstance(under, dict):
        return data
    return {**under, **{key: _laid_over(value, under.get(key)) for key, value in data.items()}}


def _beside(folder: Folder, written: Any, findings: Findings) -> Any:
    """The fonts that a file names; a font file as the place where it lies, which is beside the theme file."""
    fonts = [written] if isinstance(written, str) and written else written
    if not isinstance(fonts, list):
        return written
    return [
        findings.attempt(("fonts", number), partial(_font_file, folder, font))
        if isinstance(font, str) and is_path(font)
        else font
        for number, font in enumerate(fonts)
    ]


def _is_path(theme: str) -> bool:
    return "/" in theme or theme.endswith((".yaml", ".yml"))


def _font_file(folder: Folder, font: str) -> str:
    return str(folder.file(font).resolve())


def _sentence(complaint: Complaint) -> str:
    sentence = complaint.sentence
    first = sentence[0] if sentence[1:2].isupper() else sentence[0].lower()
    return f"line {complaint.line} of {complaint.file}: {first}{sentence[1:]}"
