"""What is played in no place of the song: chords, scales and the answers of facts."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import mir_eval.chord
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.project.model import FactAsked, Play
from studio.theory.melody.scales import SCALES
from studio.timeline.heard import RATE
from studio.timeline.playing import free_tones
from studio.timeline.playing.free import scale_heights
from studio.timeline.playing.on_tonic import OnTonic
from studio.timeline.playing.written_scale import read_scale
from tests.theory.charts import line
from tests.timeline.playing.songs import song

BEAT = RATE // 2
DORIAN_TUNE = line("D5 E5 F5 G5 A5 B5 C6 A5 D5:4")


def free(play: Play, *asked: FactAsked, **kept: object) -> list[int]:
    """MIDI numbers in their order."""
    tones, _ = free_tones(play, song(**kept), asked)
    return [tone.midi for tone in tones]


def test_a_chord_is_held_for_four_beats_and_dies_away_within_them() -> None:
    tones, seconds = free_tones(Play("chord", "F#m7", tempo=F(120)), song(), ())
    root, bitmap, _ = mir_eval.chord.encode("F#:min7")
    assert {tone.midi % 12 for tone in tones} == {(root + at) % 12 for at in range(12) if bitmap[at]}
    assert {(tone.start, tone.length) for tone in tones} == {(0, 4 * BEAT - RATE // 5)}
    assert seconds == 2


# music21's own scale classes.
MUSIC21 = {
    "D Dorian": "DorianScale", "E Phrygian": "PhrygianScale", "F Lydian": "LydianScale",
    "D Mixolydian": "MixolydianScale", "Bb major": "MajorScale", "F# minor": "MinorScale",
    "A natural minor": "MinorScale", "B Locrian": "LocrianScale",
    "C harmonic minor": "HarmonicMinorScale",
}  # fmt: skip


@pytest.mark.parametrize("written", MUSIC21)
def test_a_scale_is_that_of_music21_up_an_octave_and_down(written: str) -> None:
    from music21 import scale

    tonic = written.split()[0].replace("b", "-")
    up = getattr(scale, MUSIC21[written])(tonic).getPitches(f"{tonic}4", f"{tonic}5")
    theirs = [pitch.midi for pitch in up]
    heights = free(Play("scale", written))
    moved = heights[0] - theirs[0]
    assert moved in (0, -12)
    assert [midi - moved for midi in heights] == [*theirs, *theirs[-2::-1]]


@pytest.mark.parametrize("tonic", ["A", "D", "F#"])
def test_melodic_minor_is_that_of_music21_up_and_down(tonic: str) -> None:
    """Up with a raised sixth and seventh, down as natural minor: the common practice of teaching."""
    from music21 import scale

    theirs = scale.MelodicMinorScale(tonic)
    up = [
        pitch.midi
        for pitch in theirs.getPitches(f"{tonic}4", f"{tonic}5", direction=scale.Direction.ASCENDING)
    ]
    down = [
        pitch.midi
        for pitch in theirs.getPitches(f"{tonic}4", f"{tonic}5", direction=scale.Direction.DESCENDING)
    ]
    heights = free(Play("scale", f"{tonic} melodic minor"))
    moved = heights[0] - up[0]
    assert [midi - moved for midi in heights] == [*up, *sorted(down, reverse=True)[1:]]


def test_jazz_minor_comes_down_as_it_went_up() -> None:
    for name in ("jazz minor", "Jazz-Minor", "Ionian b3"):
        heights = free(Play("scale", f"C {name}"))
        assert heights == [60, 62, 63, 65, 67, 69, 71, 72, 71, 69, 67, 65, 63, 62, 60]


def test_a_chromatic_scale_has_all_twelve_notes() -> None:
    assert free(Play("scale", "A chromatic")) == [*range(57, 70), *range(68, 56, -1)]


@given(st.sampled_from(SCALES), st.sampled_from("ABCDEFG"), st.integers(-1, 1))
def test_every_scale_goes_up_and_comes_back_the_same_way_from_near_middle_c(
    scale, letter: str, alter: int
) -> None:
    tonic = NoteName(letter, alter)
    heights = scale_heights(OnTonic.of(tonic, scale, both_ways=True))
    assert heights == heights[::-1]
    assert abs(heights[0] - 60) <= 6
    assert heights[0] % 12 == tonic.pc
    up = heights[: len(heights) // 2 + 1]
    assert list(up) == sorted(set(up)) and up[-1] - up[0] == 12
    assert len(up) == len(scale.degrees) + 1


@given(st.sampled_from([name for scale in SCALES for name in (scale.name, *scale.other_names)]))
def test_a_scale_reads_by_any_of_its_names(name: str) -> None:
    read = read_scale(f"Eb {name}")
    assert read.tonic == NoteName("E", -1)
    assert read.rising == next(s.semitones for s in SCALES if name in (s.name, *s.other_names))
    assert read_scale(f"  Eb   {name.upper() if name.isascii() else name} ") == read


def test_a_scale_is_a_note_a_beat_and_rests_on_its_last() -> None:
    tones, seconds = free_tones(Play("scale", "E minor pentatonic", tempo=F(97)), song(), ())
    assert len(tones) == 11
    beat = F(60, 97) * RATE
    assert all(abs(tone.start - n * beat) <= F(1, 2) for n, tone in enumerate(tones))
    assert all(one.start + one.length == after.start for one, after in pairwise(tones))
    assert seconds == 12 * F(60, 97)
    assert abs(tones[-1].start + tones[-1].length - (seconds - F(1, 5)) * RATE) <= F(1, 2)


# Facts

HELD = tuple(Note(F(0), F(4), Pitch.parse(name)) for name in ("E3", "G4", "C5", "E5"))


@pytest.mark.parametrize("kind", ["chord", "numeral", "function"])
def test_a_fact_of_a_chord_is_that_chord(kind: str) -> None:
    heights = free(Play("fact", "turn"), FactAsked("turn", kind, at=F(5)), chords="| C | E7/G# |")
    assert {midi % 12 for midi in heights} == {8, 11, 2, 4}
    assert min(heights) % 12 == 8


@pytest.mark.parametrize("kind", ["voicing", "sounding"])
def test_a_fact_of_a_voicing_is_its_notes_as_they_lie(kind: str) -> None:
    asked = FactAsked("open", kind, at=F(1), parts=("keys",))
    assert free(Play("fact", "open"), asked, parts={"keys": HELD}, chords="| C |") == [52, 67, 72, 76]


def test_a_fact_of_a_mode_is_its_scale_on_its_tonic() -> None:
    asked = FactAsked("blue", "mode", parts=("lead",), tonic=NoteName("D"))
    heights = free(Play("fact", "blue"), asked, parts={"lead": DORIAN_TUNE})
    assert heights[:8] == [62, 64, 65, 67, 69, 71, 72, 74]


def test_a_fact_of_a_key_is_its_scale() -> None:
    asked = FactAsked("home", "key", span=Span(F(0), F(4)))
    assert free(Play("fact", "home"), asked, chords="| Am |", key="A minor")[:3] == [57, 59, 60]


@pytest.mark.parametrize(
    ("play", "asked", "sentence"),
    [
        (
            Play("scale", "D"),
            (),
            "'D' does not say which scale; write its name after the note, as D Mixolydian",
        ),
        (
            Play("scale", "D Mixolidian"),
            (),
            "'Mixolidian' is not a mode or scale; did you mean 'Mixolydian'?",
        ),
        (Play("scale", "H Dorian"), (), "“H” is not a note name"),
        (Play("chord", "Hm"), (), "“Hm” starts with H: write B for the German H"),
        (Play("fact", "gone"), (), "'gone' is not a fact; name one of those under facts"),
        (
            Play("fact", "beat"),
            (FactAsked("beat", "groove", groove="kit"),),
            "'beat' is a fact of groove, which is not played by itself; name one of chord, function, key",
        ),
        (
            Play("fact", "none"),
            (FactAsked("none", "chord", at=F(9)),),
            "no chord sounds at 3.2; write one in song: ",
        ),
        (
            Play("fact", "open"),
            (FactAsked("open", "mode", parts=("lead",), span=Span(F(0), F(3)), tonic=NoteName("D")),),
            "'open' is open between D ",
        ),
        (Play("chords", "chords"), (), "'chords' is played over a stretch of the song; say where"),
    ],
)
def test_what_cannot_be_played_is_a_sentence(play: Play, asked: tuple, sentence: str) -> None:
    with pytest.raises(ValueError) as found:
        free_tones(play, song(parts={"lead": DORIAN_TUNE}), asked)
    assert str(found.value).startswith(sentence)
