"""What is engraved, read back from the drawing and from the engraver, against the score."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from fractions import Fraction

import pytest
import verovio

from studio.drawing.notation.engraved_places import SVG
from studio.drawing.notation.engraving import Engraving, engrave
from studio.drawing.notation.tab_places import tablature
from studio.music.groove import Touch
from studio.music.note import Note, Part
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.project.drum_engraving import Struck, engrave_drums
from studio.project.tablature import with_tablature
from studio.project.written_part import WrittenPart
from studio.theory.fretboard.named_tunings import read_tuning

from .. import corpus_song
from ..corpus_song import MAPLE_LEAF, POLONAISE, Piece
from ..small_song import TIME, bars, notes

PIECES = pytest.mark.parametrize("piece", [MAPLE_LEAF, POLONAISE], ids=lambda piece: piece.work)
TOP_LINES = {"treble": Pitch.parse("F5"), "treble 8vb": Pitch.parse("F4"), "bass": Pitch.parse("A3")}
"""What the top line of a staff is in each clef; an 8 under the clef says that all sounds an octave lower."""


def drawn_notes(system: Engraving) -> dict[str, dict[str, str]]:
    """The attributes of each note of the drawing, by its id."""
    root = ElementTree.fromstring(system.svg)
    groups = [g for g in root.iter(f"{{{SVG}}}g") if g.get("class", "").split()[:1] == ["note"]]
    return {g.get("id", ""): dict(g.attrib) for g in groups}


def number(identity: str) -> int:
    return int(re.fullmatch(r"n(\d+)(-.*)?", identity)[1])  # type: ignore[index]


def engraver(musicxml: str) -> verovio.toolkit:
    toolkit = verovio.toolkit()
    assert toolkit.loadData(musicxml)
    toolkit.renderToMIDI()
    return toolkit


@PIECES
@pytest.mark.slow
def test_every_drawn_note_says_and_shows_the_pitch_of_the_score(piece: Piece) -> None:
    """Letter and octave from the drawing's attributes, and the place of its head between the staff's own lines."""
    part = corpus_song.facts(piece).song.parts["keys"]
    seen = set()
    for system in engrave(part.musicxml(part.time.bars(1, 12)), 90):
        spoken = drawn_notes(system)
        for head in system.heads:
            note = part.part.notes[number(head.id)]
            said = spoken[head.id]
            assert (said["data-pname"].upper(), int(said["data-oct"])) == (
                note.pitch.name.letter,
                note.pitch.octave,
            )
            top = TOP_LINES[part.clefs[note.staff - 1]]
            line = system.lines[5 * (note.staff - 1)]
            assert head.y == pytest.approx(line + (top.height - note.pitch.height) / 2, abs=0.02)
            seen.add(number(head.id))
    inside = {n for n, note in enumerate(part.part.notes) if note.sounds_in(part.time.bars(1, 12))}
    assert seen == inside


@pytest.mark.slow
@PIECES
def test_the_engraver_plays_every_note_at_the_pitch_of_the_score(piece: Piece) -> None:
    """Verovio's own MIDI of what it engraved, with accidentals and key signature worked out by it."""
    part = corpus_song.facts(piece).song.parts["keys"]
    span = part.time.bars(1, piece.bars)
    toolkit = engraver(part.musicxml(span))
    inside = [(n, note) for n, note in enumerate(part.part.notes) if note.sounds_in(span)]
    for n, note in inside:
        assert toolkit.getMIDIValuesForElement(f"n{n}")["pitch"] == note.pitch.midi, f"note {n}"


def guitar_part() -> WrittenPart:
    """The top line of the polonaise an octave lower, as a guitar would play it, in a clef with an 8 under it."""
    keys = corpus_song.facts(POLONAISE).song.parts["keys"]
    line: list[Note] = []
    for note in keys.part.notes:
        if note.staff == 1 and keys.time.bars(1, 8).contains(note.onset):
            if line and line[-1].onset == note.onset:
                line.pop()
            lower = Pitch(note.pitch.name, note.pitch.octave - (2 if note.pitch.midi > 83 else 1))
            line.append(Note(note.onset, note.length, lower))
    return WrittenPart(Part("guitar", tuple(line)), keys.time, ("treble 8vb",), keys.signatures)


def test_a_guitar_is_written_an_octave_above_what_it_sounds() -> None:
    # Common practice: the low E string, E2, is written as the E below the middle C of the treble clef.
    part = WrittenPart(Part("guitar", notes("0 E2 4")), TIME, ("treble 8vb",))
    (system,) = engrave(part.musicxml(bars(1, 1)), 40)
    in_treble = WrittenPart(Part("lead", notes("0 E3 4")), TIME, ("treble",))
    (written,) = engrave(in_treble.musicxml(bars(1, 1)), 40)
    assert system.heads[0].y - system.lines[0] == pytest.approx(written.heads[0].y - written.lines[0])


@pytest.mark.parametrize(("name", "capo"), [("guitar", 0), ("guitar", 2), ("DADGAD", 0)])
@pytest.mark.parametrize("over", [True, False])
@pytest.mark.slow
def test_the_numbers_of_tablature_sound_the_notes(name: str, capo: int, over: bool) -> None:
    """String by the line that a number stands on, fret by the number: together the pitch of the note."""
    part, tuning = guitar_part(), read_tuning(name).with_capo(capo)
    numbered = [(n, note) for n, note in enumerate(part.part.notes)]

    def refuse(sentence: str) -> None:
        raise AssertionError(sentence)

    tab = tablature(numbered, tuning, refuse)  # type: ignore[arg-type]
    text = with_tablature(part.musicxml(part.time.bars(1, 8)), tab, notes=over)
    seen, heads = set(), 0
    for system in engrave(text, 90):
        lines = system.lines[-len(tuning.strings) :]
        for fret in system.frets:
            string = len(lines) - 1 - min(range(len(lines)), key=lambda n: abs(lines[n] - fret.y))
            assert abs(lines[len(lines) - 1 - string] - fret.y) < 0.3
            sounding = tuning.strings[string].midi + capo + int(fret.text)
            assert sounding == part.part.notes[number(fret.id)].pitch.midi
            seen.add(number(fret.id))
        heads += len(system.heads)
    assert seen == set(range(len(part.part.notes)))
    assert (heads > 0) == over
    toolkit = engraver(text)
    course = toolkit.getElementAttr("n0-f")
    assert len(tuning.strings) - int(course["tab.course"]) == tab.places[0][0]
    if over:
        assert all(
            toolkit.getMIDIValuesForElement(f"n{n}")["pitch"] == note.pitch.midi for n, note in numbered
        )


# Steps above the lowest line, and heads: Norman Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June
# 1994 (Percussive Arts Society); from memory. 1 is the first space, 8 the top line, 10 the first ledger line over it.
WEINBERG = {
    "kick": (1, None),
    "snare": (5, None),
    "hat": (9, "x"),
    "ride": (8, "x"),
    "crash": (10, "x"),
    "pedal hat": (-1, "x"),
    "high tom": (7, None),
    "mid tom": (6, None),
    "floor tom": (3, None),
    "side stick": (5, "x"),
}


@pytest.mark.parametrize("voice", WEINBERG)
def test_each_voice_of_the_kit_stands_where_drummers_read_it(voice: str) -> None:
    text = engrave_drums([Struck(Fraction(0), voice)], TIME, Span(Fraction(0), Fraction(4)))
    (system,) = engrave(text, 40)
    line, shape = WEINBERG[voice]
    (said,) = drawn_notes(system).values()
    assert int(said["data-loc"]) == line
    assert system.heads[0].y == pytest.approx(system.lines[-1] - line / 2, abs=0.02)
    assert engraver(text).getElementAttr("n0").get("head.shape") == shape


@pytest.mark.parametrize(("touch", "mark"), [("ghost", "paren"), ("plain", None)])
def test_a_ghost_note_stands_in_brackets(touch: Touch, mark: str | None) -> None:
    text = engrave_drums([Struck(Fraction(0), "snare", touch)], TIME, Span(Fraction(0), Fraction(4)))
    assert engraver(text).getElementAttr("n0").get("head.mod") == mark
