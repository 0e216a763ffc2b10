from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import numpy as np
import pytest

from studio.drawing.frame import PADDING
from studio.drawing.kinds import KINDS
from studio.drawing.map.here import Here
from studio.drawing.map.sections_setting import Heights, setting
from studio.drawing.map.song_map import SongMap
from studio.drawing.map.texture import HOLLOW
from studio.drawing.themes.theme import SMALLEST, Theme, default_theme
from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.project.model import Excerpt
from studio.theory.form.bars import bars_reading
from studio.theory.form.plan import form_of
from studio.timeline.song_facts import SongFacts

from ..map.looking import heard_at, middles, near, repeated
from ..map.song import (
    CANVASES,
    LOOP,
    RESIZED,
    SECTIONS,
    TALL,
    THEMES,
    TIME,
    RefusedError,
    ask,
    composed,
    facts,
)
from ..map.watching import ink_on_bright, sizes_of, type_faults

THEME = default_theme()
KIND = KINDS["form"]
SONG = facts(keys={1: "A major"}, chart=(LOOP * 4).replace("||", "|"))
LONG = {
    f"{name} {turn}": (first, first + 3)
    for turn in range(1, 8)
    for name, first in (("verse", turn * 8 - 7), ("chorus", turn * 8 - 3))
}


def height(content: SongMap, width: int, share: float = 1.0) -> int:
    extent = KIND.extent(content, width, THEME)
    return round((extent.least + (extent.wanted - extent.least) * share) * content.canvas.unit / 2) * 2


def test_sections_stand_to_scale_by_the_seconds_that_they_last() -> None:
    blocks = composed("form", SONG).content.blocks
    first, last = TIME.seconds(F(-1)), TIME.seconds(TIME.bar_start(19))
    for block, bars in zip(blocks, SECTIONS.values(), strict=True):
        span = TIME.bars(*bars)
        if block.names != ("intro",):
            assert block.begin == pytest.approx(float((TIME.seconds(span.start) - first) / (last - first)))
        assert block.end == pytest.approx(float((TIME.seconds(span.end) - first) / (last - first)))
    # Bars last 2 s up to bar 8 and 3 s from there on: of two choruses of four bars one lasts 10 s, the other 12 s.
    one, two = (block.end - block.begin for block in (blocks[2], blocks[4]))
    assert two / one == pytest.approx(1.2)


def test_by_bars_sections_of_four_bars_are_as_wide_as_each_other() -> None:
    blocks = composed("form", SONG, scale="bars").content.blocks
    widths = [round(block.end - block.begin, 9) for block in blocks]
    # The intro has two bars, and with it goes the pickup of one beat.
    assert len(set(widths[1:])) == 1 and widths[0] == pytest.approx(widths[1] * 2.25 / 4)


def test_a_pickup_belongs_to_the_section_that_it_leads_into() -> None:
    made = composed("form", SONG, span=Span(F(-1), F(0)))
    assert made.content.blocks[0].begin == 0 and made.states[0][0] == F(-1)
    assert made.still == Here((0,)) and made.still_at == F(-1, 2)
    assert made.content.prints[0].lines == (("2 bars", "2"),)


def test_letters_textures_and_heading_are_those_of_the_form() -> None:
    content = composed("form", SONG).content
    form = form_of(SONG.sections, SONG.readings(SONG.whole), TIME)
    assert [block.letter.rstrip("′") for block in content.blocks] == [s.letter for s in form.sections]
    assert [block.letter.endswith("′") for block in content.blocks] == [s.varied for s in form.sections]
    assert (content.heading, form.name) == ("Verse–chorus form", "verse–chorus form")
    textures = {block.names[0]: block.texture for block in content.blocks}
    assert textures["verse"] == textures["verse 2"] != textures["chorus"] == textures["chorus 2"]
    assert textures["intro"] == HOLLOW


def test_without_chords_no_verse_is_said_to_be_changed() -> None:
    assert {block.letter for block in composed("form", facts()).content.blocks} == {"", "A", "B"}


def test_small_print_has_the_bars_and_what_is_odd_about_them() -> None:
    prints = composed("form", SONG).content.prints
    odd = bars_reading(TIME.bars(11, 14), TIME, SONG.readings(TIME.bars(11, 14))).odd_bars
    assert [bar.bar for bar in odd] == [12]
    assert prints[1].lines == (("4 bars", "4"),)
    assert prints[3].lines[1][0] == "bar 12 in 2/4"
    seven = facts({"verse": (1, 7), "chorus": (8, 18)})
    assert any(
        "fewer than eight" in said
        for line in composed("form", seven).content.prints[0].lines
        for said in line
    )
    assert all(not print_.lines for print_ in composed("form", SONG, bars=False).content.prints)


def test_each_section_is_lit_while_it_sounds() -> None:
    made = composed("form", SONG, span=TIME.bars(7, 8))
    for number, (name, bars) in enumerate(SECTIONS.items()):
        span = TIME.bars(*bars)
        start = span.start if number else F(-1)
        assert made.states[number] == (start, span.end, Here((number,))), name
    assert made.default == Here() and made.still == Here((2,)) and made.still_at == TIME.bar_start(8)


def test_the_still_is_from_the_middle_of_a_section_and_not_from_a_border() -> None:
    # The middle of bars 7 to 14 is the border between the chorus and verse 2.
    made = composed("form", SONG, span=TIME.bars(9, 12))
    chorus, verse = TIME.bars(9, 10), TIME.bars(11, 12)
    assert made.still in (Here((2,)), Here((3,)))
    heard = chorus if made.still == Here((2,)) else verse
    assert made.still_at == (heard.start + heard.end) / 2


def test_what_the_person_means_is_lit_while_nothing_sounds() -> None:
    made = composed("form", SONG, where=TIME.bars(11, 18))
    assert made.default == Here((3, 4)) == made.still and made.still_at is None
    assert made.alt.endswith("Lit: verse 2 and chorus 2.")


def test_the_tail_of_an_excerpt_sounds_too() -> None:
    bars = TIME.bars(11, 12)
    tail = TIME.seconds(TIME.bar_start(15)) - TIME.seconds(bars.end)
    rings = Excerpt(TIME.seconds(bars.start), TIME.seconds(bars.end), bars, (), (), F(0), F(0), tail=tail)
    meant = TIME.bars(13, 14)
    made = composed("form", SONG, span=meant, where=meant, excerpt=rings)
    assert made.still_at == (TIME.bar_start(13) + TIME.bar_start(15)) / 2


def test_the_still_has_no_pointer_where_what_is_played_stands_in_no_place_of_the_song() -> None:
    by_itself = Excerpt(F(0), F(4), None, (), (), F(0), F(0))
    meant = TIME.bars(11, 18)
    assert composed("form", SONG, span=meant, where=meant, excerpt=by_itself).still_at is None


def test_the_still_has_no_pointer_where_the_excerpt_plays_something_else() -> None:
    elsewhere = Excerpt(TIME.seconds(F(0)), TIME.seconds(F(8)), TIME.bars(1, 2), (), (), F(0), F(0))
    meant = TIME.bars(11, 18)
    assert composed("form", SONG, span=meant, where=meant, excerpt=elsewhere).still_at is None
    bars = TIME.bars(1, 12)
    over_it = Excerpt(TIME.seconds(bars.start), TIME.seconds(bars.end), bars, (), (), F(0), F(0))
    made = composed("form", SONG, span=meant, where=meant, excerpt=over_it)
    assert made.still_at == (TIME.bar_start(11) + TIME.bar_start(13)) / 2 and made.still == Here((3,))


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
def test_in_the_picture_a_lit_section_is_as_wide_and_stands_where_it_should(canvas: Canvas) -> None:
    content = composed("form", SONG, canvas).content
    width = ask("form", SONG, canvas).room.width
    size = (width, height(content, width))
    found = setting(content, width, THEME)
    for number, block in enumerate(content.blocks):
        lit = near(KIND.draw(content, Here((number,)), size, THEME), THEME.colours.now)
        columns = np.flatnonzero(lit.any(0))
        row = found.row_of(block.begin)
        left, right = found.x(block.begin, row), found.x(block.end, row)
        assert columns.min() == pytest.approx(left, abs=2.5) and columns.max() == pytest.approx(
            right, abs=2.5
        )
        # To scale: the longest row is as wide as the panel without its padding.
        assert right - left == pytest.approx((block.end - block.begin) * found.scale)


def test_rows_are_all_to_one_scale_and_each_begins_with_a_section() -> None:
    sections = {**LONG, "outro": (57, 60)}
    song = facts(sections, bars=60)
    content = composed("form", song, TALL).content
    assert len(content.rows) > 1
    assert {row.start for row in content.rows[1:]} <= {span.start for _, span in song.sections}
    width = ask("form", song, TALL).room.width
    scale = setting(content, width, THEME).scale
    lengths = [content.ruler.share(row.end) - content.ruler.share(row.start) for row in content.rows]
    assert max(lengths) * scale == pytest.approx(width - 2 * PADDING * content.canvas.unit)


def test_a_map_with_room_stays_in_one_row() -> None:
    assert len(composed("form", SONG).content.rows) == 1


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
def test_every_section_has_its_name_or_a_letter_that_a_legend_explains(canvas: Canvas) -> None:
    crowded = {"intro": (1, 1)}
    for turn in range(12):
        crowded[f"instrumental interlude {turn + 1}"] = (2 + 5 * turn, 4 + 5 * turn)
        crowded[f"half-chorus {turn + 1}"] = (5 + 5 * turn, 6 + 5 * turn)
    song = facts(crowded, bars=61)
    content = composed("form", song, canvas).content
    found = setting(content, ask("form", song, canvas).room.width, THEME)
    assert found.names.size >= content.canvas.pixels(SMALLEST)
    unnamed = [block for block, lines in zip(content.blocks, found.names.lines, strict=True) if not lines]
    explained = {
        piece.text.split(" ")[0] for line in found.legend for _, words in line for piece in words.pieces
    }
    assert unnamed and {block.mark for block in unnamed} <= explained
    assert not found.unnamed()


def test_marks_of_an_intro_and_an_instrumental_are_told_apart() -> None:
    song = facts({"intro": (1, 4), "instrumental": (5, 8), "interlude": (9, 12), "verse": (13, 18)})
    marks = [block.mark for block in composed("form", song).content.blocks]
    assert len(set(marks)) == 4 and marks[3] == "A"


def test_part_of_the_song_is_shown_with_what_it_cuts() -> None:
    content = composed("form", SONG, of=TIME.bars(5, 12)).content
    assert [block.names[0] for block in content.blocks] == ["verse", "chorus", "verse 2"]
    assert content.blocks[0].begin == 0 and content.blocks[-1].end == 1
    assert [bool(print_.lines) for print_ in content.prints] == [
        False,
        True,
        False,
    ]  # no count of what is cut
    assert content.blocks[1].letter == "B"  # as in the whole form
    assert content.heading == ""


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
@pytest.mark.parametrize("scale", ["time", "bars"])
def test_the_pointer_is_where_the_song_is_when_it_is_heard_twice_and_slower(
    canvas: Canvas, scale: str
) -> None:
    content = composed("form", SONG, canvas, scale=scale).content
    width = ask("form", SONG, canvas).room.width
    size = (width // 2 * 2, height(content, width))
    (mark,) = KIND.marks(content, size, THEME)
    clock = repeated(TIME, TIME.seconds(TIME.bar_start(6)), TIME.seconds(TIME.bar_start(15)))
    seen, found = middles(mark, size, clock), setting(content, size[0], THEME)
    checked = 0
    for frame, (x, _) in seen.items():
        if (at := heard_at(clock, frame)) is not None:
            share = content.ruler.share(TIME.quarters_at(at))
            near_a_break = any(abs(share - begin) < 0.005 for begin in found.begins[1:])
            # A pixel of rounding to even ones, and half a frame of song at either end of a bar.
            assert near_a_break or x == pytest.approx(found.x(share, found.row_of(share)), abs=3.5), frame
            checked += 1
    heard = sum((piece.length / piece.speed for piece in clock.heard), F(0))
    assert checked == pytest.approx(float(heard * 30), abs=3)


def test_the_pointer_stands_over_its_row() -> None:
    content = composed("form", facts(LONG, bars=56), TALL).content
    size = (896, height(content, 896))
    (mark,) = KIND.marks(content, size, THEME)
    tops = [leg.at[1] for leg in mark.path if leg.start in {row.start for row in content.rows}]
    assert len(tops) == len(content.rows) and tops == sorted(set(tops))
    assert all(leg.at[1] == leg.to[1] for leg in mark.path)


def test_what_cannot_be_shown_is_refused_with_a_remedy() -> None:
    with pytest.raises(RefusedError, match=r"song\.sections"):
        composed("form", facts({}))
    gap = facts({"intro": (1, 2), "outro": (17, 18)})
    with pytest.raises(RefusedError, match="no section is written there") as refused:
        composed("form", gap, of=TIME.bars(5, 6))
    assert refused.value.args[0] == "of"
    tiny = facts({"verse": (1, 700), "stop": (701, 701), "outro": (702, 900)}, bars=900)
    with pytest.raises(RefusedError, match="'stop' is too short beside the rest"):
        composed("form", tiny)
    with pytest.raises(RefusedError, match="no font here has"):
        composed("form", facts({"verse \U0001f995": (1, 18)}))


BLUES = facts({"A": (1, 4), "A2": (5, 8), "B": (9, 12), "C": (13, 18)}, {1: "A major"}, LOOP)
CROWD = facts({f"part {number}": (number, number) for number in range(1, 19)})


@pytest.mark.parametrize("theme", [*THEMES.values(), *RESIZED.values()], ids=[*THEMES, *RESIZED])
@pytest.mark.parametrize("song", [SONG, BLUES, CROWD], ids=["song", "letters", "crowd"])
@pytest.mark.slow
def test_type_stands_in_the_panel_and_apart_at_every_size(song: SongFacts, theme: Theme) -> None:
    drawn = 0
    for canvas in CANVASES:
        for slot in KIND.slots:
            try:
                content = composed("form", song, canvas, slot=slot, theme=theme).content
            except RefusedError as refused:
                assert refused.args[0] in ("slot", "kind") and "'of'" in str(refused.args[1])
                continue
            room = ask("form", song, canvas, slot=slot, theme=theme).room
            for size in sizes_of(KIND, content, room.width, theme):
                assert not type_faults(KIND, content, Here((1,)), size, theme), (canvas.text, slot, size)
                drawn += 1
    assert drawn or theme.sizes.small == 400


def test_what_is_no_ink_is_as_clear_as_the_panel() -> None:
    # A letter on a texture has a hole around it, in which footage shows as it does beside the map.
    theme = replace(THEME, panel_opacity=0.5)
    content = composed("form", SONG).content
    size = sizes_of(KIND, content, 1728, theme)[1]
    hidden = ink_on_bright(KIND.draw(content, Here((1,)), size, theme), theme)
    found = setting(content, size[0], theme)
    heights = Heights(found, size[1])
    block = content.blocks[1]
    middle = round((found.x(block.begin, 0) + found.x(block.end, 0)) / 2)
    top, bottom = round(heights.tops[0] + heights.named) + 6, round(heights.tops[0] + heights.block) - 6
    plate = hidden[top:bottom, middle - 22 : middle + 22]
    assert content.blocks[1].letter == "A" and (plate > 100).any() and (abs(plate) < 3).mean() > 0.4


def test_a_map_too_tall_for_its_slot_shows_fewer_words_and_then_is_refused_there() -> None:
    many = facts({f"chorus {n}": (n, n) for n in range(1, 15)}, bars=14)
    assert any(print_.lines for print_ in composed("form", many, scale="bars").content.prints)
    bare = composed("form", many, slot="top", scale="bars").content
    assert not any(print_.lines for print_ in bare.prints) and bare.compact
    room = ask("form", many, slot="top").room
    assert KIND.extent(bare, room.width, THEME).least * bare.canvas.unit <= room.height
    twenty = facts({f"part {n}": (2 * n - 1, 2 * n) for n in range(1, 21)}, bars=40)
    with pytest.raises(RefusedError, match="taller than the slot 'top'; choose the slot 'card'") as refused:
        composed("form", twenty, slot="top")
    assert refused.value.args[0] == "slot"


def test_sections_named_by_letters_have_no_second_letters() -> None:
    made = composed("form", BLUES, span=TIME.bars(5, 6))
    assert {block.letter for block in made.content.blocks} == {""}
    assert made.content.blocks[0].texture == made.content.blocks[1].texture != made.content.blocks[2].texture
    assert "A2 (4 bars)" in made.alt and "′" not in made.alt


def test_what_sounds_has_a_bracket_that_stands_off_its_frame() -> None:
    content = composed("form", SONG).content
    size = sizes_of(KIND, content, 1728, THEME)[1]
    found = setting(content, size[0], THEME)
    top = Heights(found, size[1]).tops[0]
    lit = near(KIND.draw(content, Here((2,)), size, THEME), THEME.colours.now)
    left = round(found.x(content.blocks[2].begin, 0))
    column = np.flatnonzero(lit[: round(top) + 4, left + 1 : left + 5].all(1))
    assert len(column) > 8 and column.max() < top - 0.3 * found.u


def test_at_the_least_height_a_map_of_one_row_fits_the_strip_along_the_top() -> None:
    content = composed("form", SONG, slot="top").content
    room = ask("form", SONG, slot="top").room
    assert KIND.extent(content, room.width, THEME).least * content.canvas.unit <= room.height


def test_words_say_what_the_picture_shows() -> None:
    alt = composed("form", SONG, span=TIME.bars(9, 11)).alt
    assert "by time" in alt and "verse 2 (A, 4 bars: bar 12 in 2/4); chorus 2 (B′, 4 bars)" in alt
    assert "Verse–chorus form" in alt and alt.endswith("Lit: chorus and verse 2.")
    assert composed("form", SONG, span=None).alt.count("Lit") == 0


def test_one_section_alone_is_only_framed() -> None:
    alone = composed("form", SONG, of=TIME.bars(7, 10)).content.blocks
    assert [(block.texture, block.letter) for block in alone] == [(HOLLOW, "B")]
    whole = composed("form", facts({"tune": (1, 18)}, {1: "A major"}, LOOP)).content.blocks
    assert [(block.texture, block.letter) for block in whole] == [(HOLLOW, "")]
