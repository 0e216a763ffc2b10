"""Colours that would do: for a theme with faults, the fewest roles to change and a colour for each.

Each colour that is proposed passes everything that its role is held to, beside all colours of the theme and those
proposed before it; so whoever writes them all has a theme without those faults.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import replace

from studio.drawing.themes.colour_vision import apart
from studio.drawing.themes.contrast import Colour, over
from studio.drawing.themes.judging import (
    ACCENTS,
    JUDGED,
    KEYS,
    SIDE_BY_SIDE,
    Fault,
    alike_to,
    faults,
    too_faint,
)
from studio.drawing.themes.values import Theme, words

_HUES = range(0, 360, 20)
_LIGHTS = range(10, 100, 6)
_CHROMAS = (0.0, 0.05, 0.1, 0.15)


def mended(theme: Theme, changed: Collection[str] = ()) -> dict[str, Colour]:
    """A colour for each role that must change. First comes the role that is in most faults; of several, one that
    is among the `changed`, the colours in which a theme differs from the one that it began as."""
    found: dict[str, Colour] = {}
    while wrong := tuple(faults(theme)):
        for role in _suspects(wrong, changed):
            if role not in found and (colour := _near(theme, role)) is not None:
                found[role] = colour
                theme = _with(theme, role, colour)
                break
        else:
            break
    return found


def remedy(fault: Fault, found: dict[str, Colour]) -> str:
    """What to write against a fault."""
    for role in fault.roles:
        if role in found:
            return f'{words(role)}: "#{bytes(found[role]).hex()}" would do.'
    return f"{fault.otherwise}."


def _suspects(wrong: tuple[Fault, ...], changed: Collection[str]) -> list[str]:
    """Roles of the faults, the likeliest culprit first."""
    count = Counter(role for fault in wrong for role in fault.roles)
    return sorted(count, key=lambda role: (role not in changed, -count[role]))


def _near(theme: Theme, role: str) -> Colour | None:
    """The nearest colour with which nothing is wrong with a role; None where there is none."""
    colour: Colour = getattr(theme.colours, role)
    return next((tried for tried in _tried(colour) if _would_do(_with(theme, role, tried), role)), None)


def _tried(colour: Colour) -> Iterator[Colour]:
    """The colour lighter and darker, little by little; then all others, the most alike first."""
    for step in range(1, 70):
        yield from (over(light, step / 100, colour) for light in ((255, 255, 255), (0, 0, 0)))
    yield from sorted(_all_colours(), key=lambda other: apart(colour, other))


def _all_colours() -> Iterator[Colour]:
    """Colours over all hues and lightnesses, evenly to the eye (OKLCh)."""
    from coloraide import Color

    for light in _LIGHTS:
        for chroma in _CHROMAS:
            for hue in _HUES if chroma else (0,):
                shown = Color("oklch", [light / 100, chroma, hue]).convert("srgb")
                if shown.in_gamut():
                    red, green, blue = (round(255 * channel) for channel in shown.coords())
                    yield red, green, blue


def _with(theme: Theme, role: str, colour: Colour) -> Theme:
    return replace(theme, colours=replace(theme.colours, **{role: colour}))


def _would_do(theme: Theme, role: str) -> bool:
    """Whether nothing is wrong with a role, with what stands on it, and with the pairs that it is in."""
    standing = {role, "on_accent"} if role in ACCENTS else {role}
    if role in ("ground", "panel", *KEYS):
        standing = set(ACCENTS if role in KEYS else JUDGED)
    return all(too_faint(theme, one) is None for one in standing) and all(
        alike_to(theme, *pair) is None for pair in SIDE_BY_SIDE if role in pair
    )
