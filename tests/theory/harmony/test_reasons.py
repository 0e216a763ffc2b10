"""A reason never claims what is not so. Where no source is named it is common practice."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reasons import diatonic
from tests.theory.charts import readings


@pytest.mark.parametrize("symbol", ["D7sus4", "Dsus4", "D5"])
def test_a_dominant_without_its_third_is_not_said_to_have_it(symbol: str) -> None:
    assert "F♯" not in diatonic(read_chord(symbol), Key.parse("G minor"), "harmonic")


@pytest.mark.parametrize("symbol", ["D", "D7", "F#dim7", "Gbdim7", "Bbaug"])
def test_what_has_the_raised_seventh_is_said_to(symbol: str) -> None:
    sentence = diatonic(read_chord(symbol), Key.parse("G minor"), "harmonic")
    assert sentence.endswith("belongs to G minor with its raised seventh, F♯.")


@pytest.mark.parametrize(
    ("bars", "key", "at", "reason"),
    [
        # strangers by the letters of the key: E♭ minor has C♭ and G♭, no B and F♯
        (
            "Bmaj7 Ebmaj7", "Eb", 0,
            "Bmaj7 (as C♭maj7) comes from E♭ minor: it has C♭ and G♭ where E♭ major has C and G.",
        ),
        # the ii of the chord that really comes
        ("Ebmaj7 Am7 D7 Gmaj7", "Eb", 1, "Am7 prepares the dominant of G that comes next, as its ii."),
        ("Ebmaj7 Am7b5 D7 Gm7", "Eb", 1, "Am7♭5 prepares the dominant of Gm that comes next, as its ii."),
        # a suspended chord has not the third of the chord that it goes with
        (
            "C Dsus4 D F", "C", 1,
            "Dsus4 goes with D, which comes from C Lydian: it has F♯ where C major has F.",
        ),
        ("F C/G G7 C", "F", 1, "C/G holds back G7, a cadential six-four of C."),
        ("F#m7 F#7 F#m7", "F# minor", 1, "F♯7 is the tonic with the major third and the flat seventh of the blues."),
        ("E5 F5 E5", "E minor", 1, "F5 comes from E Phrygian: it has F where E minor has F♯."),
        # an altered tonic in the bass
        (
            "C C/C# C", "C", 1,
            "C/C♯ belongs to C major, on its first degree; the bass is C♯, the raised tonic of the key.",
        ),
        # what of a dominant is not the key's
        ("F7b9 Bb", "Bb", 0, "F7♭9 is the dominant of B♭ major, its ♭9 borrowed from the minor."),
        ("F7#9b13 Bb", "Bb", 0, "F7(♯9♭13) is the dominant of B♭ major, its ♯9 and ♭13 borrowed from the minor."),
        ("F7#11 Bb", "Bb", 0, "F7♯11 is the dominant of B♭ major, its ♯11 altered."),
        ("F7alt Bb", "Bb", 0, "F7alt is the dominant of B♭ major, altered."),
        ("F13 Bb", "Bb", 0, "F13 belongs to B♭ major, on its fifth degree."),
        ("E7b9 Am", "A minor", 0, "E7♭9 belongs to A minor with its raised seventh, G♯."),
        ("Cmaj7#11 G", "C", 0, "Cmaj7♯11 belongs to C major, on its first degree; its ♯11 does not."),
        # a bass counted in its own key, and what a triad over its sixth is
        (
            "Am/F# F", "A minor", 0,
            "Am/F♯ belongs to A minor, on its first degree; over F♯, the raised sixth degree, it sounds as F♯m7♭5.",
        ),
        ("C/A F", "C", 0, "C/A belongs to C major, on its first degree; over A, the sixth degree, it sounds as Am7."),
        # dominants in a chain of ii–Vs
        ("A7b9 Dm7b5 G7 C", "C", 0, "A7♭9 is the dominant of Dm; Dm7♭5 follows, as the next ii."),
        ("A7b9 Dm7b5 Am", "C", 0, "A7♭9 is the dominant of Dm; Dm7♭5 follows, changed in quality."),
    ],
)  # fmt: skip
def test_reasons(bars: str, key: str, at: int, reason: str) -> None:
    assert readings(bars, key)[at].reason == reason


def test_a_dominant_that_goes_into_the_next_ii_is_as_sure_as_one_that_resolves() -> None:
    """Chains of iiø–V in falling whole steps; Levine, The Jazz Theory Book (from memory)."""
    chain = readings("Em7b5 A7b9 Dm7b5 G7b9 Cm7b5 F7b9 Bbmaj7", "Bb")
    assert [reading.name for reading in chain[1:4:2]] == ["dominant of the next ii"] * 2
    assert chain[1].sureness == readings("C A7b9 Dm", "C")[1].sureness
    assert not chain[1].resolved


QUALITIES = (
    "", "m", "7", "m7", "maj7", "maj9", "m9", "9", "13", "7sus4", "9sus4", "13sus4", "sus4", "sus2", "5", "6", "m6",
    "6/9", "add9", "dim", "dim7", "m7b5", "aug", "7b9", "7#9", "7#11", "7alt", "mMaj7",
)  # fmt: skip
NOTE = r"[A-G](?:♭♭|♭|♯♯|♯|𝄪|𝄫)?(?![\w♭♯°+(/])"


@st.composite
def charts(draw: st.DrawFn) -> Chart:
    roots = st.sampled_from([NoteName.from_fifths(fifths) for fifths in range(-6, 7)])
    symbols = st.tuples(
        roots, st.sampled_from(QUALITIES), st.sampled_from(["", "", "", "C", "G", "Bb", "F#"])
    )
    chords: list[Chord] = []
    for root, quality, bass in draw(st.lists(symbols, min_size=2, max_size=4)):
        chords.append(read_chord(f"{root}{quality}{'/' + bass if bass else ''}"))
        if draw(st.booleans()):  # a chord with a third often follows a suspended one
            chords.append(read_chord(f"{root}{draw(st.sampled_from(['', '7', 'm', '13']))}"))
    return Chart(
        tuple(ChordAt(Fraction(4 * place), Fraction(4), chord) for place, chord in enumerate(chords))
    )


@given(charts(), st.sampled_from(["C", "A minor", "F# minor", "Ab", "E minor", "D", "Bb minor"]))
def test_what_a_chord_is_said_to_have_it_has(chart: Chart, key: str) -> None:
    """Every note after "has" or "its raised seventh" sounds in the chord of which it is said."""
    for reading in read_chart(chart, ((Fraction(0), Key.parse(key)),)):
        chord = reading.at.chord
        assert chord is not None
        told = reading.reason
        sounding = chord.pcs
        if named := re.search(r" goes with (\S+), which", told):
            (beside,) = {at.chord for at in chart.chords if at.chord and at.chord.text == named[1]}
            sounding = beside.pcs
        said = re.findall(rf"(?:has|seventh,) ({NOTE}(?:(?:, | and ){NOTE})*)", told)
        has = said[0] if said else ""
        for note in re.findall(NOTE, has):
            assert NoteName.parse(note).pc in sounding, told
