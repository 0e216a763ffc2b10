"""The fretboard callout: the right shape at the right moment, the right place for each note, refusals with a remedy."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from studio.drawing.instruments.box_grid import Boxes, Shown
from studio.drawing.instruments.neck import Lit, Neck
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.music.chord_reader import read_chord
from studio.music.note import Note
from studio.theory.fretboard.named_tunings import STANDARD
from studio.theory.fretboard.search import find_shapes
from studio.timeline.kind import Composed

from ..small_song import LEFT, RIGHT, TALL, TUNE, WIDE, RefusedError, bars, composed, notes, room

KIND = KINDS["fretboard"]
GUITAR = (40, 45, 50, 55, 59, 64)  # MIDI numbers of the open strings (common practice)


def boxes(**options: object) -> tuple[Boxes, Composed]:
    made = composed("fretboard", bars(1, 4), **options)  # type: ignore[arg-type]
    assert isinstance(made.content, Boxes)
    return made.content, made


def neck(canvas: object = WIDE, **options: object) -> tuple[Neck, Composed]:
    made = composed("fretboard", bars(1, 4), canvas, **options)  # type: ignore[arg-type]
    assert isinstance(made.content, Neck)
    return made.content, made


def test_each_chord_of_the_chart_has_one_box_and_sounds_when_the_chart_says() -> None:
    content, made = boxes()
    assert [box.symbol.text for box in content.boxes] == ["A", "C♯7", "F♯m", "D", "Dm", "E/G♯", "E7sus4"]
    assert [int(start) for start, _, _ in made.states] == [0, 4, 6, 8, 10, 12, 14]
    assert [int(end) for _, end, _ in made.states] == [4, 6, 8, 10, 12, 14, 16]
    assert [look.now for _, _, look in made.states] == [0, 1, 2, 3, 4, 5, 6]
    assert [look.next for _, _, look in made.states] == [1, 2, 3, 4, 5, 6, None]


def test_a_chord_that_comes_round_again_keeps_its_box() -> None:
    made = composed("fretboard", bars(1, 8))
    assert len(made.content.boxes) == 7
    assert [look.now for _, _, look in made.states] == [*range(7), *range(7)]


def test_shapes_are_those_that_guitarists_play() -> None:
    content, made = boxes()
    found = {box.symbol.text: box.frets for box in content.boxes}
    assert found["A"] == (None, 0, 2, 2, 2, 0) and found["D"] == (None, None, 0, 2, 3, 2)
    assert "A as x02220" in made.alt and "standard tuning" in made.alt


def test_neighbouring_chords_choose_shapes_that_lie_near() -> None:
    """With a capo on fret 2 D and Dm are fingered as C and Cm: Cm comes first as x35543, but the hand of C is there."""
    content, _ = boxes(capo=2)
    found = {box.symbol.text: box.frets for box in content.boxes}
    alone = find_shapes(read_chord("Dm"), STANDARD.with_capo(2))[0].shape
    assert (found["D"], found["Dm"]) == ((None, 3, 2, 0, 1, 0), (None, 3, 1, 0, 1, 3))
    assert alone.text == "x35543"


def test_your_own_shape_is_taken_and_fingered() -> None:
    content, _ = boxes(shapes={"F#m": "244222", "D": "x57775"})
    found = {box.symbol.text: box for box in content.boxes}
    assert found["F♯m"].frets == (2, 4, 4, 2, 2, 2) and found["F♯m"].barres == ((2, 0, 5),)
    assert found["D"].frets == (None, 5, 7, 7, 7, 5) and found["D"].lowest == 5


@pytest.mark.parametrize(
    ("options", "key", "says"),
    [
        ({"shapes": {"A": "x02210"}}, "shapes", "C is foreign to it and C♯ is missing; A is x02220, for one"),
        ({"shapes": {"A": "5-12-2-2-2-5"}}, "shapes", "spans 11 frets, from 2 to 12; A is x02220, for one"),
        ({"shapes": {"A": "0210"}}, "shapes", "“0210” gives 4 strings and there are 6"),
        ({"shapes": {"B": "x24442"}}, "shapes", "B is not in these bars"),
        ({"shape": "x02220"}, "shape", "write shapes: {A: x02220}"),
        ({"tuning": "ukulele", "part": "keys"}, "part", "in bar 1, A2"),
        ({"part": "lead", "scale": "A major"}, "scale", "not both"),
        ({"part": "lead", "view": "box"}, "view", "along the neck"),
        ({"scale": "A major", "shapes": {"A": "x02220"}}, "shapes", "for chords"),
        ({"frets": "13-16", "open": False, "reach": 3}, "frets", "No hand position up to fret 16"),
        ({"scale": "A major", "frets": "0-24", "slot": "left"}, "frets", "too many to read"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_a_remedy(options: dict[str, object], key: str, says: str) -> None:
    with pytest.raises(RefusedError) as caught:
        composed("fretboard", bars(1, 4), **options)  # type: ignore[arg-type]
    assert caught.value.args[0] == key and says in caught.value.args[1]


def test_where_no_chords_are_written_nothing_can_be_fingered() -> None:
    with pytest.raises(RefusedError, match=r"song\.chords"):
        composed("fretboard", bars(40, 41))


def test_a_capo_fingers_a_lower_chord_and_says_so() -> None:
    content, made = boxes(capo=2)
    first = content.boxes[0]
    assert (first.symbol.text, first.fingered, first.frets) == ("A", "G", (3, 2, 0, 0, 0, 3))
    assert content.caption == "capo 2" and content.layout.capo and "capo on fret 2" in made.alt


@pytest.mark.parametrize("part", ["lead", "keys"])
def test_what_is_lit_on_the_neck_is_what_sounds(part: str) -> None:
    """Open string and fret give back the MIDI notes that sound at each moment, none more and none less."""
    written = notes(TUNE) if part == "lead" else (*notes(LEFT, 2), *notes(RIGHT))
    _, made = neck(part=part) if part == "lead" else (None, composed("fretboard", bars(2, 2), part=part))
    checked = 0
    for start, end, look in made.states:
        lit = {GUITAR[dot.string] + dot.fret for dot in look.dots if dot.role == "now"}
        assert lit == sounding(written, start, end)
        checked += bool(lit)
    assert checked > 1


def sounding(written: tuple[Note, ...], start: Fraction, end: Fraction) -> set[int]:
    return {note.pitch.midi for note in written if note.onset <= start and note.end >= end}


def test_the_notes_that_come_next_are_shown_before_they_sound() -> None:
    _, made = neck(part="lead")
    for (_, _, look), (_, _, after) in pairwise(made.states):
        coming = {(dot.string, dot.fret) for dot in look.dots if dot.role == "next"}
        now = {(dot.string, dot.fret) for dot in after.dots if dot.role == "now"}
        if now:
            assert coming <= now


def test_the_labels_of_a_part_are_names_degrees_or_fingers() -> None:
    def first(labels: str | None) -> list[str]:
        _, made = neck(part="lead", labels=labels)
        return [next(dot.label for dot in look.dots if dot.role == "now") for _, _, look in made.states[:4]]

    assert first(None) == ["A", "B", "C♯", "E"]
    degrees = first("degrees")
    # Whether a passing B over A is called one or the other is decided where degrees are named.
    assert degrees[1] in ("2", "9")
    assert [degrees[0], *degrees[2:]] == ["1", "3", "5"]
    assert first("none") == [""] * 4
    assert all(label in "1234" for label in first("fingers"))


def test_a_scale_has_its_degrees_and_lights_the_chord() -> None:
    content, made = neck(scale="A major", frets="0-5")
    assert {GUITAR[dot.string] + dot.fret for dot in content.still if dot.root} == {45, 57, 69}
    for dot in content.still:
        degree = {0: "1", 2: "2", 4: "3", 5: "4", 7: "5", 9: "6", 11: "7"}[
            (GUITAR[dot.string] + dot.fret - 9) % 12
        ]
        assert dot.label == degree
    lit = {dot.label for dot in made.states[0][2].dots}
    assert lit == {"1", "3", "5"}  # over A
    assert {dot.label for dot in made.states[2][2].dots} == {"1", "3", "6"}  # F♯m: F♯ A C♯
    assert content.caption.startswith("A major") and content.headed


def test_chord_shapes_along_the_neck_are_their_boxes() -> None:
    _, made = neck(view="neck")
    content, _ = boxes()
    for (_, _, look), box in zip(made.states, content.boxes, strict=True):
        now = {(dot.string, dot.fret) for dot in look.dots if dot.role == "now"}
        assert now == {(string, fret) for string, fret in enumerate(box.frets) if fret is not None}


def test_a_narrow_slot_shows_less_of_the_neck() -> None:
    wide, _ = neck(scale="A major")
    narrow, _ = neck(scale="A major", slot="left")
    assert wide.last == 12 and 5 <= narrow.last < 12


@pytest.mark.parametrize("canvas", [WIDE, TALL])
@pytest.mark.parametrize("slot", ["lower", "left", "card"])
@pytest.mark.parametrize(
    "options",
    [
        {},
        {"labels": "degrees", "capo": 3, "hand": "left"},
        {"scale": "E minor pentatonic"},
        {"tuning": "bass"},
    ],
)
@pytest.mark.slow
def test_it_draws_from_its_least_height_up(canvas: object, slot: str, options: dict[str, object]) -> None:
    made = composed("fretboard", bars(1, 3), canvas, slot=slot, **options)  # type: ignore[arg-type]
    theme, width = default_theme(), room(canvas, slot).width  # type: ignore[arg-type]
    extent = KIND.extent(made.content, width, theme)
    assert 0 < extent.least <= extent.wanted
    for units in (extent.least, extent.wanted, 1.5 * extent.wanted):
        size = (width, round(units * 8))
        for look in (made.still, made.default):
            picture = KIND.draw(made.content, look, size, theme)
            assert picture.size == size and picture.mode == "RGBA" and picture.getbbox()
        assert (
            KIND.draw(made.content, made.still, size, theme).tobytes()
            == KIND.draw(made.content, made.still, size, theme).tobytes()
        )


def test_nothing_is_lit_while_nothing_sounds() -> None:
    _, made = boxes()
    assert made.default == Shown()
    _, line = neck(part="lead")
    assert line.default == Lit()
