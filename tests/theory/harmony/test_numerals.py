"""Chords read in their key.

Diatonic numerals are compared with music21 in every key; the rest are progressions that any harmony textbook
or fake book has, with the numerals that musicians give them (common practice).
"""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.chord_qualities import QUALITIES
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import NumeralDisplay
from tests.theory.charts import chart, numerals, readings

MAJORS = [Key(NoteName.from_fifths(place), "major") for place in range(-6, 6)]
MINORS = [Key(NoteName.from_fifths(place), "minor") for place in range(-3, 9)]

# music21's figure -> what the house writes for the chord that music21 builds from it. Two things differ by house
# rule and not by reading: a plain 7 is always a minor seventh (so music21's I7 is Imaj7), and o and /o are ° and ø.
MAJOR_FIGURES = {
    "I": "I", "ii": "ii", "iii": "iii", "IV": "IV", "V": "V", "vi": "vi", "viio": "vii°",
    "I7": "Imaj7", "ii7": "ii7", "iii7": "iii7", "IV7": "IVmaj7", "V7": "V7", "vi7": "vi7", "vii/o7": "viiø7",
    "I6": "I6", "I64": "I6/4", "V65": "V6/5", "V43": "V4/3", "V42": "V4/2", "ii65": "ii6/5", "viio6": "vii°6",
}  # fmt: skip
MINOR_FIGURES = {
    "i": "i", "iio": "ii°", "III": "III", "iv": "iv", "v": "v", "V": "V", "VI": "VI", "VII": "VII", "viio": "vii°",
    "i7": "i7", "ii/o7": "iiø7", "III7": "IIImaj7", "iv7": "iv7", "V7": "V7", "VI7": "VImaj7", "VII7": "VII7",
    "viio7": "vii°7", "III+": "III+", "i6": "i6", "i64": "i6/4", "V65": "V6/5", "V42": "V4/2", "viio65": "vii°6/5",
}  # fmt: skip
FROM_MAJOR = {"III": "♭III", "VI": "♭VI", "VII": "♭VII"}
SHAPES = {
    (4, 7): "", (3, 7): "m", (3, 6): "dim", (4, 8): "aug", (4, 7, 11): "maj7", (4, 7, 10): "7", (3, 7, 10): "m7",
    (3, 6, 10): "m7♭5", (3, 6, 9): "dim7",
}  # fmt: skip


def built_by_music21(figure: str, key: Key) -> Chord:
    """The chord that music21 builds on a figure in a key, named from its notes."""
    from music21 import key as keys
    from music21 import roman

    tonic = str(key.tonic).replace("♭", "-").replace("♯", "#")
    built = roman.RomanNumeral(figure, keys.Key(tonic, key.mode))
    root = NoteName.parse(built.root().name.replace("-", "b"))
    above = sorted({(pitch.pitchClass - built.root().pitchClass) % 12 for pitch in built.pitches} - {0})
    return Chord.of(root, SHAPES[tuple(above)], (), NoteName.parse(built.bass().name.replace("-", "b")))


@pytest.mark.parametrize("key", MAJORS + MINORS, ids=str)
def test_diatonic_chords_in_all_24_keys_agree_with_music21(key: Key) -> None:
    figures = MAJOR_FIGURES if key.mode == "major" else MINOR_FIGURES
    for figure, numeral in figures.items():
        one = Chart((ChordAt(Fraction(0), Fraction(4), built_by_music21(figure, key)),))
        common = read_chart(one, ((Fraction(0), key),), "common-practice")[0]
        assert (common.numeral, common.kind) == (numeral, "diatonic"), one.chords[0].chord
        relative = read_chart(one, ((Fraction(0), key),), "relative-to-major")[0]
        base = NumeralDisplay(*(getattr(common.numeral_display, part) for part in ("accidental", "base")))
        flat = key.mode == "minor" and str(base) in FROM_MAJOR
        assert relative.numeral == ("♭" if flat else "") + numeral
        assert relative.function == common.function != ""


@pytest.mark.parametrize(
    ("bars", "key", "expected"),
    [
        # pop
        ("A E F#m D", "A", "I V vi IV"),
        ("G D/F# Em G/D C G/B Am7 D", "G", "I V6 vi I6/4 IV I6 ii7 V"),
        ("C C/B Am Am/G F", "C", "I Imaj4/2 vi vi4/2 IV"),
        ("A5 D5 E5 G5", "A", "I5 IV5 V5 ♭VII5"),
        ("Aadd9 D6 Esus4 E", "A", "Iadd9 IVadd6 Vsus4 V"),
        # borrowed
        ("A C#7 F#m D Dm A", "A", "I V7/vi vi IV iv I"),
        ("A G D A", "A", "I ♭VII IV I"),
        ("C Eb F Ab Bb C", "C", "I ♭III IV ♭VI ♭VII I"),
        ("C Fm7 Bb7 Cmaj7", "C", "I iv7 ♭VII7 Imaj7"),
        ("C Dm7b5 G7 Bdim7 C", "C", "I iiø7 V7 vii°7 I"),
        # jazz
        ("Dm9 G13 Cmaj9", "C", "ii9 V13 Imaj9"),
        ("Cm7 F7alt Bbmaj7", "Bb", "ii7 V7alt Imaj7"),
        ("Em7b5 A7b9 Dm7 G7 C6/9", "C", "iiø7/ii V7♭9/ii ii7 V7 I6/9"),
        ("Gm7 C9 Fmaj7 Db7 C", "C", "ii7/IV V9/IV IVmaj7 ♭II7 I"),
        ("A7 D7 G7 C", "C", "V7/ii V7/V V7 I"),
        ("C C#dim7 Dm7 Ebdim7 C/E", "C", "I vii°7/ii ii7 ♭iii°7 I6"),
        ("F F#dim7 C/G A7 Dm G7", "C", "IV ♯iv°7 I6/4 V7/ii ii V7"),
        ("F F#dim7 C/G G7 C", "C", "IV vii°7/V I6/4 V7 I"),
        ("C7 F7 C7 G7 F7 C7", "C", "I7 IV7 I7 V7 IV7 I7"),
        # minor
        ("Am F C G", "A minor", "i ♭VI ♭III ♭VII"),
        ("Am Dm6 Bm7b5 E7 Am", "A minor", "i ivadd6 iiø7 V7 i"),
        ("Am G#dim7 Am/C D Dm E7b9 A", "A minor", "i vii°7 i6 IV iv V7♭9 I"),
        ("Am A7 Dm B7 E7 C7 F", "A minor", "i V7/iv iv V7/V V7 V7/♭VI ♭VI"),
        ("F#m D A E C#7 F#m", "F# minor", "i ♭VI ♭III ♭VII V7 i"),
        ("Am Am(maj7) Am7 F#m7b5 Fmaj7", "A minor", "i i(maj7) i7 viø7 ♭VImaj7"),
        # the applied chord holds through its own suspension, its inversion and its target's colours
        ("A C#7sus4 C#7 F#m7", "A", "I V7sus4/vi V7/vi vi7"),
        ("A C#7/E# F#m/C# D", "A", "I V6/5/vi vi6/4 IV"),
        ("A A/G D/F#", "A", "I V4/2/IV IV6"),
        ("Bb C9 F7sus4 F7", "Bb", "I V9/V V7sus4 V7"),
        # spelled by another letter than the key would
        ("Db A Gbm Db", "Db", "I ♭VI iv I"),
        ("Gb B Db Gb", "Gb", "I IV V I"),
        ("Am Abdim7 Am", "A minor", "i vii°7 i"),
    ],
)
def test_progressions(bars: str, key: str, expected: str) -> None:
    assert numerals(bars, key) == expected


def test_common_practice_numerals_in_minor() -> None:
    assert (
        numerals("Am F C G E7 Am G#dim F#dim", "A minor", "common-practice") == "i VI III VII V7 i vii° ♯vi°"
    )
    assert numerals("Am D G F", "A minor", "common-practice") == "i IV VII VI"
    assert numerals("Am D7 G F", "A minor", "common-practice") == "i V7/VII VII VI"
    assert numerals("A F G", "A", "common-practice") == "I ♭VI ♭VII"


def test_an_applied_chord_says_of_what_and_whether_it_resolves() -> None:
    _, applied, home = readings("A C#7 F#m", "A")
    assert (applied.kind, applied.of, applied.resolved, applied.function) == (
        "applied",
        "vi",
        True,
        "dominant",
    )
    assert applied.reason == "C♯7 is the dominant of F♯m, which follows."
    assert home.kind == "diatonic"
    _, unresolved, _ = readings("A C# D", "A")
    assert (unresolved.numeral, unresolved.resolved, unresolved.runner_up) == ("V/vi", False, "III")
    assert unresolved.sureness < applied.sureness
    assert unresolved.reason == "C♯ is the dominant of F♯m, but D follows."


def test_the_plain_tonic_is_never_applied() -> None:
    tonic, four = readings("A D", "A")
    assert (tonic.numeral, tonic.kind, four.numeral) == ("I", "diatonic", "IV")
    seventh, _ = readings("A7 D", "A")
    assert (seventh.numeral, seventh.kind, seventh.runner_up) == ("V7/IV", "applied", "I7")


def test_a_borrowed_chord_says_from_where_and_which_notes() -> None:
    minor_four = readings("A Dm A", "A")[1]
    assert (minor_four.kind, minor_four.source) == ("borrowed", "A minor")
    assert minor_four.reason == "Dm comes from A minor: it has F where A major has F♯."
    picardy = readings("Am E7 A", "A minor")[2]
    assert (picardy.kind, picardy.source) == ("borrowed", "A major")
    mixolydian = readings("F Ebmaj7 F", "F")[1]
    assert (mixolydian.numeral, mixolydian.source) == ("♭VIImaj7", "F Mixolydian")
    assert readings("F7", "F")[0].kind == "blues"
    dorian = readings("Am D7 Am", "A minor")[1]
    assert (dorian.numeral, dorian.source) == ("IV7", "A Dorian")


def test_a_diatonic_ii_before_an_applied_dominant_has_it_as_runner_up() -> None:
    assert readings("Em7 A7 Dm", "C")[0].runner_up == "ii7/ii"
    assert readings("Bm7b5 E7 Am", "C")[0].runner_up == "iiø7/vi"


def test_a_power_chord_on_the_tonic_says_that_its_third_is_open() -> None:
    one, four, two = readings("A5 D5 Bm", "A")
    assert (one.numeral, two.numeral) == ("I5", "ii")
    assert one.reason == "A5 belongs to A major, on its first degree, its third open."
    assert "third open" not in four.reason  # once is enough
    assert one.sureness < two.sureness
    assert readings("B5 C#5 F#5", "A")[0].numeral == "ii5"


def test_a_foreign_bass_is_told_in_the_reason() -> None:
    over_dominant, _ = readings("F/G C", "C")
    assert (over_dominant.numeral, over_dominant.function) == ("V9sus4", "dominant")
    assert over_dominant.reason == "F/G sounds as G9sus4, the suspended dominant of C major."
    pedal = readings("C G/C C", "C")[1]
    assert (pedal.numeral, pedal.function) == ("V", "dominant")
    assert pedal.reason.endswith("the bass is C, the first degree of the key.")
    assert readings("Aadd9/C#", "A")[0].reason.endswith("the bass is C♯, its third.")


def test_functions() -> None:
    def functions(bars: str, key: str) -> str:
        return "".join((reading.function or "-")[0].upper() for reading in readings(bars, key))

    assert functions("C Dm Em F G Am Bdim", "C") == "TSTSDTD"
    assert functions("F C/G G7 C", "C") == "SDDT"  # the six-four belongs to the dominant
    assert functions("C C/G F", "C") == "TTS"  # and does not when no V follows
    assert functions("Bb C Bb F", "C") == "DTSS"
    assert functions("Am Dm E7 F", "A minor") == "TSDT"  # deceptive: VI stands for i
    assert functions("Am F G Am", "A minor") == "TSDT"


def test_a_deceptive_turn_is_told_but_not_in_every_loop() -> None:
    assert "deceptive" in readings("C F G7 Am", "C")[3].reason
    assert "deceptive" in readings("Am Dm E7 F", "A minor")[3].reason
    assert "deceptive" not in readings("C G Am F", "C")[2].reason


def test_pivot_chords_are_read_in_both_keys() -> None:
    song = chart("A E F#m D A F#m | Bm | C#7 | F#m".replace(" ", " | ").replace("| | |", "|"))
    a, f_sharp = Key.parse("A"), Key.parse("F# minor")
    found = read_chart(song, ((Fraction(0), a), (Fraction(24), f_sharp)))
    assert [reading.pivot for reading in found[:5]] == [None] * 5
    assert found[5].pivot == (f_sharp, "i")
    assert found[6].key == f_sharp
    assert found[6].pivot is None


def test_a_pivot_may_be_the_first_chord_of_the_new_key() -> None:
    song = chart("C | F | E7 | Am | D7 | G")
    keys = ((Fraction(0), Key.parse("C")), (Fraction(12), Key.parse("G")))
    found = read_chart(song, keys)
    assert found[3].pivot == (Key.parse("C"), "vi")
    assert found[2].pivot is None


def test_no_chord_breaks_nothing() -> None:
    silent = readings("A | N.C. | C#7 | N.C. | F#m", "A")
    assert [reading.kind for reading in silent] == ["diatonic", "none", "applied", "none", "diatonic"]
    assert silent[2].resolved
    assert (silent[1].numeral, silent[1].function) == ("", "")


def test_a_chart_needs_a_key() -> None:
    with pytest.raises(ValueError, match="infer the keys first"):
        read_chart(chart("A"), ())


def test_a_numeral_cut_up_for_typesetting() -> None:
    assert readings("C#7/E# F#m", "A")[0].numeral_display == NumeralDisplay("", "V", "", ("6", "5"), "vi")
    assert readings("F#m7b5", "A minor")[0].numeral_display == NumeralDisplay("", "vi", "ø7")
    assert readings("G", "A")[0].numeral_display == NumeralDisplay("♭", "VII")


INTERVALS = [(0, 0), (1, 1), (1, 2), (2, 3), (2, 4), (3, 5), (3, 6), (4, 7), (5, 8), (5, 9), (6, 10), (6, 11)]
roots = st.sampled_from(
    [
        NoteName.parse(name)
        for name in ["C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"]
    ]
)
symbols = st.builds(Chord.of, roots, st.sampled_from(list(QUALITIES)), st.just(()), st.none() | roots)


@given(
    st.lists(symbols | st.none(), min_size=1, max_size=8),
    st.sampled_from(["C", "A", "Eb", "F# minor", "A minor", "G minor"]),
    st.sampled_from(INTERVALS),
    st.sampled_from(["relative-to-major", "common-practice"]),
)
@settings(max_examples=300, deadline=None)
def test_transposing_a_song_transposes_its_chords_and_nothing_else(
    chords: list[Chord | None], key: str, interval: tuple[int, int], style: str
) -> None:
    home = Key.parse(key)
    ours = _read(chords, home, style)
    moved = _read(
        [chord and chord.transposed(*interval) for chord in chords], home.transposed(*interval), style
    )
    for one, two in zip(ours, moved, strict=True):
        for field in (
            "numeral",
            "function",
            "kind",
            "of",
            "resolved",
            "sureness",
            "runner_up",
            "numeral_display",
            "name",
        ):
            assert getattr(one, field) == getattr(two, field)
        assert str(one.numeral_display) == one.numeral
        assert one.reason.endswith(".")
        assert 0 < one.sureness <= 1


def _read(chords: list[Chord | None], key: Key, style: str):  # type: ignore[no-untyped-def]
    song = Chart(
        tuple(ChordAt(Fraction(4 * place), Fraction(4), chord) for place, chord in enumerate(chords))
    )
    return read_chart(song, ((Fraction(0), key),), style)  # type: ignore[arg-type]
