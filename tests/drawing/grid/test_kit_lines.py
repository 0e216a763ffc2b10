"""Lines and shapes of the kit's voices."""

from __future__ import annotations

from fractions import Fraction

from studio.drawing.grid.kit_lines import lines_of, shape_of, voice_lines
from studio.music.groove import Groove, Hit
from studio.music.kit import VOICES
from studio.music.meter import Meter
from studio.theory.rhythm.stroke_changes import line_of, stroke_changes
from tests.theory.rhythm.grooves import groove


def test_every_voice_of_the_kit_has_a_line_and_the_kick_is_under_the_cymbals() -> None:
    whole = Groove.of(Meter(4, 4), 1, {voice: [Hit(Fraction(0))] for voice in VOICES})
    lines = lines_of([whole])
    assert set(lines) == {line_of(voice) for voice in VOICES} and len(lines) == len(VOICES) - 1
    order = [lines.index(line) for line in ("crash", "ride", "hats", "mid tom", "snare", "kick")]
    assert order == sorted(order)


def test_cymbals_are_crosses_and_drums_are_round() -> None:
    """As drum notation has them (common practice)."""
    assert {shape_of(voice) for voice in ("hat", "ride", "crash", "pedal hat")} == {"cymbal"}
    assert {shape_of(voice) for voice in ("kick", "snare", "floor tom")} == {"drum"}
    assert {shape_of(voice) for voice in ("clap", "side stick", "claves")} == {"hand"}
    assert shape_of("open hat") == "open"


def test_a_shorter_groove_goes_round() -> None:
    (kick,) = voice_lines(groove(kick="x.x."), ("kick",), 2)
    assert [stroke.at for stroke in kick.strokes] == [Fraction(n, 2) for n in range(4)]


def test_closed_and_open_hats_share_a_line_and_one_that_opens_is_marked() -> None:
    one, two = groove(hat="xxxx"), groove(hat="xxx.", open_hat="...x")
    (line,) = voice_lines(two, ("hats",), 1, stroke_changes(one, two))
    assert [stroke.shape for stroke in line.strokes] == ["cymbal", "cymbal", "cymbal", "open"]
    assert not line.missing and [stroke.differs for stroke in line.strokes] == [False, False, False, True]


def test_ghost_notes_that_come_or_go_and_accents_are_marked() -> None:
    one, two = groove(snare="ox.x"), groove(snare=".xoX")
    (line,) = voice_lines(two, ("snare",), 1, stroke_changes(one, two))
    assert line.missing == (0,) and [stroke.differs for stroke in line.strokes] == [False, True, True]
    (alone,) = voice_lines(two, ("snare",), 1)
    assert not alone.missing and not any(stroke.differs for stroke in alone.strokes)
