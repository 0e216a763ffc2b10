"""Judging a theme: its words can be read on their grounds, and no two meanings look alike, whoever looks.

Contrast is judged over the worst footage, as a panel lets some of it through: against the panel over white and
over black. Which colours must be told apart is decided by what is seen side by side:

- `ink`, `quiet`, `rule`, `now` and `next`, all with each other: a chart has words of the first two, bar lines,
  the chord that sounds and the one that comes next within a hand's breadth;
- the two keys of a keyboard with each other, and each with `now` and `next`, the colours of keys that are held.

`ground`, `panel` and `on accent` mean nothing by themselves; what lies on them is held to contrast.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations, product

from studio.drawing.themes.colour_vision import EYES, apart
from studio.drawing.themes.contrast import Colour, contrast, over
from studio.drawing.themes.values import Theme, words

TEXT_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3, text. A theme may ask for more (7 is 1.4.6, the enhanced contrast)."""

MARK_CONTRAST = 3.0
"""WCAG 2.2, 1.4.11, marks that carry a meaning."""

LEAST_APART = 10.0
"""ΔE2000 between colours whose difference says something (this program's own rule; 1 is just noticeable)."""

_TEXT = ("ink", "quiet", "now", "next")
_ACCENTS = ("now", "next")
_KEYS = ("light_key", "dark_key")
SIDE_BY_SIDE = (
    *combinations(("ink", "quiet", "rule", *_ACCENTS), 2),
    _KEYS,
    *product(_ACCENTS, _KEYS),
)
"""The pairs of roles that must be told apart."""


@dataclass(frozen=True)
class Fault:
    """Two colours that do not stand apart: the role to change, and a sentence that names both and the remedy."""

    role: str
    sentence: str


@dataclass(frozen=True)
class _Standing:
    """A role, what it stands on (its name and colour), and the contrast that it needs there."""

    role: str
    on: str
    behind: Colour
    least: float


def faults(theme: Theme) -> Iterator[Fault]:
    """What is wrong with a theme's colours: one fault for each pair of roles, the worst case of it."""
    yield from faint(theme)
    yield from alike(theme)


def faint(theme: Theme) -> Iterator[Fault]:
    """A fault for each role that cannot be told from what it stands on."""
    standing = _standings(theme)
    for role in dict.fromkeys(one.role for one in standing):
        mine = [one for one in standing if one.role == role]
        colour = getattr(theme.colours, role)
        worst = min(mine, key=lambda one: contrast(colour, one.behind) / one.least)
        ratio = contrast(colour, worst.behind)
        if ratio < worst.least:
            yield Fault(
                role,
                f"`{words(role)}` stands out from {worst.on} only {_said(ratio)} to 1, and {worst.least:g} to 1 "
                f"is needed: {_remedy(colour, mine, worst)}",
            )


def alike(theme: Theme) -> Iterator[Fault]:
    """A fault for each pair that is seen side by side and looks alike to somebody."""
    for one, other in SIDE_BY_SIDE:
        pair: tuple[Colour, Colour] = (getattr(theme.colours, one), getattr(theme.colours, other))
        eyes = min(EYES, key=lambda eyes: apart(*pair, eyes))
        found = apart(*pair, eyes)
        if found < LEAST_APART:
            yield Fault(
                one,
                f"`{words(one)}` and `{words(other)}` look alike to {EYES[eyes]}: they differ by {found:.1f} "
                f"ΔE2000, and {LEAST_APART:g} is needed; make one of them lighter and the other darker.",
            )


def _standings(theme: Theme) -> list[_Standing]:
    colours = theme.colours
    grounds = {
        "`ground`": colours.ground,
        "`panel` over white footage": over(colours.panel, theme.panel_opacity, (255, 255, 255)),
        "`panel` over black footage": over(colours.panel, theme.panel_opacity, (0, 0, 0)),
    }
    found = [
        _Standing(role, name, behind, theme.least_contrast)
        for role, (name, behind) in product(_TEXT, grounds.items())
    ]
    found += [_Standing("rule", name, behind, MARK_CONTRAST) for name, behind in grounds.items()]
    for accent in _ACCENTS:
        found.append(_Standing("on_accent", f"`{accent}`", getattr(colours, accent), theme.least_contrast))
        for key in _KEYS:
            found.append(_Standing(accent, f"`{words(key)}`", getattr(colours, key), MARK_CONTRAST))
    return found


def _said(ratio: float) -> str:
    """A ratio that is too small, rounded so that it does not read as enough."""
    return f"{int(ratio * 100) / 100:.2f}"


def _remedy(colour: Colour, standing: list[_Standing], worst: _Standing) -> str:
    def enough(tried: Colour) -> bool:
        return all(contrast(tried, one.behind) >= one.least for one in standing)

    nearest = _nearest(colour, enough)
    if nearest is not None:
        red, green, blue = nearest
        return f'"#{red:02x}{green:02x}{blue:02x}" would do.'
    return f"nothing near it would do, so make {worst.on.split(' over ')[0]} lighter or darker."


def _nearest(colour: Colour, enough: Callable[[Colour], bool]) -> Colour | None:
    """The least lighter or darker colour of the same hue that is enough; None where there is none."""
    for step in range(1, 101):
        for behind in ((255, 255, 255), (0, 0, 0)):
            tried = over(behind, step / 100, colour)
            if enough(tried):
                return tried
    return None
