"""Contact sheets of every kind of callout, to be looked at: on dark, bright and busy footage.

`python -m tests.drawing.sheet FOLDER [--theme slate]... [--canvas wide]... [KIND]...` leaves in the folder, for each
theme on each canvas, one sheet on which every kind stands on the three grounds as a phone 360 pixels wide shows it,
and in a folder of the same name every one of these frames at full size.
"""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path

import numpy as np
from PIL import Image

from studio.drawing.furniture.strip import draw as draw_strip
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import read_theme, theme_names, theme_path
from studio.example import Examples, plan_examples
from studio.timeline.furniture import Strip
from studio.timeline.layout import strip_box

CANVASES = {"wide": "1920x1080 @ 30", "tall": "1080x1920 @ 30", "square": "1080x1080 @ 30"}
PHONE = 360
GAP = 12


def grounds(width: int, height: int) -> dict[str, Image.Image]:
    """Footage to stand on: dark, bright, and as busy as footage gets."""
    size = (width, height)
    y, x = np.mgrid[0:height, 0:width]
    noise = np.random.default_rng(3).integers(0, 256, (height // 12 + 1, width // 12 + 1, 3), np.uint8)
    busy = noise.repeat(12, 0).repeat(12, 1)[:height, :width]
    stripes = (((x + y) // 40 % 2) * 120)[..., None].astype(np.uint8)
    return {
        "dark": Image.new("RGB", size, (14, 13, 16)),
        "bright": Image.new("RGB", size, (244, 240, 232)),
        "busy": Image.fromarray(busy // 2 + stripes),
    }


def frames(examples: Examples, footage: Mapping[str, Image.Image]) -> dict[str, dict[str, Image.Image]]:
    """For each kind, its example on each ground: the still over the footage, and the strip under it."""
    strip = strip_box(examples.plan.canvas)
    filling = draw_strip(Strip(48), 19, (strip.width, strip.height), examples.theme)
    found: dict[str, dict[str, Image.Image]] = {}
    for kind, callout in examples:
        still = examples.still(callout)
        still.alpha_composite(filling, (strip.x, strip.y))
        found[kind] = {}
        for name, ground in footage.items():
            frame = ground.convert("RGBA")
            frame.alpha_composite(still)
            found[kind][name] = frame.convert("RGB")
    return found


def contact_sheet(shown: Mapping[str, Mapping[str, Image.Image]]) -> Image.Image:
    """Every frame at the width of a phone: a row of grounds for each kind, two kinds side by side."""
    phones = [[_phone(frame) for frame in row.values()] for row in shown.values()]
    across, down = PHONE + GAP, phones[0][0].height + GAP
    pairs = [phones[n : n + 2] for n in range(0, len(phones), 2)]
    sheet = Image.new("RGB", (6 * across + 2 * GAP, len(pairs) * down + GAP), (90, 90, 90))
    for y, pair in enumerate(pairs):
        for x, phone in enumerate(phone for row in pair for phone in row):
            sheet.paste(phone, (GAP + x * across + (x > 2) * GAP, GAP + y * down))
    return sheet


def _phone(frame: Image.Image) -> Image.Image:
    return frame.resize((PHONE, round(PHONE * frame.height / frame.width)), Image.Resampling.LANCZOS)


def make(folder: Path, theme: str, canvas: str, kinds: tuple[str, ...]) -> Path:
    """Write the frames and the sheet of one theme on one canvas; returns the sheet."""
    wanted = {name: kind for name, kind in KINDS.items() if not kinds or name in kinds}
    examples = plan_examples(read_theme(theme_path(theme)), CANVASES[canvas], wanted)
    for kind, wrong in examples.refused.items():
        print(f"{kind} on {canvas}: {wrong}")
    size = examples.plan.canvas
    shown = frames(examples, grounds(size.width, size.height))
    full = folder / f"{theme}-{canvas}"
    full.mkdir(parents=True, exist_ok=True)
    for kind, row in shown.items():
        for ground, frame in row.items():
            frame.save(full / f"{kind}-{ground}.jpg", quality=92)
    path = folder / f"{theme}-{canvas}.png"
    contact_sheet(shown).save(path)
    return path


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.drawing.sheet", description="Contact sheets.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("kinds", nargs="*", metavar="KIND", help="only these kinds of callout")
    parser.add_argument("--theme", action="append", choices=theme_names(), help="only this theme")
    parser.add_argument("--canvas", action="append", choices=tuple(CANVASES), help="only this canvas")
    asked = parser.parse_args()
    for theme in asked.theme or theme_names():
        for canvas in asked.canvas or CANVASES:
            print(make(asked.folder, theme, canvas, tuple(asked.kinds)))


if __name__ == "__main__":
    main()
