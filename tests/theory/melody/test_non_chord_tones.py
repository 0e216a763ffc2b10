"""Kinds of non-chord tones and what else is said of them. Shapes are those of harmony textbooks (from memory);
the textbooks' own examples are in test_worked_examples."""

from fractions import Fraction as F

import pytest

from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.note_reading import NoteReading
from studio.theory.wording.melody import tone_words
from tests.theory.charts import COMMON_TIME, chart, line


def reading(bars: str, notes: str, which: int, key: str = "") -> NoteReading:
    keys = ((F(0), Key.parse(key)),) if key else ()
    return read_melody(line(notes), chart(bars), keys=keys, time=COMMON_TIME)[which]


@pytest.mark.parametrize(
    ("bars", "notes", "which", "kind", "traits"),
    [
        # passing
        ("C", "C5:3/2 D5:1/2 E5:2", 1, "passing", ()),
        ("C", "C5:3/2 C#5:1/2 D5:1/2 D#5:1/2 E5", 1, "passing", ("chromatic", "triple")),
        ("C", "G4 A4 B4 C5", 1, "passing", ("double",)),
        ("C", "G4 A4 B4 C5", 2, "passing", ("accented", "double")),
        ("C G", "E4:4 F4 G4:3", 1, "passing", ("accented",)),
        # neighbours
        ("C", "E5:3/2 F5:1/2 E5:2", 1, "neighbour", ("upper",)),
        ("C", "E5 F5:1/2 E5:5/2", 1, "neighbour", ("upper",)),
        ("C", "G4:2 F4:1/2 G4:3/2", 1, "neighbour", ("accented", "lower")),
        ("C", "E5:3/2 D#5:1/2 E5:2", 1, "neighbour", ("chromatic", "lower")),
        ("Am", "A4:3/2 B4:1/4 G4:1/4 A4:2", 2, "double neighbour", ("lower",)),
        ("Am", "E5 B4:1/2 G#4:1/2 A4", 2, "enclosure", ("lower",)),
        ("C", "C5 B4:1/2 B4:1/2 C5:2", 2, "neighbour", ("lower",)),
        # leaps
        ("C", "G4:2 D5 C5", 1, "appoggiatura", ()),
        ("C", "E5:2 B4 G4", 1, "non-chord tone", ()),
        # A leap and a step on the same way: leaning where it is accented, else an incomplete neighbour.
        ("C G", "C5:4 E5:2 D5:2", 1, "appoggiatura", ()),
        ("G C", "G4:4 D5 E5:3", 1, "appoggiatura", ()),
        # A neighbour comes back to the same note.
        ("Dm7 Db7#11 C", "E4:4 Eb4:2 F4:2 E4:4", 1, "incomplete neighbour", ("lower",)),
        ("C", "E5:3/2 F5:1/2 Eb5:2", 1, "incomplete neighbour", ("upper",)),
        ("C", "E5:3/2 F5:1/2 C5:2", 1, "escape", ()),
        ("C", "C5 D5 G5:2", 1, "incomplete neighbour", ()),
        ("C", "G5 D5 C5:2", 1, "incomplete neighbour", ()),
        ("C6 G/B", "C5 B4 G4 A4 B4:4", 1, "cambiata", ()),
        ("C6 G/B", "C5 B4 G4 A4 G4:4", 1, "incomplete neighbour", ()),
        # early notes
        ("C G", "C5:7/2 B4:9/2", 1, "anticipation", ("pushed",)),
        ("C G", "C5:15/4 B4:17/4", 1, "anticipation", ("pushed",)),
        ("C G", "C5:2 B4:5/2 D5:7/2", 1, "anticipation", ("tied over",)),
        ("C G", "C5:7/2 B4:1/2 B4:4", 1, "anticipation", ()),
        # pedals
        ("C F G7 C", "C4:16", 2, "pedal", ()),
        ("C F G7 C", "C4:4 C4:4 C4:4 C4:4", 2, "pedal", ("rearticulated",)),
        ("C D C", "G4:4 G4:4 G4:4", 1, "pedal", ("rearticulated",)),
    ],
)  # fmt: skip
def test_kinds_and_traits(bars: str, notes: str, which: int, kind: str, traits: tuple[str, ...]) -> None:
    found = reading(bars, notes, which, "A minor" if bars == "Am" else "C")
    assert (found.kind, found.traits) == (kind, traits), found.reason


@pytest.mark.parametrize(
    ("bars", "notes", "key", "which", "traits"),
    [
        # The fourth of a chord from outside the key passes plainly: F–E♭–D over B♭7, in F.
        ("Bb7", "Ab4 F4:1/2 Eb4:1/2 D4:2", "F", 2, ()),
        ("F", "C5 B4:1/2 Bb4:1/2 A4:2", "F", 1, ("chromatic", "double")),
        # Over a chord of the key, what is foreign to the key is chromatic.
        ("Em7", "E4 F#4:1/2 G4:5/2", "C", 1, ("chromatic",)),
        ("G7", "D5 D#5:1/2 E5:1/2 F5:2", "C", 1, ("chromatic", "double")),
    ],
)
def test_chromatic_is_what_neither_key_nor_borrowed_chord_has(
    bars: str, notes: str, key: str, which: int, traits: tuple[str, ...]
) -> None:
    found = reading(bars, notes, which, key)
    assert tuple(trait for trait in found.traits if trait != "accented") == traits, found.reason


@pytest.mark.parametrize(
    ("bars", "notes", "which", "bass", "kind", "traits"),
    [
        ("C G", "C5:5 B4:3", 1, False, "suspension 4–3", ()),
        ("C G", "C5:4 C5 B4:3", 1, False, "suspension 4–3", ("rearticulated",)),
        ("C G", "C5:4 C5 C5 B4:2", 2, False, "suspension 4–3", ("rearticulated",)),
        ("C G", "C5:5 A4:1/2 B4:5/2", 1, False, "suspension 4–3", ("decorated",)),
        ("C G", "C5:5 D5:1/2 C5:1/2 B4:2", 1, False, "suspension 4–3", ("decorated",)),
        ("C G", "C5:5 D5:1 B4:2", 1, False, "suspension 4–3", ("decorated",)),
        ("C G", "C5:5 E5:1/2 D5:1/2 G4:2", 1, False, "non-chord tone", ()),
        ("G C", "B4:6 C5:2", 1, False, "retardation 7–8", ()),
        ("G C", "D3:5 C3:3", 1, True, "suspension 2–3", ("bass",)),
        ("C G7/B", "C3:5 B2:3", 1, True, "suspension 2–3", ("bass",)),
        ("G5 C5", "D3:5 C3:3", 1, True, "suspension 4–5", ("bass",)),
    ],
)
def test_held_notes(
    bars: str, notes: str, which: int, bass: bool, kind: str, traits: tuple[str, ...]
) -> None:
    found = read_melody(line(notes), chart(bars), bass=bass)[which]
    assert (found.kind, found.traits) == (kind, traits), found.reason


def test_a_chain_of_suspensions() -> None:
    """Over falling sixth chords each 7–6 prepares the next; a lone one is no chain."""
    found = read_melody(line("C5:4 C5 B4:3 B4 A4:3 A4 G4:3"), chart("F/A G/B Am/C G/B"))
    held = [one for one in found if one.kind.startswith("suspension")]
    assert len(held) >= 2
    assert all("chain" in one.traits for one in held)
    alone = read_melody(line("C5:5 B4:3"), chart("C G"))[1]
    assert "chain" not in alone.traits


def test_a_pushed_note_belongs_to_the_next_chord() -> None:
    early, held = read_melody(line("C5:7/2 B4:9/2"), chart("C G"))[1:]
    assert early.pushed
    assert early.next_chord is not None
    assert early.next_degree is not None
    assert (early.next_degree.label, early.degree and early.degree.label) == ("3", "7")
    assert early.reason == "B is pushed: it comes an eighth early and is held into G, to which it belongs."
    assert (held.kind, held.approach.kind, held.next_degree) == ("chord tone", "held", None)


def test_a_tone_of_both_chords_is_pushed_off_the_beat() -> None:
    on_the_and = reading("C Am", "E5:7/2 C5:9/2", 1)
    assert (on_the_and.kind, on_the_and.pushed) == ("chord tone", True)
    assert on_the_and.next_degree is not None
    assert on_the_and.next_degree.label == "♭3"
    assert not reading("C Am", "E5:3 C5:5", 1).pushed


def test_what_sounds_as_the_chord_comes_is_no_escape_tone() -> None:
    held = reading("Em C", "B4:2 G4:2 F4:2 C5:2", 2)
    assert (held.kind, held.runner_up) == ("non-chord tone", "escape")
    ninth = reading("F C", "G5:2 C5:2 D5:2 G4:2", 2)
    assert (ninth.kind, ninth.runner_up) == ("colour tone", "escape")


def test_what_is_accented_is_never_on_a_weak_beat() -> None:
    """As textbooks call accented what falls on a stronger place than its resolution, and beats 2 and 4 weak."""
    found = reading("Am", "E5:2 E5 D5:1/2 C5:1/2", 2)
    assert found.beat is not None
    assert (found.kind, found.traits, found.beat.name) == ("passing", (), "weak beat")
    waltz = read_melody(
        line("F4 E4 D4:1/2 C4:1/2"),
        chart("F"),
        time=SongTime(((1, Meter(3, 4)),), ((F(0), F(0)), (F(3), F(2)))),
    )
    assert [one.traits for one in waltz if one.kind == "passing"] == [("double",), ("double",)]


def test_passing_notes_lead_to_an_early_note_too() -> None:
    """A–G–F over F and G, E before its C: two pass, between A and E."""
    bars, notes = "| F . G . | C |", "A4 G4 F4 E4 E4:4"
    found = [reading(bars, notes, which) for which in (1, 2, 3)]
    assert [one.kind for one in found] == ["passing", "passing", "anticipation"]
    assert [one.reason for one in found[:2]] == [
        "G passes by step between A and E.", "F passes by step between A and E.",
    ]  # fmt: skip
    assert all("double" in one.traits for one in found[:2])


def test_a_cambiata_is_of_strict_counterpoint() -> None:
    """E–F–A in a song skips a third too; over two chords or at another pace it is no cambiata."""
    assert reading("C F", "E4:2 E4 F4 A4:2 G4 F4", 2).kind == "incomplete neighbour"
    assert reading("C6 F", "E4 F4 A4 G4 F4:4", 1).kind == "cambiata"
    assert reading("C6 F", "E4:1/2 F4:3/2 A4 G4 F4:4", 1).kind == "incomplete neighbour"


@pytest.mark.parametrize(
    ("bars", "key", "words"),
    [
        ("C F G C", "C", "pedal point"),  # the tonic over four chords
        ("F C D C", "F", "pedal point"),  # the dominant
        ("F G F", "F", "pedal point"),
        ("F Bb C F", "G", "2, a colour tone"),  # C: the fourth of G
        ("C G Am", "G minor", "repeated 4"),
    ],
)
def test_a_repeated_note_is_a_pedal_only_on_tonic_and_dominant(bars: str, key: str, words: str) -> None:
    """Under a vocal that repeats C over a loop nobody hears a pedal point (common practice)."""
    notes = line(" ".join("C5:2 C5:2" for _ in bars.split()))
    found = read_melody(notes, chart(bars), keys=((F(0), Key.parse(key)),), time=COMMON_TIME)
    assert {tone_words(one) for one in found if one.kind != "chord tone"} == {words}


def test_in_a_part_of_several_voices_the_bass_is_found() -> None:
    """The same two notes are 9–8 on top and 2–3 at the bottom."""
    top = read_melody([*line("D5:5 C5:3"), *line("G3:4 E3:4")], chart("G C"))
    bottom = read_melody([*line("D3:5 C3:3"), *line("B4:4 E5:4")], chart("G C"))
    assert [one.kind for one in top if one.kind.startswith("susp")] == ["suspension 9–8"]
    assert [one.kind for one in bottom if one.kind.startswith("susp")] == ["suspension 2–3"]


def test_how_a_note_is_come_to_and_left() -> None:
    found = read_melody(line("C5:2 E5:2 E5:4 F5:2 r:2 C5:4"), chart("C C7 F C"))
    moves = [(one.approach.kind, one.departure.kind) for one in found]
    assert moves == [
        ("none", "leap"), ("leap", "repeated"), ("repeated", "step"), ("step", "leap"), ("leap", "none"),
    ]  # fmt: skip
    held, on = read_melody(line("C5:8"), chart("C F"))
    assert (held.departure.kind, on.approach.kind) == ("held", "held")


def test_a_seventh_over_a_triad_may_be_of_the_chord() -> None:
    assert reading("G C", "G4:2 F4:2 E4:4", 1).runner_up == "chord tone"
    assert reading("G7 C", "G4:2 F4:2 E4:4", 1).kind == "chord tone"


def test_a_weak_leaning_note_has_another_name() -> None:
    """Open Music Theory calls only accented ones appoggiaturas."""
    assert reading("C", "G4:1/2 D5:1/2 C5:3", 1).runner_up == "incomplete neighbour"
    assert reading("C G", "C5:4 E5:2 D5:2", 1).runner_up == ""


def test_beats_and_degrees_of_the_key_are_said_where_they_are_known() -> None:
    told = reading("Am", "C5 B4 A4:2", 1, "A minor")
    assert told.beat is not None
    assert told.scale_degree is not None
    assert (told.beat.name, told.scale_degree.name) == ("weak beat", "supertonic")
    plain = read_melody(line("C5"), chart("C"))[0]
    assert (plain.beat, plain.scale_degree) == (None, None)
    silent = read_melody(line("C5 D5"), chart("N.C."), keys=((F(0), Key.parse("C")),), time=COMMON_TIME)[1]
    assert (silent.kind, silent.approach.kind) == ("no chord", "step")
    assert silent.scale_degree is not None


def test_every_doubtful_name_has_its_doubt() -> None:
    """Sureness is a share; whatever has a runner-up that is no chord tone is less than sure."""
    song, notes = "C Am F G", "C5 D5 G5 F5 A4 B4:2 C5 A4 D5 F5 E5 B4 D5 A4 G4 G4 F#4:1/2 A4:1/2 G4"
    for one in read_melody(line(notes), chart(song), time=COMMON_TIME):
        assert 0 < one.sureness <= 1
        assert one.reason.endswith(".")
        assert not one.runner_up or one.sureness < 1
