from __future__ import annotations

from fractions import Fraction as F

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from studio.drawing.kinds import KINDS
from studio.drawing.lettering.type import plain
from studio.drawing.map.here import Here
from studio.drawing.map.key_map import KeyMap
from studio.drawing.map.key_setting import setting
from studio.drawing.map.one_key import OneKey
from studio.drawing.themes.theme import SMALLEST, Theme, default_theme
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.episode_values import Canvas
from studio.theory.form.key_plan import relation
from studio.timeline.answers.form import plan_of_keys
from studio.timeline.song_facts import SongFacts

from ..map.looking import heard_at, middles, near, repeated
from ..map.song import CANVASES, RESIZED, SQUARE, THEMES, TIME, RefusedError, ask, composed, facts
from ..map.watching import sizes_of, type_faults

THEME = default_theme()
KIND = KINDS["keys"]
SECTIONS = {"verse": (1, 8), "bridge": (9, 12), "chorus": (13, 18)}
CHART = "| D | G | A7 | D | D | G | A7 | Bm | Bm7 | E7 | A | A | D | G | A7 | D | G | D |"
SONG = facts(SECTIONS, {1: "D major", 9: "A major", 13: "D major"}, CHART)

EVEN = SongTime(((1, Meter(4, 4)),), ((F(0), F(0)), (F(4), F(2))))
EIGHT = {
    1: "C major",
    9: "Eb major",
    17: "C minor",
    25: "G minor",
    41: "Bb major",
    49: "D major",
    57: "F# minor",
    73: "A major",
}
MANY = facts({"verse": (1, 40), "coda": (41, 80)}, EIGHT, time=EVEN, bars=80)
ONE = facts(SECTIONS, {1: "F# minor"}, CHART)
UNWRITTEN = facts(SECTIONS, None, CHART)
INFERRED = facts(
    {}, None, "| C | F | G7 | C | C | F | G7 | C | E | A | B7 | E | E | A | B7 | E |", time=EVEN, bars=16
)


def height(content: KeyMap, width: int, share: float = 1.0) -> int:
    extent = KIND.extent(content, width, THEME)
    return round((extent.least + (extent.wanted - extent.least) * share) * content.canvas.unit / 2) * 2


def test_blocks_are_the_stages_of_the_plan_to_scale() -> None:
    content = composed("keys", SONG).content
    stages = plan_of_keys(SONG, SONG.whole).stages
    first, last = (TIME.seconds(at) for at in (SONG.whole.start, SONG.whole.end))
    assert [block.names[0] for block in content.blocks] == [str(stage.key) for stage in stages]
    for block, stage in zip(content.blocks, stages, strict=True):
        share = float((TIME.seconds(stage.span.end) - first) / (last - first))
        assert block.end == pytest.approx(share)


def test_a_key_that_comes_back_has_its_texture_again() -> None:
    assert [block.texture for block in composed("keys", SONG).content.blocks] == [0, 1, 0]


def test_each_change_says_where_to_what_and_how_as_theory_has_it() -> None:
    one, two = composed("keys", SONG).content.changes
    assert (one.place, one.key) == ("bar 9, bridge", "to A major")
    stages = plan_of_keys(SONG, SONG.whole).stages
    assert (
        one.how.replace("\N{NO-BREAK SPACE}", " ")
        == f"{stages[1].step} of D major"
        == "the dominant of D major"
    )
    assert (two.place, two.key, two.how) == ("bar 13, chorus", "back to D major", "")


def test_the_pivot_is_named_in_both_keys_old_key_first() -> None:
    one, _ = composed("keys", SONG).content.changes
    # B minor is the sixth degree of D major and the second of A major (any harmony textbook).
    assert one.way.replace("\N{NO-BREAK SPACE}", " ") == "pivot Bm: vi in D, ii in A"
    pivots = [reading for reading in SONG.all_readings if reading.pivot is not None]
    assert (str(pivots[0].at.chord), pivots[0].numeral, pivots[0].pivot and pivots[0].pivot[1]) == (
        "Bm",
        "vi",
        "ii",
    )


def test_the_dominant_of_the_new_key_at_the_end_of_the_old_one_prepares_it() -> None:
    # D major comes after A7, its V7, which belongs to no E♭ major (any harmony textbook).
    chart = "| Eb | Ab | Bb | Eb | Eb | Ab | Bb | A7 | D | G | A | D | D | G | A | D | A | D |"
    song = facts(SECTIONS, {1: "Eb major", 9: "D major"}, chart)
    assert composed("keys", song).content.changes[0].way == "prepared by its dominant, A7"


def test_a_change_that_no_chord_leads_to_says_nothing_of_chords() -> None:
    chart = "| C | F | G | C | C | F | G | C | C# | F# | G# | C# | C# | F# | G# | C# | F# | C# |"
    far = facts(SECTIONS, {1: "C major", 9: "C# major"}, chart)
    assert composed("keys", far).content.changes[0].way == ""
    assert {change.way for change in composed("keys", MANY).content.changes} == {""}


@pytest.mark.parametrize("number", range(1, 8))
def test_steps_between_eight_keys_are_the_relations_of_theory(number: int) -> None:
    change = composed("keys", MANY).content.changes[number - 1]
    stages = plan_of_keys(MANY, MANY.whole).stages
    step = relation(stages[number].key, stages[number - 1].key)
    assert change.how.replace("\N{NO-BREAK SPACE}", " ").startswith(f"{step} ")
    assert change.block == number and change.key == f"to {stages[number].key}"


def test_a_change_within_a_section_or_a_bar_says_where() -> None:
    places = [change.place for change in composed("keys", MANY).content.changes]
    assert places[0] == "bar 9, in the verse" and places[3] == "bar 41, coda"
    bare = facts({}, {1: "C major", 9: "A minor"}, time=EVEN, bars=20)
    assert composed("keys", bare).content.changes[0].place == "bar 9"


def test_one_key_is_words_alone() -> None:
    made = composed("keys", ONE, span=TIME.bars(1, 4))
    assert isinstance(made.content, OneKey) and made.content.name == "F♯ minor throughout"
    assert made.states == () and made.still == made.default
    assert KIND.extent(made.content, 1728, THEME).wanted < 15
    size = sizes_of(KIND, made.content, 1728, THEME)[0]
    assert KIND.marks(made.content, size, THEME) == ()
    assert not near(KIND.draw(made.content, made.still, size, THEME), THEME.colours.now).any()


def test_one_key_says_what_its_chords_do() -> None:
    # A major holds D, E and A; B7 is the dominant of its dominant; F comes from A minor (any harmony textbook).
    chart = "| A | D | E | A | B7 | E | F | A | A | D | E | A | D | A | D | E | D | A |"
    made = composed("keys", facts(SECTIONS, {1: "A major"}, chart))
    assert made.content.says == (
        "16 of 18 chords belong to it; B7 points to another chord of it; F comes from A minor."
    )
    assert made.alt == f"A major throughout. {made.content.says}"
    part = composed("keys", SONG, of=TIME.bars(13, 18))
    assert part.content.name == "D major in the chorus"


def test_inferred_keys_say_so_and_written_ones_do_not() -> None:
    (found,) = UNWRITTEN.inferred
    made = composed("keys", UNWRITTEN)
    assert made.content.name == f"{found.key} throughout"
    assert made.content.says.endswith("Inferred from the chords.") and made.content.says in made.alt
    two = composed("keys", INFERRED)
    assert two.content.note == "inferred from the chords" and "Inferred from the chords." in two.alt
    assert [block.names[0] for block in two.content.blocks] == [str(found.key) for found in INFERRED.inferred]
    assert "nferred" not in composed("keys", SONG).alt + composed("keys", ONE).alt


def test_a_doubt_is_told_only_where_there_is_one() -> None:
    # Em C D G Em C B7 Em: nobody hears G major there. Am F C G over and over: A minor and C major are both heard
    # (common practice).
    sure = facts({}, None, "| Em | C | D | G | Em | C | B7 | Em |", time=EVEN, bars=8)
    assert str(sure.inferred[0].runner_up) == "G major"
    assert composed("keys", sure).content.says.endswith("Inferred from the chords.")
    open_ = facts({}, None, "| Am | F | C | G | Am | F | C | G |", time=EVEN, bars=8)
    (found,) = open_.inferred
    assert found.sureness < 0.62
    assert composed("keys", open_).content.says.endswith(f"{found.runner_up} is possible.")


def lies_well(content: KeyMap, width: int) -> None:
    """Cards are in the panel, in the order of the song, apart from one another, and their type can be read."""
    found, least = setting(content, width, THEME), content.canvas.pixels(SMALLEST)
    assert found.names.size >= least and all(found.names.lines)
    for number, (card, left) in enumerate(zip(found.cards, found.card_lefts, strict=True)):
        right = left + card.width
        assert found.left - 0.01 <= left and right <= found.left + found.room + 0.01
        assert card.name.smallest >= least - 0.01
        for line in (*card.place, *card.how, *card.way):
            assert plain(line, found.small, THEME.weights.regular).width <= card.width
        if number % found.across:
            before = found.card_lefts[number - 1] + found.cards[number - 1].width
            assert left >= before + content.canvas.unit


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
@pytest.mark.parametrize("song", [SONG, MANY], ids=["three", "eight"])
def test_cards_lie_beside_one_another_in_the_panel(song: SongFacts, canvas: Canvas) -> None:
    lies_well(composed("keys", song, canvas).content, ask("keys", song, canvas).room.width)


@settings(max_examples=10, deadline=None)
@given(
    st.lists(
        st.sampled_from(["C major", "Eb minor", "F# major", "G# minor", "Bb major"]), min_size=2, max_size=9
    ),
    st.sampled_from(["a", "second instrumental interlude", "chorus"]),
    st.sampled_from(CANVASES),
)
def test_cards_lie_well_whatever_the_keys_and_the_names(keys: list[str], name: str, canvas: Canvas) -> None:
    written = {1 + 8 * turn: key for turn, key in enumerate(keys)}
    assume(len(set(keys)) > 1)
    song = facts({name: (1, 8 * len(keys))}, written, time=EVEN, bars=8 * len(keys))
    lies_well(composed("keys", song, canvas).content, ask("keys", song, canvas).room.width)


def test_where_height_is_short_a_caption_tells_of_the_key_that_sounds() -> None:
    content = composed("keys", SONG, slot="top").content
    width = ask("keys", SONG, slot="top").room.width
    found = setting(content, width, THEME)
    assert found.captions[1][0].startswith("bar 9, bridge: to A major, the")
    assert found.captions[0] == found.captions[-1] == (content.plan[0],)
    least = KIND.extent(content, width, THEME).least * content.canvas.unit
    assert least <= ask("keys", SONG, slot="top").room.height
    pictures = {KIND.draw(content, Here((n,)), (width, round(least)), THEME).tobytes() for n in range(3)}
    assert len(pictures) == 3


def test_the_card_of_the_key_that_sounds_has_the_accent() -> None:
    content, width = composed("keys", SONG).content, 1728
    size = (width, height(content, width))
    found = setting(content, width, THEME)
    lit = near(KIND.draw(content, Here((1,)), size, THEME), THEME.colours.now)
    columns = np.flatnonzero(lit[-8 * 12 :].any(0))
    assert columns.min() == pytest.approx(found.card_lefts[0], abs=2)
    assert columns.max() < found.card_lefts[0] + found.cards[0].width + 2
    unlit = near(KIND.draw(content, Here(), size, THEME), THEME.colours.now)
    assert not unlit.any()


@pytest.mark.parametrize("canvas", CANVASES, ids=["wide", "tall", "square"])
def test_the_pointer_is_where_the_song_is_when_it_is_heard_twice_and_slower(canvas: Canvas) -> None:
    content = composed("keys", SONG, canvas).content
    width = ask("keys", SONG, canvas).room.width // 2 * 2
    size = (width, height(content, width))
    (mark,) = KIND.marks(content, size, THEME)
    clock = repeated(TIME, TIME.seconds(TIME.bar_start(7)), TIME.seconds(TIME.bar_start(14)))
    found, seen = setting(content, width, THEME), middles(mark, size, clock)
    assert len(seen) > 900
    for frame, (x, _) in seen.items():
        if (at := heard_at(clock, frame)) is not None:
            assert x == pytest.approx(found.x(content.ruler.share(TIME.quarters_at(at))), abs=3.5), frame


def test_part_of_the_song_keeps_the_home_of_the_whole() -> None:
    content = composed("keys", SONG, of=TIME.bars(10, 14)).content
    assert [block.names[0] for block in content.blocks] == ["A major", "D major"]
    assert [change.block for change in content.changes] == [1]
    assert content.changes[0].key == "back to D major"


def test_each_key_is_lit_while_it_holds() -> None:
    made = composed("keys", SONG, span=TIME.bars(9, 10))
    assert made.states[1] == (TIME.bar_start(9), TIME.bar_start(13), Here((1,)))
    assert made.still == Here((1,)) and made.still_at == TIME.bar_start(10)
    assert made.alt.endswith("Lit: A major.")


def test_what_cannot_be_shown_is_refused_with_a_remedy() -> None:
    with pytest.raises(RefusedError, match=r"song\.key"):
        composed("keys", facts({}))
    blink = facts({"verse": (1, 900)}, {1: "C major", 400: "F# minor", 401: "C major"}, bars=900)
    with pytest.raises(RefusedError, match="F♯ minor is too short beside the rest") as refused:
        composed("keys", blink)
    assert refused.value.args[0] == "kind"


@pytest.mark.parametrize("theme", [*THEMES.values(), *RESIZED.values()], ids=[*THEMES, *RESIZED])
@pytest.mark.parametrize("song", [ONE, SONG, MANY, INFERRED], ids=["one", "three", "eight", "inferred"])
@pytest.mark.slow
def test_type_stands_in_the_panel_and_apart_at_every_size(song: SongFacts, theme: Theme) -> None:
    drawn = 0
    for canvas in CANVASES:
        for slot in KIND.slots:
            try:
                content = composed("keys", song, canvas, slot=slot, theme=theme).content
            except RefusedError as refused:
                assert refused.args[0] in ("slot", "kind") and "'of'" in str(refused.args[1])
                continue
            room = ask("keys", song, canvas, slot=slot, theme=theme).room
            for size in sizes_of(KIND, content, room.width, theme):
                for look in (Here(), Here((1,))):
                    assert not type_faults(KIND, content, look, size, theme), (canvas.text, slot, size)
                    drawn += 1
    assert drawn or theme.sizes.small == 400


def test_a_line_to_a_card_keeps_off_its_words() -> None:
    content = composed("keys", SONG, SQUARE).content
    width = ask("keys", SONG, SQUARE).room.width
    size = (width, height(content, width))
    found = setting(content, width, THEME)
    accent = near(KIND.draw(content, Here((1,)), size, THEME), THEME.colours.now)
    card, left = found.cards[0], found.card_lefts[0]
    assert found.tied
    # Under the line, beside the card's edge, is a strip without accent, and only then come words.
    beside = accent[:, round(left + 1.3 * found.u) : round(left + card.width)]
    floor = np.flatnonzero(
        near(KIND.draw(content, Here((1,)), size, THEME), THEME.colours.rule).mean(1) > 0.5
    ).max()
    quiet = near(KIND.draw(content, Here((1,)), size, THEME), THEME.colours.quiet)
    words = (
        np.flatnonzero(quiet[floor:, round(left + 1.3 * found.u) : round(left + card.width)].any(1)).min()
        + floor
    )
    line = np.flatnonzero(beside[floor:words].any(1))
    assert not len(line) or words - (line.max() + floor) >= 0.4 * found.u
