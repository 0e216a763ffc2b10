"""Each kind of reading on progressions that handbooks and fake books use to show it.

Sources, by name beside the cases: OMT is Open Music Theory (open textbook); AS is Aldwell and Schachter, Harmony
and Voice Leading; KP is Kostka and Payne, Tonal Harmony; JT is Levine, The Jazz Theory Book. Chapters from memory.
Where no source is named it is common practice of popular and jazz musicians.
"""

from fractions import Fraction

import pytest

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import Reading
from tests.theory.charts import chart, numerals, readings


def one(bars: str, key: str, at: int = 1) -> Reading:
    """The reading of one chord of a short chart, the second if not said."""
    return readings(bars, key)[at]


@pytest.mark.parametrize(
    ("bars", "key", "numeral", "kind", "name"),
    [
        # OMT, “Neapolitan chord”; KP, “The Neapolitan chord”: ♭II6 to V or to the six-four
        ("C Db/F G7 C", "C", "♭II6", "Neapolitan", ""),
        ("Cm Db/F G7 Cm", "C minor", "♭II6", "Neapolitan", ""),
        ("Cm Db C/G G Cm", "C minor", "♭II", "Neapolitan", ""),
        ("Cm Db/F F#dim7 G", "C minor", "♭II6", "Neapolitan", ""),
        ("C Db/F C", "C", "♭II6", "Neapolitan", ""),
        # ♭II that sways with i is Phrygian (common practice of rock and flamenco), and with a ii–V of its own
        # it is a key for the moment
        ("Em F Em", "E minor", "♭II", "borrowed", ""),
        ("Em F G", "E minor", "♭II", "borrowed", ""),
        ("Bb7 Ebmaj7 Em7 A7 D", "D", "♭IImaj7", "borrowed", "local tonic"),
        ("Ab Db Cm", "C minor", "♭II", "borrowed", ""),
        # ♭VI7 among sevenths: the minor blues, and the substitute of the fifth in major
        ("Cm7 Ab7 G7#9 Cm7", "C minor", "♭VI7", "blues", "♭VI7 to V7"),
        ("Dm7 Ab13 G9 C", "C", "♭II13/V", "substitute dominant", ""),
        # OMT, “Augmented sixth chords”; KP: Italian, French and German, to V or to the six-four
        ("C Ab7 G C", "C", "♭VI7", "augmented sixth", "German augmented sixth"),
        ("Am F7 E7 Am", "A minor", "♭VI7", "augmented sixth", "German augmented sixth"),
        ("C Ab7 C/G G7 C", "C", "♭VI7", "augmented sixth", "German augmented sixth"),
        ("C Ab7b5 G C", "C", "♭VI7♭5", "augmented sixth", "French augmented sixth"),
        ("C Ab7(no5) G C", "C", "♭VI7(no5)", "augmented sixth", "Italian augmented sixth"),
        ("C G#7 G C", "C", "♭VI7", "augmented sixth", "German augmented sixth"),
        # JT, “Tritone substitution”
        ("Dm7 Db7 Cmaj7", "C", "♭II7", "substitute dominant", ""),
        ("Dm7 Db9 Cmaj7", "C", "♭II9", "substitute dominant", ""),
        ("Dm7 Db7 C7", "C", "♭II7", "substitute dominant", ""),
        ("Em7 Eb7 Dm7 G7", "C", "♭II7/ii", "substitute dominant", ""),
        ("C F#7 Fmaj7", "C", "♭II7/IV", "substitute dominant", ""),
        ("Bm7b5 Bb7 Am7", "C", "♭II7/vi", "substitute dominant", ""),
        ("Dm7b5 Db7 Cm7", "C minor", "♭II7", "substitute dominant", ""),
        # JT, “Backdoor”: iv7–♭VII7–I
        ("Fm7 Bb7 Cmaj7", "C", "♭VII7", "borrowed", "backdoor dominant"),
        # OMT, “Common-tone chords”; KP, “Common-tone diminished seventh chords”
        ("C Cdim7 C", "C", "i°7", "common-tone diminished", ""),
        ("C Ebdim7 C/E", "C", "♭iii°7", "common-tone diminished", ""),
        ("C F#dim7 C", "C", "♯iv°7", "common-tone diminished", ""),
        ("G7 A#dim7 G7", "C", "♯vi°7", "common-tone diminished", ""),
        # passing: JT, “♭iii°7 between iii and ii”; half-step slides are common practice
        ("Em7 Ebdim7 Dm7", "C", "♭iii°7", "passing", "passing diminished"),
        ("Cmaj7 Ebdim7 Dm7", "C", "♭iii°7", "passing", "sliding diminished"),
        ("G7 Ebdim7 Dm7", "C", "♭iii°7", "passing", "sliding diminished"),
        ("Em7 Ebm7 Dm7", "C", "♭iii7", "passing", ""),
        ("Dm7 Dbmaj7 Cmaj7", "C", "♭IImaj7", "passing", ""),
        ("C B C", "C", "VII", "passing", "neighbour chord"),
        # OMT, “Chromatic mediants”
        ("C A C", "C", "VI", "chromatic mediant", ""),
        ("C E C", "C", "III", "chromatic mediant", ""),
        ("C Ebm C", "C", "♭iii", "chromatic mediant", ""),
        ("C Abm C", "C", "♭vi", "chromatic mediant", ""),
        # OMT, “Blues harmony”
        ("F7 C7 F7", "C", "I7", "blues", "blues seventh"),
        ("C F7 C", "C", "IV7", "blues", "blues seventh"),
        ("F7 C9 F9", "C", "I9", "blues", "blues seventh"),
        # OMT, “Modal mixture”; ♭VI–♭VII–I and v–IV are common practice of rock
        ("C Ab Bb C", "C", "♭VI", "borrowed", ""),
        ("C Bb F C", "C", "♭VII", "borrowed", ""),
        ("C Gm F C", "C", "v", "borrowed", ""),
        ("C Fm C", "C", "iv", "borrowed", ""),
        ("Am D Am", "A minor", "IV", "borrowed", ""),
        ("Am D G F", "A minor", "IV", "borrowed", ""),
        ("Am Bm Am", "A minor", "ii", "borrowed", ""),
        ("C D F C", "C", "II", "borrowed", ""),
        ("C D C D", "C", "II", "borrowed", ""),
        ("C F#m7b5 Fmaj7", "C", "♯ivø7", "borrowed", ""),
        # OMT, “Tierce de Picardie”
        ("E7 A", "A minor", "I", "borrowed", "Picardy third"),
        ("E7 A Dm", "A minor", "I", "borrowed", "Picardy third"),
        # KP, “Secondary functions”
        ("C B7 Em", "C", "V7/iii", "applied", ""),
        ("C C7 F", "C", "V7/IV", "applied", ""),
        ("C Caug F", "C", "V+/IV", "applied", ""),
        ("Am A Dm", "A minor", "V/iv", "applied", ""),
        ("E7 A/C# Dm", "A minor", "V6/iv", "applied", ""),
        ("C F#m7b5 G", "C", "viiø7/V", "applied", ""),
        ("C E7 F", "C", "V7/vi", "applied", ""),
        ("Am E F", "C", "V/vi", "applied", ""),
        ("Bb7 Eb Ab C", "C", "♭III", "borrowed", ""),
        # AS, “Six-four chords”: cadential, passing, pedal (neighbouring)
        ("F C/G G C", "C", "I6/4", "diatonic", "cadential six-four"),
        ("F C/G G7 C", "F", "I6/4/V", "applied", "cadential six-four of V"),
        ("G D/A A7 D", "G", "I6/4/V", "applied", "cadential six-four of V"),
        ("C Am/E E7 Am", "C", "i6/4/vi", "applied", "cadential six-four of vi"),
        ("Am C/G G7 C", "A minor", "I6/4/♭III", "applied", "cadential six-four of ♭III"),
        ("E Dm/A A Dm", "A minor", "iv6/4", "diatonic", ""),  # A is the tonic with its major third
        ("C G/D C/E", "C", "V6/4", "diatonic", "passing six-four"),
        ("C F/C C", "C", "IV6/4", "diatonic", "pedal six-four"),
        # I over 5 that a rising bass gets to (gospel; the arrival six-four)
        ("Bdim7 F/C D7 Gm", "F", "I6/4", "diatonic", "arrival six-four"),
        ("Ebm6 Bb6/F G7 C7", "Bb", "Iadd6", "diatonic", "arrival six-four"),
        ("Am C/G F", "C", "I6/4", "diatonic", "passing six-four"),
        ("F/A C/G F", "C", "I6/4", "diatonic", "passing six-four"),
        # JT: a substitute may bring its own ii
        ("Dm7 Ebm7 Ab7 G7", "C", "♭iii7", "other", "related ii"),
        # I7 of minor: on the way to iv or at home in the blues
        ("Am A7 Dm", "A minor", "V7/iv", "applied", ""),
        ("F#m7 F#7 F#m7", "F# minor", "I7", "blues", "blues tonic"),
        # riffs in Phrygian and Locrian; a chord without its third does no other job
        ("E5 F5 E5", "E minor", "♭II5", "borrowed", ""),
        ("G5 F5 E5", "E minor", "♭II5", "borrowed", ""),
        ("E5 F5 B5", "E minor", "♭II5", "borrowed", ""),
        ("F5 Bb5 A5", "E minor", "♭V5", "borrowed", ""),
        # what has no name
        ("C Caug C6", "C", "I+", "other", "raised fifth"),
        ("C F#m F", "C", "♯iv", "other", ""),
    ],
)  # fmt: skip
def test_kinds(bars: str, key: str, numeral: str, kind: str, name: str) -> None:
    reading = one(bars, key)
    assert (reading.numeral, reading.kind, reading.name) == (numeral, kind, name), reading.reason


@pytest.mark.parametrize(
    ("bars", "key", "numeral"),
    [
        ("Fmaj7 G/F Fmaj7 G/F Em7 Am7 Fmaj7", "F", "II4/2"),
        ("F G F G Em Am F", "F", "II"),
        ("F Bdim F Bdim Em Am F", "F", "♯iv°"),
    ],
)
def test_a_lydian_chord_is_one_thing_throughout_a_vamp(bars: str, key: str, numeral: str) -> None:
    first, last = readings(bars, key)[1:4:2]
    assert first.numeral == last.numeral == numeral
    assert (first.kind, first.source) == (last.kind, last.source)


def test_a_seventh_on_the_second_degree_points_to_five() -> None:
    """II–IV is Lydian as a triad (Open Music Theory, “Modal Schemas”); B♭13 before D♭ is V of V that goes elsewhere."""
    _, hung, resolved, _ = readings("Ab Bb13sus4 Bb13 Dbmaj9", "Ab")
    assert [one.numeral for one in (hung, resolved)] == ["V13sus4/V", "V13/V"]
    assert not resolved.resolved


def test_an_applied_chord_of_a_borrowed_chord() -> None:
    applied = one("C Eb7 Ab G", "C")
    assert (applied.numeral, applied.of, applied.resolved) == ("V7/♭VI", "♭VI", True)
    assert numerals("C Fm7 Bb7 Ebmaj7", "C") == "I ii7/♭III V7/♭III ♭IIImaj7"
    assert one("C C7 Fm", "C").numeral == "V7/iv"
    assert numerals("C Ebm7 Ab7 Dbmaj7 G7", "C") == "I ii7/♭II V7/♭II ♭IImaj7 V7"


def test_augmented_sixths_have_their_names_in_common_practice() -> None:
    assert numerals("C Ab7 G", "C", "common-practice") == "I Ger+6 V"
    assert numerals("C Ab7b5 G", "C", "common-practice") == "I Fr+6 V"
    assert numerals("C Ab7(no5) G", "C", "common-practice") == "I It+6 V"
    german = one("C Ab7 G", "C")
    assert german.reason == "A♭7 is a German augmented sixth: A♭ and F♯ press outward to G."
    assert one("C Ab7(no5) G", "C").reason.startswith("A♭7(no5) is an Italian augmented sixth: ")
    assert (german.runner_up, german.function) == ("♭II7/V", "subdominant")


def test_the_augmented_sixth_of_a_minor_blues_is_the_second_reading() -> None:
    flat_six = one("Cm7 Ab7 G7#9 Cm7", "C minor")
    assert (flat_six.runner_up, flat_six.function) == ("Ger+6", "subdominant")
    assert flat_six.reason == "A♭7 slides down a half step to G7♯9, the ♭VI7 of the minor blues."
    assert one("Cm Ab7 G Cm", "C minor").name == "German augmented sixth"


def test_the_dominants_of_a_chain_are_each_of_the_next() -> None:
    """JT, “III–VI–II–V”; the bridge of a rhythm changes."""
    chain = readings("B7 E7 A7 D7 G7 C", "C")
    assert " ".join(reading.numeral for reading in chain) == "V7/iii V7/vi V7/ii V7/V V7 I"
    assert [reading.name for reading in chain[:4]] == ["extended dominant"] * 3 + [""]
    assert chain[0].reason == "B7 is the dominant of Em; E7 follows, as a dominant in its turn."
    assert [reading.resolved for reading in chain[:4]] == [False, False, False, True]


def test_an_applied_dominant_resolves_through_what_leads_there_too() -> None:
    through = readings("D7 F#dim7 C/G G7 C", "C")
    assert [reading.numeral for reading in through] == ["V7/V", "vii°7/V", "I6/4", "V7", "I"]
    assert all(reading.resolved for reading in through[:2])


def test_a_dominant_that_looks_back() -> None:
    """AS, “back-relating dominant”."""
    back = one("Dm A Bb", "C")
    assert (back.numeral, back.resolved) == ("V/ii", False)
    assert one("Dm A F", "C").reason == "A is the dominant of Dm, which was just heard; F follows."


def test_a_diminished_seventh_goes_by_what_it_does() -> None:
    """The four inversions sound alike; the next chord decides, and the spelling only where it is no help."""
    assert one("C Bdim7 Am", "C").numeral == "vii°6/5/vi"
    assert one("C Ddim7 C", "C").numeral == "vii°6/5"
    assert one("C C#dim7 Dm", "C").numeral == "vii°7/ii"
    assert one("C Ebdim7 Em", "C").numeral == "vii°7/iii"


def test_colours_do_not_change_what_a_chord_is() -> None:
    plain = [reading.kind for reading in readings("C A7 Dm Db7 C Db C", "C")]
    rich = [reading.kind for reading in readings("Cadd9 A7b9 Dm11 Db13 C6/9 Dbmaj9 C6/9", "C")]
    assert plain == rich


def test_a_polychord_is_read_by_its_lower_chord() -> None:
    both = Chord.of(NoteName("G"), "7", upper=Chord.of(NoteName("A")))
    song = Chart(
        (ChordAt(Fraction(0), Fraction(4), both), ChordAt(Fraction(4), Fraction(4), Chord(NoteName("C"))))
    )
    reading, _ = read_chart(song, ((Fraction(0), Key.parse("C")),))
    assert (reading.kind, reading.function, reading.numeral) == ("diatonic", "dominant", "V7")
    assert reading.reason == "A|G7 belongs to C major, on its fifth degree; A on top adds 9, ♯11 and 13."


def test_numerals_without_figures() -> None:
    keys = ((Fraction(0), Key.parse("C")),)
    plain = read_chart(chart("C/E G7/B A7/C# Dm/F C/Bb Bdim7/D"), keys, figured=False)
    assert [reading.numeral for reading in plain] == ["I", "V7", "V7/ii", "ii", "I7", "vii°7"]
    assert plain[0].reason == "C/E belongs to C major, on its first degree; the bass is E, its third."
    assert all(reading.numeral_display.figures == () for reading in plain)


def test_reasons_are_short() -> None:
    for bars in (
        "C Ab7 G Db7 C Em7 Ebdim7 Dm7 F#m7b5 B7 Em",
        "C7 F7 C A C Db/F G7 C D F C Cdim7 C Fm7 Bb7 C",
    ):
        for reading in readings(bars, "C"):
            assert reading.reason.endswith(".")
            assert len(reading.reason) <= 90, reading.reason


@pytest.mark.parametrize("bars", ["C Ab7 G C#7 C Eb F Ab Bb C", "C F#7 F Db/F G C", "C Abm C Ebm C D#m Dm"])
def test_the_same_sound_by_another_letter_is_the_same_chord(bars: str) -> None:
    """Charts mix D♭ and C♯; the numerals follow the key."""
    respelled = bars
    for one, other in (("C#", "Db"), ("Ab", "G#"), ("Eb", "D#"), ("F#", "Gb"), ("Bb", "A#")):
        respelled = respelled.replace(one, "?").replace(other, one).replace("?", other)
    assert respelled != bars
    assert numerals(respelled, "C") == numerals(bars, "C")
