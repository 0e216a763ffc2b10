"""Grooves as text."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.groove import Groove, Hit
from studio.music.groove_pattern import PatternError, groove_text, read_groove, read_line
from studio.music.meter import Meter

FOUR = Meter(4, 4)


@pytest.mark.parametrize(
    ("meter", "text", "onsets"),
    [
        ("4/4", "x... ..x. x... ....", [0, F(3, 8), F(1, 2)]),
        ("4/4", "x.x. .x..", [0, F(1, 4), F(5, 8)]),
        ("4/4", "..x ..x", None),
        ("4/4", "x.x x.x x.x x.x", [0, F(1, 6), F(1, 4), F(5, 12), F(1, 2), F(2, 3), F(3, 4), F(11, 12)]),
        ("4/4", ".x.x", [F(1, 4), F(3, 4)]),
        ("3/4", "x.. ", [0]),
        ("6/8", "x..x.x", [0, F(1, 2), F(5, 6)]),
        ("12/8", "x.. x.. x.. x..", [0, F(1, 4), F(1, 2), F(3, 4)]),
        ("7/8", "x.x.x..", [0, F(2, 7), F(4, 7)]),
        ("4/4", "| x... | .x.. |", [0, F(5, 4)]),
        ("4/4", "x...|%|..x.", [0, 1, F(5, 2)]),
        ("4/4", "| x....... ........ ........ .......x |", [0, F(31, 32)]),
    ],
)
def test_lines(meter: str, text: str, onsets: list[F] | None) -> None:
    if onsets is None:
        with pytest.raises(PatternError):
            read_line(text, Meter.parse(meter))
        return
    assert [hit.at for hit in read_line(text, Meter.parse(meter))[1]] == onsets


def test_touches() -> None:
    assert [hit.touch for hit in read_line("xXo.", FOUR)[1]] == ["plain", "accent", "ghost"]


@pytest.mark.parametrize(
    ("text", "offset", "sentence"),
    [
        (
            "x-x-",
            1,
            "'-' is no sign here; write x for a stroke, X for an accent, o for a ghost note, . for a rest",
        ),
        ("x" * 15, 0, "15 steps do not fill a bar of 4/4 evenly; write 12 (triplets) or 16 (sixteenths)"),
        ("x" * 5, 0, "5 steps do not fill a bar of 4/4 evenly; write 4 (quarters) or 8 (eighths)"),
        ("x" * 32, 0, "32 steps are too many for one bar of 4/4 without bar lines; put | between the bars"),
        (
            "x... | x.. | ....",
            7,
            "3 steps do not fill a bar of 4/4 evenly; write 4 (quarters) or 8 (eighths)",
        ),
        ("x... | | ....", 6, "This bar is empty; write its rests as dots"),
        ("% | x...", 0, "There is no bar before this % to repeat"),
        ("  ", 0, "This line is empty; write x for a stroke and . for a rest, as x... x..."),
    ],
)
def test_mistakes(text: str, offset: int, sentence: str) -> None:
    with pytest.raises(PatternError) as mistake:
        read_line(text, FOUR)
    assert (str(mistake.value), mistake.value.offset) == (sentence, offset)


def test_shorter_lines_go_round() -> None:
    groove = read_groove({"kick": "| x... | x.x. |", "snare": ".x.x"}, FOUR)
    assert groove.bars == 2 and groove.bar(1).onsets("snare") == groove.bar(2).onsets("snare") == (
        F(1, 4),
        F(3, 4),
    )
    with pytest.raises(PatternError, match="The snare has 2 bars and another voice 3"):
        read_groove({"kick": "x... | x... | x...", "snare": ".x.x | .x.."}, FOUR)


METERS = st.sampled_from(
    [Meter.parse(text) for text in ("4/4", "3/4", "2/4", "6/8", "12/8", "7/8", "5/4", "2/2")]
)


@st.composite
def grooves(draw: st.DrawFn) -> Groove:
    meter, bars = draw(METERS), draw(st.integers(1, 3))
    hits = {}
    for voice in draw(st.lists(st.sampled_from(["kick", "snare", "hat", "clap"]), unique=True)):
        steps = meter.beats * draw(st.sampled_from([1, 2, 3, 4, 6, 8, 12, 24]))
        places = draw(st.sets(st.integers(0, steps * bars - 1), max_size=12))
        hits[voice] = [
            Hit(F(at, steps), draw(st.sampled_from(["plain", "accent", "ghost"]))) for at in places
        ]
    return Groove.of(meter, bars, hits)


@given(grooves())
def test_text_and_groove_are_inverse(groove: Groove) -> None:
    read = read_groove(groove_text(groove), groove.meter)
    assert read.lines == groove.lines and (read.bars == groove.bars or not groove.lines)


def test_text_is_laid_out_in_beats() -> None:
    text = {"kick": "X..x ..x. x... ....", "snare": ".X.X", "hat": "x.x x.x x.x x.x"}
    assert groove_text(read_groove(text, FOUR)) == text
    assert groove_text(read_groove({"kick": "x...x...x...x..."}, FOUR)) == {"kick": "xxxx"}
    fine = {"snare": "| xxxxxxxx ........ ........ ........ |"}
    assert groove_text(read_groove(fine, FOUR)) == fine


def test_no_text_for_what_is_off_every_grid() -> None:
    with pytest.raises(ValueError, match="no grid"):
        groove_text(Groove.of(FOUR, 1, {"kick": [Hit(F(1, 5))]}))
