"""Harmonic sequences. Root patterns and names as handbooks have them: Austin Patty, "Diatonic Sequences: A Listening
Strategy" (austinpattytheory.com): falling fifths ↓5↑4, falling thirds ↓4↑2, rising fifths ↑5↓4, rising seconds ↓3↑4,
the last known as ascending 5–6. ii–V chains and chains of dominants are common practice.
"""

import pytest

from studio.theory.progression.sequences import find_sequences, longest_sequence
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("bars", "key", "name", "kind", "times"),
    [
        ("Am Dm G C", "C", "falling fifths", "diatonic", 3),
        ("C F Bdim Em Am Dm G C", "C", "falling fifths", "diatonic", 7),
        ("Am Dm G C F Bdim E Am", "A minor", "falling fifths", "diatonic", 7),
        ("C G Am Em F C", "C", "falling thirds", "diatonic", 3),
        ("C Am Dm Bdim Em C F", "C", "ascending 5–6", "diatonic", 3),
        ("F C G D A", "C", "rising fifths", "real", 4),
        ("Ab Eb Bb F C", "C", "rising fifths", "real", 4),
        ("Em7 A7 Dm7 G7 Cm7 F7", "C", "ii–V chain falling by whole step", "real", 3),
        ("Em7 A7 Ebm7 Ab7 Dm7 G7", "C", "ii–V chain falling by half step", "real", 3),
        ("Dm7 G7 Cm7 F7", "C", "ii–V chain falling by whole step", "real", 2),
        ("E7 A7 D7 G7 C", "C", "chain of dominants", "mixed", 4),
        ("C7 F D7 G E7 Am", "C", "rising by step, each chord by its dominant", "mixed", 3),
    ],
)
def test_sequences(bars: str, key: str, name: str, kind: str, times: int) -> None:
    found = longest_sequence(readings(bars, key))
    assert found is not None
    assert (found.name, found.kind, found.times) == (name, kind, times)


@pytest.mark.parametrize(
    "bars", ["C F G C", "A E F#m D A E F#m D", "C F C F C F", "C C C C C", "C G F C G F", "C"]
)
def test_plain_motion_is_no_sequence(bars: str) -> None:
    assert find_sequences(readings(bars, bars[0])) == ()


@pytest.mark.parametrize(
    ("bars", "key"),
    [
        # common practice: nobody hears these as sequences, though some step comes again
        ("F F#dim7 Gm G#dim7 Am", "F"),  # passing diminished chords
        ("E5 G5 A5 C5 D5", "E minor"),  # a riff of power chords
        ("| Fmaj7 | E7#9 | Am9 | Gm9 C13 | Fmaj7 |", "A minor"),
        ("| D | G | Em7 | A7 | D | D | Bm | Em7 A7 |", "D"),
        ("Dm G7 C F Bb G7 C C", "C"),  # G7–C closes; C F B♭ is too short for a chain
        ("Em G A C Em G A C", "E minor"),  # thirds where one time round joins the next
        ("A C D F A C D F", "A"),
        ("Em G G D A Em C Em", "E minor"),  # three fifths up across the start of a phrase
        ("Dm C Bb A", "D minor"),  # a lament, which has its own name
    ],
)
def test_what_nobody_hears_as_a_sequence(bars: str, key: str) -> None:
    assert find_sequences(readings(bars, key)) == ()


def test_a_chain_goes_through_the_tonic_only_if_it_goes_on() -> None:
    """The circle of every handbook passes its relative major; a phrase that has closed does not go on."""
    (whole,) = find_sequences(readings("Cm7 F7 Bbmaj7 Ebmaj7 Am7b5 D7 Gm Gm", "Bb"))
    assert len(whole.numerals) == 7
    (closed,) = find_sequences(readings("Am Dm7 G7 Cmaj7 F Bb G7 C", "C"))
    assert closed.numerals == ("vi", "ii7", "V7", "Imaj7")


def test_real_sequences_have_the_same_kind_of_chord_not_the_same_chords() -> None:
    (thirds,) = find_sequences(readings("C Ab E C", "C"))
    assert thirds.reason.endswith("each time with the same kind of chord.")
    (chain,) = find_sequences(readings("Em7 A7 Dm7 G7 Cm7 F7", "C"))
    assert chain.reason == "Em7–A7 comes again from Dm7, moved exactly."


def test_where_a_sequence_lies() -> None:
    (found,) = find_sequences(readings("C F C C Am Dm G C F", "C"))
    assert (found.span.start, found.span.end) == (16, 32)
    assert found.numerals == ("vi", "ii", "V", "I")


def test_nothing_has_no_sequence() -> None:
    assert find_sequences(()) == ()
    assert longest_sequence(()) is None
