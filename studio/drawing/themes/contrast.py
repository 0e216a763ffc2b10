"""How far two colours stand apart: relative luminance and contrast ratio as WCAG 2.2 defines them."""

from __future__ import annotations

Colour = tuple[int, int, int]
"""Red, green, blue of sRGB, 0 to 255 each."""


def luminance(colour: Colour) -> float:
    """Relative luminance from 0 (black) to 1 (white): WCAG 2.2, "relative luminance"."""

    def linear(channel: int) -> float:
        share = channel / 255
        return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)

    red, green, blue = (linear(channel) for channel in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio from 1 (the same) to 21 (black and white): WCAG 2.2, "contrast ratio".

    >>> round(contrast((0, 0, 0), (255, 255, 255)))
    21
    """
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def over(colour: Colour, opacity: float, behind: Colour) -> Colour:
    """The colour seen when `colour` at `opacity` (0 to 1) lies over `behind`."""
    red, green, blue = (
        round(front * opacity + back * (1 - opacity)) for front, back in zip(colour, behind, strict=True)
    )
    return red, green, blue
