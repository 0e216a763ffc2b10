"""Words for chords and keys on screen."""

import pytest

from studio.theory.wording.harmony import reading_note
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("bars", "key", "note"),
    [
        ("C Em G", "C", ""),
        ("C Fm C", "C", "borrowed from C minor"),
        ("Am D Am", "A minor", "borrowed from A Dorian"),
        ("C D F", "C", "borrowed from C Lydian"),
        ("C Bb7 C", "C", "backdoor dominant"),
        ("E7 A", "A minor", "Picardy third"),
        ("C A7 Dm", "C", "V of ii, resolves"),
        ("C A7 G", "C", "V of ii, does not resolve"),
        ("C A7 D7 G7", "C", "V of ii, in a chain"),
        ("C A7b9 Dm7b5 G7", "C", "V of ii, resolves into a ii"),
        ("F C/G A7 Dm", "C", "arrival six-four"),
        ("Em F Em", "E minor", "borrowed from E Phrygian"),
        ("Cm7 Ab7 G7", "C minor", "♭VI7 to V7"),
        ("Bb7 Ebmaj7 Em7 A7", "D", "local tonic"),
        ("C C#dim7 Dm", "C", "vii° of ii, resolves"),
        ("C Gm7 C7 F", "C", "ii of IV"),
        ("Dm7 Db7 C", "C", "substitute for V"),
        ("Em7 Eb7 Dm7", "C", "substitute for V of ii"),
        ("C Ab7 G", "C", "German augmented sixth"),
        ("C Ab7b5 G", "C", "French augmented sixth"),
        ("C Db/F G7", "C", "Neapolitan"),
        ("C A C", "C", "chromatic mediant"),
        ("C Cdim7 C", "C", "common-tone diminished"),
        ("Em7 Ebdim7 Dm7", "C", "passing diminished"),
        ("Em7 Ebm7 Dm7", "C", "passing"),
        ("C B C", "C", "neighbour chord"),
        ("C7 F7 C7", "C", "blues seventh"),
        ("F C/G G", "C", "cadential six-four"),
        ("C G/D C/E", "C", "passing six-four"),
        ("Am C/G G7 C", "F", "cadential six-four of V"),
        ("E5 F5 E5", "E minor", "borrowed from E Phrygian"),
        ("F#m7 F#7 F#m7", "F# minor", "blues tonic"),
        ("C F#m F", "C", ""),
        ("C N.C. C", "C", ""),
    ],
)
def test_small_print_under_the_second_chord(bars: str, key: str, note: str) -> None:
    assert reading_note(readings(bars, key)[1]) == note
    assert len(note) <= 30
