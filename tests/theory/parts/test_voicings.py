"""Layouts of chords. Terms are those of harmony textbooks and of jazz arranging (common practice, from memory)."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName, Pitch
from studio.theory.parts.spacing import spacing
from studio.theory.parts.voicings import read_voicings, voicing_at, voicing_of
from tests.theory.parts.played import pitches, played


@pytest.mark.parametrize(
    ("notes", "symbol", "bass", "inversion", "layout"),
    [
        ("C4 E4 G4", "C", "1", 0, "close"),
        ("E4 G4 C5", "C", "3", 1, "close"),
        ("G3 E4 C5", "C", "5", 2, "open"),
        ("C3 G3 E4", "C", "1", 0, "open"),
        ("C3 C4 E4 G4", "C", "1", 0, "close over the bass"),
        ("C3 G3 C4 E4", "C", "1", 0, "close over the bass"),
        ("C3 G3 E4 C5", "C", "1", 0, "open"),
        ("B3 C4 E4 G4", "Cmaj7", "7", 3, "close"),
        ("C4 E4 G4 B4", "Cmaj7", "1", 0, "close"),
        ("G3 C4 E4 B4", "Cmaj7", "5", 2, "drop 2"),
        ("C3 G3 B3 E4", "Cmaj7", "1", 0, "drop 2"),
        ("E3 C4 G4 B4", "Cmaj7", "3", 1, "drop 3"),
        ("C3 B3 E4 G4", "Cmaj7", "1", 0, "drop 3"),
        ("C3 G3 E4 B4", "Cmaj7", "1", 0, "drop 2 and 4"),
        ("D3 C4 E4 G4", "C/D", "2", None, "close over the bass"),
    ],
)
def test_positions(notes: str, symbol: str, bass: str, inversion: int | None, layout: str) -> None:
    found = voicing_of(pitches(notes), read_chord(symbol))
    assert (found.chord, found.bass, found.inversion) == (read_chord(symbol), bass, inversion)
    assert found.spacing == layout


def test_a_close_chord_with_a_ninth_is_not_a_drop() -> None:
    assert spacing(pitches("C3 E3 G3 D4"), read_chord("Cadd9")) == "open"


def test_doublings_and_missing_tones() -> None:
    found = voicing_of(pitches("A2 A3 C#4 A4 G4"), read_chord("A7"))
    assert [(one.degree, str(one.note), one.times) for one in found.doublings] == [("1", "A", 3)]
    assert found.missing == ("5",)
    rootless = voicing_of(pitches("G3 B3 C#4 F#4"), read_chord("A13"))
    assert rootless.missing == ("1", "5")
    assert rootless.inversion == 3


def test_notes_outside_the_chart_are_named_by_themselves() -> None:
    assert voicing_of(pitches("A3 C#4 E4 G4"), read_chord("A")).chord == read_chord("A7")
    assert voicing_of(pitches("A3 C#4 E4"), read_chord("A7")).chord == read_chord("A7")


def test_hands_are_told_apart() -> None:
    notes = (*played("A2+E3:4", staff=2), *played("C#4+E4+A4:4", staff=1))
    found = voicing_at(notes, F(1))
    assert ([str(p) for p in found.left], [str(p) for p in found.right]) == (
        ["A2", "E3"],
        ["C♯4", "E4", "A4"],
    )
    assert (found.left_spacing, found.right_spacing) == ("close", "close")
    assert voicing_at(played("A2+E3:4", staff=2), F(1)).left == (), "one staff has no hands to tell apart"
    assert found.span.end == 4


def test_nothing_and_a_single_note() -> None:
    silence = voicing_at((), F(0))
    assert (silence.chord, silence.pitches, silence.spread, silence.reason) == (
        None,
        (),
        (0, 0),
        "Nothing sounds here.",
    )
    single = voicing_of(pitches("A3"), read_chord("A"))
    assert (single.chord, single.reason) == (None, "Only A sounds, which is no chord.")


roots = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1))
triads = st.sampled_from(["", "m", "dim", "aug"])
sevenths = st.sampled_from(["7", "maj7", "m7", "m7♭5", "dim7", "mMaj7"])


@st.composite
def voicings(draw: st.DrawFn) -> tuple[Chord, list[Pitch]]:
    """A triad or seventh chord with each tone in one to three octaves, in any order."""
    chord = Chord.of(draw(roots), draw(triads | sevenths))
    found = []
    for tone in chord.tones:
        for octave in draw(st.sets(st.integers(2, 4), min_size=1, max_size=3)):
            found.append(Pitch(chord.root, octave).transposed(tone.letters, tone.semitones))
    assume(len({pitch.midi for pitch in found}) == len(found))
    return chord, draw(st.permutations(found))


def theirs(tones: list[Pitch]):  # type: ignore[no-untyped-def]  # music21 has no types
    from music21 import chord

    return chord.Chord([str(pitch).replace("♭", "-").replace("♯", "#") for pitch in tones])


@settings(deadline=None)  # music21 takes long to load
@given(voicings())
def test_inversions_agree_with_music21(drawn: tuple[Chord, list[Pitch]]) -> None:
    """``Chord.inversion()``; music21 finds the root by itself, from the spelling."""
    chord, tones = drawn
    assert voicing_of(tones, chord).inversion == theirs(tones).inversion()


@settings(deadline=None)  # music21 takes long to load
@given(voicings())
@pytest.mark.slow
def test_close_is_what_music21_calls_closed(drawn: tuple[Chord, list[Pitch]]) -> None:
    """Without doublings a voicing is close just if ``closedPosition()`` leaves it as it is."""
    chord, tones = drawn
    assume(len({pitch.name for pitch in tones}) == len(tones))
    closed = [pitch.midi for pitch in theirs(tones).closedPosition().sortAscending().pitches]
    assert (spacing(tones, chord) == "close") == (closed == sorted(pitch.midi for pitch in tones))


@settings(deadline=None)  # music21 takes long to load
@given(voicings())
def test_spread_agrees_with_music21(drawn: tuple[Chord, list[Pitch]]) -> None:
    """The interval from the lowest to the highest note, by letters and by half steps."""
    from music21 import interval

    chord, tones = drawn
    ordered = theirs(tones).sortDiatonicAscending().pitches
    low, high = min(ordered, key=lambda p: p.ps), max(ordered, key=lambda p: p.ps)
    between = interval.Interval(low, high)
    assert voicing_of(tones, chord).spread == (between.generic.undirected - 1, between.semitones)


@settings(deadline=None)
@given(roots, st.sampled_from(["", "m"]), st.sampled_from(["3", "5"]))
def test_missing_tones_agree_with_music21(root: NoteName, quality: str, left_out: str) -> None:
    """``isIncompleteMajorTriad`` and ``isIncompleteMinorTriad`` are true of a triad without its fifth."""
    chord = Chord.of(root, quality)
    tones = [
        Pitch(root, 3).transposed(tone.letters, tone.semitones)
        for tone in chord.tones
        if tone.degree.lstrip("♭") != left_out
    ]
    found = theirs(tones)
    incomplete = found.isIncompleteMajorTriad() if quality == "" else found.isIncompleteMinorTriad()
    assert incomplete == (left_out == "5")
    assert [degree.lstrip("♭") for degree in voicing_of(tones, chord).missing] == [left_out]


@given(
    roots,
    sevenths,
    st.integers(0, 3),
    st.sampled_from([("drop 2", [2]), ("drop 3", [3]), ("drop 2 and 4", [2, 4])]),
)
def test_dropping_voices_of_a_close_chord_is_recognised(
    root: NoteName, quality: str, turns: int, drop: tuple[str, list[int]]
) -> None:
    """The inverse: lay out each inversion close, put the voices (counted from the top) an octave down, read it."""
    chord = Chord.of(root, quality)
    stack = [Pitch(root, 4).transposed(tone.letters, tone.semitones) for tone in chord.tones]
    close = [*stack[turns:], *(pitch.transposed(7, 12) for pitch in stack[:turns])]
    name, voices = drop
    dropped = [
        pitch.transposed(-7, -12) if 4 - place in voices else pitch for place, pitch in enumerate(close)
    ]
    assert spacing(close, chord) == "close"
    assert spacing(dropped, chord) == name


@given(voicings(), st.sampled_from([(1, 2), (2, 3), (4, 7), (-1, -1), (7, 12)]))
def test_transposing_changes_nothing_but_the_notes(
    drawn: tuple[Chord, list[Pitch]], move: tuple[int, int]
) -> None:
    chord, tones = drawn
    here = voicing_of(tones, chord)
    there = voicing_of([pitch.transposed(*move) for pitch in tones], chord.transposed(*move))
    assert (there.inversion, there.spacing, there.missing) == (here.inversion, here.spacing, here.missing)
    assert (there.spread, there.bass) == (here.spread, here.bass)
    assert [one.times for one in there.doublings] == [one.times for one in here.doublings]


@given(voicings())
def test_doublings_count_every_note(drawn: tuple[Chord, list[Pitch]]) -> None:
    chord, tones = drawn
    counts = Counter(pitch.name for pitch in tones)
    doubled = {one.note: one.times for one in voicing_of(tones, chord).doublings}
    assert doubled == {name: times for name, times in counts.items() if times > 1}


def test_a_thousand_notes_are_read_whole() -> None:
    bar = played("A2+E3+A3+C#4+E4 A2+E3+A3+D4+F#4 A2+E3+A3+C#4+E4 G#2+E3+B3+D4+E4")
    notes = [replace(note, onset=note.onset + 4 * number) for number in range(50) for note in bar]
    assert len(notes) == 1000
    found = read_voicings(notes, [F(beat) for beat in range(200)])
    assert found[0].chord == Chord.of(NoteName("A"))
