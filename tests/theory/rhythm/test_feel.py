"""Backbeats, feels and kicks; common practice."""

from fractions import Fraction as F

import pytest

from studio.theory.rhythm.feel import feel_of, four_on_the_floor, pushes
from tests.theory.rhythm.grooves import groove


@pytest.mark.parametrize(
    ("meter", "snare", "time", "beats"),
    [
        ("4/4", ".x.x", "full time", (2, 4)),
        ("4/4", ".... x..x .... x.xX", "full time", (2, 4)),
        ("4/4", "..x.", "half time", (3,)),
        ("4/4", ".x.x.x.x", "double time", ()),
        ("4/4", "xxxx", "", (1, 2, 3, 4)),
        ("4/4", "x.x.", "", (1, 3)),
        ("4/4", "| .x.x | ..x. |", "", ()),
        ("4/4", "| .x.x | .x.x |", "full time", (2, 4)),
        ("12/8", "... x.. ... x..", "full time", (2, 4)),
        ("6/8", "... x..", "full time", (2,)),
        ("2/4", ".x", "full time", (2,)),
        ("3/4", ".xx", "", (2, 3)),
        ("4/4", "....", "", ()),
    ],
)
def test_feel(meter: str, snare: str, time: str, beats: tuple[int, ...]) -> None:
    found = feel_of(groove(meter, snare=snare, kick="x" + "." * (groove(meter, kick="x").meter.beats - 1)))
    assert (found.time, found.beats) == (time, beats)
    assert found.backbeat == (time != "") and found.reason.endswith(".")


def test_who_marks_the_backbeat() -> None:
    assert feel_of(groove(snare=".x.x", clap=".x.x")).voices == ("snare", "clap")
    assert feel_of(groove(snare=".x.x", clap="...x")).voices == ("snare",)
    assert feel_of(groove(clap=".x.x")).voices == ("clap",)
    assert feel_of(groove(clap=".x.x")).sureness < feel_of(groove(snare=".x.x")).sureness


def test_ghost_notes_make_no_backbeat() -> None:
    assert feel_of(groove(snare=".o.o")).time == ""
    assert feel_of(groove(snare="oXoX")).beats == (2, 4)


def test_four_on_the_floor() -> None:
    assert four_on_the_floor(groove(kick="xxxx")) and four_on_the_floor(groove(kick="x... x... x... x.x."))
    assert not four_on_the_floor(groove(kick="xxx.")) and not four_on_the_floor(groove("3/4", kick="xxx"))


def test_a_kick_that_runs_on_between_the_beats_is_no_four_on_the_floor() -> None:
    """A bossa's kick, one and the note before the next: common practice."""
    assert not four_on_the_floor(groove(kick="x..x x..x x..x x..x"))


def test_a_train_beat_is_not_double_time() -> None:
    """Its snare runs on and is accented on the off-beats, yet nothing goes twice as fast: common practice."""
    train = feel_of(groove(kick="xxxx", snare="ooXo ooXo ooXo ooXo"))
    assert (train.time, train.beats) == ("", ())
    assert feel_of(groove(kick="xxxx", snare=".x.x.x.x")).time == "double time"


@pytest.mark.parametrize(
    ("kick", "expected"),
    [
        ("x... ..x. x... ....", [(3, F(3, 8), False)]),
        ("x... ..x. .... ....", [(3, F(3, 8), True)]),
        ("x... ...x .... ....", [(3, F(7, 16), True)]),
        ("x... .... x... ..x.", [(1, F(7, 8), False)]),
        (".... .... x... ..x.", [(1, F(7, 8), True)]),
        ("x... .x.. x... ....", []),
        ("x... .... x... ....", []),
        ("xxxx xxxx xxxx xxxx", []),
        ("| x... .... x... ..x. | .... .... x... .... |", [(1, F(7, 8), True)]),
    ],
)
def test_pushes(kick: str, expected: list[tuple[int, F, bool]]) -> None:
    found = pushes(groove(kick=kick))
    assert [(push.before, push.at, push.replaces) for push in found] == expected
