from __future__ import annotations

from studio.build.level_lines import level_lines
from studio.sound.loudness import Levels, Loudness


def levels(*after: float | None) -> Levels:
    measured = Loudness(*after)
    return Levels(before=measured, after=measured, gain_db=0.0, limited_by_db=0.0, held_by_peak=False)


def test_each_excerpt_has_a_line_and_numbers_stand_under_each_other() -> None:
    one, two = level_lines(
        [("hook", levels(-14.04, -12.1, 4.2, -1.0)), ("bridge", levels(-9.3, None, None, -0.04))]
    )
    assert one == "hook    -14.0 LUFS, 3 s max -12.1, range  4.2 LU, peak  -1.0 dBTP"
    assert two == "bridge   -9.3 LUFS, 3 s max     -, range    - LU, peak   0.0 dBTP"


def test_a_line_fits_a_terminal_of_80_columns_and_needs_no_more_than_ascii() -> None:
    (line,) = level_lines([("a-name-that-somebody-thought-of-late", levels(-14.0, -12.1, 14.2, -11.0))])
    assert len(line) <= 80 and line.isascii() and line.startswith("a-name-that-someb...  ")


def test_silence_is_said_as_such() -> None:
    assert list(level_lines([("rest", levels(None, None, None, None))])) == ["rest  silent"]
    assert list(level_lines([])) == []
