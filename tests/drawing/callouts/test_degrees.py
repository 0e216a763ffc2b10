"""The degrees callout: what it shows equals the tone reader's facts, and textbooks' labels; and it is in time."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.callouts.degrees import KIND, DegreesOptions
from studio.drawing.melody.line import Singing, SungLine
from studio.drawing.themes.theme import default_theme
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.timeline.kind import Composed
from studio.timeline.song_facts import SongFacts
from tests.theory.melody.test_worked_examples import KIND_OF_LABEL, chords_of, time_of, voice_of
from tests.theory.melody.worked_examples import BUTTERFIELD, BUTTERFIELD_2019, WorkedExample

from ...theory.charts import line
from ..melody.tunes import COMMON_TIME, SQUARE, TALL, WIDE, RefusedError, asked, tune

THEME = default_theme()
CHART = "| A | C#7 . F#m . | D . Dm . | E/G# . E7sus4 . |"
TUNE = "A4 B4:1/2 C#5:1/2 E5:2 F5 E#5 C#5 A4:3 r:1 F4:1 F4:2 B4:4"


def composed(facts: SongFacts, span: Span | None = None, canvas: Canvas = WIDE, **options: Any) -> Composed:
    made = DegreesOptions(kind="degrees", **options)
    return KIND.compose(made, asked(facts, span, canvas, made.slot or KIND.slot(canvas)))


def content(facts: SongFacts, span: Span | None = None, canvas: Canvas = WIDE, **options: Any) -> SungLine:
    found = composed(facts, span, canvas, **options).content
    assert isinstance(found, SungLine)
    return found


def near(picture: object, colour: tuple[int, int, int]) -> np.ndarray:
    pixels = np.asarray(picture).astype(int)
    return np.asarray((np.abs(pixels[..., :3] - colour).max(-1) < 10) & (pixels[..., 3] > 230))


def song() -> SongFacts:
    return tune(line(TUNE), CHART, "A major")


# What is shown


def test_each_note_has_its_degree_over_its_chord() -> None:
    shown = [(tone.label, tone.shape) for tone in content(song()).tones]
    filled = "chord tone"
    assert shown[:6] == [
        ("1", filled), ("2", "other tone"), ("3", filled), ("5", filled), ("3", filled), ("3", filled)
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("example", "voice"),
    [
        pytest.param(example, voice, id=f"{example.source}, voice {voice + 1}")
        for example in (*BUTTERFIELD, *BUTTERFIELD_2019)
        for voice in range(len(example.voices))
    ],
)
def test_what_a_textbook_labels_is_hollow_and_named_and_the_rest_is_filled(
    example: WorkedExample, voice: int
) -> None:
    """Butterfield, Integrated Musicianship: Theory, units 5c, 9a and 9b: the book's own labels."""
    written = voice_of(example.voices[voice])
    bass = voice == len(example.voices) - 1 and voice > 0
    notes = [note for note, _ in written]
    facts = tune(notes, chords_of(example), example.key, time_of(example), "bass" if bass else "lead")
    part = "bass" if bass else "lead"
    shown = content(facts, Span(F(0), facts.song.end), part=part).tones
    for note, label in written:
        over_last_chord = [tone for tone in shown if note.onset <= tone.start < note.end][-1]
        kind = KIND_OF_LABEL.get(label, "chord tone")
        if kind == "chord tone":
            assert over_last_chord.shape == "chord tone" and not over_last_chord.names
        else:
            word, _, figures = kind.partition(" ")
            assert over_last_chord.shape == "other tone"
            assert any((figures or word) in name for name in over_last_chord.names), over_last_chord


def test_a_note_held_over_a_chord_change_has_both_labels() -> None:
    """A 4–3 suspension (any harmony textbook): prepared as the root of C, held over G as its fourth, and down."""
    tones = content(tune(line("C5:4 C5:2 B4:2"), "| C | G |", "C")).tones
    held = content(tune(line("C5:6 B4:2"), "| C | G |", "C")).tones
    assert [(tone.start, tone.end, tone.label, tone.shape) for tone in held] == [
        (0, 4, "1", "chord tone"), (4, 6, "4", "other tone"), (6, 8, "3", "chord tone"),
    ]  # fmt: skip
    assert held[1].names == ("4–3 suspension", "4–3")
    assert [tone.label for tone in tones] == ["1", "4", "3"]


def test_a_note_held_into_the_same_chord_written_again_is_one_tone() -> None:
    assert [(t.start, t.end) for t in content(tune(line("E5:8"), "| C | C |", "C")).tones] == [(0, 8)]


def test_labels_may_be_scale_degrees_names_or_none() -> None:
    facts = tune(line("C5 Eb5 G5 B4"), "| Cm |", "C minor")
    by = {labels: [tone.label for tone in content(facts, labels=labels).tones]
          for labels in ("degrees", "scale degrees", "names", "none")}  # fmt: skip
    assert by["scale degrees"] == ["1", "♭3", "5", "7"]
    assert by["names"] == ["C", "E♭", "G", "B"]
    assert by["none"] == [""] * 4
    assert content(facts, labels="scale degrees").keys == ((0, "in C minor"),)


def test_names_of_tones_can_be_left_out() -> None:
    assert not any(tone.names for tone in content(song(), tones=False).tones)


def test_a_colour_tone_is_not_called_by_its_label_twice() -> None:
    tones = content(tune(line("E5 C5 B4:1/2 B4:3/2"), "| Am7 |", "C")).tones
    assert (tones[2].label, tones[2].names) == ("9", ("colour tone", "colour"))


def test_over_one_triad_seconds_and_fourths_are_named_alike() -> None:
    """5–4–♭3–2–1 over Em, and not 5–4–♭3–9–1."""
    tones = content(tune(line("B4 A4:1/2 G4:1/2 F#4:1/2 E4:3/2"), "| Em |", "E minor")).tones
    assert [tone.label for tone in tones] == ["5", "4", "♭3", "2", "1"]


def test_without_labels_the_words_have_the_names_of_the_notes() -> None:
    alt = composed(tune(line("C5:2 D5 E5"), "| C |", "C"), labels="none").alt
    assert alt == "The line of lead over the chords, by name: over C C, D (accented passing tone), E."


def test_under_no_chord_a_note_has_no_degree_and_neither_shape() -> None:
    tones = content(tune(line("C5:4 D5:4"), "| C | N.C. |", "C")).tones
    assert [(tone.label, tone.shape) for tone in tones] == [("1", "chord tone"), ("", "no chord")]


def test_a_note_under_no_chord_has_a_mark_where_it_begins() -> None:
    found, size = content(tune(line("C5:4 D5:4"), "| C | N.C. |", "C")), (1728, 340)
    picture = KIND.draw(found, Singing(), size, THEME)
    (tick,) = KIND.marks(found, size, THEME)
    leg = tick.path[0]
    x = round(leg.at[0] + (leg.to[0] - leg.at[0]) * float(F(4) / (leg.end - leg.start)))
    inked = near(picture, THEME.colours.ink)
    assert inked[:, x].sum() > 2 * inked[:, x + 60].sum() > 0, "a dot on the line"


def test_the_song_s_tune_is_meant_where_no_part_is_named() -> None:
    assert content(song()) == content(song(), part="lead")


def test_heights_are_scale_steps_and_a_pitch_has_one_height() -> None:
    tones = content(tune(line("C4 D4 E4 F#4 Gb4 G4 C5"), "| C | C |", "C")).tones
    assert [tone.height - tones[0].height for tone in tones] == [0, 1, 2, F(7, 2), F(7, 2), 4, 7]


def test_the_words_say_what_the_picture_shows() -> None:
    alt = composed(song()).alt
    assert alt.startswith(
        "The line of lead over the chords, in degrees over its chords: over A 1, 2 (passing tone), 3"
    )
    assert "over C♯7 3" in alt


# In time


def test_the_tone_that_sounds_is_the_one_that_is_lit() -> None:
    made = composed(song())
    for start, end, look in made.states:
        middle = (start + end) / 2
        sounding = [n for n, tone in enumerate(made.content.tones) if tone.start <= middle < tone.end]
        assert [look.now] == (sounding or [None])


def test_the_still_shows_the_first_tone_that_is_foreign_to_its_chord() -> None:
    made = composed(song())
    assert made.still == Singing(0, 1) and made.still_at == 1


def test_rows_turn_on_bar_lines_as_pages() -> None:
    notes = line(" ".join(["C5:1/2 D5:1/2 E5 F5 E5"] * 8))
    made = composed(tune(notes, "| C | " + "C | " * 7, "C"))
    rows = made.content.rows
    assert [(row.start, row.end) for row in rows] == [(0, 16), (16, 32)]
    assert {look.row for start, _, look in made.states if start < 16} == {0}
    assert {look.row for start, _, look in made.states if start >= 16} == {1}


def test_a_pickup_goes_with_the_bars_after_it() -> None:
    time = replace(COMMON_TIME, pickup=F(1))
    notes = [Note(F(-1), F(1), Pitch.parse("G4")), *line("C5:4 D5:4 E5:4 C5:4")]
    facts = tune(notes, "| C | G | C | C |", "C", time)
    rows = content(facts, Span(F(-1), F(16))).rows
    assert [row.lines for row in rows] == [(-1, 0, 4, 8, 12, 16)]


def test_the_tick_passes_over_each_row_in_its_time_and_over_each_tone_as_it_starts() -> None:
    found = content(song())
    size = (1728, 340)
    (tick,) = KIND.marks(found, size, THEME)
    assert [(leg.start, leg.end) for leg in tick.path] == [(row.start, row.end) for row in found.rows]
    picture = KIND.draw(found, Singing(0, 3), size, THEME)  # E5, on beat 3 of the first bar
    lit = near(picture, THEME.colours.now)
    tallest = np.flatnonzero(lit.sum(0) > 20)  # the label, and not the line after it
    leg = tick.path[0]
    x = leg.at[0] + (leg.to[0] - leg.at[0]) * float(F(2) / (leg.end - leg.start))
    assert (tallest.min() + tallest.max()) / 2 == pytest.approx(x, abs=3), "the label stands under the tick"


# On screen


@pytest.mark.parametrize("canvas", [WIDE, TALL, SQUARE], ids=["wide", "tall", "square"])
@pytest.mark.parametrize("share", ["least", 1.0, 1.5])
@pytest.mark.slow
def test_it_is_drawn_at_every_height_that_it_may_be_given(canvas: Canvas, share: float | str) -> None:
    made = composed(song(), None, canvas)
    width = asked(song(), None, canvas).room.width
    extent = KIND.extent(made.content, width, THEME)
    units = extent.least if share == "least" else extent.wanted * float(share)
    size = (width, round(units * made.content.canvas.unit))
    for _, _, look in made.states:
        picture = KIND.draw(made.content, look, size, THEME)
        assert picture.size == size
        assert near(picture, THEME.colours.now).any() == (look.now is not None)


def test_the_lit_tone_has_a_thicker_line_than_the_others() -> None:
    found, size = content(tune(line("C5:4 E5:4"), "| C | C |", "C")), (1728, 340)
    lit = near(KIND.draw(found, Singing(0, 0), size, THEME), THEME.colours.now)
    plain = near(KIND.draw(found, Singing(0, 1), size, THEME), THEME.colours.ink)
    column = 500  # in the first bar, right of its label and left of the bar line
    assert lit[:, column].sum() > plain[:, column].sum() + 2 > 2


def test_filled_and_hollow_differ_in_shape_and_not_only_in_colour() -> None:
    """In ink alone, a filled label holds more of it than a hollow one of the same text."""
    size = (1728, 340)

    def ink(chord: str) -> int:
        picture = KIND.draw(content(tune(line("D5:4"), f"| {chord} |", "C")), Singing(), size, THEME)
        return int(near(picture, THEME.colours.ink)[:, :80].sum())  # the label, not the line after it

    assert ink("Cadd9") > ink("C") + 200  # D is the 9 over both, a chord tone over Cadd9


# Refusals


@pytest.mark.parametrize(
    ("facts", "options", "key", "sentence"),
    [
        (tune(line("C5:4"), "| C |", "C", name="horn"), {"part": "horn", "where": Span(F(40), F(44))}, "part",
         "'horn' has no notes in these bars; choose other bars, or another part"),
        (tune(line("C5:4"), "", "C"), {}, "where",
         "no chords are written for these bars; write them under song.chords"),
        (tune(line("C5:4"), "| N.C. |", "C"), {}, "where",
         "no chord sounds in these bars, only N.C.; choose other bars"),
        (tune((), "| C |", "C"), {}, "part", "the song has no written parts; write one under song.parts"),
        (tune(line("C2:4"), "| C |", "C", name="bass"), {}, "part",
         "none of the parts is plainly the tune; write part: bass"),
        (tune((*line("C5:4"), *line("E5:4")), "| C |", "C"), {}, "part",
         "'lead' plays several notes at once at 1.1; choose a part that is one line"),
        (tune(line("C5:4 " * 33), "| C " * 33 + "|", "C"), {}, "where",
         "33 bars are too many for one picture; choose 32 at most"),
        (tune(line("C5:1/16 D5:1/16 " * 32), "| C |", "C"), {}, "labels",
         "a bar here holds more than can be read on a phone; write 'labels: none', or choose other bars"),
    ],
)  # fmt: skip
def test_what_cannot_be_shown_is_refused_with_a_remedy(
    facts: SongFacts, options: dict[str, Any], key: str, sentence: str
) -> None:
    where = options.pop("where", None)
    with pytest.raises(RefusedError) as refused:
        composed(facts, where or Span(F(0), facts.song.end), **options)
    assert refused.value.args == (key, sentence)


# Whatever the tune

SCALE = ["G4", "A4", "B4", "C5", "C#5", "D5", "E5", "F5", "F#5", "G5"]
melodies = st.lists(
    st.tuples(st.sampled_from(SCALE), st.sampled_from([1, 2, 3, 4]), st.sampled_from([0, 0, 0, 1, 3])),
    min_size=1, max_size=24,
)  # fmt: skip
HARMONY = (
    "| C . Am . | F/A . G7 . | E7 . Am Dm7 | G5 . C . | C . Am . | F/A . G7 . | E7 . Am Dm7 | G5 . C . |"
)


def sung(melody: list[tuple[str, int, int]]) -> list[Note]:
    """Notes of some eighths, each after some eighths of rest, inside eight bars."""
    found, at = [], F(0)
    for name, eighths, rest in melody:
        at += F(rest, 2)
        if at + F(eighths, 2) > 32:
            break
        found.append(Note(at, F(eighths, 2), Pitch.parse(name)))
        at += F(eighths, 2)
    return found


def over(notes: list[Note], letters: int = 0, semitones: int = 0) -> SongFacts:
    """The tune over the harmony, both moved by an interval."""
    chart = Chart(
        tuple(
            replace(at, chord=at.chord and at.chord.transposed(letters, semitones))
            for at in read_bars(HARMONY, 1, COMMON_TIME)
        )
    )
    moved = [replace(note, pitch=note.pitch.transposed(letters, semitones)) for note in notes]
    return tune(moved, chart, Key.parse("C").transposed(letters, semitones))


@settings(max_examples=25, deadline=None)
@given(melodies, st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1), (-2, -3)]))
def test_another_key_changes_nothing_but_names(
    melody: list[tuple[str, int, int]], interval: tuple[int, int]
) -> None:
    here, there = content(over(sung(melody))).tones, content(over(sung(melody), *interval)).tones
    assert [(t.start, t.end, t.label, t.shape) for t in here] == [
        (t.start, t.end, t.label, t.shape) for t in there
    ]
    assert [t.height - here[0].height for t in here] == [t.height - there[0].height for t in there]


@settings(max_examples=25, deadline=None)
@given(melodies, st.sampled_from([WIDE, TALL, SQUARE]))
def test_every_moment_has_one_state_and_every_note_is_lit_for_as_long_as_it_sounds(
    melody: list[tuple[str, int, int]], canvas: Canvas
) -> None:
    notes = sung(melody)
    made = composed(over(notes), None, canvas)
    assert made.states[0][0] == 0 and made.states[-1][1] == 32
    assert all(one[1] == two[0] for one, two in pairwise(made.states))
    lit = {note: sum((end - start for start, end, look in made.states
                      if look.now is not None and note.onset <= start < note.end), F(0)) for note in notes}  # fmt: skip
    assert lit == {note: note.length for note in notes}
    for start, _, look in made.states:
        assert made.content.rows[look.row].start <= start < made.content.rows[look.row].end
