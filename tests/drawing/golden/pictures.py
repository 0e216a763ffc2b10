"""The golden pictures: where they are, how they are made, and how they are saved small."""

from __future__ import annotations

from functools import cache
from itertools import product
from pathlib import Path

from PIL import Image

from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import read_theme, theme_names, theme_path
from studio.example import Examples, plan_examples

CANVASES = {"wide": "1920x1080 @ 30", "tall": "1080x1920 @ 30", "square": "1080x1080 @ 30"}
FOLDER = Path(__file__).parent / "pictures"
MARGIN = 8
SHARE = 0.5  # golden pictures have half the pixels each way
COLOURS = 128

SETS = tuple(product(theme_names(), CANVASES))
"""(theme, canvas) of each set of pictures."""

ALL = tuple((kind, theme, canvas) for theme, canvas in SETS for kind in KINDS)


@cache
def examples(theme: str, canvas: str) -> Examples:
    """The example of each kind, in a theme on a canvas."""
    return plan_examples(read_theme(theme_path(theme)), CANVASES[canvas])


def drawn(kind: str, theme: str, canvas: str) -> Image.Image:
    """A kind's example as it is drawn now, at the size of its golden picture."""
    found = examples(theme, canvas)
    callouts = dict(found)
    assert kind in callouts, f"the example of {kind} cannot be planned: {found.refused.get(kind)}"
    return smaller(found.picture(callouts[kind], MARGIN))


def smaller(picture: Image.Image) -> Image.Image:
    """At the size of golden pictures, softly, so that a stroke may lie between two pixels."""
    size = round(picture.width * SHARE), round(picture.height * SHARE)
    return picture.resize(size, Image.Resampling.BILINEAR)


def golden_path(kind: str, theme: str, canvas: str) -> Path:
    return FOLDER / f"{theme}-{canvas}" / f"{kind}.png"


def save(picture: Image.Image, path: Path) -> None:
    """Save in few colours, which half-toned edges do not need more of."""
    path.parent.mkdir(parents=True, exist_ok=True)
    in_few = picture.quantize(COLOURS, Image.Quantize.MEDIANCUT, kmeans=4, dither=Image.Dither.NONE)
    in_few.save(path, "PNG", optimize=True)
