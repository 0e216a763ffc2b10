"""Grooves as people write them: a line of text for each voice of the kit.

A line of a groove is written a step at a time: ``x`` a stroke, ``X`` an accent, ``o`` a ghost note (soft), ``.``
a rest. Spaces are for the eye. Without bar lines a line is one bar, and how many steps it has says what they are:
16 in 4/4 are sixteenths, 12 are triplets, 8 are eighths; 6 in 6/8 are eighths. ``|`` stands between bars, and
``%`` is the bar before once more.

>>> groove = read_groove({"kick": "x... ..x. x... ....", "clap": ".... x... .... x..."}, Meter(4, 4))
>>> [str(at) for at in groove.onsets("kick")]
['0', '3/8', '1/2']
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from studio.music.groove import Groove, Hit, Touch
from studio.music.meter import Meter

_SIGNS: dict[str, Touch] = {"x": "plain", "X": "accent", "o": "ghost"}
_SIGN_OF: dict[Touch, str] = {touch: sign for sign, touch in _SIGNS.items()}
_REST, _REPEAT = ".", "%"
_BAR = re.compile(r"[^|]+")
_DIVISIONS = (1, 2, 3, 4, 6, 8, 12, 24)  # steps to a beat
_FINEST_ALONE = Fraction(1, 4)  # quarters: without bar lines, finer than sixteenths is rather two bars
_STEP_NAMES = {
    Fraction(2): "halves", Fraction(1): "quarters", Fraction(1, 2): "eighths", Fraction(1, 3): "triplets",
    Fraction(1, 4): "sixteenths", Fraction(3, 2): "dotted quarters",
}  # fmt: skip


class PatternError(ValueError):
    """A line of a groove that cannot be read; ``offset`` is the 0-based character that makes no sense."""

    def __init__(self, sentence: str, offset: int = 0) -> None:
        super().__init__(sentence)
        self.offset = offset


def read_groove(lines: Mapping[str, str], meter: Meter) -> Groove:
    """The groove written as a line for each voice; a line with fewer bars than the longest goes round again.

    Raises PatternError for a line that makes no sense, or whose bars do not go into the longest line's.
    """
    read = {voice: read_line(text, meter) for voice, text in lines.items()}
    bars = max((length for length, _ in read.values()), default=1)
    hits: dict[str, list[Hit]] = {}
    for voice, (length, line) in read.items():
        if bars % length:
            raise PatternError(
                f"The {voice} has {length} bars and another voice {bars}; write it for {bars} bars"
            )
        hits[voice] = [Hit(hit.at + time, hit.touch) for time in range(0, bars, length) for hit in line]
    return Groove.of(meter, bars, hits)


def read_line(text: str, meter: Meter) -> tuple[int, tuple[Hit, ...]]:
    """How many bars one voice's line has, and its hits. Raises PatternError with a plain sentence."""
    bars: list[list[Hit]] = []
    for bar in _BAR.finditer(text):
        steps = [(found[0], found.start() + bar.start()) for found in re.finditer(r"\S", bar[0])]
        if not steps:
            if bar.start() > 0 and bar.end() < len(text):
                raise PatternError("This bar is empty; write its rests as dots", bar.start())
            continue
        if steps[0][0] == _REPEAT and len(steps) == 1:
            if not bars:
                raise PatternError("There is no bar before this % to repeat", steps[0][1])
            bars.append([Hit(hit.at + 1, hit.touch) for hit in bars[-1]])
            continue
        bars.append(_read_bar(steps, len(bars), meter, alone="|" not in text))
    if not bars:
        raise PatternError("This line is empty; write x for a stroke and . for a rest, as x... x...")
    return len(bars), tuple(hit for bar in bars for hit in bar)


def _read_bar(steps: list[tuple[str, int]], before: int, meter: Meter, alone: bool) -> list[Hit]:
    for sign, offset in steps:
        if sign not in _SIGNS and sign != _REST:
            raise PatternError(
                f"'{sign}' is no sign here; write x for a stroke, X for an accent, o for a ghost note, . for a rest",
                offset,
            )
    count = len(steps)
    if not fits(count, meter, alone):
        raise PatternError(_misfit(count, meter, alone), steps[0][1])
    return [
        Hit(before + Fraction(step, count), _SIGNS[sign])
        for step, (sign, _) in enumerate(steps)
        if sign != _REST
    ]


def fits(steps: int, meter: Meter, alone: bool = False) -> bool:
    """Whether a bar can be written in so many steps; ``alone`` is for a line without bar lines."""
    if alone and steps > meter.beats and meter.bar / steps < _FINEST_ALONE:
        return False
    if meter.beats % steps == 0:
        return True
    return steps % meter.beats == 0 and steps // meter.beats in _DIVISIONS


def _misfit(count: int, meter: Meter, alone: bool) -> str:
    if alone and meter.bar / count < _FINEST_ALONE and fits(count, meter):
        return f"{count} steps are too many for one bar of {meter} without bar lines; put | between the bars"
    named = [
        f"{steps} ({_STEP_NAMES[meter.bar / steps]})"
        for steps in range(meter.beats, count * 4)
        if fits(steps, meter, alone=True) and meter.bar / steps in _STEP_NAMES
    ] or [str(meter.beats)]
    near = sorted(sorted(named, key=lambda text: abs(int(text.split()[0]) - count))[:2], key=_steps_of)
    return f"{count} steps do not fill a bar of {meter} evenly; write {' or '.join(near)}"


def _steps_of(named: str) -> int:
    return int(named.split()[0])


def groove_text(groove: Groove) -> dict[str, str]:
    """The groove as text, a line for each voice, in the fewest steps that hold it: the inverse of ``read_groove``.

    Raises ValueError where a hit lies on no grid that can be written (finer than 24 steps to a beat).
    """
    return {voice: _line_text(line, groove) for voice, line in groove.lines}


def _line_text(line: tuple[Hit, ...], groove: Groove) -> str:
    beats = groove.meter.beats
    grids = (beats * division for division in _DIVISIONS)
    steps = next((grid for grid in grids if all((hit.at * grid).denominator == 1 for hit in line)), None)
    if steps is None:
        raise ValueError("This groove has strokes that lie on no grid that can be written")
    signs = [_REST] * (steps * groove.bars)
    for hit in line:
        signs[int(hit.at * steps)] = _SIGN_OF[hit.touch]
    size = steps // beats if steps > beats else steps
    bars = [
        " ".join("".join(signs[at : at + size]) for at in range(start, start + steps, size))
        for start in range(0, len(signs), steps)
    ]
    if len(bars) == 1 and fits(steps, groove.meter, alone=True):
        return bars[0]
    return f"| {' | '.join(bars)} |"
