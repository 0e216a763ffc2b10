"""What changes from one groove to another."""

from fractions import Fraction as F

from studio.theory.rhythm.difference import groove_difference
from studio.theory.rhythm.reading import drums_reading
from tests.theory.rhythm.grooves import groove, played, reading, song_time

VERSE = reading(kick="x.x.", snare=".x.x", hat="xxxx")


def changes(**lines: str) -> list[tuple[str, str]]:
    return [(change.kind, change.voice) for change in groove_difference(VERSE, reading(**lines)).changes]


def test_each_kind_of_change() -> None:
    assert changes(kick="x.x.", snare=".x.x", hat="xxxx") == []
    assert changes(kick="x.x.", snare=".X.X", hat="XxXx") == []
    assert changes(kick="x.x.", snare=".x.x", hat="xxxxxxxx") == [("rate", "hats")]
    assert changes(kick="x.x.", snare=".x.x", hat=".x.x.x.x") == [("value", "hats")]
    assert changes(kick="x.x.", snare=".x.x", ride="xxxx") == [("keeper", "ride")]
    assert changes(kick="x.x.", snare="..x.", hat="xxxx") == [("time", "")]
    assert changes(kick="x.x.", side_stick=".x.x", hat="xxxx") == [("swaps", "side stick")]
    assert changes(kick="x...", snare=".x.x", hat="xxxx") == [("thins", "kick")]
    assert changes(kick="x... ..x. .... ....", snare=".x.x", hat="xxxx") == [("moves", "kick")]
    assert changes(kick="x.x.", snare=".x.x", hat="xxxx", clap=".x.x") == [("adds", "clap")]
    assert changes(snare=".x.x", hat="xxxx") == [("drops", "kick")]
    assert changes(snare=".x.x", kick="x.x.") == [("drops", "hats")]


def test_how_much_faster() -> None:
    doubled = groove_difference(VERSE, reading(kick="x.x.", snare=".x.x", hat="xxxxxxxx")).changes[0]
    assert (doubled.factor, doubled.was, doubled.to) == (2, "quarters", "eighths")


def test_back_is_the_other_way_round() -> None:
    chorus = reading(kick="x.x.", snare=".x.x", hat="xxxxxxxx", clap=".x.x")
    there, back = groove_difference(VERSE, chorus).changes, groove_difference(chorus, VERSE).changes
    assert there[0].factor * back[0].factor == 1
    assert there[1].kind == "adds" and back[1].kind == "drops" and there[1].places == back[1].left


def test_a_two_bar_groove_against_one_of_one_bar() -> None:
    longer = reading(kick="| x.x. | x.xx |", snare=".x.x", hat="xxxx")
    (change,) = groove_difference(VERSE, longer).changes
    assert (change.kind, change.voice, change.places) == ("adds", "kick", (F(7, 4),))


def test_another_meter_is_all_there_is_to_say() -> None:
    assert [c.kind for c in groove_difference(VERSE, reading("3/4", kick="x..")).changes] == ["meter"]


def test_what_is_no_change_of_places_is_a_detail() -> None:
    """Ghost notes that come, accents, hats that open: the groove is the same but for them (common practice)."""
    found = groove_difference(VERSE, reading(kick="x.x.", snare=".xoX", hat="xxxx"))
    assert (found.changes, found.details, found.same) == ((), ("ghost notes", "accents"), False)
    assert groove_difference(VERSE, VERSE).same


def test_a_stroke_that_becomes_a_ghost_note_is_not_left_out() -> None:
    one = reading("7/8", kick="x...x..", snare="..X...X", hat="x.x.x.x")
    two = reading("7/8", kick="x..x...", snare="....X.o", hat="xxxxxxx")
    found = [(change.kind, change.voice) for change in groove_difference(one, two).changes]
    assert found == [("rate", "hats"), ("moves", "snare"), ("softens", "snare"), ("moves", "kick")]
    back = [(change.kind, change.voice) for change in groove_difference(two, one).changes]
    assert ("brings out", "snare") in back


def test_hats_that_are_left_out_or_opened_are_told() -> None:
    two = reading("6/8", kick="x..x..", snare="...X..", hat="x.xx.x")
    (change,) = groove_difference(reading("6/8", kick="x..x..", snare="...X..", hat="xxxxxx"), two).changes
    assert (change.kind, change.voice, change.left) == ("thins", "hats", (F(1, 6), F(4, 6)))
    assert changes(kick="x.x.", snare=".x.x", hat="xxx.", open_hat="...x") == [("opens", "hats")]
    closed = [
        c.kind for c in groove_difference(reading(hat="xxx.", open_hat="...x"), reading(hat="xxxx")).changes
    ]
    assert closed == ["closes"]


def test_a_crash_that_is_written_counts() -> None:
    assert changes(kick="x.x.", snare=".x.x", hat="xxxx", crash="x...") == [("adds", "crash")]


def test_how_hard_somebody_plays_is_no_difference_between_played_grooves() -> None:
    time, loud = song_time(), groove(kick="x.x.", snare=".X.x", hat="xxxx")
    soft = groove(kick="x.x.", snare=".x.x", hat="xxxx")
    one, two = (drums_reading(played(each, 4), time, time.bars(1, 4)) for each in (soft, loud))
    assert groove_difference(one, two).same


def test_a_snare_beside_the_backbeat_that_has_moved_is_told_of() -> None:
    half = groove_difference(VERSE, reading(kick="x.x.", snare=".... .... x..x ....", hat="xxxx"))
    assert [change.kind for change in half.changes] == ["time"] and half.details == ("the rest of the snare",)
    assert not groove_difference(VERSE, reading(kick="x.x.", snare="..x.", hat="xxxx")).details
