"""Figures. The bars are our own, but for the first bars of Mozart's K. 545 from music21's corpus."""

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.parts.figure import Figure
from studio.theory.parts.figures import figure_over, read_figures
from studio.theory.parts.sounding import sounding_over
from studio.theory.parts.voicings import voicing_at
from studio.theory.wording.parts import figure_words
from tests.theory.charts import chart
from tests.theory.parts.played import BAR, eighths, played, sonata


def order(figure: Figure) -> str:
    return "–".join(figure.order)


@pytest.mark.parametrize(
    ("notes", "kind", "chord", "degrees", "direction", "times"),
    [
        ("F#3 A3 C#4 F#4", "arpeggio", "F♯m", "1–♭3–5–1", "rising", 1),
        ("C5 G4 E4 C4", "arpeggio", "C", "1–5–3–1", "falling", 1),
        ("C4 E4 G4 C5 G4 E4", "arpeggio", "C", "1–3–5–1–5–3", "rising and falling", 1),
        ("C5 G4 E4 G4 C5", "arpeggio", "C", "1–5–3–5–1", "falling and rising", 1),
        ("E4 G4 C5 E5", "arpeggio", "C/E", "3–5–1–3", "rising", 1),
        ("C3 G3 E4 G4", "arpeggio", "C", "1–5–3–5", "rising", 1),
        ("G3 B3 D4 F4", "arpeggio", "G7", "1–3–5–♭7", "rising", 1),
        ("A3 C#4 E4 A3 C#4 E4", "arpeggio", "A", "1–3–5", "rising", 2),
        ("C4 G4 E4 G4 C4 G4 E4 G4", "broken chord", "C", "1–5–3–5", "", 2),
        ("C4 G4 E4 C5 C4 G4 E4 C5", "broken chord", "C", "1–5–3–1", "", 2),
    ],
)
def test_chords_in_a_line(
    notes: str, kind: str, chord: str, degrees: str, direction: str, times: int
) -> None:
    figure = figure_over(eighths(notes), BAR)
    assert (figure.kind, [one.text for one in figure.chords]) == (kind, [chord])
    assert (order(figure), figure.direction, figure.times) == (degrees, direction, times)


@pytest.mark.parametrize(
    ("notes", "kind", "name", "direction"),
    [
        ("A2+E3 A2+E3 D3+A3+D4 E3+B3", "power chords", "", ""),
        ("C4+E4+G4:2 F4+A4+C5:2", "block chords", "", ""),
        ("C4+C5 D4+D5 E4+E5", "octaves", "", ""),
        ("C4+E4 D4+F4 E4+G4", "parallel lines", "thirds", ""),
        ("C4+A4 D4+B4 E4+C5", "parallel lines", "sixths", ""),
        ("C3+E4 D3+F4 E3+G4", "parallel lines", "tenths", ""),
        ("C4 D4 E4 F4", "scale run", "", "rising"),
        ("C4 B3 Bb3 A3", "scale run", "chromatic", "falling"),
        ("C3 D3 E3 A2", "walking line", "", ""),
        ("C3 E3 G3 A3", "walking line", "", ""),
        ("C5 E5 G5 A5", "line", "", ""),
        ("C2 C3 C2 C3", "octaves", "broken octaves", ""),
        ("A2+E3 A2+E3 A2+F#3 A2+F#3", "power chords", "shuffle", ""),
        ("A4 A4 A4", "repeated note", "", ""),
        ("A4:4", "line", "", ""),
        ("C3 E4+G4 G2 E4+G4", "bass and chords", "oom-pah", ""),
        ("E4:3/2 D4:1/2 A4 B4:1", "line", "", ""),
    ],
)
def test_other_figures(notes: str, kind: str, name: str, direction: str) -> None:
    figure = figure_over(played(notes), BAR)
    assert (figure.kind, figure.name, figure.direction) == (kind, name, direction)
    assert figure.reason.endswith(".")


def test_power_chords_are_named_one_after_another() -> None:
    figure = figure_over(played("A2+E3 A2+E3 D3+A3+D4 E3+B3"), BAR)
    assert [chord.text for chord in figure.chords] == ["A5", "D5", "E5"]
    inverted = figure_over(played("E3+A3 A3+D4"), BAR)
    assert [chord.text for chord in inverted.chords] == ["A5/E", "D5/A"]


def test_single_notes_may_lead_from_one_power_chord_to_the_next() -> None:
    figure = figure_over(played("D3+A3+D4 D3+A3+D4 D3+A3+D4:1/2 D3+A3+D4:1/2 A2:1/2 C3:1/2"), BAR)
    assert (figure.kind, [chord.text for chord in figure.chords]) == ("power chords", ["D5"])


def test_a_hand_plays_what_both_hands_sound() -> None:
    """The right hand's E F♯ A over D A is no F♯m7, and the left hand no power chord: together they are Dadd9."""
    notes = (*played("E4+F#4+A4:4"), *played("D3+A3:4", staff=2))
    right, left = read_figures(notes, [BAR])
    assert (right.kind, [chord.text for chord in right.chords]) == ("block chords", ["Dadd9"])
    assert (left.kind, [chord.text for chord in left.chords], order(left)) == (
        "block chords",
        ["Dadd9"],
        "1–5",
    )


@pytest.mark.parametrize(
    ("chord", "voicing", "named"),
    [
        ("Dm9", "F4 A4 C5 E5", "Dm9"),
        ("Dm7", "F4 A4 C5 E5", "Dm9"),
        ("G13", "F4 A4 B4 E5", "G13"),
        ("G7", "F4 A4 B4 E5", "G13"),
        ("Cmaj7", "E4 G4 B4 D5", "Cmaj9"),
        ("F#m", "A3 C#4 E4", "A"),
        ("C", "A3 C4 E4", "Am"),
    ],
)
def test_a_rootless_voicing_has_the_name_of_the_chart(chord: str, voicing: str, named: str) -> None:
    """Rootless voicings of books on jazz piano (from memory); the figure, the layout and what sounds agree."""
    notes, symbol = played(f"{'+'.join(voicing.split())}:4"), chart(f"| {chord} |")
    (figure,) = read_figures(notes, [BAR], chart=symbol)
    (sounding,) = sounding_over(notes, BAR, None, read_chord(chord))
    found = voicing_at(notes, F(0), read_chord(chord)).chord
    assert [one.text for one in (*figure.chords, sounding.chord, found) if one] == [named] * 3
    assert figure.name == ("rootless" if named[0] == chord[0] and named != "C" else "")


def test_the_right_hand_plays_the_chord_of_both() -> None:
    notes = (*played("F4+A4+C5+E5:4"), *played("D3:4", staff=2))
    right, left = read_figures(notes, [BAR], chart=chart("| Dm7 |"))
    assert (right.kind, [one.text for one in right.chords], right.name) == ("block chords", ["Dm9"], "")
    assert figure_words(right) == "right hand: block chords Dm9"
    assert figure_words(left) == "left hand: single line"


def test_a_bass_that_walks_on_is_called_so_in_every_bar() -> None:
    """Bars of a walking bass that by themselves are an arpeggio, a run and two pairs of notes: common practice."""
    notes = played("F2 A2 C3 Eb3 Bb2 D3 F3 E3 F3 Eb3 D3 C#3 C3 G2 F2 A2")
    song = chart("| F7 | Bb7 | F7 | Cm7 . F7 . |")
    found = read_figures(notes, [at.span for at in song.chords], chart=song)
    assert [figure.kind for figure in found] == ["walking line"] * 5


def test_arpeggios_in_quarter_notes_are_no_walk() -> None:
    song = chart("| C | F | G | C |")
    notes = played("C3 E3 G3 E3 F3 A3 C4 A3 G2 B2 D3 B2 C3 E3 G3 E3")
    assert {figure.kind for figure in read_figures(notes, [at.span for at in song.chords], chart=song)} == {
        "arpeggio"
    }


def test_a_note_struck_again_is_the_same_step_of_the_figure() -> None:
    figure = figure_over(eighths("D2 D2 D2 A2 D3 A2 D2"), BAR, chord=read_chord("D"))
    assert (figure.kind, order(figure)) == ("broken chord", "1–5–1–5–1")


@pytest.mark.parametrize("chord", ["Gadd9", "G7", "Gm", "G5"])
def test_a_root_and_its_fifth_are_no_arpeggio(chord: str) -> None:
    """Whatever the chart says, G–D–G–D has neither its third nor its ninth: common practice."""
    figure = figure_over(eighths("G2 D3 G3 D3 G2 D3 G3 D3"), BAR, chord=read_chord(chord))
    assert [one.text for one in figure.chords] == ["G5"]
    assert (figure.name, figure.reason) == ("root and fifth", "G and D by turns, without a third.")
    assert figure_words(figure) == "root and fifth of G, 1–5–1–5"


def test_pairs_of_notes_that_change_are_all_said() -> None:
    """The guitar of a montuno, common practice."""
    notes = eighths("C4+C5 C4+C5 Eb4+G4 C4+C5 r Eb4+G4 C4+C5 Eb4+G4")
    figure = figure_over(notes, BAR, chord=read_chord("Cm"))
    assert figure_words(figure) == "Cm, octave roots and ♭3–5 in turn"
    assert figure.reason == "All notes are struck together, seven times."
    figure = figure_over(notes, BAR, chord=read_chord("Abmaj7"))
    assert figure_words(figure) == "A♭maj7, 3 in octaves and 5–7 in turn"


def test_the_alberti_bass_of_a_sonata() -> None:
    """Mozart, K. 545: the left hand is the example that textbooks give of an Alberti bass (from memory)."""
    halves = [Span(F(start), F(start + 2)) for start in range(0, 12, 2)]
    found = [figure for figure in read_figures(sonata(3), halves, Key.parse("C")) if figure.staff == 2]
    assert [figure.name for figure in found] == ["Alberti bass"] * 6
    assert [order(figure) for figure in found if figure.chords[0].root == NoteName("C")] == ["1–5–3–5"] * 4
    assert [order(figure) for figure in found if figure.chords[0].root == NoteName("F")] == ["5–3–1–3"]


def test_each_hand_has_a_figure_of_its_own() -> None:
    notes = (*eighths("A2 E3 C#3 E3 A2 E3 C#3 E3", staff=2), *played("C#5+E5+A5:2 C#5+E5+A5:2", staff=1))
    right, left = read_figures(notes, [BAR])
    assert (right.staff, right.kind) == (1, "block chords")
    assert (left.staff, left.name) == (2, "Alberti bass")


def test_the_chart_names_a_chord_of_which_not_all_is_played() -> None:
    notes = eighths("A2 E3 A3 E3")
    assert [one.text for one in read_figures(notes, [BAR], chart=chart("| F#m7 |"))[0].chords] == ["F♯m7"]
    more = read_figures(eighths("A3 C#4 E4 G4"), [BAR], chart=chart("| A |"))[0]
    assert [one.text for one in more.chords] == ["A7"], "a note outside the chart's chord counts"


def test_a_passing_note_does_not_spoil_an_arpeggio() -> None:
    figure = figure_over(eighths("A3 C#4 D4 E4 A4 E4 C#4 A3"), BAR)
    assert (figure.kind, order(figure)) == ("arpeggio", "1–3–5–1–5–3–1")
    assert figure.reason == "The notes of A one after another; D only passes."


def test_a_bass_may_be_held_under_an_arpeggio() -> None:
    bass = Note(F(0), F(4), Pitch.parse("A2"))
    figure = figure_over([bass, *eighths("A3 C#4 E4 C#4 A3 C#4 E4 C#4")], BAR)
    assert (figure.kind, [chord.text for chord in figure.chords]) == ("arpeggio", ["A"])


def test_nothing_plays() -> None:
    (silence,) = read_figures((), [BAR])
    assert (silence.kind, silence.reason, silence.sureness) == ("", "Nothing sounds here.", 0.0)
    held = read_figures([Note(F(-4), F(12), Pitch.parse("A3"))], [BAR])[0]
    assert (held.kind, held.reason) == ("", "Nothing new is struck here.")
    assert read_figures((), []) == ()


roots = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1))
shapes = st.sampled_from(["", "m", "dim", "7", "maj7", "m7", "m7♭5"])


@given(roots, shapes, st.booleans())
def test_an_arpeggio_of_any_chord_is_recognised(root: NoteName, quality: str, falling: bool) -> None:
    """The inverse: spell a chord from its root to the octave, play it, read it."""
    chord = Chord.of(root, quality)
    tones = [Pitch(root, 3).transposed(tone.letters, tone.semitones) for tone in chord.tones]
    tones.append(Pitch(root, 4))
    degrees = [*(tone.degree for tone in chord.tones), "1"]
    if falling:
        tones, degrees = tones[::-1], degrees[::-1]
    figure = figure_over([Note(F(place, 2), F(1, 2), pitch) for place, pitch in enumerate(tones)], BAR)
    assert (figure.kind, figure.direction) == ("arpeggio", "falling" if falling else "rising")
    assert (figure.chords, [*figure.order]) == ((chord,), degrees)


lines = st.lists(st.sampled_from([0, 2, 4, 5, 7, 9, 11, 12]), min_size=1, max_size=8)
moves = st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1), (7, 12)])


@given(lines, moves)
def test_transposing_the_music_transposes_the_figure(steps: list[int], move: tuple[int, int]) -> None:
    notes = [Note(F(place, 2), F(1, 2), Pitch.from_midi(60 + step)) for place, step in enumerate(steps)]
    moved = [replace(note, pitch=note.pitch.transposed(*move)) for note in notes]
    here = figure_over(notes, BAR, Key.parse("C"))
    there = figure_over(moved, BAR, Key.parse("C").transposed(*move))
    assert (there.kind, there.order, there.direction, there.times) == (
        *(here.kind, here.order, here.direction, here.times),
    )
    assert there.chords == tuple(chord.transposed(*move) for chord in here.chords)


def test_a_thousand_notes_are_read_whole() -> None:
    bar = eighths("C4 G4 E4 G4 C4 A4 F4 A4")
    notes = [replace(note, onset=note.onset + 4 * number) for number in range(125) for note in bar]
    halves = [Span(F(start), F(start + 2)) for start in range(0, 500, 2)]
    found = read_figures(notes, halves)
    assert len(found) == 250
    assert {figure.chords[0] for figure in found} == {read_chord("C"), read_chord("F/C")}
