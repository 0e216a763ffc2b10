from __future__ import annotations

from fractions import Fraction

import pytest
from music21 import chord, converter, note, percussion

from studio.music.kit import VOICES
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.drum_engraving import ELSEWHERE, KIT, Struck, engrave_drums, kit_place

F = Fraction
ANCHORS = ((F(0), F(0)), (F(4), F(2)))
FOUR = SongTime(((1, Meter(4, 4)),), ANCHORS, F(0))


def strokes(text: str) -> list[Struck]:
    """`0 kick, 1/2 hat, …`: onsets in quarters."""
    return [Struck(F(item.split(" ", 1)[0]), item.split(" ", 1)[1]) for item in text.split(", ")]


def read_back(musicxml: str) -> dict[tuple[Fraction, str], tuple[Fraction, str]]:
    """(length, stem) of each note head by its onset and its place on the staff, as music21 reads the text."""
    score = converter.parse(musicxml, format="musicxml", forceSource=True)
    found = {}
    for element in score.flatten().notes:
        for head in element.notes if isinstance(element, chord.ChordBase) else (element,):
            assert isinstance(head, note.Unpitched)
            found[F(element.offset), head.displayName] = F(element.quarterLength), element.stemDirection
    return found


def test_strokes_read_back_where_they_were() -> None:
    written = strokes(
        "0 kick, 0 hat, 1/2 hat, 1 hat, 1 snare, 3/2 hat, 7/4 kick, 2 hat, 5/2 hat, 3 hat, 7/2 ride"
    )
    found = read_back(engrave_drums(written, FOUR, FOUR.bars(1, 1)))
    names = {"kick": "F4", "hat": "G5", "snare": "C5", "ride": "F5"}
    assert set(found) == {(stroke.onset, names[stroke.voice]) for stroke in written}


def test_hands_point_up_and_feet_point_down() -> None:
    written = strokes("0 kick, 0 hat, 1 snare, 1 pedal hat, 2 ride, 3 crash")
    found = read_back(engrave_drums(written, FOUR, FOUR.bars(1, 1)))
    assert {name: stem for (_, name), (_, stem) in found.items()} == {
        "F4": "down", "G5": "up", "C5": "up", "D4": "down", "F5": "up", "A5": "up",
    }  # fmt: skip


def test_a_stroke_is_written_up_to_the_next_and_never_beyond_its_beat() -> None:
    written = strokes("0 snare, 3/2 snare, 7/4 snare, 3 snare")
    found = read_back(engrave_drums(written, FOUR, FOUR.bars(1, 1)))
    assert [length for length, _ in found.values()] == [1, F(1, 4), F(1, 4), 1]


def test_in_six_eight_the_beat_is_a_dotted_quarter() -> None:
    six = SongTime(((1, Meter(6, 8)),), ANCHORS, F(0))
    found = read_back(engrave_drums(strokes("0 kick, 3/2 snare"), six, six.bars(1, 1)))
    assert found[F(0), "F4"][0] == F(3, 2)


def test_strokes_at_one_moment_are_one_chord_from_the_lowest_up() -> None:
    text = engrave_drums(strokes("0 snare, 0 crash, 0 hat"), FOUR, FOUR.bars(1, 1))
    (together,) = converter.parse(text, format="musicxml", forceSource=True).flatten().notes
    assert isinstance(together, percussion.PercussionChord)
    assert [head.displayName for head in together.notes] == ["C5", "G5", "A5"]


@pytest.mark.parametrize(("touch", "accents"), [("accent", 1), ("plain", 0)])
def test_an_accent_is_written(touch: str, accents: int) -> None:
    text = engrave_drums([Struck(F(0), "snare", touch)], FOUR, FOUR.bars(1, 1))  # type: ignore[arg-type]
    assert text.count("<accent") == accents


def test_a_swung_pair_has_a_bracket_of_its_own() -> None:
    """Each beat's three, not one bracket over two beats (any manual of notation)."""
    ride = ", ".join(f"{beat} ride, {beat * 3 + 2}/3 ride" for beat in range(4))
    text = engrave_drums(strokes(ride), FOUR, FOUR.bars(1, 1))
    assert text.count('type="start"') == text.count('type="stop"') == 4


def test_every_voice_of_the_kit_has_a_place_and_no_two_look_alike() -> None:
    assert set(KIT) <= set(VOICES)
    looks = [(place.line, place.head) for place in KIT.values()]
    assert len(looks) == len(set(looks))
    assert kit_place("conga") == ELSEWHERE


def test_notation_is_the_same_each_time() -> None:
    written = strokes("0 kick, 1 snare")
    assert engrave_drums(written, FOUR, FOUR.bars(1, 2)) == engrave_drums(written, FOUR, FOUR.bars(1, 2))
