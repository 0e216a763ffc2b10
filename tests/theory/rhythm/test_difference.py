"""What changes from one groove to another."""

from fractions import Fraction as F

from studio.theory.rhythm.difference import groove_difference
from tests.theory.rhythm.grooves import reading

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
    assert changes(snare=".x.x", kick="x.x.") == [("drops", "hat")]


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
