"""What stands along the wave at its own place: numbers of bars, seconds, clicks; fewer of them where it is crowded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor

from studio.drawing.excerpt_picture.setting import MARGIN, Setting
from studio.drawing.lettering.type import Line

APART = 1.4
"""Units that are between two numbers at least."""

AIRY = 4.5
"""Units that are between the numbers of two ticks at least."""

EDGE = 0.6
"""Units between the edge of the picture and a number that stands by it."""

FENCE = 1.4
"""Units between bar lines under which only those with numbers are drawn."""

CROWDED = 2.2
"""Units between clicks under which only the strong ones are drawn, or none."""

_STEPS = (0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300)


def bar_lines(setting: Setting) -> tuple[tuple[float, Line | None], ...]:
    """(x, its number or None) of each bar line that is drawn. The first number says that it is a bar's."""
    bars = [(number, setting.x(at)) for number, at in setting.shown.bars]
    if not bars:
        return ()
    first = bars[0][0]
    for every in (1, 2, 4, 8, 16, 32, 64):
        wanted = [(number, x) for number, x in bars if (number - first) % every == 0]
        lines = [(x, setting.small(str(number))) for number, x in wanted if number > 0]
        if not _overlap(setting, lines):
            break
    numbered = dict(_kept(setting, lines))
    if numbered and (x := min(numbered)):
        named = setting.small(f"bar {next(number for number, at in bars if at == x)}")
        later = [at for at in numbered if at > x]
        if x + named.width + APART * setting.u <= min([setting.right, *later]):
            numbered[x] = named
    fence = len(bars) > 1 and (bars[-1][1] - bars[0][1]) / (len(bars) - 1) < FENCE * setting.u
    return tuple((x, numbered.get(x)) for _, x in bars if x in numbered or not fence)


def _overlap(setting: Setting, lines: Iterable[tuple[float, Line]]) -> bool:
    return any(one[0] + one[1].width + APART * setting.u > two[0] for one, two in pairwise(lines))


def _kept(setting: Setting, lines: Iterable[tuple[float, Line]]) -> Iterator[tuple[float, Line]]:
    """Lines from left to right, less those that would overlap the one before, or leave the picture."""
    free = setting.left
    for x, line in lines:
        if x >= free and x + line.width <= setting.right:
            yield x, line
            free = x + line.width + APART * setting.u


@dataclass(frozen=True)
class Tick:
    """A tick of the axis at `x`, and the number under it, which begins at `left`."""

    x: float
    left: float
    line: Line


def seconds(setting: Setting) -> tuple[Tick, ...]:
    """The ticks of the axis, each with its number: whole seconds of the clip, or tenths of a short one."""
    shown, u = setting.shown, setting.u
    for step in _STEPS:
        numbers = range(ceil(shown.start / step - 1e-9), floor(shown.end / step + 1e-9) + 1)
        lines = [setting.small(_number(n * step, step)) for n in numbers]
        apart = step / shown.length * (setting.right - setting.left)
        if apart >= max((line.width for line in lines), default=0.0) + AIRY * u:
            break
    return tuple(_tick(setting, setting.x(n * step), line) for n, line in zip(numbers, lines, strict=True))


def _tick(setting: Setting, x: float, line: Line) -> Tick:
    """A tick with its number under its middle, or as near to that as the picture's edges let it stand."""
    first, last = EDGE * setting.u, setting.edge + (MARGIN - EDGE) * setting.u - line.width
    return Tick(x, min(max(first, x - line.width / 2), last), line)


def _number(at: float, step: float) -> str:
    return f"{at:.1f}" if step < 1 else f"{at:.0f}"


def clicks(setting: Setting) -> tuple[tuple[float, bool], ...]:
    """(x, strong) of each click that is drawn."""
    placed = [(setting.x(at), strong) for at, strong in setting.shown.clicks]
    for some in (placed, [one for one in placed if one[1]]):
        if all(two[0] - one[0] >= CROWDED * setting.u for one, two in pairwise(some)):
            return tuple(some)
    return ()
