"""Our search for shapes: what every shape obeys, symmetries, and the chords that every guitarist learns first."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_qualities import QUALITIES
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName
from studio.theory.fretboard.fingering import FINGERS
from studio.theory.fretboard.hand_positions import Wishes, reach_at
from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS, read_tuning
from studio.theory.fretboard.needed_tones import needed_tones
from studio.theory.fretboard.search import find_shapes, why_no_shape
from studio.theory.fretboard.shape import Shape
from studio.theory.fretboard.tuning import Tuning

ROOTS = [NoteName.from_fifths(place) for place in range(-6, 7)]
CHORDS = st.builds(
    Chord.of,
    st.sampled_from(ROOTS),
    st.sampled_from(sorted(QUALITIES)),
    bass=st.none() | st.sampled_from(ROOTS),
)
FRETTED = st.sampled_from([tuning for tuning in TUNINGS.values() if len(tuning.strings) < 7])


def shapes(chord: str, tuning: Tuning = STANDARD, wishes: Wishes | None = None, most: int = 12) -> list[str]:
    return [found.shape.text for found in find_shapes(read_chord(chord), tuning, wishes or Wishes(), most)]


@pytest.mark.parametrize(
    ("chord", "shape"),
    [
        # What beginners are taught. Common practice.
        ("C", "x32010"), ("D", "xx0232"), ("E", "022100"), ("G", "320003"), ("A", "x02220"), ("Am", "x02210"),
        ("Em", "022000"), ("Dm", "xx0231"), ("E7", "020100"), ("A7", "x02020"), ("D7", "xx0212"), ("G7", "320001"),
        ("C7", "x32310"), ("B7", "x21202"), ("Bm", "x24432"), ("B", "x24442"), ("Bb", "x13331"), ("Cmaj7", "x32000"),
        ("Am7", "x02010"), ("Dsus4", "xx0233"), ("Asus2", "x02200"), ("Fm", "xx3111"), ("F#m", "xx4222"),
        ("D/F#", "200232"), ("C#", "x46664"),
    ],
)  # fmt: skip
def test_the_shapes_that_every_guitarist_knows_come_early(chord: str, shape: str) -> None:
    assert shape in shapes(chord, most=2)


@pytest.mark.parametrize(
    ("chord", "shape"),
    [
        # Common practice on a ukulele in C.
        ("C", "0003"), ("G", "0232"), ("F", "2010"), ("Am", "2000"), ("Bb", "3211"), ("A7", "0100"),
    ],
)  # fmt: skip
def test_the_shapes_that_every_ukulele_player_knows_come_first(chord: str, shape: str) -> None:
    assert shapes(chord, TUNINGS["ukulele"], most=1) == [shape]


def test_full_barre_chords_are_found_beside_the_small_ones() -> None:
    assert {"xx3211", "133211"} <= set(shapes("F", most=5))
    assert {"xx4222", "244222"} <= set(shapes("F#m", most=5))


@settings(deadline=None, max_examples=60)
@given(CHORDS, FRETTED, st.integers(0, 7), st.integers(5, 12))
def test_every_shape_sounds_the_chord_and_can_be_pressed(
    chord: Chord, tuning: Tuning, capo: int, highest: int
) -> None:
    tuning = tuning.with_capo(capo)
    needed = needed_tones(chord)
    for found in find_shapes(chord, tuning, Wishes(highest_fret=highest)):
        shape = found.shape
        sounding = {pitch.name.pc for pitch in shape.pitches(tuning, chord) if pitch}
        assert sounding <= chord.pcs
        assert all(sounding & group for group in needed.groups)
        lowest, last = shape.lowest_fret, shape.highest_fret
        assert last <= highest and last - lowest < reach_at(lowest, tuning.reach)
        bass = shape.bass(tuning, chord)
        assert bass is not None and (chord.bass is None or bass.name.pc == chord.bass.pc)
        assert sum(cost.points for cost in found.costs) == pytest.approx(found.cost)
        fingers_make_sense(shape)


def fingers_make_sense(shape: Shape) -> None:
    """One finger for each pressed string, at one fret each; a higher fret never has a lower finger."""
    frets_of: dict[int, set[int]] = {}
    for fret, finger in zip(shape.frets, shape.fingers, strict=True):
        assert (finger > 0) == bool(fret) and finger <= FINGERS
        if fret:
            frets_of.setdefault(finger, set()).add(fret)
    assert all(len(frets) == 1 for frets in frets_of.values())
    in_order = [min(frets_of[finger]) for finger in sorted(frets_of)]
    assert in_order == sorted(in_order)
    for barre in shape.barres:
        under = shape.frets[barre.first : barre.last + 1]
        assert all(fret is not None and fret >= barre.fret for fret in under)
        beyond = shape.frets[barre.last + 1 :]
        assert all(fret is None or fret >= barre.fret for fret in beyond), (
            "a flat finger lies on these strings"
        )


@settings(deadline=None, max_examples=40)
@given(CHORDS, FRETTED, st.integers(-5, 5))
def test_strings_and_chord_tuned_up_together_keep_their_frets(
    chord: Chord, tuning: Tuning, semitones: int
) -> None:
    root = NoteName.from_fifths((chord.root.fifths + 7 * semitones + 6) % 12 - 6)
    letters, rise = chord.root.interval_to(root)
    moved = find_shapes(chord.transposed(letters, rise), tuning.transposed(semitones))
    assert [found.shape for found in moved] == [found.shape for found in find_shapes(chord, tuning)]


@settings(deadline=None, max_examples=40)
@given(CHORDS, st.integers(1, 7))
def test_a_capo_plays_the_shapes_of_a_lower_chord(chord: Chord, capo: int) -> None:
    root = NoteName.from_fifths((chord.root.fifths - 7 * capo + 6) % 12 - 6)
    letters, rise = chord.root.interval_to(root)
    lower = find_shapes(chord.transposed(letters, rise), STANDARD)
    assert find_shapes(chord, STANDARD.with_capo(capo)) == lower


def test_a_capo_as_singers_use_it() -> None:
    assert shapes("A", STANDARD.with_capo(2), most=1) == ["320003"]


def test_a_wish_for_the_bass_is_a_slash() -> None:
    wished = find_shapes(read_chord("C"), STANDARD, Wishes(bass=NoteName("E")))
    assert wished == find_shapes(read_chord("C/E"), STANDARD)
    assert wished[0].shape.text == "032010"


def test_a_foreign_bass_sounds_in_the_bass_alone() -> None:
    for found in find_shapes(read_chord("C/D"), STANDARD, most=50):
        pitches = [pitch for pitch in found.shape.pitches(STANDARD) if pitch]
        assert [pitch.name.pc for pitch in sorted(pitches, key=lambda pitch: pitch.midi)].count(2) == 1
        assert min(pitches, key=lambda pitch: pitch.midi).name.pc == 2


def test_without_open_strings_a_shape_can_be_moved() -> None:
    for text in shapes("C", wishes=Wishes(open_strings=False)):
        assert "0" not in text.replace("10", "")


@pytest.mark.parametrize(
    ("chord", "must", "may_lack"),
    [
        # The rule at the head of needed_tones.py, common practice.
        ("C", "1 3 5", ""), ("C7", "1 3 ♭7", "5"), ("Cm7b5", "1 ♭3 ♭5 ♭7", ""), ("C6", "1 3 6", "5"),
        ("C9", "1 3 ♭7 9", "5"), ("C13", "1 3 ♭7 13", "5 9"), ("C11", "1 ♭7 11", "3 5 9"), ("Csus4", "1 4 5", ""),
        ("Cadd9", "1 3 9", "5"), ("C7#9", "1 3 ♭7 ♯9", "5"), ("Cm13", "1 ♭3 ♭7 13", "5 9 11"), ("C5", "1 5", ""),
    ],
)  # fmt: skip
def test_what_has_to_sound(chord: str, must: str, may_lack: str) -> None:
    needed, read = needed_tones(read_chord(chord)), read_chord(chord)
    by_pc = {tone.semitones % 12: tone.degree for tone in read.tones}
    assert {by_pc[pc] for group in needed.groups for pc in group} == set(must.split())
    assert {by_pc[pc] for pc in needed.may_lack} == set(may_lack.split())


def test_an_altered_dominant_wants_one_of_each_kind() -> None:
    for found in find_shapes(read_chord("C7alt"), STANDARD):
        degrees = {tone.degree for tone in found.shape.tones(STANDARD, read_chord("C7alt")) if tone}
        assert {"1", "3", "♭7"} <= degrees and degrees & {"♭9", "♯9"} and degrees & {"♯11", "♭13"}


def test_rootless_only_if_asked() -> None:
    chord = read_chord("C9")
    assert all(0 in pitch_classes(found.shape, chord) for found in find_shapes(chord, STANDARD, most=100))
    rootless = find_shapes(chord, STANDARD, Wishes(rootless=True), most=100)
    assert any(0 not in pitch_classes(found.shape, chord) for found in rootless)


def pitch_classes(shape: Shape, chord: Chord) -> set[int]:
    return {pitch.name.pc for pitch in shape.pitches(STANDARD, chord) if pitch}


def test_no_shape_is_explained() -> None:
    bass = TUNINGS["bass"]
    assert shapes("C7(#9,b13)", bass) == []
    assert why_no_shape(read_chord("C7(#9,b13)"), bass) == (
        "C7(♯9♭13) needs 5 different notes at once and bass tuning has 4 strings: "
        "leave its root to the bass, or write a plainer chord."
    )
    near = Wishes(highest_fret=1, open_strings=False)
    assert shapes("G", wishes=near) == []
    assert why_no_shape(read_chord("G"), STANDARD, near) == (
        "No hand position up to fret 1 holds G in standard tuning: "
        "allow a higher fret or a longer reach, or give the fingering yourself."
    )


def test_a_banjo_lets_its_short_string_ring_or_leaves_it() -> None:
    for found in find_shapes(read_chord("G"), TUNINGS["banjo"]):
        assert found.shape.frets[0] in (0, None)


@settings(deadline=None, max_examples=40)
@given(CHORDS, FRETTED, st.integers(1, 8))
def test_fewer_shapes_asked_for_are_the_first_of_more(chord: Chord, tuning: Tuning, most: int) -> None:
    """The search judges no more than it must, and that changes nothing."""
    everything = find_shapes(chord, tuning, most=10_000)
    assert find_shapes(chord, tuning, most=most) == everything[:most]
    assert [found.cost for found in everything] == sorted(found.cost for found in everything)


@pytest.mark.parametrize("strings", ["", "B1 ", "F#1 B1 ", "C#1 F#1 B1 "])
@pytest.mark.slow
def test_a_search_takes_milliseconds(strings: str) -> None:
    """It runs while a project is planned: a dozen chords in well under a second, on a slow machine too, and a neck of
    nine strings takes no more than some times as long as one of six."""
    tuning = read_tuning(strings + STANDARD.text)
    chords = [
        read_chord(f"{root}{quality}") for root in ("C#", "E", "A") for quality in ("", "m7", "11", "7alt")
    ]
    started = time.process_time()
    for chord in chords:
        find_shapes(chord, tuning, Wishes(highest_fret=11))
    assert time.process_time() - started < 1.0 + len(strings)
