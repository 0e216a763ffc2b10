"""How loud excerpts are, in lines for a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from studio.sound.loudness import Levels

_LONGEST_NAME = 20
_UNKNOWN = "-"


def level_lines(levels: Iterable[tuple[str, Levels]]) -> Iterator[str]:
    """A line for each segment's excerpt: `hook  -14.0 LUFS, 3 s max -12.1, range  4.2 LU, peak  -1.0 dBTP`."""
    named = [(_short(segment), level) for segment, level in levels]
    widest = max((len(name) for name, _ in named), default=0)
    for name, level in named:
        after = level.after
        if after.integrated is None and after.true_peak is None:
            yield f"{name:<{widest}}  silent"
            continue
        yield (
            f"{name:<{widest}}  {_tenth(after.integrated):>5} LUFS, 3 s max {_tenth(after.short_term_max):>5}, "
            f"range {_tenth(after.range):>4} LU, peak {_tenth(after.true_peak):>5} dBTP"
        )


def _short(name: str) -> str:
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 3]}..."


def _tenth(level: float | None) -> str:
    return _UNKNOWN if level is None else f"{round(level, 1) + 0.0:.1f}"
