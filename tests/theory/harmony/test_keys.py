"""Keys found from chords alone, on progressions whose key no musician would doubt, and on some that one might."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt
from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.keys import infer_keys
from tests.theory.charts import chart, line

CLEAR = [
    ("A E F#m D A", "A major"),
    ("Am E7 Am Dm E7 Am", "A minor"),
    ("Dm7 G7 Cmaj7 A7 Dm7 G7 Cmaj7", "C major"),
    ("A C#7 F#m D Dm A", "A major"),
    ("A G D A", "A major"),
    ("Cm Fm G7 Cm", "C minor"),
    ("Db Gb Ab7 Db", "D♭ major"),
    ("F#m D A E C#7 F#m", "F♯ minor"),
    ("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7", "C major"),
    ("G D/F# Em C G D G", "G major"),
    ("Bb Gm Cm F7 Bb", "B♭ major"),
]


@pytest.mark.parametrize(("bars", "key"), CLEAR)
def test_clear_keys(bars: str, key: str) -> None:
    (found,) = infer_keys(chart(bars))
    assert str(found.key) == key
    assert found.sureness > 0.6
    assert found.runner_up != found.key
    assert key in found.reason or "blues in C" in found.reason


def test_doubt_is_told() -> None:
    """The same four chords from another starting place: which is home is a matter of opinion."""
    (minor,) = infer_keys(chart("Am F C G Am F C G"))
    (major,) = infer_keys(chart("C G Am F C G Am F"))
    (clear,) = infer_keys(chart("Am E7 Am Dm E7 Am"))
    assert (minor.key, minor.runner_up) == (Key.parse("A minor"), Key.parse("C major"))
    assert (major.key, major.runner_up) == (Key.parse("C major"), Key.parse("A minor"))
    assert max(minor.sureness, major.sureness) < clear.sureness


def test_sections_in_two_keys() -> None:
    song = chart("A D E A F#m D E A F C7 F Bb C7 F A D E A")
    spans = [("verse", Span(Fraction(0), Fraction(32))), ("bridge", Span(Fraction(32), Fraction(56)))]
    found = infer_keys(song, spans)
    assert [(str(one.key), one.span.start, one.span.end) for one in found] == [
        ("A major", 0, 32), ("F major", 32, 56), ("A major", 56, 72),
    ]  # fmt: skip
    assert found[1].reason.startswith("In the bridge, all 6 chords belong to F major")


def test_sections_are_named_as_people_say_them() -> None:
    song = chart("A D E A")
    for name, said in (("verse", "In the verse, all 4 chords"), ("verse 2", "In verse 2, all 4 chords")):
        assert infer_keys(song, [(name, Span(Fraction(0), Fraction(16)))])[0].reason.startswith(said)


def test_neighbours_in_one_key_are_one_span() -> None:
    song = chart("A D E A A D E A")
    found = infer_keys(
        song, [("a", Span(Fraction(0), Fraction(16))), ("b", Span(Fraction(16), Fraction(32)))]
    )
    assert [(str(one.key), one.span.end) for one in found] == [("A major", 32)]


def test_nothing_to_go_by() -> None:
    assert infer_keys(Chart(())) == ()
    assert infer_keys(chart("N.C.")) == ()


@given(st.sampled_from(CLEAR), st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (1, 1), (5, 9)]))
def test_transposing_a_song_transposes_its_key(case: tuple[str, str], interval: tuple[int, int]) -> None:
    song = chart(case[0])
    moved = Chart(
        tuple(ChordAt(at.start, at.length, at.chord and at.chord.transposed(*interval)) for at in song.chords)
    )
    (ours,), (theirs,) = infer_keys(song), infer_keys(moved)
    expected = ours.key.transposed(*interval)
    assert (theirs.key.tonic.pc, theirs.key.mode) == (expected.tonic.pc, expected.mode)
    assert theirs.sureness == pytest.approx(ours.sureness, abs=0.011)


def test_the_melody_tips_the_scale() -> None:
    """One loop under two tunes: the tune that keeps coming home to a note makes it the tonic."""
    loop = chart("F G Am C F G Am C")
    on_a = line("A4:3 r:1 B4 G4 A4:2 A4:3 r:1 E4:2 A4:2 A4:3 r:1 B4 G4 A4:2 A4:3 r:1 E4 E4 A4:2")
    on_c = line("C5:3 r:1 D5 B4 C5:2 C5:3 r:1 E4:2 C5:2 C5:3 r:1 D5 B4 C5:2 C5:3 r:1 D5 E5 C5:2")
    alone, minor, major = (infer_keys(loop, (), notes)[0] for notes in ((), on_a, on_c))
    shares = {found.key: found.sureness for found in (minor, major)}
    assert str(minor.key) == "A minor"
    assert str(major.key) == "C major"
    assert alone.sureness < max(shares.values())


def test_a_melody_without_chords() -> None:
    (found,) = infer_keys(Chart(()), (), line("D4 F4 A4 G4 F4 E4 D4 C#4 D4:4"))
    assert str(found.key) == "D minor"
    assert found.span == Span(Fraction(0), Fraction(12))
    assert found.reason == "All of its notes belong to D minor, and it ends on D."


def test_one_chord_is_its_own_key() -> None:
    for bars, key in (
        ("G", "G major"),
        ("F#m7", "F♯ minor"),
        ("E9", "E major"),
        ("N.C. | Bb | N.C.", "B♭ major"),
    ):
        (found,) = infer_keys(chart(bars))
        assert str(found.key) == key
        assert len(found.reason) < 60


def test_a_key_lasts_over_silence_to_the_end() -> None:
    (found,) = infer_keys(chart("N.C. C F G C N.C."))
    assert found.span == Span(Fraction(4), Fraction(24))


def test_short_tonicisations_stay_in_the_home_key() -> None:
    for bars in ("C D7 G C F C/G G7 C", "Eb C7 Fm Bb7 Eb G7 Cm F7 Bb7 Eb", "Am A7 Dm G7 C E7 Am Am"):
        assert len(infer_keys(chart(bars))) == 1


def test_a_change_is_heard_where_it_happens() -> None:
    found = infer_keys(chart("C F G7 C Am Dm G7 C A7 D Bm Em A7 D G A7 D"))
    assert [str(one.key) for one in found] == ["C major", "D major"]
    assert found[1].span.start in (28, 32)  # its last C, or the A7 that leads away


def test_reasons_are_one_short_sentence() -> None:
    song = chart("F#m D A C#7 F#m D C#7 F#m")
    (found,) = infer_keys(song, [("verse", Span(Fraction(0), Fraction(32)))])
    assert (
        found.reason
        == "In the verse, all 8 chords belong to F♯ minor, it starts and ends on F♯m, and C♯7 leads to it."
    )


def test_a_blues_is_told_by_its_form() -> None:
    (found,) = infer_keys(chart("F7|Bb7|F7|Cm7 F7|Bb7|Bdim7|F7|Am7b5 D7b9|Gm7|C7|F7 D7|Gm7 C7"))
    assert found.reason == "F7 and B♭7 go to and fro as in a blues in F, it starts on F7, and C7 leads to it."


@pytest.mark.parametrize("bars", ["E7 E7 E7 E7 E7 E7 E7 E7", "E7 A7 E7 A7", "C E7 A7 D7 G7 C"])
def test_sevenths_alone_make_no_blues(bars: str) -> None:
    assert all("blues" not in found.reason for found in infer_keys(chart(bars)))


def test_one_chord_does_not_grow_surer_by_repeating() -> None:
    """E7 for eight bars may be I7 or V7: nothing but its being there says which."""
    (found,) = infer_keys(chart("E7 " * 8))
    assert (str(found.key), str(found.runner_up)) == ("E major", "A major")
    assert found.sureness < 0.6


@pytest.mark.parametrize(
    ("bars", "edges"),
    [
        ("Fmaj7 Gm7 C7 F", "it starts on Fmaj7 and ends on F, and C7 leads to F."),
        ("F Gm7 C7 F", "it starts and ends on F, and C7 leads to it."),
        ("C Dm7 G7 C6/9", "it starts on C and ends on C6/9, and G7 leads to C6/9."),
        ("C/E F G C", "it starts and ends on C, and G leads to it."),
    ],
)
def test_reasons_name_the_chords_that_are_there(bars: str, edges: str) -> None:
    (found,) = infer_keys(chart(bars))
    assert found.reason.endswith(edges)


@pytest.mark.parametrize(
    ("bars", "key", "reason"),
    [
        ("D7|%|G7|%|C7|%|F7|%", "B♭ major", "D7 to F7 is a chain of dominants that leads to B♭."),
        ("E7|A7|D7|G7", "C major", "E7 to G7 is a chain of dominants that leads to C."),
    ],
)
def test_a_chain_of_dominants_is_in_the_key_that_its_last_one_points_to(
    bars: str, key: str, reason: str
) -> None:
    (found,) = infer_keys(chart(bars))
    assert (str(found.key), found.reason) == (key, reason)
    assert found.sureness < 0.6


@pytest.mark.parametrize(
    ("bars", "key", "other"),
    [
        ("Dm7|G7|" * 3 + "Dm7|G7", "D minor", "C major"),
        ("Dm7|G7", "D minor", "C major"),
        ("Em|A|Em|A", "E minor", "D major"),
        ("Em7|A7|Em7|A7", "E minor", "D major"),
    ],
)
def test_a_dorian_vamp_is_on_the_chord_that_it_starts_on(bars: str, key: str, other: str) -> None:
    """Or it is ii–V of the key below; musicians differ, so both are told."""
    (found,) = infer_keys(chart(bars))
    assert (str(found.key), str(found.runner_up)) == (key, other)
    assert found.sureness < 0.8


def test_a_key_whose_tonic_never_sounds_is_not_so_sure() -> None:
    """E and F, with no A chord and no E7: E first (the Phrygian of flamenco), A minor beside it."""
    (found,) = infer_keys(chart("E | F | E | F . Dm . | E | F | Dm | E"))
    assert (str(found.key), str(found.runner_up)) == ("E major", "A minor")
    for bars in ("Dm F Dm F Dm F Dm F", "Em F G F Em F G F", "Dm Em Dm Em F Em Dm Em", "F G F G F G F G"):
        for one in infer_keys(chart(bars)):
            roots = {at.chord.root.pc for at in chart(bars).chords if at.chord is not None}
            assert one.key.tonic.pc in roots or one.sureness <= 0.5


def test_six_to_five_to_one_in_minor() -> None:
    """The ii–V to VI between does not make it the tonic alone: F minor, or D♭ major."""
    (found,) = infer_keys(chart("Dbmaj9|C7#9|Fm9|Ebm9 Ab13|Dbmaj9|C7#9|Fm9|Bb9sus4"))
    assert {str(found.key), str(found.runner_up)} == {"F minor", "D♭ major"}
    (loop,) = infer_keys(chart("Dbmaj7|C7|Fm7|Fm7|Dbmaj7|C7|Fm7|Fm7"))
    assert str(loop.key) == "F minor"
