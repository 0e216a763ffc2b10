"""Where a change of key is heard, and what is no change. The songs are our own; where keys lie is common practice."""

from fractions import Fraction

import pytest

from studio.music.place import Span
from studio.theory.harmony.keys import infer_keys
from tests.theory.charts import chart


def heard(bars: str, sections: tuple[tuple[str, Span], ...] = ()) -> list[tuple[str, Fraction]]:
    """Each key with the bar in 4/4 in which it begins."""
    return [(str(one.key), one.span.start / 4 + 1) for one in infer_keys(chart(bars), sections)]


@pytest.mark.parametrize("ending", ["Em7 . A7 . | D", "Em | A7 | D | D"])
def test_the_old_key_lasts_while_its_tonic_comes_back(ending: str) -> None:
    """Em7 is the pivot, vi in G and ii in D; bar 4 closes a half cadence in G."""
    song = f"G | Em | C | D | G | Em7 | A7 | D | D | Bm | {ending}"
    assert heard(song) == [("G major", 1), ("D major", 6)]


def test_the_new_dominant_begins_the_new_key() -> None:
    song = "F | Bb | C7 | F | F . D7 . | G | C | D7 | G | G"
    assert heard(song) == [("F major", 1), ("G major", Fraction(11, 2))]


def test_a_bridge_keeps_its_key_up_to_its_end() -> None:
    """Cm7 and Fsus4 are ii7 and Vsus4 of B♭; only the G that follows is new."""
    song = "Bb | Gm7 | Eb | F | Eb | Cm7 | Fsus4 | G | C | G | Am | F | C | G | F | C"
    assert heard(song) == [("B♭ major", 1), ("C major", 8)]
    bridge = ("bridge", Span(Fraction(0), Fraction(32)))
    assert heard(song, (bridge, ("chorus", Span(Fraction(32), Fraction(64))))) == [
        ("B♭ major", 1),
        ("C major", 8),
    ]


def test_a_song_up_a_step_through_its_bridge() -> None:
    """The bridge may be heard in B♭ or in the G minor that it begins with, but it is not in C before its last bar."""
    verse, chorus = "Bb | F/A | Gm | Eb | Bb | F/A | Gm | Eb F", "Bb | F | Gm | Eb | Bb | F | Eb | Ebm"
    parts = [
        ("intro", "Bb | F/A | Gm | Eb"), ("verse 1", verse), ("pre", "Cm7 | Eb | F | F | Fsus4 F"),
        ("chorus 1", chorus), ("verse 2", verse), ("chorus 2", chorus),
        ("bridge", "Gm | D7/F# | Bb/F | C/E | Eb | Cm7 | Fsus4 | G"),
        ("chorus 3", "C | G | Am | F | C | G | F | Fm"), ("outro", "C | Fm | C"),
    ]  # fmt: skip
    sections, start = [], Fraction(0)
    for name, bars in parts:
        end = start + 4 * len(bars.split("|"))
        sections.append((name, Span(start, end)))
        start = end
    found = heard(" | ".join(bars for _, bars in parts), tuple(sections))
    assert found[0] == ("B♭ major", 1)
    assert found[-1] == ("C major", 49)
    assert {key for key, _ in found[1:-1]} <= {"G minor"}


@pytest.mark.parametrize(
    "bars",
    [
        "C F G C D7 G C F G7 C",  # V of V and its goal
        "Am Dm E7 Am G7 C E7 Am Dm E7 Am",
        "Fmaj7 | Em7b5 A7 | Dm7 G7 | Cm7 F7 | Bb7 | Bbm7 Eb7 | Am7 D7 | Abm7 Db7 | Gm7 | C7 | Fmaj7 D7 | Gm7 C7",
    ],
)
def test_two_chords_are_no_key(bars: str) -> None:
    assert len(heard(bars)) == 1


def test_a_long_chord_may_be_a_key() -> None:
    """Sixteen bars of one chord and eight a half step up, as modal pieces have them."""
    assert [key for key, _ in heard("Dm7 " * 8 + "Ebm7 " * 8 + "Dm7 " * 8)] == [
        "D minor",
        "E♭ minor",
        "D minor",
    ]
