"""Judging a theme: its words can be read on their grounds, and no two meanings look alike, whoever looks.

Contrast is judged over the worst footage, as a panel lets some of it through: against the panel over white and
over black. Which colours must be told apart is decided by what is seen side by side:

- `ink`, `quiet`, `rule`, `now` and `next`, all with each other: a chart has words of the first two, bar lines,
  the chord that sounds and the one that comes next within a hand's breadth;
- the two keys of a keyboard with each other, and each with `now` and `next`, the colours of keys that are held.

'ground', `panel` and `on accent` mean nothing by themselves; what lies on them is held to contrast.
"""

from __future__ import annotations

from collections.abc import Iterator
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
ACCENTS = ("now", "next")
KEYS = ("light_key", "dark_key")
JUDGED = ("ink", "quiet", "rule", "now", "next", "on_accent")
SIDE_BY_SIDE = (
    *combinations(("ink", "quiet", "rule", *ACCENTS), 2),
    KEYS,
    *product(ACCENTS, KEYS),
)
"""The pairs of roles that must be told apart."""


@dataclass(frozen=True)
class Fault:
    """Colours that do not stand apart: the `roles` that can be changed, which role it is told at, and a sentence that
    names both colours; `otherwise` is what helps where no colour for one of the roles would do."""

    roles: tuple[str, ...]
    sentence: str
    otherwise: str


@dataclass(frozen=True)
class Footing:
    """What a role stands on: the role that is under it, what to call it, the colour seen there, and the contrast
    that is needed."""

    under: str
    on: str
    behind: Colour
    least: float


def faults(theme: Theme) -> Iterator[Fault]:
    """What is wrong with a theme's colours: for each role and each pair the worst of it."""
    yield from faint(theme)
    yield from alike(theme)


def faint(theme: Theme) -> Iterator[Fault]:
    """A fault for each role that does not stand out from what it stands on."""
    for role in JUDGED:
        if (worst := too_faint(theme, role)) is not None:
            ratio = contrast(getattr(theme.colours, role), worst.behind)
            behind, _, through = worst.on.partition(" over ")
            otherwise = f"make {behind} lighter or darker" + (", or raise 'panel opacity'" if through else "")
            yield Fault(
                (role, worst.under),
                f"'{words(role)}' stands out from {worst.on} only {_rounded_down(ratio)} to 1, and "
                f"{worst.least:g} to 1 is needed",
                otherwise,
            )


def alike(theme: Theme) -> Iterator[Fault]:
    """A fault for each pair that is seen side by side and looks alike to somebody."""
    for one, other in SIDE_BY_SIDE:
        if (eyes := alike_to(theme, one, other)) is not None:
            found = apart(getattr(theme.colours, one), getattr(theme.colours, other), eyes)
            otherwise = "make one of them lighter, the other darker, or choose other colours"
            yield Fault(
                (one, other),
                f"'{words(one)}' and '{words(other)}' look alike to {EYES[eyes]}: they differ by "
                f"{_rounded_down(found)} ΔE2000, and {LEAST_APART:g} is needed",
                otherwise,
            )


def footings(theme: Theme, role: str) -> tuple[Footing, ...]:
    """All that a role stands on somewhere."""
    colours, least = theme.colours, theme.least_contrast
    if role == "on_accent":
        return tuple(Footing(accent, f"'{accent}'", getattr(colours, accent), least) for accent in ACCENTS)
    if role not in (*_TEXT, "rule"):
        return ()
    needed = least if role in _TEXT else MARK_CONTRAST
    found = [
        Footing("ground", "'ground'", colours.ground, needed),
        Footing(
            "panel",
            "'panel' over white footage",
            over(colours.panel, theme.panel_opacity, (255, 255, 255)),
            needed,
        ),
        Footing(
            "panel", "'panel' over black footage", over(colours.panel, theme.panel_opacity, (0, 0, 0)), needed
        ),
    ]
    if role in ACCENTS:
        found += [Footing(key, f"'{words(key)}'", getattr(colours, key), MARK_CONTRAST) for key in KEYS]
    return tuple(found)


def too_faint(theme: Theme, role: str) -> Footing | None:
    """The footing from which a role stands out least, where that is not enough."""
    colour = getattr(theme.colours, role)
    shares = {on: contrast(colour, on.behind) / on.least for on in footings(theme, role)}
    worst = min(shares, key=lambda on: shares[on], default=None)
    return worst if worst is not None and shares[worst] < 1 else None


def alike_to(theme: Theme, one: str, other: str) -> str | None:
    """The eyes to which two roles look most alike, where they look too much so."""
    pair: tuple[Colour, Colour] = (getattr(theme.colours, one), getattr(theme.colours, other))
    eyes = min(EYES, key=lambda eyes: apart(*pair, eyes))
    return eyes if apart(*pair, eyes) < LEAST_APART else None


def _rounded_down(number: float) -> str:
    """A number that is too small, said so that it does not read as enough."""
    return f"{int(number * 100) / 100:.2f}"
