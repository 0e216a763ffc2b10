from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.excerpt_picture.picture import SHADE, draw_excerpt
from studio.drawing.excerpt_picture.setting import SIZE, Setting, columns
from studio.drawing.excerpt_picture.shown import ExcerptShown
from studio.drawing.themes.contrast import Colour, contrast, over
from studio.drawing.themes.theme import Theme, default_theme, read_theme, theme_names, theme_path
from studio.sound.fading import rise

from ..map.watching import watching
from .excerpts_shown import COUNTED_TWICE, CROWDED, WITHOUT, excerpt

THEME = default_theme()
THEMES = [read_theme(theme_path(name)) for name in theme_names()]
MARKS_STAND_OUT = 3.0  # WCAG 2.2, 1.4.11


def pixels(shown: ExcerptShown, theme: Theme = THEME) -> np.ndarray:
    return np.asarray(draw_excerpt(shown, theme)).astype(int)


def near(picture: np.ndarray, colour: Colour) -> np.ndarray:
    return np.asarray(np.abs(picture - colour).max(axis=-1) < 10)


def type_faults(shown: ExcerptShown, theme: Theme = THEME, size: tuple[int, int] = SIZE) -> list[str]:
    """What is wrong with the words of a picture: they leave it, touch, are too small, or lie over the wave."""
    found = Setting(shown, size, theme)
    with watching() as laid:
        draw_excerpt(shown, theme, size)
    faults = [
        f"'{one.words}' touches '{two.words}'" for one, two in combinations(laid, 2) if one.touches(two)
    ]
    for one in laid:
        left, top, right, bottom = one.box
        if left < 0 or top < 0 or right > size[0] or bottom > size[1]:
            faults.append(f"'{one.words}' leaves the picture")
        if one.smallest < theme.sizes.small * found.u / 8 - 0.01:
            faults.append(f"'{one.words}' is too small")
        if bottom > found.top and top < found.axis:
            faults.append(f"'{one.words}' lies over the wave")
    return faults


def words(shown: ExcerptShown) -> list[str]:
    with watching() as laid:
        draw_excerpt(shown, THEME)
    return [one.words for one in laid]


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@pytest.mark.parametrize("shown", [COUNTED_TWICE, WITHOUT, CROWDED, excerpt()])
def test_words_keep_off_each_other_and_off_the_wave(shown: ExcerptShown, theme: Theme) -> None:
    assert not type_faults(shown, theme)
    assert not type_faults(shown, theme, (900, 400))


@settings(max_examples=40)
@given(
    start=st.floats(0, 400),
    count_in=st.sampled_from([0.0, 0.6, 2.0, 9.0]),
    passes=st.integers(1, 8),
    each=st.floats(0.2, 60),
    tail=st.sampled_from([0.0, 0.1, 1.5, 6.0]),
    bars=st.integers(0, 40),
    first_bar=st.integers(-2, 400),
    instead=st.sampled_from([(), ("G",), ("Bbmaj7", "D5")]),
    clicking=st.booleans(),
    spoken_over=st.booleans(),
    title=st.sampled_from(["", "A", "The turn that never lands, and what it does to the rest of the song"]),
)
def test_words_never_touch_whatever_the_excerpt_is_like(**asked: object) -> None:
    assert not type_faults(excerpt(**asked))  # type: ignore[arg-type]


def test_a_long_number_at_the_edge_stays_in_the_picture() -> None:
    assert not type_faults(excerpt(start=100.0, each=1.0))
    assert not type_faults(excerpt(start=1999.0, each=1.0))


def test_passes_the_count_in_and_the_tail_are_named() -> None:
    assert {"count-in", "1st time", "2nd time", "tail"} <= set(words(COUNTED_TWICE))
    assert words(WITHOUT).count("as written") == 2 == words(WITHOUT).count("with G instead")
    assert not {"count-in", "1st time", "tail"} & set(words(excerpt()))


def test_names_too_long_for_their_stretch_are_shorter_and_those_of_the_ends_stand_over_it() -> None:
    said = words(CROWDED)
    assert said.count("as written") == 4 == said.count("changed")
    assert said.count("count-in") == 1 == said.count("tail")


def test_a_title_that_is_too_long_ends_in_dots_before_the_levels() -> None:
    said = words(excerpt(title="Everything that there is to say about the last chord of the second verse"))
    assert said[0].endswith("…") and said[1] == "−14.0 LUFS · −1.2 dBTP"


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_the_count_in_and_the_tail_are_shaded_and_nothing_else_is(theme: Theme) -> None:
    found, picture = Setting(COUNTED_TWICE, SIZE, theme), pixels(replace(COUNTED_TWICE, wave=()), theme)
    shade = near(picture, over(theme.colours.rule, SHADE, theme.colours.ground))[round(found.top) + 20]
    shaded = np.flatnonzero(shade) / 1.0
    assert shaded.min() == pytest.approx(found.x(COUNTED_TWICE.start), abs=2)
    assert shaded.max() == pytest.approx(found.x(COUNTED_TWICE.end), abs=2)
    inside = (shaded > found.x(COUNTED_TWICE.counted) + 2) & (shaded < found.x(COUNTED_TWICE.rings) - 2)
    assert not inside.any()


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_what_lies_on_a_shade_stands_out(theme: Theme) -> None:
    shade = over(theme.colours.rule, SHADE, theme.colours.ground)
    assert contrast(theme.colours.ink, shade) >= theme.least_contrast
    assert contrast(theme.colours.now, shade) >= MARKS_STAND_OUT


def test_a_fade_is_drawn_as_the_sound_has_it() -> None:
    # The gains of `studio.sound.fading`, in which the excerpt itself is faded.
    shown = replace(COUNTED_TWICE, wave=())
    found, now = Setting(shown, SIZE, THEME), near(pixels(shown), THEME.colours.now)
    gains = rise(1000)
    for start, length, way in ((shown.counted, shown.fade_in, 1), (shown.end, shown.fade_out, -1)):
        for share in (0.2, 0.5, 0.8):
            x = found.x(start + way * share * length)
            rows = np.flatnonzero(now[:, round(x)])
            reach = gains[round(share * 1000)] * found.half
            assert rows.min() == pytest.approx(found.middle - reach, abs=12)
            assert rows.max() == pytest.approx(found.middle + reach, abs=12)
            inner = rows[np.abs(rows - found.middle) < reach - 12]
            assert not len(inner)


@pytest.mark.parametrize(
    ("fade", "drawn"), [(0.005, False), (0.04, False), (0.06, True)], ids=["5 ms", "40 ms", "60 ms"]
)
def test_a_fade_too_short_to_be_heard_as_one_is_no_mark_at_the_ends(fade: float, drawn: bool) -> None:
    shown = excerpt(fades=(fade, fade), each=4.0, level=0)
    assert near(pixels(shown), THEME.colours.now).any() == drawn


def test_a_fade_that_would_be_a_mere_line_on_paper_is_left_out() -> None:
    assert not near(pixels(excerpt(fades=(0.06, 0.06), each=60.0, level=0)), THEME.colours.now).any()
    assert near(pixels(excerpt(fades=(0.06, 1.0), each=60.0, level=0)), THEME.colours.now).any()


def test_the_unit_of_the_axis_stands_under_it_once_and_a_voice_over_the_excerpt_is_told_of() -> None:
    alone, under = words(COUNTED_TWICE), words(replace(COUNTED_TWICE, spoken_over=True))
    assert alone.count("seconds of the clip") == 1 == under.count("seconds of the clip")
    assert set(under) - set(alone) == {"the excerpt alone, without the voice that speaks over it"}


def test_a_wave_stands_over_its_seconds_and_a_bar_line_hides_none_of_it() -> None:
    shown = excerpt(fades=(0.0, 0.0), bars=4, level=0)
    columns_, at = columns(), 4.0  # the third bar begins at 4 s
    spike = int(at / shown.length * columns_ + 1e-9)
    wave = tuple((-900, 900) if n == spike else (0, 0) for n in range(columns_))
    found, ink = Setting(shown, SIZE, THEME), near(pixels(replace(shown, wave=wave)), THEME.colours.ink)
    high = np.flatnonzero(ink[round(found.middle - found.half * 0.8)])
    assert len(high) >= 1 and abs(high - found.x(at)).max() <= 3


def test_a_wave_is_drawn_as_large_as_there_is_room_for_but_hiss_is_not() -> None:
    def tall(level: int) -> float:
        shown = excerpt(level=level, fades=(0.0, 0.0), bars=0)
        found = Setting(shown, SIZE, THEME)
        middle = near(pixels(shown), THEME.colours.ink)[round(found.top) - 2 : round(found.bottom) + 2, 800]
        return float(middle.sum() / (2 * found.half))

    assert tall(900) == pytest.approx(1, abs=0.02) and tall(300) == pytest.approx(1, abs=0.02)
    assert tall(5) == pytest.approx(0.1, abs=0.02)


def test_the_same_excerpt_gives_the_same_picture() -> None:
    one, two = (draw_excerpt(COUNTED_TWICE, THEME) for _ in range(2))
    assert one.mode == "RGB" and one.size == SIZE and one.tobytes() == two.tobytes()
