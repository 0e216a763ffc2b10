"""The leading callout: what it shows is what theory says."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest

from studio.drawing.callouts.leading import KIND, LeadingOptions
from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.symbols import SymbolWords
from studio.drawing.themes.theme import default_theme, read_theme, theme_path
from studio.drawing.voices.voices import Column, Led, VoiceNote, Voices, Way
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.note import Part
from studio.project.episode_values import Canvas
from studio.project.written_part import WrittenPart
from studio.theory.parts.voice_leading import leadings
from studio.theory.parts.voice_leading_threads import threads
from studio.theory.parts.voice_leading_written import written_leadings
from studio.theory.wording.common_tones import common_tones_words
from studio.timeline.kind import Composed
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts

from ..small_song import TALL, TIME, WIDE, RefusedError, ask, bars, facts, notes

THEME = default_theme()


def made(
    chart: str = "", first: int = 1, last: int = 4, canvas: Canvas = WIDE, **options: object
) -> Composed:
    asked = ask(bars(first, last), canvas, "left" if options.get("slot") == "left" else "lower")
    if chart:
        keys = ((Fraction(0), Key.parse("C major")),)
        song = replace(facts().song, chart=Chart(read_bars(chart, 1, TIME)), keys=keys)
        asked = replace(asked, facts=SongFacts(song, "relative-to-major"))
    return KIND.compose(LeadingOptions(kind="leading", **options), asked)


def sizes(column: Column) -> list[int]:
    return sorted(abs(way.semitones) for way in column.ways)


@pytest.mark.parametrize(
    ("chart", "moves"),
    [
        # Tymoczko, "The Geometry of Musical Chords", Science 313 (2006): C to F moves (C, E, G) to (C, F, A)
        ("| C | F |", [0, 1, 2]),
        # hexatonic poles: all three voices by a half step (Cohn, "Maximally Smooth Cycles", 1996, from memory)
        ("| C | Abm |", [1, 1, 1]),
        # an augmented triad is one half step from a minor one (Cohn, "Weitzmann's Regions", 2000, from memory)
        ("| Caug | Am |", [0, 0, 1]),
        # a half-diminished and a diminished seventh (Childs, "Moving Beyond Neo-Riemannian Triads", 1998, from memory)
        ("| Bm7b5 | Bdim7 |", [0, 0, 0, 1]),
    ],
)
def test_published_motions_are_what_is_drawn(chart: str, moves: list[int]) -> None:
    assert sizes(made(chart, 1, 2).content.columns[0]) == moves


def test_the_ways_are_those_of_theory_and_go_from_column_to_column() -> None:
    content = made().content
    chords = facts().song.chart.within(bars(1, 4))
    led = [thread.leading for thread in threads(chords) if thread.leading is not None]
    for column, leading, smallest in zip(content.columns, led, leadings(chords), strict=False):
        assert sum(sizes(column)) == smallest.total
        assert sizes(column) == sorted(abs(move.semitones) for move in leading.moves)
        assert column.said[0].endswith(common_tones_words(leading))
        assert {note.name for note in column.notes} == {str(name) for name in leading.one.notes()}
    for one, two in pairwise(content.columns):
        assert {way.start for way in one.ways} == {note.midi for note in one.notes}
        assert {way.end for way in one.ways} == {note.midi for note in two.notes}


def test_a_written_part_is_led_as_it_is_played() -> None:
    content = made(last=3, part="keys").content
    notes = facts().song.parts["keys"].part.notes
    moments = [at.start for at in facts().song.chart.within(bars(1, 3))]
    for column, leading in zip(content.columns, written_leadings(notes, moments), strict=False):
        assert sizes(column) == sorted(abs(voice.semitones) for voice in leading.voices)
        assert (column.motion == "contrary") == (leading.outer == "contrary")
        assert ("contrary" in column.said[0]) == (column.motion == "contrary")
    assert [note.midi for note in content.columns[0].notes] == [45, 61, 64]  # A2 C♯4 E4, as it is written


def test_each_chord_is_marked_while_it_sounds() -> None:
    composed = made()
    chords = facts().song.chart.within(bars(1, 4))
    assert [(start, end) for start, end, _ in composed.states] == [(at.start, at.end) for at in chords]
    assert [look.now for _, _, look in composed.states] == list(range(len(chords)))


def test_a_chord_struck_again_stays_and_a_silence_keeps_the_page() -> None:
    composed = made("| C | C | N.C. | F |")
    assert [(start, end, look) for start, end, look in composed.states] == [
        (0, 8, Led(0)),
        (8, 12, Led(None, 0)),
        (12, 16, Led(1)),
    ]


def test_the_bracket_stands_over_the_column_that_sounds() -> None:
    content = made("| C | F | G | Am | Dm |", 1, 5).content
    size = (1728, round(KIND.extent(content, 1728, THEME).wanted * 8))
    lefts = []
    for number in range(len(content.columns)):
        pixels = np.asarray(KIND.draw(content, Led(number), size, THEME)).astype(int)
        lit = np.flatnonzero((np.abs(pixels[:48, :, :3] - THEME.colours.now).max(-1) < 10).any(0))
        lefts.append((lit.min() + lit.max()) / 2)
    steps = [two - one for one, two in pairwise(lefts)]
    assert steps == pytest.approx([steps[0]] * len(steps), abs=2) and steps[0] > 100


@pytest.mark.parametrize("semitones", [1, 2, 5])
def test_each_kind_of_motion_has_a_shape_of_its_own(semitones: int) -> None:
    """With all colours made one, a half step, a whole step and a leap of the same slant still differ."""
    canvas = CanvasSize(1920, 1080)

    def drawn(end: int) -> np.ndarray:
        columns = (
            Column(SymbolWords("C"), (VoiceNote("C", 60),), (Way(60, end),)),
            Column(SymbolWords("C"), (VoiceNote("C", end),)),
        )
        content = Voices(canvas, columns, ((0, 1),))
        pixels = np.asarray(KIND.draw(content, Led(), (900, 300), THEME)).astype(int)
        return np.asarray(np.abs(pixels[..., :3] - THEME.colours.panel).max(-1) > 60)[:, 350:550]

    ink = {other: drawn(60 + other).sum() / drawn(60 + other).any(0).sum() for other in (0, 1, 2, 5)}
    assert sum(abs(ink[other] - ink[semitones]) < 0.2 for other in ink) == 1


@pytest.mark.parametrize(("canvas", "slot"), [(WIDE, "lower"), (TALL, "lower"), (WIDE, "left")])
def test_pages_begin_on_bar_lines_and_lose_no_way(canvas: Canvas, slot: SlotName) -> None:
    chart = "| Cmaj7 . A7 . | Dm7 . G7 . | Em7 . A7 . | Dm7 . G7 . | C . C7 . | F . Fm . | C . G7 . | C |"
    composed = made(chart, 1, 8, canvas, slot=slot)
    pages = composed.content.pages
    assert pages[0][0] == 0 and pages[-1][1] == len(composed.content.columns) - 1
    assert all(one[1] == two[0] for one, two in pairwise(pages))
    assert all(composed.states[first][0] % 4 == 0 for first, _ in pages)
    assert len(pages) > 1


def test_what_cannot_be_led_is_refused_with_the_remedy() -> None:
    with pytest.raises(RefusedError, match=r"song\.chords"):
        made(first=40, last=41)
    with pytest.raises(RefusedError, match="choose bars in which the chord changes"):
        made(first=1, last=1)
    with pytest.raises(RefusedError, match="leave 'part' out"):
        made(part="lead")
    crowded = " ".join(["C", "F"] * 4)
    with pytest.raises(RefusedError, match="choose fewer bars"):
        made(f"| {crowded} |", 1, 1, slot="left")
    with pytest.raises(RefusedError, match="choose bars that hold"):
        made("| " + " | ".join(["C F C F C F C F"] * 8) + " |", 1, 8)


def test_the_words_say_what_the_picture_shows() -> None:
    alt = made("| G7 | C |", 1, 2).alt
    assert "G7 to C: one common tone; half steps: B rises to C and F falls to E." in alt


@pytest.mark.parametrize("canvas", [WIDE, TALL])
def test_the_least_height_keeps_all_ink_inside(canvas: Canvas) -> None:
    composed = made(canvas=canvas)
    width = 1728 if canvas is WIDE else 896
    least = round(KIND.extent(composed.content, width, THEME).least * composed.content.canvas.unit)
    for share in (1.0, 1.5):
        height = round(least * share)
        pixels = np.asarray(KIND.draw(composed.content, composed.still, (width, height), THEME)).astype(int)
        rows = np.flatnonzero((np.abs(pixels[..., :3] - THEME.colours.panel).max(-1) > 60).any(1))
        assert rows.min() >= 10 and rows.max() <= height - 4


def test_parallel_outer_voices_are_told() -> None:
    """Planing triads over their roots: parallel octaves between the outer voices (any textbook of counterpoint)."""
    rising = notes("0 C3 4, 0 E4 4, 0 C5 4, 4 D3 4, 4 F4 4, 4 D5 4")
    part = WrittenPart(Part("keys", rising), TIME, ("treble", "bass"), ((Fraction(0), 0),))
    song = replace(facts().song, chart=Chart(read_bars("| C | Dm |", 1, TIME)), parts={"keys": part})
    asked = replace(ask(bars(1, 2)), facts=SongFacts(song, "relative-to-major"))
    first = KIND.compose(LeadingOptions(kind="leading", part="keys"), asked).content.columns[0]
    assert first.motion == "parallel octaves" and first.said[0].endswith("outer voices in parallel octaves")


def test_a_wide_canvas_turns_the_page_after_five_chords() -> None:
    chart = "| " + " | ".join(["C", "F"] * 4) + " |"
    assert made(chart, 1, 8).content.pages == ((0, 4), (4, 7))


@pytest.mark.parametrize("theme", ["slate", "paper"])
def test_a_half_step_s_sign_stands_in_a_gap_of_its_line_and_on_no_plate(theme: str) -> None:
    """Between line and sign the panel shows as it does everywhere, with its own opacity."""
    look = read_theme(theme_path(theme))
    content = made("| C | B |", 1, 2).content
    picture = np.asarray(KIND.draw(content, Led(0), (1728, 400), look)).astype(int)
    panel = picture[390, 860]
    assert panel[3] < 255
    drawn = np.abs(picture - panel).max(-1) > 0
    opaque = picture[..., 3] == 255
    near = np.abs(picture[..., :3] - look.colours.panel).max(-1) < 6
    assert not (drawn & opaque & near).any()


def test_words_begin_at_the_padding_whatever_the_number_of_chords() -> None:
    for chart, last in (("| C | F |", 2), ("| C | F | G | C |", 4)):
        content = made(chart, 1, last).content
        size = (1728, round(KIND.extent(content, 1728, THEME).wanted * 8))
        pixels = np.asarray(KIND.draw(content, Led(0), size, THEME)).astype(int)[-60:]
        lit = np.flatnonzero((np.abs(pixels[..., :3] - THEME.colours.quiet).max(-1) < 60).any(0))
        assert abs(lit.min() - PADDING * 8) <= 5
