"""The most typical bar and how the others vary."""

from fractions import Fraction as F

from studio.music.groove import join_bars
from studio.theory.rhythm.typical import repeating_unit, typical_bar
from tests.theory.rhythm.grooves import groove

A = groove(kick="x.x.", snare=".x.x")
B = groove(kick="x.x.", snare=".x.x", clap="...x")
FILL = groove(kick="x...", snare=".... .... x.xx xxxx")


def test_the_bar_that_is_played_most() -> None:
    found = typical_bar(join_bars([A, A, A, FILL]))
    assert (found.groove, found.alike, found.varied, found.share) == (A, (1, 2, 3), (4,), F(3, 4))


def test_a_crash_is_no_part_of_the_groove() -> None:
    crashed = groove(kick="x.x.", snare=".x.x", crash="x...")
    assert typical_bar(join_bars([crashed, A, A, A])).varied == ()


def test_of_equals_the_one_nearest_to_all() -> None:
    assert typical_bar(join_bars([FILL, A, B])).groove == A


def test_two_bars_that_alternate_are_one_unit() -> None:
    found = typical_bar(join_bars([A, FILL] * 3))
    assert (found.groove, found.varied) == (join_bars([A, FILL]), ())
    assert typical_bar(join_bars([A, FILL])).groove == join_bars([A, FILL])


def test_what_is_written_is_kept_whole() -> None:
    assert repeating_unit(join_bars([A, A])).groove == A
    assert repeating_unit(join_bars([A, B, A])).groove == join_bars([A, B, A])
    assert repeating_unit(join_bars([A, B, A, B])).groove == join_bars([A, B])
