"""Excerpts to draw: counted in, repeated and rung out, with a wave that the test knows."""

from __future__ import annotations

from collections.abc import Sequence

from studio.drawing.excerpt_picture.setting import columns
from studio.drawing.excerpt_picture.shown import ExcerptShown, PassShown
from studio.drawing.excerpt_picture.words import pass_names


def excerpt(
    *,
    start: float = 0.0,
    count_in: float = 0.0,
    passes: int = 1,
    each: float = 8.0,
    tail: float = 0.0,
    bars: int = 4,
    first_bar: int = 2,
    fades: tuple[float, float] = (0.05, 0.05),
    instead: Sequence[str] = (),
    beat: float = 0.5,
    clicking: bool = False,
    title: str = "The turn that never lands",
    where: str = "bars 2–5",
    loudness: float | None = -14.0,
    true_peak: float | None = -1.2,
    level: int = 800,
    spoken_over: bool = False,
) -> ExcerptShown:
    """An excerpt of `passes` times `each` seconds, whose wave is as high everywhere, `level` thousandths."""
    counted = start + count_in
    rings = counted + passes * each
    end, bar = rings + tail, each / max(1, bars)
    names = pass_names(passes, instead)
    joints = [counted + number * each for number in range(passes)] + [end]
    lines = [
        (first_bar + number, counted + time * each + number * bar)
        for time in range(passes)
        for number in range(bars)
    ]
    clicks = int((end - start if clicking else count_in) / beat)
    return ExcerptShown(
        title=title,
        where=where,
        start=start,
        counted=counted,
        rings=rings,
        end=end,
        fade_in=fades[0],
        fade_out=fades[1],
        passes=tuple(
            PassShown(words, joints[number], joints[number + 1]) for number, words in enumerate(names)
        ),
        bars=(*lines, (first_bar + bars, rings)) if tail and bars else tuple(lines),
        clicks=tuple((start + number * beat, number % 4 == 0) for number in range(clicks)),
        loudness=loudness,
        true_peak=true_peak,
        spoken_over=spoken_over,
        wave=((-level, level),) * columns(),
    )


COUNTED_TWICE = excerpt(start=1.25, count_in=2.0, passes=2, tail=2.0, fades=(1.0, 2.0))
"""Two bars of clicks' worth, bars 2 to 5 twice, and a bar in which they ring out."""

WITHOUT = excerpt(passes=4, each=4.0, count_in=2.0, tail=1.0, instead=("G",), clicking=True)
"""In turn as written and with a G instead, with clicks all along."""

CROWDED = excerpt(start=0.4, count_in=2.0, passes=8, tail=2.0, instead=("Bbmaj7", "D5"), first_bar=101)
"""So much that most words have no room."""
