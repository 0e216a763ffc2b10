"""The scale callout: its rows and marks equal what scales are elsewhere, and what the mode reader says."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.callouts.scale import KIND, ScaleOptions
from studio.drawing.melody.comparison import Comparison, ScaleRow
from studio.drawing.melody.table_layout import laid_out
from studio.drawing.themes.theme import default_theme
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.project.checking import Findings, check
from studio.project.episode_values import Canvas
from studio.project.surroundings import Known
from studio.project.written import read_text
from studio.theory.melody.scales import MAJOR_MODES, SCALES, Scale, scale_named
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts

from ...theory.charts import line
from ..melody.tunes import SQUARE, TALL, WIDE, RefusedError, asked, tune

THEME = default_theme()
TONICS = ("C", "D♭", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B")
MUSIC21 = {
    "Ionian": "MajorScale", "Dorian": "DorianScale", "Phrygian": "PhrygianScale", "Lydian": "LydianScale",
    "Mixolydian": "MixolydianScale", "Aeolian": "MinorScale", "Locrian": "LocrianScale",
    "harmonic minor": "HarmonicMinorScale",
}  # fmt: skip


def shown(facts: SongFacts, canvas: Canvas = WIDE, where: Span | None = None, **options: Any) -> Comparison:
    made = ScaleOptions(kind="scale", **options)
    ask = asked(facts, where, canvas, made.slot or KIND.slot(canvas))
    found = KIND.compose(made, ask).content
    assert isinstance(found, Comparison)
    return found


def scale_line(scale: Scale, tonic: str) -> list[Note]:
    """The notes of a scale from its tonic up, a quarter note each."""
    return [
        Note(F(place), F(1), Pitch(name, 4)) for place, name in enumerate(scale.notes(NoteName.parse(tonic)))
    ]


def cells(found: Comparison, row: ScaleRow) -> dict[str, str]:
    """What stands under each note name."""
    return {column.name: cell for column, cell in zip(found.columns, row.cells, strict=True) if cell}


def telling(found: Comparison, what: str = "decides") -> list[str]:
    return [column.name for column in found.columns if column.telling == what]


# Against the world outside


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("name", MUSIC21)
def test_a_row_holds_the_notes_that_music21_has_for_its_scale(name: str, tonic: str) -> None:
    from music21 import scale as music21_scale

    made = getattr(music21_scale, MUSIC21[name])(tonic.replace("♭", "-").replace("♯", "#"))
    expected = {pitch.name.replace("-", "♭").replace("#", "♯") for pitch in made.pitches}
    found = shown(tune(line("C4"), key="C"), modes=(name,), tonic=tonic)
    held = {note for note, cell in cells(found, found.rows[0]).items() if cell in ("heard", "missing")}
    assert held == expected


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize(
    ("name", "rival", "degree"),
    [
        # Neighbouring modes differ in one note (Open Music Theory, "Diatonic modes"; from memory).
        ("Aeolian", "Dorian", 6), ("Aeolian", "Phrygian", 2), ("Ionian", "Mixolydian", 7),
        ("Ionian", "Lydian", 4),
    ],
)  # fmt: skip
def test_neighbouring_modes_are_told_apart_by_the_one_note_in_which_they_differ(
    name: str, rival: str, degree: int, tonic: str
) -> None:
    scale, root = scale_named(name), NoteName.parse(tonic)
    own, other = (str(scale_named(one).notes(root)[degree - 1]) for one in (name, rival))
    notes = scale_line(scale, tonic)
    decided = shown(tune(notes, key=tonic), modes=(name, rival), tonic=tonic)
    assert [(row.name, row.answer) for row in decided.rows] == [(name, True), (rival, False)]
    assert telling(decided) == [own] and telling(decided, "would decide") == []
    assert cells(decided, decided.rows[0])[own] == "heard"
    assert cells(decided, decided.rows[1])[own] == "foreign"
    assert cells(decided, decided.rows[1])[other] == "missing"
    assert decided.says[0] == f"{own} makes it {name}; {rival} would have {other}."

    left_out = [note for place, note in enumerate(notes, 1) if place != degree]
    left_open = shown(tune(left_out, key=tonic), tonic=tonic)
    assert {row.name for row in left_open.rows} == {name, rival}
    assert all(row.answer for row in left_open.rows)
    assert set(telling(left_open, "would decide")) == {own, other} and telling(left_open) == []
    assert f"{own} " in left_open.says[0] and f"{other} " in left_open.says[0]
    assert "would make it" in left_open.says[0]


# Equal to the mode reader's facts


@pytest.mark.parametrize("scale", SCALES, ids=lambda scale: scale.name)
def test_a_whole_scale_is_the_answer_and_all_of_it_is_heard(scale: Scale) -> None:
    found = shown(tune(scale_line(scale, "D")), tonic="D")
    (answer,) = (row for row in found.rows if row.answer)
    assert answer.name == scale.name and set(answer.cells) <= {"heard", ""}
    assert [c.degree for c, cell in zip(found.columns, answer.cells, strict=True) if cell] and all(
        column.heard == (cell == "heard") for column, cell in zip(found.columns, answer.cells, strict=True)
    )


def test_where_the_music_decides_the_scales_that_it_is_told_from_stand_beside_the_answer() -> None:
    found = shown(tune(line("A4 B4 C5 D5 E5 F5 G5"), key="A minor"))
    assert [row.name for row in found.rows] == ["Aeolian", "Dorian", "Phrygian"]
    assert telling(found) == ["B", "F"]
    assert found.says[0] == "B and F make it Aeolian; Dorian would have F♯, Phrygian B♭."
    assert found.tonic == "A"


def test_a_note_that_is_of_no_scale_has_a_column_and_a_cross() -> None:
    found = shown(tune(line("A4:2 B4 C5 D5 E5:2 F5 G5 D#5:1/4 E5:2"), key="A minor"), modes=("Aeolian",))
    assert cells(found, found.rows[0])["D♯"] == "foreign"
    assert "D♯ is outside it" in found.says[0]


def test_notes_outside_every_written_scale_are_said() -> None:
    found = shown(tune(line("A4:2 C#5:4 F5:4 G5:4 D5:2"), key="A minor"), modes=("Aeolian", "Dorian"))
    assert not any(row.answer for row in found.rows)
    assert found.says[0] == "Aeolian lacks C♯, Dorian lacks C♯ and F."


def test_the_chords_may_decide_where_the_tune_does_not() -> None:
    """No sixth in the tune, F♯ in the D chord: Dorian. The note is hollow, since the tune lacks it."""
    facts = tune(line("A4 B4 C5 E5 G4 E5 C5 A4"), "| Am | D |", "A minor")
    found = shown(facts)
    assert [row.name for row in found.rows] == ["Dorian", "Aeolian"]
    assert telling(found) == ["F♯"] and cells(found, found.rows[0])["F♯"] == "missing"
    assert found.says[0] == "F♯ in the chords makes it Dorian; Aeolian would have F."


def test_degrees_that_two_scales_spell_differently_share_a_column() -> None:
    found = shown(tune(line("C4 E4 G4"), key="C"), modes=("Lydian", "Locrian"))
    (column,) = (one for one in found.columns if "/" in one.degree)
    assert (column.degree, column.name) == ("♯4/♭5", "F♯/G♭")


def test_only_the_notes_of_the_stretch_count() -> None:
    facts = tune(line("C4 D4 E4 G4 A4 B4 F#4 C4"), key="C")
    assert "F♯" not in {
        column.name for column in shown(facts, where=Span(F(0), F(6)), modes=("Ionian",)).columns
    }
    assert "F♯" in {column.name for column in shown(facts, where=Span(F(0), F(8)), modes=("Ionian",)).columns}


def test_the_words_say_what_the_picture_shows() -> None:
    facts = tune(line("A4 B4 C5 D5 E5 F5 G5"), key="A minor")
    alt = KIND.compose(ScaleOptions(kind="scale"), asked(facts, None)).alt
    assert alt == (
        "Notes of lead on A: A, B, C, D, E, F and G. A Aeolian: all of its notes, and no other; A Dorian: F♯ is "
        "never heard, F is not in it; A Phrygian: B♭ is never heard, B is not in it. B and F make it Aeolian; Dorian "
        "would have F♯, Phrygian B♭."
    )


# Options and refusals


def said(option: str) -> list[str]:
    written = read_text(f"kind: scale\n{option}\n", "p")
    findings = Findings(written.marks)
    known = Known(parts=frozenset({"lead"}), rate=F(30))
    check(ScaleOptions, written.data, (), findings, known)
    return [str(complaint) for complaint in findings.complaints]


@pytest.mark.parametrize(
    ("option", "sentence"),
    [
        ("modes: [Dorien]", "'Dorien' is not a mode or scale; did you mean 'Dorian'?"),
        ("modes: [Dorian, Mixolidian]", "'Mixolidian' is not a mode or scale; did you mean 'Mixolydian'?"),
        ("tonic: H", "'H' is not a note name: write a capital A to G, then ♯ or ♭ (# or b)."),
        (
            "modes: [Ionian, Dorian, Phrygian, Lydian, Aeolian, Locrian]",
            "6 scales are too many to compare; write 5 at most.",
        ),
        ("modes: [Dorian, Dorian]", "'Dorian' is written twice; write each scale once."),
        (
            "modes: [Aeolian, natural minor]",
            "'Aeolian' and 'natural minor' are one scale; write each scale once.",
        ),
        (
            "modes: [G harmonic minor]",
            "The tonic has an option of its own; write harmonic minor here, and tonic: G.",
        ),
        ("mode: [Dorian]", "'mode' is not a key of the scale callout; did you mean 'modes'?"),
    ],
)
def test_a_mistyped_option_is_named_with_what_was_meant(option: str, sentence: str) -> None:
    (complaint,) = said(option)
    assert complaint.startswith("p:2:") and complaint.endswith(sentence)


@pytest.mark.parametrize("option", ["modes: Dorian", "modes: [natural minor, lydian b7]", "tonic: Bb"])
def test_scales_are_named_as_musicians_do(option: str) -> None:
    assert said(option) == []


@pytest.mark.parametrize(
    ("facts", "options", "key", "sentence"),
    [
        (tune(line("C5:4"), key="C"), {"part": "lead", "where": Span(F(8), F(12))}, "part",
         "'lead' has no notes in these bars; choose other bars, or another part"),
        (tune(()), {}, "part", "the song has no written parts; write one under song.parts"),
        (tune(line("C2:4"), name="bass"), {}, "part", "none of the parts is plainly the tune; write part: bass"),
    ],
)  # fmt: skip
def test_what_cannot_be_shown_is_refused_with_a_remedy(
    facts: SongFacts, options: dict[str, Any], key: str, sentence: str
) -> None:
    with pytest.raises(RefusedError) as refused:
        shown(facts, **{"where": Span(F(0), F(4)), **options})
    assert refused.value.args == (key, sentence)


TOO_LITTLE = (
    "sound here, too little to tell a scale on C; choose more bars, or write the scales to compare, "
    "as modes: [Dorian, Aeolian]"
)


@pytest.mark.parametrize(
    ("notes", "chords", "sentence"),
    [
        ("A4:4", "| C |", f"only A {TOO_LITTLE.replace('sound', 'sounds', 1)}"),
        ("Bb4 Eb5 Db5 C#5:1/2 B4:1/2", "| G7alt |",
         f"only D♭, E♭, B♭ and B {TOO_LITTLE}, or count from the root of its one chord, tonic: G"),
    ],
)  # fmt: skip
def test_too_few_notes_to_tell_are_refused(notes: str, chords: str, sentence: str) -> None:
    with pytest.raises(RefusedError) as refused:
        shown(tune(line(notes), chords, "C"))
    assert refused.value.args == ("where", sentence)


def test_the_remedy_for_one_altered_chord_works() -> None:
    found = shown(tune(line("Bb4 Eb5 Db5 C#5:1/2 B4:1/2"), "| G7alt |", "C"), tonic="G")
    assert "altered" in {row.name for row in found.rows}


def test_bars_in_several_keys_are_refused_with_the_keys() -> None:
    facts = tune(line("C4 D4 E4 F4 " * 6), "| C | C | Eb | Eb | D | D |")
    keys = [(F(at), Key.parse(name)) for at, name in ((0, "C"), (8, "Eb"), (16, "D"))]
    moving = SongFacts(replace(facts.song, keys=tuple(keys)), "relative-to-major")
    with pytest.raises(RefusedError) as refused:
        shown(moving)
    assert refused.value.args == (
        "where",
        "these bars change key: C major, E♭ major from bar 3 and D major from bar 5; choose bars in one key, "
        "or write the note to count from, as tonic: C",
    )
    assert shown(moving, where=Span(F(0), F(8))).tonic == "C"
    assert shown(moving, where=Span(F(8), F(16)), modes=("Ionian",)).tonic == "E♭"
    assert shown(moving, tonic="C", modes=("Ionian",)).tonic == "C"


def test_a_change_of_mode_on_one_tonic_is_no_change_of_what_scales_are_counted_from() -> None:
    facts = tune(line("C4 D4 E4 F4 C4 D4 Eb4 F4"), "| C | Cm |")
    keys = ((F(0), Key.parse("C")), (F(4), Key.parse("C minor")))
    assert (
        shown(SongFacts(replace(facts.song, keys=keys), "relative-to-major"), modes=("Dorian",)).tonic == "C"
    )


# On screen


@pytest.mark.parametrize(
    ("canvas", "slot"),
    [(WIDE, "lower"), (WIDE, "left"), (WIDE, "card"), (TALL, "lower"), (SQUARE, "lower")],
)
@pytest.mark.parametrize("share", ["least", 1.0, 1.5])
def test_it_is_drawn_at_every_height_that_it_may_be_given(
    canvas: Canvas, slot: SlotName, share: float | str
) -> None:
    facts = tune(line("A4 B4 C5 D5 E5 F5 G5"), key="A minor")
    found = shown(facts, canvas, slot=slot)
    width = asked(facts, None, canvas, slot).room.width
    extent = KIND.extent(found, width, THEME)
    units = extent.least if share == "least" else extent.wanted * float(share)
    picture = KIND.draw(found, None, (width, round(units * found.canvas.unit)), THEME)
    pixels = np.asarray(picture).astype(int)
    lit = (np.abs(pixels[..., :3] - THEME.colours.now).max(-1) < 10) & (pixels[..., 3] > 230)
    assert lit.any(), "the deciding notes have the accent"


def test_names_stand_over_their_rows_where_the_slot_is_narrow() -> None:
    found = shown(tune(line("A4 B4 C5 D5 E5 F5 G5"), key="A minor"))
    wide, narrow = laid_out(found, 1728, THEME), laid_out(found, 566, THEME)
    assert wide is not None and narrow is not None
    assert wide.beside and not narrow.beside
    assert len(narrow.sentence) > len(wide.sentence)


def test_what_does_not_fit_beside_the_presenter_is_refused() -> None:
    chromatic = tune(line("C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4"), key="C")
    with pytest.raises(RefusedError, match="write slot: lower"):
        shown(chromatic, modes=("Lydian", "Locrian"), slot="left")


def test_neighbouring_columns_that_decide_share_a_bracket() -> None:
    """Over D, E and F decide among four modes: one line over both, and no second stroke between them."""
    found = shown(
        tune(line("D4 E4 F4 G4 A4 B4 C5"), key="D minor"), modes=("Dorian", "Phrygian", "Mixolydian")
    )
    number = next(n for n, column in enumerate(found.columns) if column.name == "E")
    assert [column.telling for column in found.columns[number : number + 2]] == ["decides"] * 2
    size = (1728, 300)
    layout = laid_out(found, size[0], THEME)
    assert layout is not None
    pixels = np.asarray(KIND.draw(found, None, size, THEME)).astype(int)
    lit = np.abs(pixels[..., :3] - THEME.colours.now).max(-1) < 10
    between = round(24 + layout.names + (number + 1) * layout.column)
    column = np.flatnonzero(lit[:, between])
    assert len(column) and column.max() - column.min() > 100, "over and under, between the two"


def test_a_note_that_decides_in_the_chords_alone_is_hollow_and_explained_so() -> None:
    found = shown(tune(line("A4 B4 C5 E5 G4 E5 C5 A4"), "| Am | D |", "A minor"))
    layout = laid_out(found, 1728, THEME)
    assert layout is not None
    explained = dict(entry for legend in layout.legend for entry in legend)
    assert explained["decides unheard"] == "decides, in the chords" and "decides" not in explained


def test_where_nothing_decides_the_small_print_has_no_diamond() -> None:
    facts = tune(line("D4 Eb4 F4 Ab4 Bb4 B4 C#5"), key="D minor")
    layout = laid_out(shown(facts, modes=("Dorian", "Aeolian")), 1728, THEME)
    assert layout is not None
    assert not any("decide" in shape for legend in layout.legend for shape, _ in legend)


def test_heard_missing_and_foreign_are_shapes_and_not_only_colours() -> None:
    """One mode on one note, drawn in ink alone: filled has most ink, then the cross, then the ring."""
    size = (1728, 260)

    def ink(sounding: str) -> int:
        found = shown(tune(line(sounding), key="C"), modes=("Ionian",))
        column = next(n for n, column in enumerate(found.columns) if column.name == "D")
        layout = laid_out(found, size[0], THEME)
        assert layout is not None
        left = 24 + layout.names + column * layout.column
        pixels = np.asarray(KIND.draw(found, None, size, THEME)).astype(int)
        rows = slice(110, 175)
        part = pixels[rows, round(left) : round(left + layout.column)]
        return int((np.abs(part[..., :3] - THEME.colours.ink).max(-1) < 10).sum())

    assert ink("C4 D4 E4 F4 G4 A4 B4") > ink("C4 E4 F4 G4 A4 B4") + 100


# Whatever the notes

notes = st.lists(
    st.sampled_from(["A4", "B4", "C5", "C#5", "D5", "E5", "F5", "F#5", "G5", "G#5"]), min_size=4, max_size=16
)
chosen = st.lists(st.sampled_from([str(scale) for scale in MAJOR_MODES]), min_size=1, max_size=4, unique=True)


@settings(max_examples=30, deadline=None)
@given(notes, chosen, st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1)]))
def test_another_key_changes_nothing_but_names(
    names: list[str], modes: list[str], interval: tuple[int, int]
) -> None:
    here = line(" ".join(names))
    there = [replace(note, pitch=note.pitch.transposed(*interval)) for note in here]
    tonic = str(NoteName("A").transposed(*interval))
    one, two = shown(tune(here), modes=modes, tonic="A"), shown(tune(there), modes=modes, tonic=tonic)
    assert one.rows == two.rows
    assert [(c.degree, c.heard, c.telling) for c in one.columns] == [
        (c.degree, c.heard, c.telling) for c in two.columns
    ]


@settings(max_examples=40, deadline=None)
@given(notes, chosen)
def test_every_note_that_sounds_has_one_column_and_one_mark_in_each_row(
    names: list[str], modes: list[str]
) -> None:
    found = shown(tune(line(" ".join(names))), modes=modes, tonic="A")
    tonic = NoteName("A")
    sounding = {(Pitch.parse(name).name.pc - tonic.pc) % 12 for name in names}
    places = [(NoteName.parse(column.name.split("/")[0]).pc - tonic.pc) % 12 for column in found.columns]
    assert (
        places == sorted(set(places))
        and {p for p, c in zip(places, found.columns, strict=True) if c.heard} == sounding
    )
    for row in found.rows:
        scale = scale_named(row.name)
        for place, cell in zip(places, row.cells, strict=True):
            expected = {
                (True, True): "heard", (True, False): "missing", (False, True): "foreign", (False, False): "",
            }[scale.holds(place), place in sounding]  # fmt: skip
            assert cell == expected
