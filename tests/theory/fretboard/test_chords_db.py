"""Against shapes that people play: `@tombatossals/chords-db` 0.5.1 (npm, MIT); see `chords_db.py`."""

from __future__ import annotations

from collections import Counter

import pytest

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.theory.fretboard.given import judge_shape, with_fingers
from studio.theory.fretboard.hand_positions import Wishes
from studio.theory.fretboard.named_tunings import STANDARD
from studio.theory.fretboard.search import find_shapes
from studio.theory.fretboard.shape import Shape, read_shape
from tests.theory.fretboard import chords_db

ENTRIES = tuple(chords_db.entries())
CHORDS = {entry.name: entry.chord for entry in ENTRIES}

# The eight kinds of chord of the figure, in all twelve keys.
PLAIN = ("major", "minor", "7", "maj7", "m7", "sus2", "sus4", "add9")


def listed(table: dict[str, str], sign: str = "") -> set[tuple[str, str]]:
    return {
        (name, text.split(sign)[0] if sign else text)
        for name, texts in table.items()
        for text in texts.split()
    }


def test_every_shape_of_the_library_sounds_what_its_name_says_but_those_that_are_explained() -> None:
    assert (chords_db.LIBRARY["version"], len(ENTRIES)) == ("0.5.1", 529)
    assert sum(len(entry.shapes) for entry in ENTRIES) == 2069
    assert STANDARD.text == chords_db.LIBRARY["tuning"]
    wrong = {
        (entry.name, shape.text)
        for entry in ENTRIES
        for shape in entry.shapes
        if not judge_shape(shape, STANDARD, entry.chord).right
    }
    explained = (
        listed(chords_db.ROOT_LEFT_OUT)
        | listed(chords_db.WITH_ELEVENTH)
        | listed(chords_db.OPEN_FOR_SILENT, ">")
        | listed(chords_db.ANOTHER_CHORD, "=")
    )
    assert wrong == explained
    assert len(wrong) == 84  # of 2069, one in 25


@pytest.mark.parametrize(("name", "text"), sorted(listed(chords_db.ROOT_LEFT_OUT)))
def test_shapes_that_leave_the_root_out_are_right_without_it(name: str, text: str) -> None:
    assert judge_shape(read_shape(text), STANDARD, CHORDS[name], rootless=True).right


def test_thirteenths_that_differ_hold_a_natural_eleventh_and_nothing_else_is_wrong() -> None:
    for name, text in listed(chords_db.WITH_ELEVENTH):
        found = judge_shape(read_shape(text), STANDARD, CHORDS[name])
        eleventh = CHORDS[name].root.transposed(3, 5)
        assert ([note.pc for note in found.foreign], found.missing) == ([eleventh.pc], ())
    thirteenths = [entry for entry in ENTRIES if entry.suffix in ("13", "maj13")]
    with_eleventh = len(listed(chords_db.WITH_ELEVENTH))
    assert with_eleventh < sum(len(entry.shapes) for entry in thirteenths) / 2


@pytest.mark.parametrize(("name", "pair"), sorted(listed(chords_db.OPEN_FOR_SILENT)))
def test_open_strings_that_ought_to_be_silent(name: str, pair: str) -> None:
    _, mended = pair.split(">")
    assert judge_shape(read_shape(mended), STANDARD, CHORDS[name]).right


@pytest.mark.parametrize(("name", "pair"), sorted(listed(chords_db.ANOTHER_CHORD)))
def test_shapes_that_are_another_chord(name: str, pair: str) -> None:
    text, real = pair.split("=")
    assert judge_shape(read_shape(text), STANDARD, read_chord(real)).right


def test_the_first_five_of_our_search_hold_a_shape_that_people_play(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """In so many of the twelve keys. Sus2 is low because the library lets its barres sound the fifth below the root
    (446644 for our x46644), which our rule keeps for C♯sus2/G♯; see the next test."""
    hits = hits_by_quality(same_grip=False)
    with capsys.disabled():
        print(f"\nfirst five hold a shape of the library in so many keys of 12: {dict(hits)}")
    assert hits == {
        "major": 12,
        "minor": 12,
        "7": 12,
        "maj7": 11,
        "m7": 12,
        "sus2": 4,
        "sus4": 12,
        "add9": 12,
    }
    assert hits.total() / 96 >= 0.9


def test_nearly_all_are_there_with_strings_left_out_below_the_root() -> None:
    hits = hits_by_quality(same_grip=True)
    assert min(hits.values()) >= 11 and hits.total() >= 94


def hits_by_quality(same_grip: bool) -> Counter[str]:
    """For each kind of chord, in how many keys our first five hold a shape of the library."""
    hits: Counter[str] = Counter()
    for entry in ENTRIES:
        if entry.suffix in PLAIN:
            known = {shape.frets for shape in entry.shapes}
            if same_grip:
                known |= {rooted(shape, entry.chord) for shape in entry.shapes}
            hits[entry.suffix] += any(
                one.shape.frets in known for one in find_shapes(entry.chord, STANDARD, most=5)
            )
    return hits


def rooted(shape: Shape, chord: Chord) -> tuple[int | None, ...]:
    """The shape without what sounds below its lowest root."""
    pitches = shape.pitches(STANDARD, chord)
    low = next((string for string, pitch in enumerate(pitches) if pitch and pitch.name == chord.root), 0)
    return (*(None,) * low, *shape.frets[low:])


def test_the_search_finds_every_shape_of_the_library_that_obeys_its_rules() -> None:
    """Up to the twelfth fret, within reach, with at most one silent string inside, four fingers enough, and the
    right note at the bottom."""
    for entry in ENTRIES:
        if entry.suffix not in ("major", "minor", "7", "m7b5", "maj9", "/F#"):
            continue
        found = {one.shape.text for one in find_shapes(entry.chord, STANDARD, Wishes(reach=5), most=100_000)}
        for shape in entry.shapes:
            judged = judge_shape(shape, STANDARD, entry.chord)
            if judged.right and not judged.inverted and shape.highest_fret <= 12:
                assert shape.text in found or covered(shape.frets, found), (entry.name, shape.text)


def covered(frets: tuple[int | None, ...], found: set[str]) -> bool:
    """Whether a found shape is this one with strings left out or added, and so the same grip."""
    for text in found:
        pairs = list(zip(frets, read_shape(text).frets, strict=True))
        if all(a == b or a is None or b is None for a, b in pairs):
            return True
    return False


def test_fingers_are_mostly_those_of_the_library() -> None:
    """Ours are the library's in nine of ten shapes of the plain chords, and nearly so of all; the rest is taste."""
    same: Counter[str] = Counter()
    judged: Counter[str] = Counter()
    for entry in ENTRIES:
        for shape in entry.shapes:
            if ours := with_fingers(Shape(shape.frets)).fingers:
                for group in ("all", *(["plain"] if entry.suffix in PLAIN else [])):
                    judged[group] += 1
                    same[group] += ours == shape.fingers
    assert judged["all"] > 2000 and judged["plain"] > 370
    assert same["plain"] / judged["plain"] >= 0.92
    assert same["all"] / judged["all"] >= 0.88


@pytest.mark.parametrize(
    ("shape", "fingers"),
    [
        # As they are taught; common practice.
        ("xx0232", "000132"), ("x32010", "032010"), ("320003", "210003"), ("022100", "023100"), ("x02210", "002310"),
        ("x02220", "001230"), ("022000", "023000"), ("133211", "134211"), ("x24432", "013421"), ("x21202", "021304"),
        ("x32030", "021030"), ("x32033", "021034"), ("320033", "210034"), ("x02020", "002030"), ("xx0212", "000213"),
        ("x355xx", "013400"), ("x32310", "032410"), ("xx3211", "003211"), ("x02013", "002014"),
        ("131113", "131114"), ("xx1333", "001333"), ("x54555", "021333"),
    ],
)  # fmt: skip
def test_fingers_as_they_are_taught(shape: str, fingers: str) -> None:
    assert "".join(map(str, with_fingers(read_shape(shape)).fingers)) == fingers
