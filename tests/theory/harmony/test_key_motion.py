"""Chains and blues sevenths. The forms are common practice."""

import pytest

from studio.theory.harmony.key_motion import home_sevenths, on_the_way
from tests.theory.charts import chart


def moving(bars: str) -> str:
    chords = [at.chord for at in chart(bars).chords if at.chord is not None]
    numbers = on_the_way(chords, home_sevenths(chords))
    return " ".join(chord.text for number, chord in enumerate(chords) if number in numbers)


def homes(bars: str) -> set[int]:
    return set(home_sevenths([at.chord for at in chart(bars).chords if at.chord is not None]))


@pytest.mark.parametrize(
    ("bars", "on_their_way"),
    [
        ("E7 E7 A7 A7 D7 D7 G7 C", "E7 E7 A7 A7 D7 D7"),  # G7 rests: it is the V of what comes
        ("Em7 A7 Dm7 G7 C", "Em7 A7 Dm7"),
        ("Em7b5 A7 Dm7 Dm7 F", "Em7♭5"),  # arrives on Dm7 and stays
        ("Dm7 G7 Dm7 G7", ""),  # a vamp of the two, to its end
        ("Dm7 G7 Dm7 G7 C", "Dm7"),  # which it leaves here
        ("Db C7 Fm9 Bb9sus4", ""),  # hangs in the air
        ("B G#7 C#m9 F#9sus4", "G♯7 C♯m9"),  # and comes round
        ("Am F C G", ""),
        ("C7 F7 C7 G7 F7 C7", ""),
        ("Bbm9 Eb13sus4 Ab13sus4 Dbmaj9", "B♭m9 E♭13sus4"),
    ],
)
def test_chords_on_their_way(bars: str, on_their_way: str) -> None:
    assert moving(bars) == on_their_way


@pytest.mark.parametrize(
    ("bars", "roots"),
    [
        ("F7 Bb7 F7 C7 Bb7 F7", {5}),  # IV7 falls back to I7
        ("Bb7 | Eb7 | Edim7 | Bb7 | F7 | Bb7", {10}),  # over ♯iv°
        ("E7 A7 D7 G7 C", set()),
        ("C C7 F C", set()),
        ("E9 E9 E9", {4}),
        ("A7 G7 A7 G7", {9}),
    ],
)
def test_where_a_seventh_is_at_home(bars: str, roots: set[int]) -> None:
    assert homes(bars) == roots
