from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from studio.drawing.frame import PADDING
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import SMALLEST, Theme, default_theme
from studio.drawing.waves.setting import setting
from studio.drawing.waves.shape import SHADE
from studio.drawing.waves.stem_rows import Waves
from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.project.model import Excerpt, Play
from studio.timeline.listening import Listen, Wave
from studio.timeline.song_facts import SongFacts

from ..map.looking import heard_at, middles, near, repeated
from ..map.song import CANVASES, RESIZED, THEMES, TIME, WIDE, RefusedError, ask, composed, facts
from ..map.watching import ink_on_bright, sizes_of, type_faults, watching

THEME = default_theme()
KIND = KINDS["stems"]
NAMES = ("drums", "bass", "keys")
SPAN = TIME.bars(7, 10)
LEVELS = {"drums": 0.8, "bass": 0.4, "keys": 0.2}


def song(names: tuple[str, ...] = NAMES) -> SongFacts:
    return facts(stems={name: Path(f"{name}.flac") for name in names})


def playing(*names: str) -> Excerpt:
    return Excerpt(TIME.seconds(SPAN.start), TIME.seconds(SPAN.end), SPAN, names, (), F(0), F(0))


def steady(levels: Mapping[str, float]) -> Listen:
    """Every stem a square wave of its own level."""

    def listen(path: Path, start: F, end: F, columns: int) -> Wave:
        level = levels[path.stem]
        return ((-level, level),) * columns

    return listen


def clicking(at: F) -> Listen:
    """A click at one second of the recording, and a whisper all else."""

    def listen(path: Path, start: F, end: F, columns: int) -> Wave:
        clicked = int((at - start) / (end - start) * columns)
        return tuple((0.0, 1.0) if n == clicked else (-0.002, 0.002) for n in range(columns))

    return listen


def stems(canvas: Canvas = WIDE, listen: Listen | None = None, *names: str, **options: Any) -> Waves:
    made = composed(
        "stems",
        song(),
        canvas,
        span=SPAN,
        excerpt=playing(*names),
        listen=listen or steady(LEVELS),
        **options,
    )
    assert isinstance(made.content, Waves)
    return made.content


def height(content: Waves, share: float = 1.0) -> int:
    extent = KIND.extent(content, 1728, THEME)
    return round((extent.least + (extent.wanted - extent.least) * share) * content.canvas.unit / 2) * 2


def test_there_is_a_row_for_each_stem_and_those_sound_that_the_excerpt_plays() -> None:
    rows = stems(WIDE, None, "keys", "bass").rows
    assert [(row.name, row.sounds) for row in rows] == [("drums", False), ("bass", True), ("keys", True)]


def test_the_full_recording_plays_all_stems() -> None:
    assert all(row.sounds for row in stems().rows)
    assert "Muted" not in composed("stems", song(), span=SPAN, excerpt=playing(), listen=steady(LEVELS)).alt


def test_no_stem_sounds_where_only_the_program_plays_and_some_do_where_both_play() -> None:
    chords = (Play("chords", "chords"),)
    for names in ((), ("bass",)):
        excerpt = replace(playing(*names), plays=chords)
        made = composed("stems", song(), span=SPAN, excerpt=excerpt, listen=steady(LEVELS))
        assert [row.name for row in made.content.rows if row.sounds] == list(names)


def test_together_one_scale_keeps_levels_in_proportion() -> None:
    content = stems()
    assert [max(high for _, high in row.wave) for row in content.rows] == [1000, 500, 250]
    assert content.note == "levels compared"


def test_each_fills_its_own_row_when_so_asked() -> None:
    content = stems(scale="each")
    assert [max(high for _, high in row.wave) for row in content.rows] == [1000, 1000, 1000]
    assert content.note == "each at full height"


@given(st.floats(-90, -6))
def test_a_stem_is_silent_below_60_dbfs(level: float) -> None:
    # dBFS = 20 log10(peak), full scale 1 (AES17's peak reading of a square wave).
    peak = 10 ** (level / 20)
    rows = stems(WIDE, steady({**LEVELS, "keys": peak})).rows
    assert [row.silent for row in rows] == [False, False, level < -60]


def test_only_the_stems_that_are_asked_for_in_their_order() -> None:
    assert [row.name for row in stems(only=("keys", "drums")).rows] == ["keys", "drums"]


def test_one_stem_needs_no_list_and_none_is_refused() -> None:
    assert [row.name for row in stems(only="bass").rows] == ["bass"]
    with pytest.raises(ValidationError, match="names no stem; name those to show, or leave 'only' out"):
        stems(only=())


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
@pytest.mark.parametrize("click", [F(15), F(31, 2), F(18), F(91, 4)])
def test_in_the_picture_a_click_stands_where_its_time_does(canvas: Canvas, click: F) -> None:
    start, end = TIME.seconds(SPAN.start), TIME.seconds(SPAN.end)
    content = stems(canvas, clicking(click), *NAMES)
    size = (ask("stems", song(), canvas).room.width, height(content))
    found = setting(content, size, THEME)
    ink = near(KIND.draw(content, None, size, THEME), THEME.colours.ink)
    for number in range(len(content.rows)):
        top = round(found.row_top(number))
        high = ink[top : top + round(found.row / 4), round(found.left) :]
        columns = np.flatnonzero(high.any(0)) + round(found.left)
        wanted = found.x(float((click - start) / (end - start)))
        assert columns.mean() == pytest.approx(wanted, abs=content.canvas.unit), number


def test_what_sounds_is_full_and_what_is_muted_is_hollow_and_says_so() -> None:
    content = stems(WIDE, None, "bass", "keys")
    size = (1728, height(content))
    picture, found = KIND.draw(content, None, size, THEME), setting(content, size, THEME)
    column = np.asarray(picture)[:, 1000, :3].astype(int)

    def inside(number: int) -> np.ndarray:
        middle, half = found.row_top(number) + found.row / 2, found.row / 2 * 0.2
        over = column[round(middle - half) : round(middle) - 2]
        return np.concatenate([over, column[round(middle) + 3 : round(middle + half)]])

    shade = SHADE / 255
    dim = [round(p + (r - p) * shade) for p, r in zip(THEME.colours.panel, THEME.colours.rule, strict=True)]
    assert (np.abs(inside(0) - dim).max(-1) < 16).all()
    assert (np.abs(inside(1) - THEME.colours.ink).max(-1) < 16).all()
    # The word takes ink of its own: a muted row has more type at the left than the same row when it sounds.
    sounding = KIND.draw(stems(WIDE, None, *NAMES), None, size, THEME)
    top, bottom = round(found.row_top(0)), round(found.row_top(0) + found.row)
    names = [
        near(one, THEME.colours.quiet)[top:bottom, : round(found.left) - 8].sum()
        for one in (picture, sounding)
    ]
    assert names[0] > names[1]


def test_a_silent_stem_is_a_flat_line_with_words() -> None:
    content = stems(WIDE, steady({**LEVELS, "keys": 0.0}), *NAMES)
    size = (1728, height(content))
    picture, found = KIND.draw(content, None, size, THEME), setting(content, size, THEME)
    top, bottom = round(found.row_top(2)), round(found.row_top(2) + found.row)
    row = near(picture, THEME.colours.ink)[top:bottom, round(found.left) + 2 :]
    assert not row.any()
    words = near(picture, THEME.colours.quiet)[top:bottom, round(found.left) + 2 :]
    assert words.any()


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_around_the_words_of_a_silent_stem_is_nothing_but_panel(theme: Theme) -> None:
    # Over footage a plate would show, and so would a line through the words. The rest of the row has lines.
    clear = replace(theme, panel_opacity=0.5)
    content = stems(WIDE, steady({**LEVELS, "keys": 0.0}), *NAMES)
    size = (1728, height(content))
    found = setting(content, size, clear)
    with watching() as laid:
        hidden = np.abs(ink_on_bright(KIND.draw(content, None, size, clear), clear))
    (words,) = (one for one in laid if one.words == "silent here")
    hidden[words.box[1] : words.box[3], words.box[0] : words.box[2]][words.ink > 0] = 0
    left, right = (round(edge) for edge in found.silence)
    middle, half = round(found.row_top(2) + found.row / 2), round(0.5 * found.small)
    assert left < words.box[0] and words.box[2] < right
    assert hidden[middle - half : middle + half, left + 3 : right - 3].max() < 3
    assert (hidden[middle, right + 3 : right + 40] > 60).all()


def test_bars_have_their_numbers_and_places() -> None:
    content = stems()
    assert [number for number, _ in content.bars] == [7, 8, 9, 10]
    start, end = TIME.seconds(SPAN.start), TIME.seconds(SPAN.end)
    for number, share in content.bars:
        assert share == pytest.approx(float((TIME.seconds(TIME.bar_start(number)) - start) / (end - start)))


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
def test_the_playhead_is_over_the_sound_that_is_heard_twice_and_slower(canvas: Canvas) -> None:
    # The waves are to scale in seconds, so the playhead is where the second that sounds is, at any tempo and speed.
    content = stems(canvas, None, *NAMES)
    size = (ask("stems", song(), canvas).room.width // 2 * 2, height(content))
    (mark,) = KIND.marks(content, size, THEME)
    start, end = TIME.seconds(SPAN.start), TIME.seconds(SPAN.end)
    clock = repeated(TIME, start, end)
    found, seen = setting(content, size, THEME), middles(mark, size, clock)
    assert len(seen) == pytest.approx(float((end - start) * 30 * (1 + F(5, 4))), abs=2)
    for frame, (x, y) in seen.items():
        if (at := heard_at(clock, frame)) is not None:
            assert x == pytest.approx(found.x(float((at - start) / (end - start))), abs=3.5), frame
            assert y - mark.size[1] / 2 < found.row_top(0) and y + mark.size[1] / 2 > found.bottom


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
@pytest.mark.parametrize("share", [0.0, 1.0])
def test_names_are_large_enough_and_leave_room(canvas: Canvas, share: float) -> None:
    content = stems(canvas, None, "bass")
    size = (ask("stems", song(), canvas).room.width, height(content, share))
    found = setting(content, size, THEME)
    assert min(line.smallest for line in found.names) >= content.canvas.pixels(SMALLEST) - 0.01
    assert max(line.width for line in found.names) + PADDING * found.u < found.left
    assert found.right - found.left > size[0] / 2
    assert found.bottom <= size[1] - 2 * found.u


def test_what_cannot_be_shown_is_refused_with_a_remedy() -> None:
    with pytest.raises(RefusedError, match=r"song\.stems"):
        composed("stems", facts(), span=SPAN)
    with pytest.raises(RefusedError, match="it covers no music"):
        composed("stems", song())
    with pytest.raises(RefusedError, match="an instant has no wave"):
        composed("stems", song(), span=Span(F(4), F(4)))
    crowd = song(tuple(f"voice {number}" for number in range(1, 30)))
    with pytest.raises(RefusedError, match=r"29 stems are too many .*only: \[voice 1, voice 2\]"):
        composed("stems", crowd, span=SPAN)
    wordy = song(("the second of the two acoustic guitars as doubled on the other side of the room at home",))
    with pytest.raises(RefusedError, match="shorter name"):
        composed("stems", wordy, span=SPAN)


def test_a_stem_that_cannot_be_read_is_refused_in_plain_words() -> None:
    def broken(path: Path, start: F, end: F, columns: int) -> Wave:
        raise ValueError(f"{path} is empty: it has 0 bytes.")

    with pytest.raises(RefusedError, match=r"the stem 'drums' cannot be heard: drums\.flac is empty"):
        composed("stems", song(), span=SPAN, listen=broken)


def test_words_say_which_sound_and_which_are_muted() -> None:
    listen = steady({**LEVELS, "drums": 0.0})
    alt = composed("stems", song(), span=SPAN, excerpt=playing("keys", "bass"), listen=listen).alt
    assert alt == (
        "Waves of 3 stems over chorus, levels to compare. Sounding: bass and keys. Muted: drums. Silent here: drums."
    )


def test_what_is_silent_is_not_said_to_sound() -> None:
    listen = steady({**LEVELS, "drums": 0.0})
    alt = composed("stems", song(), span=SPAN, excerpt=playing(*NAMES), listen=listen).alt
    assert "Sounding: bass and keys." in alt and alt.endswith("Silent here: drums.")


def test_a_stretch_that_is_cut_between_beats_is_told_by_the_nearest() -> None:
    start, end = TIME.bar_start(3) + F(1, 7), TIME.bar_start(5) - F(1, 9)
    alt = composed("stems", song(), span=Span(start, end), listen=steady(LEVELS)).alt
    assert alt.startswith("Waves of 3 stems over bars 3–4, ")


@pytest.mark.parametrize("theme", [*THEMES.values(), *RESIZED.values()], ids=[*THEMES, *RESIZED])
@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
def test_type_stands_in_the_panel_and_apart_at_every_size(canvas: Canvas, theme: Theme) -> None:
    made = song(("drums", "bass", "second guitar"))
    listen = steady({"drums": 0.0, "bass": 0.4, "second guitar": 0.2})
    try:
        content = composed(
            "stems", made, canvas, span=SPAN, excerpt=playing("drums"), listen=listen, theme=theme
        ).content
    except RefusedError:
        assert theme.sizes.small == 400
        return
    room = ask("stems", made, canvas, theme=theme).room
    for size in sizes_of(KIND, content, room.width, theme):
        assert not type_faults(KIND, content, None, size, theme), size
