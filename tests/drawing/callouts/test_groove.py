"""The groove callout: every stroke stands where it falls, and what differs is what theory says differs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.callouts.groove import KIND, GrooveOptions
from studio.drawing.grid.grid import Grid, Turned
from studio.drawing.grid.score import Score
from studio.drawing.grid.setting import Setting
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import default_theme
from studio.music.groove import Drums, Groove, Hit
from studio.music.groove_pattern import read_groove
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.episode_values import Canvas
from studio.theory.rhythm.difference import groove_difference
from studio.theory.rhythm.reading import groove_reading
from studio.theory.wording import groove_words
from studio.timeline.kind import Composed
from studio.timeline.marks import mark_at
from studio.timeline.song_facts import SongFacts
from studio.timeline.state import Box
from tests.theory.rhythm.grooves import groove, played

from ..small_song import TALL, TIME, WIDE, RefusedError, ask, bars, facts

THEME = default_theme()
MAIN = groove(kick="x... ..x. x... ....", snare=".... X..o .o.. X...", hat="x.x. x.x. x.x. x.x.")
HALF = groove(kick="x... ..x. .... ..x.", snare=".... .... X... ....", hat="xxxx xxxx xxxx xxxx")
SIX = groove("6/8", kick="x..x.x", snare="...X..", hat="xxxxxx")
SPAN = bars(1, 4)


def made(
    canvas: Canvas = WIDE,
    span: Span | None = SPAN,
    time: SongTime = TIME,
    slot: str | None = None,
    **grooves: object,
) -> Composed:
    options = {
        name: grooves.pop(name) for name in ("groove", "against") if isinstance(grooves.get(name), str | Span)
    }
    song = replace(facts().song, grooves=grooves or {"main": MAIN, "half": HALF}, time=time)
    asked = replace(ask(span, canvas, slot or "lower"), facts=SongFacts(song, "relative-to-major"))  # type: ignore[arg-type]
    return KIND.compose(GrooveOptions(kind="groove", slot=slot, **{"groove": "main"} | options), asked)


def sized(content: Grid, width: int = 1728, share: float = 1.0) -> tuple[int, int]:
    return width, 2 * round(KIND.extent(content, width, THEME).wanted * content.canvas.unit * share / 2)


def inked(content: Grid, size: tuple[int, int], page: int = 0) -> np.ndarray:
    """Where something stands out from the panel, lines and bands apart."""
    pixels = np.asarray(KIND.draw(content, Turned(page), size, THEME)).astype(int)[..., :3]
    bright = [np.abs(pixels - colour).max(-1) < 24 for colour in (THEME.colours.ink, THEME.colours.next)]
    return np.asarray(bright[0] | bright[1])


VOICES = ("hat", "snare", "kick")


@st.composite
def patterns(draw: st.DrawFn) -> Groove:
    """One or two bars of 4/4 or 6/8 for three voices on one grid."""
    meter = draw(st.sampled_from([Meter(4, 4), Meter(6, 8), Meter(3, 4)]))
    parts = draw(st.sampled_from([3, 6] if meter.compound else [1, 2, 3, 4]))
    count, length = meter.beats * parts, draw(st.integers(1, 2))
    hits = {
        voice: [Hit(Fraction(place, count), draw(st.sampled_from(["plain", "accent", "ghost"])))
                for place in sorted(draw(st.sets(st.integers(0, count * length - 1), min_size=1)))]
        for voice in VOICES
    }  # fmt: skip
    return Groove.of(meter, length, hits)


@given(patterns())
@settings(max_examples=25, deadline=None)
def test_each_stroke_is_drawn_in_the_column_of_its_onset_and_nowhere_else(pattern: Groove) -> None:
    song = replace(facts().song, grooves={"main": pattern})
    asked = replace(ask(None), facts=SongFacts(song, "relative-to-major"))
    content = KIND.compose(GrooveOptions(kind="groove", groove="main"), asked).content
    shown = groove_reading(pattern).groove
    size = sized(content)
    found, ink = Setting(content, *size, THEME), inked(content, size)
    steps = content.patterns[0].beats * content.patterns[0].steps
    for line, voice in enumerate(content.voices):
        onsets = shown.onsets({"hats": "hat"}.get(voice, voice))
        y = round(found.y(0, line))
        for place in range(steps * content.shown):
            at = Fraction(place, steps)
            x = round(found.x(0, at))
            assert ink[y - 9 : y + 10, x - 9 : x + 10].any() == (at in onsets)


@given(patterns())
@settings(max_examples=25, deadline=None)
def test_the_facts_on_the_grid_are_those_of_the_groove(pattern: Groove) -> None:
    song = replace(facts().song, grooves={"main": pattern})
    asked = replace(ask(None), facts=SongFacts(song, "relative-to-major"))
    content = KIND.compose(GrooveOptions(kind="groove", groove="main"), asked).content
    reading = groove_reading(pattern)
    (shown,) = content.patterns
    assert shown.said[0] == groove_words(reading)
    drawn = {(voice, stroke.at, stroke.touch) for voice, line in zip(content.voices, shown.lines, strict=True)
             for stroke in line.strokes}  # fmt: skip
    assert drawn == {
        ({"hat": "hats"}.get(voice, voice), hit.at, hit.touch)
        for voice, line in reading.groove.lines
        for hit in line
    }
    assert shown.beats == pattern.meter.beats
    assert (shown.backbeats == reading.feel.beats) if reading.feel.backbeat else shown.backbeats == ()


def test_beats_are_the_meter_s_own() -> None:
    """6/8 is counted in two dotted quarters, each in three (common practice)."""
    (pattern,) = made(main=SIX).content.patterns
    assert (pattern.beats, pattern.steps, pattern.syllables) == (2, 3, ())


def test_claves_of_the_literature_stand_where_they_are_published() -> None:
    """Son clave 3–2, ``WorldSample16`` of amads 1.4.0 (PyPI), after Gómez, Melvin, Rappaport and Toussaint (2005)."""
    clave = "x..x..x...x.x..."
    content = made(main=groove(claves=f"| {clave[:8]} | {clave[8:]} |", kick="x.......")).content
    line = content.patterns[0].lines[content.voices.index("claves")]
    assert [stroke.at * 8 for stroke in line.strokes] == [n for n, sign in enumerate(clave) if sign == "x"]
    assert "son clave 3–2" in content.patterns[0].said[0]


@given(patterns(), patterns())
@settings(max_examples=20, deadline=None)
def test_what_is_marked_turns_one_groove_into_the_other(one: Groove, two: Groove) -> None:
    song = replace(facts().song, grooves={"one": one, "two": two})
    asked = replace(ask(None, slot="card"), facts=SongFacts(song, "relative-to-major"))
    options = GrooveOptions(kind="groove", groove="one", against="two", slot="card")
    content = KIND.compose(options, asked).content
    before, after = content.patterns
    marked = False
    for was, now in zip(before.lines, after.lines, strict=True):
        kept = {(stroke.at, stroke.touch) for stroke in was.strokes if stroke.at not in now.missing}
        new = {(stroke.at, stroke.touch) for stroke in now.strokes if stroke.differs}
        marked = marked or bool(new or now.missing)
        assert not any(stroke.differs for stroke in was.strokes)
        if one.meter == two.meter:
            over = {at for at, _ in new}
            assert {each for each in kept if each[0] not in over} | new == {
                (stroke.at, stroke.touch) for stroke in now.strokes
            }
        else:
            assert not new and not now.missing
    if one.meter == two.meter:
        assert marked != groove_difference(groove_reading(one), groove_reading(two)).same


def test_the_difference_is_said_and_marked_in_the_cool_accent() -> None:
    content = made(against="half").content
    assert content.said == (
        "The half groove drops to half time, doubles the hats, moves the kick from 3 to 4& and differs in"
        " ghost notes.",
        "The half groove drops to half time and more.",
    )
    pixels = np.asarray(KIND.draw(content, Turned(), sized(content), THEME)).astype(int)[..., :3]
    cool = np.flatnonzero((np.abs(pixels - THEME.colours.next).max(-1) < 24).any(0))
    assert content.beside and cool.min() > Setting(content, *sized(content), THEME).block(1).left - 20
    same = made(main=MAIN, half=MAIN, against="half").content
    pixels = np.asarray(KIND.draw(same, Turned(), sized(same), THEME)).astype(int)[..., :3]
    assert not (np.abs(pixels - THEME.colours.next).max(-1) < 24).any()


def test_two_grooves_stand_over_one_another_on_a_tall_canvas() -> None:
    assert made(against="half").content.beside and not made(TALL, against="half").content.beside


def test_a_played_groove_is_shown_by_its_typical_bar_and_against_another_place() -> None:
    strokes = (*played(MAIN, 4).strokes, *played(HALF, 4, first_bar=5).strokes)
    composed = made(main=Drums(strokes), against=bars(5, 8))
    one, two = composed.content.patterns
    assert (one.name, two.name) == ("Bars 1–4", "Bars 5–8")
    assert composed.content.bars == 1
    assert [p.pattern for p in composed.content.passes] == [0] * 4 + [1] * 4
    alone = made(main=Drums(strokes[:-4]), span=bars(1, 8)).content
    assert any("alike" in text for text in alone.said)


def test_the_pointer_is_over_each_stroke_as_it_sounds() -> None:
    composed = made(main=groove(kick="| x... ..x. | x.x. .... |", snare="..x."))
    content, size = composed.content, sized(composed.content)
    found = Setting(content, *size, THEME)
    (mark,) = KIND.marks(content, size, THEME)
    box = Box(96, 700, *size)
    for bar in range(4):
        for stroke in content.patterns[0].lines[content.voices.index("kick")].strokes:
            if int(stroke.at) == bar % 2:
                where = mark_at(mark, box, 4 * (bar + stroke.at % 1))
                assert where is not None
                assert where.x + where.width / 2 - box.x == pytest.approx(found.x(0, stroke.at), abs=2)
    assert mark_at(mark, box, Fraction(17)) is None
    assert composed.still_at == 2  # the snare on 3: where most of the kit strikes after the first beat


def test_bars_of_another_meter_have_no_pointer() -> None:
    time = SongTime(((1, Meter(4, 4)), (2, Meter(2, 4)), (3, Meter(4, 4))), TIME.anchors)
    passes = made(time=time, span=time.bars(1, 3)).content.passes
    assert [p.start for p in passes] == [0, 6]


def test_a_long_pattern_turns_pages_on_bar_lines() -> None:
    four = groove(kick="| x... | x.x. | x..x | xxxx |", hat="x.x.")
    composed = made(main=four, span=bars(1, 8))
    assert (composed.content.bars, composed.content.shown, composed.content.pages) == (4, 2, 2)
    assert [(start, look.page) for start, _, look in composed.states] == [
        (4 * bar, bar % 4 // 2) for bar in range(8)
    ]
    size = sized(composed.content)
    assert (inked(composed.content, size, 0) != inked(composed.content, size, 1)).any()


def test_how_a_stroke_is_played_is_its_shape() -> None:
    """Ghost, plain and accented strokes and an open hi-hat differ without colour."""
    lines = {"snare": "x.X. o...", "hat": "x... ....", "open hat": "..x. ...."}
    content = made(main=read_groove(lines, Meter(4, 4))).content
    size = sized(content)
    found, ink = Setting(content, *size, THEME), inked(content, size)

    def amount(voice: str, at: Fraction) -> int:
        x, y = round(found.x(0, at)), round(found.y(0, content.voices.index(voice)))
        return int(ink[y - 24 : y + 18, x - 16 : x + 17].sum())

    plain, accent, ghost = (amount("snare", at) for at in (Fraction(0), Fraction(1, 4), Fraction(1, 2)))
    assert ghost < 0.6 * plain and accent > 1.3 * plain
    assert amount("hats", Fraction(1, 4)) > 1.3 * amount("hats", Fraction(0))


def test_marks_keep_apart_without_colour() -> None:
    """A stroke that differs has a bar under it, and a missing one a ring of dots: shapes, in sixteenths too."""
    one = groove(hat="xxxx xxxx xxxx xxxx", kick="x...")
    two = groove(hat="x.xx xxxx xxxx xxxx", kick="x..x")
    content = made(main=one, half=two, against="half", slot="left").content
    size = sized(content, 566)
    found, ink = Setting(content, *size, THEME), inked(content, size)

    def amount(voice: str, at: Fraction, top: int, bottom: int) -> int:
        x, y = round(found.x(1, at)), round(found.y(1, content.voices.index(voice)))
        return int(ink[y + top : y + bottom, x - 8 : x + 9].sum())

    assert amount("kick", Fraction(3, 4), 11, 18) > 20 and not amount("kick", Fraction(0), 11, 18)
    missing, struck = (amount("hats", Fraction(n, 16), -10, 10) for n in (1, 2))
    assert 0 < missing < struck
    gap = found.x(1, Fraction(2, 16)) - found.x(1, Fraction(1, 16))
    assert 2 * 1.4 * Score(Sheet(size), content, Turned(), THEME).size < gap + 1


def test_accents_stand_clear_of_the_count_and_of_the_row_above() -> None:
    accented = groove(hat="X...", snare="X...", kick="x...")
    content = made(main=accented).content
    size = sized(content)
    found, ink = Setting(content, *size, THEME), inked(content, size)
    x = round(found.x(0, Fraction(0)))
    column = ink[:, x - 12 : x + 13].any(1)
    first, second = (round(found.y(0, n)) for n in (0, 1))
    assert not column[round(found.count_line(0)) + 2 : round(found.count_line(0)) + 6].any()
    gaps = np.flatnonzero(~column[first:second])
    assert gaps.size > 4  # between the hat, the accent and the snare


def test_the_count_shows_the_groups_of_an_odd_meter() -> None:
    (pattern,) = made(main=groove("7/8", kick="x...x..", snare="..X...X", hat="x.x.x.x")).content.patterns
    assert pattern.groups == (1, 3, 5) and "quarter-note hats" in pattern.said[0]


def test_a_groove_against_itself_is_refused() -> None:
    with pytest.raises(RefusedError, match="against itself; name another groove or place, such as half"):
        made(against="main")
    with pytest.raises(RefusedError, match="against itself"):
        made(main=Drums(played(MAIN, 8).strokes), against=SPAN)


def test_what_cannot_be_shown_is_refused_with_the_remedy() -> None:
    with pytest.raises(RefusedError, match="name another groove"):
        made(against=bars(3, 4))
    with pytest.raises(RefusedError, match="choose bars in which the drums play"):
        made(main=Drums(played(MAIN, 2).strokes), span=bars(5, 8))
    with pytest.raises(RefusedError, match="bars are too many"):
        made(main=groove(kick="| " + " | ".join("x..." if n else "xx.." for n in range(9)) + " |"))
    busy = groove(kick="| " + "x" * 48 + " |", snare=".x.x")
    with pytest.raises(RefusedError, match="too near together"):
        made(main=busy, half=busy, against="half", slot="left")


def test_a_pattern_needs_no_excerpt_and_then_nothing_moves() -> None:
    composed = made(span=None)
    assert composed.still_at is None and not KIND.marks(composed.content, (1728, 300), THEME)


def test_the_words_say_what_the_picture_shows() -> None:
    alt = made().alt
    assert alt.startswith("Groove of main: backbeat on 2 and 4, eighth-note hats, straight. Hats on 1, 1&")
    assert "kick on 1, 2& and 3" in alt


@pytest.mark.parametrize("canvas", [WIDE, TALL])
@pytest.mark.parametrize("share", [0.0, 1.0, 1.5])
def test_all_ink_stays_inside_the_panel(canvas: Canvas, share: float) -> None:
    content = made(canvas, against="half").content
    width = 1728 if canvas is WIDE else 896
    extent = KIND.extent(content, width, THEME)
    height = round((extent.wanted * share if share else extent.least) * content.canvas.unit)
    rows = np.flatnonzero(inked(content, (width, height)).any(1))
    assert rows.min() >= 16 and rows.max() <= height - 12


def test_a_name_is_set_smaller_where_it_is_long_and_refused_where_it_cannot_be_read() -> None:
    long = "a groove with a quite long name"
    content = made(groove=long, slot="left", **{long: MAIN}).content
    found = Setting(content, 566, None, THEME)
    name = found.name(content.patterns[0])
    assert name.width <= 566 - 48 and THEME.sizes.small <= name.smallest < THEME.sizes.label
    longer = f"{long} that goes on and on and on"
    with pytest.raises(RefusedError, match="its name is too long for this width"):
        made(groove=longer, slot="left", **{longer: MAIN})


@pytest.mark.parametrize("small", [28, 44])
def test_lines_of_words_do_not_touch_in_a_theme_with_large_small_print(small: int) -> None:
    theme = replace(THEME, sizes=replace(THEME.sizes, small=small))
    found = Setting(made(against="half").content, 1728, 600, theme)
    assert found.leading >= 1.2 * found.small and found.row >= found.small
