"""Cadences. Definitions and examples by textbooks, each named beside its rows; the rest is common practice."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.pitch import NoteName
from studio.music.songtime import SongTime
from studio.theory.harmony.numerals import read_chart
from studio.theory.progression.cadences import Cadence, find_cadences, last_cadence
from studio.theory.progression.closing_note import Tune
from studio.theory.progression.harmonies import harmonies
from tests.theory.charts import COMMON_TIME, chart, line, readings


def last(bars: str, key: str, melody: str = "") -> Cadence | None:
    return last_cadence(readings(bars, key), COMMON_TIME, line(melody) if melody else ())


@pytest.mark.parametrize(
    ("bars", "key", "kind"),
    [
        # Open Music Theory, "Introduction to Harmony, Cadences, and Phrase Endings": V–I is authentic,
        # x–V is half whatever x is
        ("C F G C", "C", "authentic"),
        ("C Dm G7 C", "C", "authentic"),
        ("Am Dm E Am", "A minor", "authentic"),
        ("C Am F G", "C", "half"),
        ("C F C G", "C", "half"),
        ("C Am Dm G7", "C", "half"),
        ("Am F Dm E", "A minor", "half"),
        # same chapter: imperfect if either chord is not in root position
        ("C F G/B C", "C", "imperfect authentic"),
        ("C F G C/E", "C", "imperfect authentic"),
        # Open Music Theory, "Introduction to Harmonic Schemas in Pop Music": plagal IV–I, double plagal ♭VII–IV–I
        ("C G F C", "C", "plagal"),
        ("C Bb F C", "C", "double plagal"),
        # Open Music Theory, "Modal Schemas": Aeolian ♭VI–♭VII–i (or I), Lydian II–IV–I
        ("Am F G Am", "A minor", "Aeolian"),
        ("C Ab Bb C", "C", "Aeolian"),
        ("C D F C", "C", "Lydian"),
        # same chapter, subtonic shuttle: I–♭VII is Mixolydian, i–♭VII the same with a minor tonic
        ("C F Bb C", "C", "Mixolydian"),
        ("Am Dm G Am", "A minor", "subtonic"),
        # Coker, Elements of the Jazz Language for the Developing Improvisor, 1997, p. 82, as encyclopedias quote it
        ("C Fm7 Bb7 C", "C", "backdoor"),
        ("C F Bb7 C", "C", "backdoor"),
        # common practice of handbooks
        ("C F Fm C", "C", "minor plagal"),
        ("C F G7 Am", "C", "deceptive"),
        ("Am Dm E7 F", "A minor", "deceptive"),
        ("Am F Dm/F E", "A minor", "Phrygian half"),
        ("C F G7/F C/E", "C", "evaded"),
        ("C F Bdim C", "C", "imperfect authentic"),
        ("C Dm7 Db7 Cmaj7", "C", "tritone-substitute"),
        ("Am F Em Am", "A minor", "minor dominant"),
        ("Am Dm Bb Am", "A minor", "Phrygian"),
        ("C F F/G C", "C", "authentic"),
    ],
)  # fmt: skip
def test_kinds(bars: str, key: str, kind: str) -> None:
    found = last(bars, key)
    assert found is not None and found.kind == kind


@pytest.mark.parametrize(
    "bars", ["C F G Em", "C C C C", "C Em Am F", "G G G G", "N.C. N.C. N.C. C", "C F C/G C/G"]
)
def test_no_cadence(bars: str) -> None:
    assert last(bars, "C") is None


@pytest.mark.parametrize(
    ("melody", "kind"),
    [
        # Open Music Theory, same chapter: perfect needs 1 in the melody over the tonic
        ("E4:4 F4:4 D4:4 C4:4", "perfect authentic"),
        ("E4:4 F4:4 D4:4 E4:4", "imperfect authentic"),
        ("E4:4 F4:4 F4:4 G4:4", "imperfect authentic"),
        # a suspension counts as what it resolves to, here 2–1 over the tonic (common practice)
        ("E4:4 F4:4 D4:5 C4:3", "perfect authentic"),
        # and so does any decoration of the last note: appoggiatura, turn, a fall to the tonic
        ("E4:4 F4:4 D4:4 F4 E4 C4:2", "perfect authentic"),
        ("E4:4 F4:4 D4:4 B3 D4 C4:2", "perfect authentic"),
        ("E4:4 F4:4 D4:4 F4 D4 E4:2", "imperfect authentic"),
    ],
)
def test_the_melody_tells_perfect_from_imperfect(melody: str, kind: str) -> None:
    found = last("C F G C", "C", melody)
    assert found is not None and found.kind == kind


@pytest.mark.parametrize(
    ("melody", "ends"), [("D4:4 F4 E4 C4:2", "C"), ("D4:4 F4 D4 E4:2", "E"), ("D4:4 r:4", None)]
)
def test_the_note_that_a_melody_closes_on(melody: str, ends: str | None) -> None:
    """Common practice: the note that it settles on, not the one that decorates it."""
    _, home = harmonies(readings("G C", "C"))
    found = Tune(line(melody)).closing_note(home)
    assert (None if found is None else str(found)) == ends


def test_of_a_block_chord_the_top_counts() -> None:
    _, home = harmonies(readings("G C6", "C"))
    assert str(Tune((*line("r:4 E4:4"), *line("r:4 G4:4"), *line("r:4 A4:4"))).closing_note(home)) == "A"


def test_of_several_voices_the_highest_is_the_melody() -> None:
    voices = (*line("G3:4 A3:4 B3:4 E4:4"), *line("E5:4 F5:4 D5:4 C5:4"))
    found = last_cadence(readings("C F G C", "C"), COMMON_TIME, voices)
    assert found is not None and found.kind == "perfect authentic"


def test_phrases_that_were_heard_replace_the_guess_of_four_bars() -> None:
    """A period of 5 + 5 bars: the guess looks for its half cadence in bar 4."""
    chords = readings("C Am Dm Dm G7 C Am Dm G7 C", "C")
    phrases = (COMMON_TIME.bars(1, 5), COMMON_TIME.bars(6, 10))
    found = find_cadences(chords, COMMON_TIME, phrases=phrases)
    assert [(cadence.kind, COMMON_TIME.bar_at(cadence.at)) for cadence in found] == [
        ("half", 5), ("authentic", 10),
    ]  # fmt: skip
    assert 5 not in [COMMON_TIME.bar_at(cadence.at) for cadence in find_cadences(chords, COMMON_TIME)]


def test_motion_inside_a_phrase_is_no_cadence() -> None:
    found = find_cadences(readings("C G C F C G Am F C F G C", "C"), COMMON_TIME)
    assert [(cadence.kind, COMMON_TIME.bar_at(cadence.at)) for cadence in found] == [("authentic", 12)]


def test_a_loop_that_comes_round_is_no_cadence_until_its_section_ends() -> None:
    assert not find_cadences(readings("A E F#m D A E F#m D", "A"), COMMON_TIME)
    found = find_cadences(readings("Dm7 G7 C C Dm7 G7 C C", "C"), COMMON_TIME)
    assert [COMMON_TIME.bar_at(cadence.at) for cadence in found] == [7]
    sections = (COMMON_TIME.bars(1, 4), COMMON_TIME.bars(5, 8))
    found = find_cadences(readings("Dm7 G7 C C Dm7 G7 C C", "C"), COMMON_TIME, sections)
    assert [COMMON_TIME.bar_at(cadence.at) for cadence in found] == [3, 7]


def test_a_period_is_half_closed_then_closed() -> None:
    found = find_cadences(readings("C Am Dm G7 C Am G7 C", "C"), COMMON_TIME)
    assert [(cadence.kind, cadence.numerals) for cadence in found] == [
        ("half", ("ii", "V7")), ("authentic", ("V7", "I")),
    ]  # fmt: skip
    assert found[0].runner_up == "authentic cadence into the next phrase"
    assert found[0].sureness < found[1].sureness


def test_a_turnaround_does_not_open_what_has_closed() -> None:
    found = last("| C | Am | Dm7 G7 | C A7 Dm7 G7 |", "C")
    assert found is not None and (found.kind, COMMON_TIME.bar_at(found.at)) == ("authentic", 4)
    found = last("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7", "C")
    assert found is not None and (found.kind, found.runner_up) == (
        "half",
        "plagal cadence, then a turnaround",
    )


def test_the_bar_in_which_the_last_chord_rings_belongs_to_the_phrase() -> None:
    found = find_cadences(readings("C F C G C F F G7 C", "C"), COMMON_TIME)
    assert [(cadence.kind, COMMON_TIME.bar_at(cadence.at)) for cadence in found] == [
        ("half", 4),
        ("authentic", 9),
    ]


def test_a_close_on_another_degree_says_which() -> None:
    found = last("C F E7 Am", "C")
    assert found is not None and (found.kind, found.of) == ("authentic", "vi")


def test_cadences_are_measured_in_the_key_that_they_reach() -> None:
    keys = ((Fraction(0), Key.parse("C")), (Fraction(8), Key.parse("G")))
    (found,) = find_cadences(read_chart(chart("C Am D7 G"), keys), COMMON_TIME)
    assert (found.kind, str(found.key), found.numerals) == ("authentic", "G major", ("V7", "I"))


def at_bars(bars: str, key: str) -> list[tuple[str, int]]:
    found = find_cadences(readings(bars, key), COMMON_TIME)
    return [(cadence.kind, COMMON_TIME.bar_at(cadence.at)) for cadence in found]


@pytest.mark.parametrize(
    ("bars", "key"),
    [
        # common practice: ii–V is on its way, and so is a V that goes to the next V or makes I into V/IV
        ("| Fmaj7 | E7#9 | Am9 | Gm9 C13 |", "A minor"),
        ("| Em7b5 | A7b9 | Dm7b5 | G7b9 | Cm7b5 | F7b9 |", "Bb"),
        ("| G | Gmaj7 | G7 | C | Cm | D | Em | C |", "G"),
        ("| F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 |", "F"),
    ],
)
def test_two_that_leads_to_five_closes_nothing(bars: str, key: str) -> None:
    found = find_cadences(readings(bars, key), COMMON_TIME)
    assert not [cadence for cadence in found if cadence.of or cadence.kind == "minor dominant"]


@pytest.mark.parametrize(
    ("bars", "key", "kind", "bar"),
    [
        # common practice: what closes a song closes it wherever its bars are counted from
        ("| Em7 A7 | Dmaj7 | Fm7 Bb7 | Ebmaj7 | Em7 A7 | Dmaj7 | % | % |", "D", "authentic", 6),
        ("G C D7 G G C D7 D7 G G", "G", "authentic", 9),
        ("Dm7 G7 Cmaj7 A7alt", "C", "authentic", 3),
        ("| D | A | D | A | G Gm | Dadd9 | % |", "D", "minor plagal", 6),
        ("| Cm7 | Eb | F | % | Fsus4 F |", "Bb", "half", 3),
        ("| Fmaj9 | Gm11 | Am7 Abmaj7 | Gm7/C |", "F", "half", 4),
        ("| Gm7 | Gb7 | Fmaj7 | Gb7 |", "F", "tritone-substitute", 3),
        ("| Bm7 | E7 | A | F#m7 | Bm7 | E7 | Aadd9 | A7/C# |", "A", "authentic", 7),
    ],
)
def test_the_last_cadence_is_found(bars: str, key: str, kind: str, bar: int) -> None:
    assert at_bars(bars, key)[-1] == (kind, bar)


def test_five_goes_to_six_where_the_chord_says_so() -> None:
    """Handbooks: V7 after a cadential six-four promises I; vi in its place is deceptive, wherever the phrase is."""
    assert ("deceptive", 7) in at_bars("| F | C/E | Dm | Bb | F/C | C7 | Dm | Bb C | F |", "F")
    found = find_cadences(readings("| C | F/A | Ab7 | C/G G7 | Am | Ab7 | G | C |", "C"), COMMON_TIME)
    assert (found[0].kind, found[0].numerals, found[0].runner_up) == (
        "deceptive",
        ("V7", "vi"),
        "half cadence",
    )
    assert ("deceptive", 3) not in at_bars("C G Am F C G F G", "C")


def test_two_five_one_in_jazz_closes_over_the_end_of_the_phrase() -> None:
    """Common practice: the I of ii7–V7–I may be the first bar of the next phrase; in plain triads V stays open."""
    found = find_cadences(
        readings("Cmaj7 A7 Dm7 G7 Cmaj7 Fmaj7 Dm7 G7 C6 F7 Em7 A7 Dm7 G7 C6 C6", "C"), COMMON_TIME
    )
    first, second, *_ = found
    assert [(one.kind, COMMON_TIME.bar_at(one.at), one.runner_up) for one in (first, second)] == [
        ("authentic", 5, "half cadence"),
        ("authentic", 9, "half cadence"),
    ]
    assert at_bars("C Am Dm G C Am G C", "C")[0] == ("half", 4)


def test_the_turns_of_a_blues_are_no_plagal_cadences() -> None:
    """Common practice: I–IV–I inside a phrase only leans on IV; at the end of a piece it is the amen."""
    assert [bar for _, bar in at_bars("A7 D7 A7 A7 D7 D7 A7 A7 E7 D7 A7 E7", "A")] == [12]
    assert at_bars("A E/A D/A A F#m F#m/E D E", "A") == [("half", 8)]  # over a held bass I only comes back
    assert at_bars("Em F Em F G F Em Em", "E minor") == [("Phrygian", 7)]
    assert at_bars("C Fm C", "C") == [("minor plagal", 3)]


def test_a_turnaround_that_begins_again_closes_nothing() -> None:
    """Common practice: I VI ii V twice in four bars is motion; so begins every rhythm changes."""
    bars = "| C6 A7 | Dm7 G7 | C6 A7 | Dm7 G7 | Gm7 C7 | Fmaj7 Bb7 | Dm7 G7 | C6 |"
    assert [bar for kind, bar in at_bars(bars, "C") if kind == "authentic"] == [8]


def test_a_picardy_third_is_named() -> None:
    """Handbooks: a piece in minor that closes on its major tonic."""
    minor, major = find_cadences(readings("Em Am B7 Em C Am B E", "E minor"), COMMON_TIME)
    assert (minor.picardy, major.picardy, major.kind) == (False, True, "authentic")
    assert major.reason.endswith("with a Picardy third.")


def told(bars: str, key: str, meter: str = "4/4") -> list[tuple[str, str, str]]:
    """Where each cadence arrives, its kind with the degree that it closes on, and the runner-up."""
    time = SongTime(((1, Meter.parse(meter)),), ((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2))))
    chords = read_chart(Chart(read_bars(bars, 1, time)), ((Fraction(0), Key.parse(key)),))
    found = find_cadences(chords, time)
    return [(time.moment(one.at), f"{one.kind} {one.of}".strip(), one.runner_up) for one in found]


@pytest.mark.parametrize(
    ("bars", "key", "home", "amen", "kind"),
    [
        ("| F | Bb | F/C . C7 . | F . Bb . | F |", "F", "4.1", "5.1", "plagal"),
        (
            "| C | F | C | G | C | Am | F | C/G . G7 . | C . F/C . | C |", "C",
            "9.1", "10.1", "plagal",
        ),
        (
            "| Ab | Db | Ab/Eb . F7#9 . | Bbm7 . Eb7sus4 . | Ab | Db . Gb7 . | Ab/Eb . Fm7 . | Bb9 . Dbmaj7/Eb . "
            "| Ab . Dbm/Ab . | Ab |", "Ab", "9.1", "10.1", "minor plagal",
        ),
    ],
)  # fmt: skip
def test_an_amen_confirms_a_close_and_does_not_replace_it(
    bars: str, key: str, home: str, amen: str, kind: str
) -> None:
    """Handbooks: what comes after V–I, IV–I over a held tonic as a rule, is a tag; the close is the V–I."""
    *_, close, tag = told(bars, key)
    assert close == (home, "authentic", "")
    assert tag == (amen, kind, "authentic cadence, then a plagal tag")


def test_five_that_comes_by_its_own_five_has_closed() -> None:
    """Common practice: D7–G as the end of eight bars or after V's own six-four is a close in V, else a half cadence."""
    bars = "| F | Bb | C7 | F | Dm | G7 | C | C | Am | F | C/G . G7 . | C | C7 | F | Gm . C7 . | F |"
    assert [one[:2] for one in told(bars, "F")] == [
        ("4.1", "authentic"), ("7.1", "authentic V"), ("12.1", "authentic V"), ("16.1", "authentic"),
    ]  # fmt: skip
    assert told(bars, "F")[1][2] == "half cadence"
    hymn = "| Eb . Bb/D Cm | Ab Eb/G Fm Bb7 | Eb . F7/A Bb | Cm F7 Bb . | Bb7/Ab Eb/G C7/E Fm | Bb/D Eb G7/B Cm |"
    assert told(f"{hymn} Ab Eb/Bb Bb7 . | Eb |", "Eb")[0] == ("4.3", "half", "authentic cadence on V")


@pytest.mark.parametrize("bars", ["C | Am | D7 | G7", "C | Am | F | G", "C | F | Dm | G"])
def test_five_from_a_chord_of_the_key_or_with_its_seventh_stays_open(bars: str) -> None:
    """Handbooks: V that comes from I, ii, IV or vi is half closed, and so is V7 whatever it comes from."""
    assert [(kind, other) for _, kind, other in told(bars, "C")] == [("half", "")]


@pytest.mark.parametrize(
    ("bars", "key", "ends"),
    [
        # common practice: in a loop whose end is varied only the end of the section counts, and vi is a chord of it
        ("C|G|D|Em|C|G|D|D|C|G|D|Em|C|G|D|Em", "G", []),
        ("Em|C|G|D|Em|C|D|D", "G", [("7.1", "half")]),
        ("Fmaj7|C|G|Am|Fmaj7|C|G|G", "C", [("7.1", "half")]),
        ("E|D|A|E|E|D|A|E|E|D|A|B", "E", [("12.1", "half")]),
        ("G|D|A|Bm|G|D|Em|A|A", "D", [("8.1", "half")]),
        # a vamp of ii and V, or of i and IV in Dorian, stops nowhere
        ("Dm7|G7|Dm7|G7|Dm7|G7|Dm7|G7", "C", []),
        ("Dm7|G|Dm7|G|Dm7|G|Dm7|G", "D minor", []),
        # a phrase that closes and is sung again is no loop either, if the section goes on
        (
            "C|Dm7|G7|C|C|Dm7|G7|C|F|Bb|G7|C",
            "C",
            [("4.1", "authentic"), ("8.1", "authentic"), ("12.1", "authentic")],
        ),
        # a period is no loop, though three of its four bars come again
        ("C|F|G|G|C|F|G|C", "C", [("3.1", "half"), ("8.1", "authentic")]),
    ],
)
def test_what_goes_round_closes_where_its_section_ends(
    bars: str, key: str, ends: list[tuple[str, str]]
) -> None:
    assert [one[:2] for one in told(bars, key)] == ends


@pytest.mark.parametrize(
    ("bars", "key", "meter", "last"),
    [
        # common practice: five beats part as 3 + 2 or 2 + 3, seven as 4 + 3 or 3 + 4, twelve eighths in the middle
        ("Em . . G . | A . . C . | Em . . G . | A . . B7 .", "E minor", "5/4", ("4.4", "half")),
        ("C . . F . | G | Am . . F . | C . . G .", "C", "5/4", ("4.4", "half")),
        ("Dm . . Bb . | Gm . . C . | Dm . . Bb . | Dm . . E7 .", "A minor", "5/4", ("4.4", "half")),
        ("Em . G . . | A . C . . | Em . G . . | A . B7 . .", "E minor", "5/4", ("4.3", "half")),
        ("Em | C | G | Am . . . B7 . .", "E minor", "7/8", ("4.5", "half")),
        ("C | Am | F | C . G .", "C", "12/8", ("4.3", "half")),
        ("C . . . F | G | Am . . F . | C . . . G", "C", "5/4", ("4.1", "plagal")),
    ],
)
def test_harmonies_arrive_where_the_parts_of_a_bar_begin(
    bars: str, key: str, meter: str, last: tuple[str, str]
) -> None:
    assert told(bars, key, meter)[-1][:2] == last


def test_no_deceptive_cadence_in_passing() -> None:
    """Common practice: V–vi inside a phrase needs V7, or V's six-four, to be more than motion."""
    assert "deceptive" not in [
        kind for _, kind, _ in told("Eb | Ab | Eb . F7/A Bb | Cm | Ab | Bb7 | Eb | Eb", "Eb")
    ]
    assert "deceptive" not in [kind for _, kind, _ in told("C . F . | G | Am . F . | C . G .", "C")]


def test_a_half_cadence_names_what_a_sus_chord_has_become() -> None:
    found = last("| Ebmaj7 | Cm7 | Fm7 | Bb7sus4 . Bb7 . |", "Eb")
    assert found is not None and found.reason.startswith("The phrase stops on B♭7, ")


def test_nothing_has_no_cadence() -> None:
    assert find_cadences((), COMMON_TIME) == ()
    assert last_cadence((), COMMON_TIME) is None


CHORDS = ("C", "Dm7", "G7", "Am", "F", "Fm", "Bb", "Ab", "E7", "C/E", "G/B", "F/G", "Gsus4")


@given(
    st.lists(st.sampled_from(CHORDS), min_size=1, max_size=16), st.integers(0, 6), st.sampled_from((1, -1, 0))
)
def test_transposing_the_music_transposes_the_cadences_and_nothing_else(
    symbols: list[str], letters: int, shift: int
) -> None:
    semitones = (0, 2, 4, 5, 7, 9, 11)[letters] + (shift if letters else 0)
    here = chart(" ".join(symbols))
    there = Chart(
        tuple(
            ChordAt(at.start, at.length, at.chord and at.chord.transposed(letters, semitones))
            for at in here.chords
        )
    )
    home = Key(NoteName("C"), "major")
    before = find_cadences(read_chart(here, ((Fraction(0), home),)), COMMON_TIME)
    after = find_cadences(
        read_chart(there, ((Fraction(0), home.transposed(letters, semitones)),)), COMMON_TIME
    )
    assert [(c.kind, c.at, c.span, c.sureness, c.of) for c in before] == [
        (c.kind, c.at, c.span, c.sureness, c.of) for c in after
    ]
