"""Grooves read as a whole."""

import timeit
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.groove import Drums, Groove, join_bars
from studio.music.place import Span
from studio.theory.rhythm.reading import drums_reading, groove_reading, read_groove_over
from tests.theory.rhythm.grooves import groove, played, reading, song_time

CHORUS = groove(
    kick="X..x ..x. x.x. ....", snare=".X.X", clap=".X.X", hat="X.x. X.x. X.x. X...", open_hat=".......x"
)


def test_a_chorus() -> None:
    found = groove_reading(CHORUS)
    assert (found.feel.time, found.feel.beats, found.feel.voices) == ("full time", (2, 4), ("snare", "clap"))
    assert found.claps == (F(1, 4), F(3, 4)) and not found.four_on_the_floor
    assert found.timekeeper is not None and found.timekeeper.value == "eighths"
    assert found.swing is not None and found.swing.straight
    # 1a holds over 2 (−2 − −4 = 2); 3& over 4 (−2 − −3 = 1)
    assert found.kick.index == 3 and found.syncopation.index == 0


@pytest.mark.parametrize(
    ("lines", "reason"),
    [
        ({"claves": "x..x ..x. ..x. x..."}, "Five strokes, three then two."),
        ({"claves": "..x. x... x..x ..x."}, "Five strokes, two then three."),
        ({"side_stick": "x..x ...x ..x. x...", "kick": "x..."},
         "Five strokes, three then two; the last of the three comes late."),
        ({"kick": "xxxx", "snare": "...x ..x. ...x ..x."},
         "The snare falls between four even kicks, on 1a, 2&, 3a and 4&."),
        ({"kick": "x.x. x.x. x.x. x.x.", "snare": ".x.x .x.x .x.x .x.x"},
         "Kick and snare strike by turns, in sixteenths."),
        ({"kick": "x..x..x.", "snare": ".x.x"}, "The backbeat falls on 2 and 4."),
    ],
)  # fmt: skip
def test_a_rhythm_with_a_name_says_what_makes_it_one(lines: dict[str, str], reason: str) -> None:
    """Claves after Toussaint (BRIDGES 2005); dembow and blast beat are common practice."""
    found = reading(**lines)
    assert (found.reason, found.sureness >= 0.9) == (reason, True)


def test_played_and_written_read_alike() -> None:
    time = song_time()
    heard = drums_reading(played(CHORUS, 8), time, time.bars(1, 8))
    written = groove_reading(CHORUS)
    assert (heard.feel, heard.pushes, heard.timekeeper, heard.kick) == (
        written.feel, written.pushes, written.timekeeper, written.kick,
    )  # fmt: skip
    assert heard.alike == tuple(range(1, 9)) and heard.varied == ()


def test_a_played_shuffle_has_its_name_and_a_straight_one_has_not() -> None:
    time, shuffle = song_time(), groove(kick="x.x.", snare=".x.x", hat="xxxxxxxx")
    swung = drums_reading(played(shuffle, 4, F(1, 6)), time, time.bars(1, 4))
    assert [pattern.name for pattern in swung.names] == ["shuffle"] and swung.swing is not None
    assert swung.swing.ratio == 2.0 and swung.timekeeper is not None and swung.timekeeper.value == "eighths"
    assert drums_reading(played(shuffle, 4), time, time.bars(1, 4)).names == ()


def test_swing_that_is_written() -> None:
    found = reading(hat="x.x x.x x.x x.x")
    assert found.swing is not None and (found.swing.ratio, found.swing.count) == (2.0, 4)
    assert reading("6/8", hat="xxxxxx").swing is None and reading(hat="xxxx").swing is None


@given(st.integers(1, 30), st.permutations(range(4 * len(CHORUS.hits()))))
def test_neither_whole_bars_nor_the_order_of_hits_matter(first: int, order: list[int]) -> None:
    time = song_time()
    here = drums_reading(played(CHORUS, 4), time, time.bars(1, 4))
    drums = played(CHORUS, 4, first_bar=first)
    again = sorted((drums.strokes[at] for at in order), key=lambda stroke: stroke.onset)
    there = drums_reading(Drums(tuple(again)), time, time.bars(first, first + 3))
    assert (there.groove, there.feel, there.timekeeper, there.swing, there.kick, there.sureness) == (
        here.groove, here.feel, here.timekeeper, here.swing, here.kick, here.sureness,
    )  # fmt: skip
    assert there.alike == tuple(bar + first - 1 for bar in here.alike)


def test_silence() -> None:
    time = song_time()
    for found in (
        drums_reading(Drums(()), time, Span(F(0), F(16))),
        groove_reading(Groove(CHORUS.meter, 1, ())),
    ):
        assert (found.feel.time, found.timekeeper, found.swing, found.names) == ("", None, None, ())


def test_a_thousand_hits_are_quick() -> None:
    time, bars = song_time(), 1 + 1000 // len(CHORUS.hits())
    drums = played(join_bars([CHORUS, CHORUS]), bars)
    assert len(drums.strokes) >= 1000
    assert (
        min(timeit.repeat(lambda: drums_reading(drums, time, time.bars(1, bars)), number=1, repeat=3)) < 0.2
    )


def test_patterns_and_drum_parts_by_one_door() -> None:
    time, drums = song_time(), played(CHORUS, 4, first_bar=3)
    assert read_groove_over(CHORUS, time) == groove_reading(CHORUS)
    assert read_groove_over(drums, time) == drums_reading(drums, time, time.bars(3, 6))
    assert read_groove_over(drums, time, time.bars(4, 5)).alike == (4, 5)
    assert read_groove_over(Drums(()), time).groove.lines == ()
