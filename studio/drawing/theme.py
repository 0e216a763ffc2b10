"""A theme: colours by role, sizes of type, timing. Read from YAML that a person edits, and checked."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path

import yaml

from studio.drawing.contrast import Colour, contrast, over
from studio.places import templates

TEXT_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3, text."""

MARK_CONTRAST = 3.0
"""WCAG 2.2, 1.4.11, marks that carry a meaning."""

SMALLEST = 28
"""Pixels on a 1080 canvas under which nobody reads on a phone; no theme may go below."""


@dataclass(frozen=True)
class Colours:
    """What each colour is for. See templates/themes/slate.yaml."""

    ground: Colour
    panel: Colour
    ink: Colour
    quiet: Colour
    rule: Colour
    now: Colour
    next: Colour
    on_accent: Colour
    light_key: Colour
    dark_key: Colour


@dataclass(frozen=True)
class Sizes:
    """Sizes of type in pixels on a canvas whose shorter side is 1080."""

    small: float
    label: float
    numeral: float
    body: float
    title: float
    symbol: float
    hero: float


@dataclass(frozen=True)
class Weights:
    """Three weights of the one text family, on its scale from 200 to 900."""

    regular: float
    strong: float
    heavy: float


@dataclass(frozen=True)
class Timing:
    """Seconds in which a callout comes and goes."""

    appear: float
    leave: float


@dataclass(frozen=True)
class Theme:
    """All that a person may change about how pictures look. The same theme draws the same picture."""

    name: str
    colours: Colours
    panel_opacity: float
    sizes: Sizes
    weights: Weights
    timing: Timing


class ThemeError(ValueError):
    """A theme that cannot be used. `complaints` holds one plain sentence for each thing to mend."""

    def __init__(self, complaints: tuple[str, ...]) -> None:
        self.complaints = complaints
        super().__init__("\n".join(complaints))


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
    known = sorted(path.stem for path in (templates() / "themes").glob("*.yaml"))
    raise ThemeError(
        (f"there is no theme `{name}`: write {' or '.join(known)}, or the path of a theme file.",)
    )


def read_theme(path: Path) -> Theme:
    """The theme in the file at `path`. Raises ThemeError with every complaint at once."""
    try:
        written = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    except (yaml.YAMLError, UnicodeDecodeError, OSError) as problem:
        raise ThemeError((f"{path.name}: this file cannot be read as YAML: {problem}",)) from problem
    reader = _Reader(path.name)
    theme = reader.theme(path.stem, written)
    if not reader.complaints:
        reader.complaints.extend(f"{path.name}: {sentence}" for sentence in faint(theme))
    if reader.complaints:
        raise ThemeError(tuple(reader.complaints))
    return theme


@cache
def default_theme() -> Theme:
    """The theme `slate`, by whose sizes a callout is measured before it is known which theme will draw it."""
    return read_theme(theme_path("slate"))


def faint(theme: Theme) -> Iterator[str]:
    """One sentence for each pair of colours that does not stand apart enough, over the worst footage."""
    colours = theme.colours
    grounds = {
        "ground": colours.ground,
        "panel over white footage": over(colours.panel, theme.panel_opacity, (255, 255, 255)),
        "panel over black footage": over(colours.panel, theme.panel_opacity, (0, 0, 0)),
    }
    pairs = [(role, name, TEXT_CONTRAST) for role in ("ink", "quiet", "now", "next") for name in grounds]
    pairs += [("rule", name, MARK_CONTRAST) for name in grounds]
    found = [
        (role, name, least, contrast(getattr(colours, role), grounds[name])) for role, name, least in pairs
    ]
    for accent in ("now", "next"):
        found.append(
            ("on accent", accent, TEXT_CONTRAST, contrast(colours.on_accent, getattr(colours, accent)))
        )
        lit = contrast(getattr(colours, accent), colours.light_key)
        found.append((accent, "light key", MARK_CONTRAST, lit))
    for role, name, least, ratio in found:
        if ratio < least:
            yield (
                f"`{role}` stands out from {name} only {ratio:.2f} to 1, and {least:g} to 1 is needed: "
                "make one of them lighter or darker."
            )


class _Reader:
    """Reads one file and gathers complaints instead of stopping at the first."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.complaints: list[str] = []

    def theme(self, name: str, written: object) -> Theme:
        top = self._group("", written, ("colours", "panel opacity", "sizes", "weights", "timing"))
        colours = self._group("colours", top.get("colours"), _names(Colours))
        sizes = self._numbers("sizes", top.get("sizes"), _names(Sizes), SMALLEST, 400)
        weights = self._numbers("weights", top.get("weights"), _names(Weights), 200, 900)
        timing = self._numbers("timing", top.get("timing"), _names(Timing), 0, 2)
        return Theme(
            name=name,
            colours=Colours(
                *(self._colour(f"colours.{role}", colours.get(role)) for role in _names(Colours))
            ),
            panel_opacity=self._number("panel opacity", top.get("panel opacity"), 0.5, 1),
            sizes=Sizes(*sizes),
            weights=Weights(*weights),
            timing=Timing(*timing),
        )

    def _group(self, where: str, written: object, expected: tuple[str, ...]) -> dict[str, object]:
        if written is None:
            return {}  # already said to be missing
        if not isinstance(written, dict):
            self.complaints.append(
                f"{self.file}: {where or 'a theme'} must be a group of `name: value` lines."
            )
            return {}
        for key in written:
            if key not in expected:
                near = difflib.get_close_matches(str(key), expected, 1)
                hint = f"did you mean `{near[0]}`?" if near else f"known here: {', '.join(expected)}."
                self.complaints.append(f"{self.file}: `{key}` means nothing in {where or 'a theme'}; {hint}")
        for key in expected:
            if key not in written:
                self.complaints.append(f"{self.file}: {where or 'the theme'} lacks `{key}`: add it.")
        return {key: written[key] for key in expected if key in written}

    def _numbers(
        self, where: str, written: object, expected: tuple[str, ...], least: float, most: float
    ) -> list[float]:
        group = self._group(where, written, expected)
        return [self._number(f"{where}.{role}", group.get(role), least, most) for role in expected]

    def _number(self, where: str, written: object, least: float, most: float) -> float:
        if written is None:
            return least
        try:
            value = float(str(written))
        except ValueError:
            self.complaints.append(f"{self.file}: {where} is `{written}`: write a number.")
            return least
        if not least <= value <= most:
            self.complaints.append(
                f"{self.file}: {where} is {value:g}: it must be from {least:g} to {most:g}."
            )
        return value

    def _colour(self, where: str, written: object) -> Colour:
        if written is None:
            return 0, 0, 0
        found = re.fullmatch(r"#([0-9a-fA-F]{2})([0-9a-fA-F]{2})([0-9a-fA-F]{2})", str(written))
        if not found:
            self.complaints.append(
                f"{self.file}: {where} is `{written}`: write a colour as '#rrggbb', in quotes."
            )
            return 0, 0, 0
        red, green, blue = (int(part, 16) for part in found.groups())
        return red, green, blue


def _names(group: type) -> tuple[str, ...]:
    return tuple(field.name.replace("_", " ") for field in fields(group))
