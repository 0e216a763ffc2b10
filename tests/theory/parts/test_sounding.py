"""Chords that sound. The bars are our own, but for the first bars of Mozart's K. 545 from music21's corpus."""

from dataclasses import replace
from fractions import Fraction as F
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.parts.sounding import Sounding, sounding_at, sounding_over, sounding_through
from tests.theory.parts.played import BAR, eighths, played, sonata


def names(found: tuple[Sounding, ...]) -> list[str]:
    return [one.chord.text if one.chord is not None else "–" for one in found]


@pytest.mark.parametrize(
    ("what", "notes", "chords"),
    [
        ("struck at once", "A3+C#4+E4:4", "A"),
        ("broken", "A3 C#4 E4 A4", "A"),
        ("first inversion", "C#3+A3+E4:4", "A/C♯"),
        ("two chords in a bar", "C4+E4+G4:2 F4+A4+C5:2", "C F"),
        ("struck again with fewer notes", "C4+E4+G4 E4+G4 C4+E4+G4 G4", "C"),
        ("added ninth, broken with leaps", "A2:1/2 E3:1/2 B3:1/2 C#4:5/2", "Aadd9"),
        ("power chord", "A2+E3+A3:4", "A5"),
        ("minor seventh, root lowest", "A3+C4+E4+G4:4", "Am7"),
        ("a sixth chord, root lowest", "C4+E4+G4+A4:4", "C6"),
        ("bass and chords by turns", "C3 E4+G4+C5 G2 E4+G4+C5", "C"),
        ("sus4 that stays", "A3+D4+E4:4", "Asus4"),
    ],
)
def test_one_harmony(what: str, notes: str, chords: str) -> None:
    assert names(sounding_over(played(notes), BAR)) == chords.split(), what


def test_a_fourth_that_steps_down_is_a_suspension() -> None:
    sus, plain = sounding_over(played("A3+D4+E4:2 A3+C#4+E4:2"), BAR)
    assert (sus.chord, sus.resolves_to) == (Chord.of(NoteName("A"), "sus4"), Chord.of(NoteName("A")))
    assert sus.reason == "D steps down to C♯, the third of A."
    assert plain.resolves_to is None
    assert (sus.span, plain.span) == (Span(F(0), F(2)), Span(F(2), F(4)))


def test_a_suspension_in_a_broken_chord() -> None:
    found = sounding_over(eighths("A3 D4 E4 D4 A3 C#4 E4 C#4"), BAR)
    assert names(found) == ["Asus4", "A"]
    assert found[0].resolves_to == Chord.of(NoteName("A"))
    assert names(sounding_over(eighths("A3 C#4 D4 E4 D4 C#4 A3 E4"), BAR)) == ["A"], (
        "a neighbour suspends nothing"
    )


def test_a_suspension_may_resolve_in_the_next_bar() -> None:
    bars = [BAR, Span(F(4), F(8))]
    minor = sounding_through(played("A3+D4+E4:4 A3+C4+E4:4"), bars)
    assert [one.resolves_to.text if one.resolves_to else "" for one in minor] == ["Am", ""]
    other = sounding_through(played("A3+D4+E4:4 D4+F4+A4:4"), bars)
    assert all(one.resolves_to is None for one in other)


@pytest.mark.parametrize(
    ("notes", "chord", "passing"),
    [
        ("C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:2", "C", "D F"),
        ("C4+E4+G4 C4+E4+G4 C4+F4+G4:1/2 C4+E4+G4:3/2", "C", ""),
        ("E4:1/2 F4:1/2 E4:1/2 G4:1/2 C4:2", "C", "F"),
        ("C3+E4+G4 B2+E4+G4 A2+E4+G4 G2+E4+G4", "C", "B A"),
    ],
)
def test_passing_notes_make_no_chord(notes: str, chord: str, passing: str) -> None:
    found = sounding_over(played(notes), BAR)
    assert names(found)[0] == chord
    if passing:
        (one,) = found
        assert " ".join(str(note) for note in one.passing) == passing
        assert one.reason.endswith("pass." if " " in passing else "passes.")


def test_the_key_decides_the_spelling_of_played_notes() -> None:
    """The same keys on the keyboard: D♭ major in A♭, C♯ major in F♯ minor."""
    numbers = (61, 65, 68)
    for key, chord in (("Ab", "D♭"), ("F# minor", "C♯")):
        notes = [Note(F(0), F(4), Pitch.from_midi(number, Key.parse(key))) for number in numbers]
        assert names(sounding_over(notes, BAR, Key.parse(key))) == [chord]


def test_what_hangs_over_or_is_pushed_belongs_elsewhere() -> None:
    first = [Note(F(0), F(65, 16), Pitch.parse(name)) for name in ("C4", "E4", "G4")]
    pushed = [Note(F(15, 2), F(9, 2), Pitch.parse(name)) for name in ("G3", "D4", "B4")]
    middle = [Note(F(4), F(7, 2), Pitch.parse(name)) for name in ("F4", "A4", "C5")]
    bars = [Span(F(start), F(start + 4)) for start in (0, 4, 8)]
    assert names(sounding_through([*first, *middle, *pushed], bars)) == ["C", "F", "G"]


def test_a_bass_line_stands_on_the_root_with_which_it_starts() -> None:
    """A root that starts alone is the bass, wherever the line goes from there."""
    assert names(sounding_over(played("D2 D2 A1 F#2"), BAR)) == ["D"]
    assert names(sounding_over(played("E5 C5 A4:2"), BAR)) == ["Am"], "an arpeggio that falls to its root"


def test_notes_that_lead_into_the_next_bar_make_no_chord() -> None:
    walk = played("B2 F#3 B2 A2 G2+B2+D3:4")
    assert names(sounding_through(walk, [BAR, Span(F(4), F(8))])) == ["B5", "G"]
    (one,) = sounding_over(played("A2:2 B2 C#3 D3:4"), BAR, written=Chord.of(NoteName("A")))
    assert [str(name) for name in one.passing] == ["B"], "C♯ is a note of the chart's A, and stays"


def test_nothing_and_next_to_nothing() -> None:
    (silence,) = sounding_over((), BAR)
    assert (silence.chord, silence.pitches, silence.reason) == (None, (), "Nothing sounds here.")
    (single,) = sounding_over(played("A4:4"), BAR)
    assert (single.chord, single.reason) == (None, "Only A sounds.")
    assert sounding_at((), F(3)).chord is None
    assert sounding_through((), []) == ()


def test_at_a_moment() -> None:
    notes = played("A3+C#4+E4:2 D4+F#4+A4:2")
    assert names((sounding_at(notes, F(1)), sounding_at(notes, F(2)))) == ["A", "D"]
    broken = played("A3 C#4 E4 A4")
    assert sounding_at(broken, F(1)).chord is None
    assert sounding_at(broken, F(1), harmony=BAR).chord == Chord.of(NoteName("A"))
    sus = sounding_at(played("A3+D4+E4:4 A3+C#4+E4:4"), F(1), harmony=BAR)
    assert (sus.chord, sus.resolves_to) == (Chord.of(NoteName("A"), "sus4"), Chord.of(NoteName("A")))


def test_the_first_bars_of_a_sonata() -> None:
    """Mozart, K. 545: I | V4/3 – I | IV6/4 – I, as harmony textbooks read the left hand (from memory)."""
    notes = sonata(3)
    left = [note for note in notes if note.staff == 2]
    halves = [Span(F(start), F(start + 2)) for start in range(0, 12, 2)]
    found = [one.chord for one in sounding_through(left, halves, Key.parse("C")) if one.chord is not None]
    assert [chord.text for chord in found if chord.root.letter != "G"] == ["C", "C", "C", "F/C", "C"]
    both = sounding_over(notes, halves[2], Key.parse("C"))
    assert names(both) == ["G7/D"], "with the B of the right hand"


shapes = st.sampled_from(["", "m", "7", "maj7", "m7", "sus4", "m7♭5", "dim7", "6"])
roots = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1))


def stacked(chord: Chord) -> list[Pitch]:
    return [Pitch(chord.root, 3).transposed(tone.letters, tone.semitones) for tone in chord.tones]


@given(roots, shapes, st.randoms(use_true_random=False))
def test_a_broken_chord_is_called_as_the_same_chord_struck_at_once(
    root: NoteName, quality: str, random: Random
) -> None:
    tones = stacked(Chord.of(root, quality))
    block = sounding_over([Note(F(0), F(4), pitch) for pitch in tones], BAR)
    order = [tones[0], *random.sample(tones[1:], len(tones) - 1)]
    ringing = [Note(F(place, 2), F(4) - F(place, 2), pitch) for place, pitch in enumerate(order)]
    assert names(sounding_over(ringing, BAR)) == names(block)


@settings(deadline=None)  # music21 takes long to load
@given(roots, st.sampled_from(["", "m", "7", "maj7", "m7", "m7♭5"]), st.integers(0, 3))
def test_roots_agree_with_music21(root: NoteName, quality: str, turns: int) -> None:
    """music21's ``Chord.root()`` and ``inversion()`` as a second opinion, over each inversion."""
    from music21 import chord

    tones = stacked(Chord.of(root, quality))
    turns %= len(tones)
    turned = [*tones[turns:], *(pitch.transposed(7, 12) for pitch in tones[:turns])]
    (one,) = sounding_over([Note(F(0), F(4), pitch) for pitch in turned], BAR)
    theirs = chord.Chord([str(pitch).replace("♭", "-").replace("♯", "#") for pitch in turned])
    assert one.chord is not None
    if quality == "m7" and turns == 1:
        assert one.chord.text in (f"{root}m7/{turned[0].name}", f"{turned[0].name}6"), "C6 is Am7/C"
    elif quality == "m7♭5" and turns == 1:
        assert one.chord.text in (f"{root}m7♭5/{turned[0].name}", f"{turned[0].name}m6"), "Cm6 is Am7♭5/C"
    else:
        assert str(one.chord.root) == theirs.root().name.replace("-", "♭").replace("#", "♯")
        assert turned[0].name == (one.chord.bass or one.chord.root)
        assert theirs.inversion() == turns


moves = st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1), (-2, -4)])
lines = st.lists(st.sampled_from([0, 2, 4, 5, 7, 9, 10, 11, 12]), min_size=1, max_size=8)


@given(lines, moves)
def test_transposing_the_music_transposes_the_chords(steps: list[int], move: tuple[int, int]) -> None:
    notes = [Note(F(place, 2), F(1, 2), Pitch.from_midi(60 + step)) for place, step in enumerate(steps)]
    moved = [replace(note, pitch=note.pitch.transposed(*move)) for note in notes]
    here, there = (
        sounding_over(notes, BAR, Key.parse("C")),
        sounding_over(moved, BAR, Key.parse("C").transposed(*move)),
    )
    assert [one.span for one in there] == [one.span for one in here]
    for one, two in zip(here, there, strict=True):
        assert two.chord == (one.chord.transposed(*move) if one.chord is not None else None)
        assert two.passing == tuple(name.transposed(*move) for name in one.passing)


@given(lines, st.integers(-1, 1))
def test_octaves_change_no_chord(steps: list[int], octaves: int) -> None:
    notes = [Note(F(place, 2), F(1, 2), Pitch.from_midi(60 + step)) for place, step in enumerate(steps)]
    moved = [replace(note, pitch=note.pitch.transposed(7 * octaves, 12 * octaves)) for note in notes]
    assert names(sounding_over(moved, BAR)) == names(sounding_over(notes, BAR))


def test_a_thousand_notes_are_read_whole() -> None:
    random = Random(5)
    notes = [
        Note(F(n, 2), F(1, 2), Pitch.from_midi(random.choice((48, 52, 55, 60, 64, 67)))) for n in range(1000)
    ]
    bars = [Span(F(start), F(start + 4)) for start in range(0, 500, 4)]
    assert {one.chord.root.letter for one in sounding_through(notes, bars) if one.chord} <= {
        "C",
        "E",
        "G",
        "A",
    }
