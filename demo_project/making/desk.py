"""A desk seen from above at night: a small keyboard, a clock, a notebook with four chords on it, the glow of a lamp.

Everything is drawn with Pillow at twice the size and scaled down, which smooths the edges.
"""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path

import numpy as np
from fontpkg_source_sans_3 import ROOT
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from making.notation import midi_number

SIZE = (1280, 720)
_TWICE = 2
_CHALK, _SLATE, _AMBER = (243, 239, 228), (28, 35, 40), (255, 182, 76)
_PAPER, _INK = (226, 218, 200), (58, 62, 66)

_LOWEST, _HIGHEST = midi_number("F2"), midi_number("C5")
_BLACK = {1, 3, 6, 8, 10}
_KEYBED = (118, 84, 1162, 322)
"""Where the keys lie, in pixels of the finished picture."""
_CLOCK = (1092, 528, 112)
"""Centre and radius of the clock."""

Box = tuple[float, float, float, float]


def _big(*values: float) -> tuple[float, ...]:
    return tuple(value * _TWICE for value in values)


def _box(draw: ImageDraw.ImageDraw, box: Box, radius: float, fill: tuple[int, ...]) -> None:
    draw.rounded_rectangle(_big(*box), radius * _TWICE, fill=fill)


def _text(draw: ImageDraw.ImageDraw, at: tuple[float, float], words: str, size: int) -> None:
    files = sorted(Path(ROOT).rglob("*.ttf"))
    font = ImageFont.truetype(str(next(f for f in files if "Italic" not in f.name)), size * _TWICE)
    draw.text(_big(*at), words, font=font, fill=_INK, anchor="ls")


def _shadow(picture: Image.Image, box: Box, radius: float, offset: float, strength: int) -> None:
    """A soft shadow that falls away from the lamp, which stands at the top left."""
    shade = Image.new("L", picture.size, 0)
    moved = (box[0] + offset, box[1] + offset, box[2] + offset, box[3] + offset)
    ImageDraw.Draw(shade).rounded_rectangle(_big(*moved), radius * _TWICE, fill=strength)
    picture.paste((8, 10, 12), mask=shade.filter(ImageFilter.GaussianBlur(9 * _TWICE)))


def _desk() -> Image.Image:
    """The wooden desk top: slate grey with a faint grain along its length."""
    width, height = (side * _TWICE for side in SIZE)
    rng = np.random.default_rng(8)
    grain = np.cumsum(rng.standard_normal(height // 4))
    grain = np.repeat(grain - np.convolve(grain, np.ones(60) / 60, "same"), 4)[:height]
    wood = np.array([62, 66, 68])[None, None, :] + 1.6 * np.clip(grain, -3, 3)[:, None, None]
    return Image.fromarray(np.broadcast_to(wood, (height, width, 3)).clip(0, 255).astype(np.uint8))


def _notebook(picture: Image.Image) -> None:
    page = (378, 396, 868, 664)
    _shadow(picture, page, 6, 10, 190)
    draw = ImageDraw.Draw(picture)
    _box(draw, page, 6, _PAPER)
    for ring in range(9):
        x = 414 + ring * 52
        draw.ellipse(_big(x - 6, 404, x + 6, 416), fill=(70, 72, 74))
    for n, words in enumerate(("Em7", "Asus4", "A", "Dadd9")):  # slashes, one to a beat, as on a rhythm chart
        x, y = 408 + 216 * (n % 2), 466 + 100 * (n // 2)
        for line in range(5):
            draw.line(_big(x, y + 11 * line, x + 216, y + 11 * line), fill=(140, 134, 122), width=2)
        for edge in (x, x + 216):
            draw.line(_big(edge, y, edge, y + 44), fill=(140, 134, 122), width=3)
        _text(draw, (x + 20, y - 10), words, 28)
        for beat in range(4):
            left = x + 24 + 46 * beat
            draw.line(_big(left, y + 33, left + 16, y + 11), fill=_INK, width=7)
    _box(draw, (640, 372, 840, 380), 4, (206, 150, 70))  # the pencil, its wood and its point
    draw.polygon(_big(840, 372, 862, 376, 840, 380), fill=(222, 200, 160))
    draw.polygon(_big(855, 374.7, 862, 376, 855, 377.3), fill=(40, 40, 42))


def _cup(picture: Image.Image) -> None:
    x, y = 204, 528
    _shadow(picture, (x - 74, y - 74, x + 74, y + 74), 74, 12, 200)
    draw = ImageDraw.Draw(picture)
    draw.rounded_rectangle(_big(x + 58, y - 15, x + 112, y + 15), 28, outline=(112, 128, 136), width=18)
    rings = ((74, (112, 128, 136)), (65, (78, 92, 100)), (60, (58, 38, 26)), (52, (70, 46, 30)))
    for radius, colour in rings:
        draw.ellipse(_big(x - radius, y - radius, x + radius, y + radius), fill=colour)


def _clock_dial(picture: Image.Image) -> None:
    x, y, radius = _CLOCK
    _shadow(picture, (x - radius, y - radius, x + radius, y + radius), radius, 12, 200)
    draw = ImageDraw.Draw(picture)
    for size, colour in ((radius, (74, 84, 90)), (radius - 9, _CHALK)):
        draw.ellipse(_big(x - size, y - size, x + size, y + size), fill=colour)
    for tick in range(60):
        angle = math.radians(6 * tick)
        inner = radius - (26 if tick % 5 == 0 else 19)
        ends = [(x + r * math.sin(angle), y - r * math.cos(angle)) for r in (inner, radius - 14)]
        draw.line(_big(*ends[0], *ends[1]), fill=_INK, width=6 if tick % 5 == 0 else 2)


def _keyboard_case(picture: Image.Image) -> None:
    case = (78, 48, 1202, 346)
    _shadow(picture, case, 16, 14, 220)
    draw = ImageDraw.Draw(picture)
    _box(draw, case, 16, (24, 27, 30))
    _box(draw, (_KEYBED[0] - 6, _KEYBED[1] - 6, _KEYBED[2] + 6, _KEYBED[3] + 6), 4, (10, 12, 13))
    for knob in range(4):
        x = 980 + 44 * knob
        draw.ellipse(_big(x - 10, 56, x + 10, 76), fill=(58, 66, 70))
        draw.line(_big(x, 66, x, 58), fill=_CHALK, width=4)
    _box(draw, (118, 61, 126, 69), 4, _AMBER)


@lru_cache(maxsize=1)
def _background() -> Image.Image:
    picture = _desk()
    for draw_thing in (_notebook, _cup, _clock_dial, _keyboard_case):
        draw_thing(picture)
    return picture


@lru_cache(maxsize=1)
def _glow() -> np.ndarray:
    """How strongly the lamp, at the top left, lights each pixel and each colour."""
    x, y = np.meshgrid(np.linspace(0, 16, SIZE[0]), np.linspace(0, 9, SIZE[1]))
    near = np.exp(-(((x - 4.4) / 8.5) ** 2) - ((y - 3.0) / 6.5) ** 2)
    warm = np.array([1.16, 1.00, 0.80])
    cold = np.array([0.44, 0.49, 0.54])
    light: np.ndarray = cold + (warm - cold) * near[..., None]
    return light


def _key_boxes() -> list[tuple[int, Box, bool]]:
    """MIDI number, box, and whether it is a black key; the white keys come first, so that black ones lie on them."""
    left, top, right, bottom = _KEYBED
    white = [n for n in range(_LOWEST, _HIGHEST + 1) if n % 12 not in _BLACK]
    width = (right - left) / len(white)
    boxes: list[tuple[int, Box, bool]] = []
    for i, number in enumerate(white):
        boxes.append((number, (left + i * width + 1, top, left + (i + 1) * width - 1, bottom), False))
    for i, number in enumerate(white[:-1]):
        if (number + 1) % 12 in _BLACK:
            middle = left + (i + 1) * width
            boxes.append((number + 1, (middle - 0.29 * width, top, middle + 0.29 * width, top + 146), True))
    return boxes


def _mixed(colour: tuple[int, ...], other: tuple[int, ...], share: float) -> tuple[int, ...]:
    return tuple(round(a + (b - a) * share) for a, b in zip(colour, other, strict=True))


@lru_cache(maxsize=64)
def _with_keys(depths: tuple[tuple[int, float], ...]) -> Image.Image:
    """The desk with keys pressed: each (MIDI number, depth 0 to 1)."""
    picture = _background().copy()
    draw = ImageDraw.Draw(picture)
    pressed = dict(depths)
    for number, (left, top, right, bottom), black in _key_boxes():
        depth = pressed.get(number, 0.0)
        if black:
            sunk = 5 * depth
            _box(draw, (left - 1, top, right + 4 - 3 * depth, bottom + 5 - 3 * depth), 4, (12, 13, 14))
            _box(draw, (left, top + sunk, right, bottom), 4, _mixed((34, 38, 41), _AMBER, 0.80 * depth))
            face = _mixed((56, 62, 66), (255, 214, 140), 0.9 * depth)
            _box(draw, (left + 4, top + sunk, right - 4, bottom - 12 + 5 * depth), 3, face)
        else:
            sunk = 7 * depth
            # The front edge of the key shows below its top, and less of it when the key is down.
            _box(draw, (left, top, right, bottom), 5, (150, 146, 138))
            _box(draw, (left, top, right, bottom - 9 + sunk), 5, _mixed(_CHALK, _AMBER, 0.72 * depth))
            if depth:
                shadow = _mixed(_CHALK, (96, 66, 30), depth)
                _box(draw, (left, top, left + 4 * depth, bottom - 9 + sunk), 2, shadow)
    return picture


def _hands(picture: Image.Image, seconds: float) -> None:
    """Eight minutes to nine, and a second hand that ticks: it rests, then moves within a tenth of a second."""
    x, y, radius = _CLOCK
    draw = ImageDraw.Draw(picture)
    whole, part = divmod(seconds, 1)
    second = whole + min(part / 0.1, 1.0) - 1.0
    for turn, length, width, colour in (
        ((20 + 52 / 60) / 12, 0.48, 11, _INK),
        ((52 + seconds / 60) / 60, 0.72, 8, _INK),
        (second / 60, 0.80, 4, (196, 92, 44)),
    ):
        angle = 2 * math.pi * turn
        across, up = radius * math.sin(angle), radius * math.cos(angle)
        tail, tip = (x - 0.14 * across, y + 0.14 * up), (x + length * across, y - length * up)
        draw.line(_big(*tail, *tip), fill=colour, width=width)
    draw.ellipse(_big(x - 6, y - 6, x + 6, y + 6), fill=(196, 92, 44))


def picture(depths: dict[int, float], seconds: float) -> np.ndarray:
    """One frame of the desk as (720, 1280, 3) ``uint8`` RGB: keys pressed by MIDI number, and the time on the clock."""
    still = _with_keys(tuple(sorted(depths.items()))).copy()
    _hands(still, seconds)
    small = np.asarray(still.resize(SIZE, Image.Resampling.BOX), dtype=np.float64)
    lit: np.ndarray = np.clip(small * _glow(), 0, 255).round().astype(np.uint8)
    return lit
