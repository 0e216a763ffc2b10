"""A contact sheet of every kind of callout, to be looked at.

`python -m tests.drawing.sheet OUT.png [wide|tall|square]`: each kind on a dark, a bright and a busy
ground, at full size and as a phone 360 pixels wide shows it.
"""

from __future__ import annotations

import sys
import time

import numpy as np
from PIL import Image

from studio.drawing.draw import draw
from studio.drawing.frame import CanvasSize
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.timeline.furniture import Backdrop, Burnt, Slate, Strip

from .samples import SQUARE, TALL, WIDE, samples

CANVASES = {"wide": WIDE, "tall": TALL, "square": SQUARE}
SCRIPT = (
    "Listen to the keyboard alone. Under it sits a loop of four chords, and the tune lands on ♭6 just as the "
    "third one comes round.\n\nHold that note in your head: the bridge will pick it up and make daylight of it."
)


def grounds(canvas: CanvasSize) -> dict[str, Image.Image]:
    """Footage to stand on: dark, bright, and as busy as footage gets."""
    size = (canvas.width, canvas.height)
    y, x = np.mgrid[0 : size[1], 0 : size[0]]
    noise = np.random.default_rng(3).integers(0, 256, (size[1] // 12 + 1, size[0] // 12 + 1, 3), np.uint8)
    busy = noise.repeat(12, 0).repeat(12, 1)[: size[1], : size[0]]
    stripes = (((x + y) // 40 % 2) * 120)[..., None].astype(np.uint8)
    return {
        "dark": Image.new("RGB", size, (14, 13, 16)),
        "bright": Image.new("RGB", size, (244, 240, 232)),
        "busy": Image.fromarray(busy // 2 + stripes),
    }


def pictures(canvas: CanvasSize) -> list[tuple[str, Image.Image]]:
    """Each sample on each ground as a whole frame, with the strip and the burnt-in words."""
    theme, found = default_theme(), []
    margin, one = round(canvas.width * 0.05), canvas.unit
    for number, sample in enumerate(samples(canvas)):
        kind = KINDS[sample.kind]
        size = (round(canvas.lane), round(kind.height(sample.content, canvas) * one))
        started = time.perf_counter()
        callout = draw(sample.kind, sample.content, sample.look, size, theme)
        again = time.perf_counter()
        draw(sample.kind, sample.content, sample.look, size, theme)
        done = time.perf_counter()
        print(
            f"{sample.name:14} {size} first {1e3 * (again - started):5.0f} ms, "
            f"then {1e3 * (done - again):5.0f} ms"
        )
        bottom = round(canvas.height * (0.8 if canvas.portrait else 0.95))
        strip = draw("strip", Strip(48), 19, (size[0], round(2 * one)), theme)
        burnt = draw(
            "burnt", Burnt("02 One note, two chords"), "02 One note, two chords", (900, round(6 * one)), theme
        )
        for name, ground in grounds(canvas).items():
            if number and name != list(grounds(canvas))[number % 3]:
                continue
            frame = ground.convert("RGBA")
            frame.alpha_composite(strip, (margin, bottom - strip.height))
            frame.alpha_composite(callout, (margin, bottom - round(4 * one) - callout.height))
            frame.alpha_composite(burnt, (margin, round(canvas.height * 0.05)))
            found.append((f"{sample.name} on {name}", frame.convert("RGB")))
    size = (canvas.width, canvas.height)
    for kind_name, content, look in (
        ("backdrop", Backdrop("One note, two chords", "Paper Lanterns · The Quiet Ferry"), None),
        ("slate", Slate("Why the bridge feels like daylight", (SCRIPT, SCRIPT), "21 s to read"), 0),
    ):
        found.append((kind_name, draw(kind_name, content, look, size, theme).convert("RGB")))
    return found


def main(out: str, name: str = "wide") -> None:
    canvas = CANVASES[name]
    shown = pictures(canvas)
    columns = 2 if canvas.width > canvas.height else 4
    scale = 960 / canvas.width if columns == 2 else 480 / canvas.width
    cell = (round(canvas.width * scale), round(canvas.height * scale))
    phone = (360, round(360 * canvas.height / canvas.width))
    rows = -(-len(shown) // columns)
    across = max(columns * (cell[0] + 12), 5 * (phone[0] + 12))
    phones = -(-len(shown) // (across // (phone[0] + 12)))
    sheet = Image.new("RGB", (across, rows * (cell[1] + 12) + phones * (phone[1] + 12)), (90, 90, 90))
    for number, (_, picture) in enumerate(shown):
        small = picture.resize(cell, Image.Resampling.LANCZOS)
        sheet.paste(small, (number % columns * (cell[0] + 12), number // columns * (cell[1] + 12)))
    per = across // (phone[0] + 12)
    for number, (_, picture) in enumerate(shown):
        tiny = picture.resize(phone, Image.Resampling.LANCZOS)
        x, y = number % per * (phone[0] + 12), rows * (cell[1] + 12) + number // per * (phone[1] + 12)
        sheet.paste(tiny, (x, y))
    sheet.save(out)


if __name__ == "__main__":
    main(*sys.argv[1:])
