from __future__ import annotations

import numpy as np
import pytest

from studio.drawing.notation.engraved_ink import ink
from studio.drawing.notation.engraving import engrave, systems_of, unbroken
from studio.drawing.notation.score_time import pages_of, score_time

from ..samples import melody_xml

INK, WARM = (243, 239, 228), (255, 182, 76)


def test_ids_of_the_score_are_kept_and_stand_in_order() -> None:
    (system,) = engrave(melody_xml(2), 80)
    heads = sorted(system.heads, key=lambda head: head.x)
    assert [head.id for head in heads] == [f"n{n}" for n in range(10)]


def test_higher_notes_stand_higher_half_a_space_a_step() -> None:
    # Staff notation: one step is half the distance between two lines. The tune is A4 B4 C5 E5 D5, and in the
    # treble clef B4 lies on the middle line, F5 on the top one.
    (system,) = engrave(melody_xml(1), 80)
    y = {head.id: head.y for head in system.heads}
    assert len(system.lines) == 5
    assert y["n1"] == pytest.approx(system.lines[2], abs=0.01)
    assert y["n0"] - y["n1"] == pytest.approx(0.5, abs=0.01)
    assert y["n1"] - y["n3"] == pytest.approx(1.5, abs=0.01)


def test_a_system_holds_the_bars_that_it_is_given_and_is_as_wide_as_it_is_asked_to_be() -> None:
    systems = engrave(melody_xml(6), 76, (3, 3))
    assert [system.bars for system in systems] == [3, 3]
    assert all(system.width == pytest.approx(76, abs=0.6) for system in systems)
    assert all(system.width <= 76.1 for system in engrave(melody_xml(6), 76))


def test_bars_are_shared_out_evenly_and_a_pickup_goes_with_the_first() -> None:
    assert systems_of(9, 3) == (3, 3, 3)
    assert systems_of(9, 2, pickup=True) == (5, 4)
    assert systems_of(2, 5) == (1, 1)


def test_one_long_system_holds_all_bars_as_wide_as_they_are() -> None:
    two, four = unbroken(melody_xml(2)), unbroken(melody_xml(4))
    assert (two.bars, four.bars) == (2, 4)
    assert 1.7 < four.width / two.width < 2


def test_lit_notes_are_drawn_in_the_accent_where_they_stand_and_nothing_else_is() -> None:
    (system,) = engrave(melody_xml(1), 80)
    picture = np.asarray(ink(system, 20, INK, {"n3"}, WARM)).astype(int)
    warm = (np.abs(picture[..., :3] - WARM).max(-1) < 12) & (picture[..., 3] > 200)
    head = next(head for head in system.heads if head.id == "n3")
    assert warm[round(head.y * 20), round(head.x * 20)]
    columns = np.flatnonzero(warm.any(0)) / 20
    assert columns.min() > head.x - 1.5 and columns.max() < head.x + 1.5


def test_a_lit_note_keeps_the_shape_of_the_ink() -> None:
    """Only its colour changes: no pixel becomes more or less opaque, and other notes keep the colour of ink."""
    (system,) = engrave(melody_xml(1), 80)
    plain = np.asarray(ink(system, 20, INK)).astype(int)
    lit = np.asarray(ink(system, 20, INK, {"n1"}, WARM)).astype(int)
    assert (plain[..., 3] == lit[..., 3]).all()
    other = next(head for head in system.heads if head.id == "n4")
    x = round(other.x * 20)
    assert (plain[:, x - 10 : x + 10] == lit[:, x - 10 : x + 10]).all()


def test_unlit_ink_is_all_of_one_colour() -> None:
    (system,) = engrave(melody_xml(1), 80)
    picture = np.asarray(ink(system, 20, INK)).astype(int)
    solid = picture[picture[..., 3] > 250]
    assert len(solid) > 1000 and (np.abs(solid[:, :3] - INK) <= 3).all()  # the rasteriser rounds


def test_the_same_score_is_engraved_to_the_same_bytes() -> None:
    first = engrave(melody_xml(3), 70)
    engrave.cache_clear()
    again = engrave(melody_xml(3), 70)
    assert [system.svg for system in first] == [system.svg for system in again]


def test_words_in_the_score_are_left_to_our_own_type() -> None:
    lyric = melody_xml(1).replace("</note>", "<lyric><text>la</text></lyric></note>")
    assert "<text" not in engrave(lyric, 80)[0].svg


def test_a_text_that_is_no_score_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be engraved"):
        engrave("<nothing/>", 80)


def test_onsets_are_those_of_the_durations() -> None:
    times = score_time(melody_xml(2))
    assert times.bars == (0, 4, 8)
    assert dict(times.onsets)["n2"] == 1.5 and dict(times.onsets)["n9"] == 7


def test_a_moment_stands_at_its_note_and_between_two_notes() -> None:
    xml = melody_xml(6)
    systems = engrave(xml, 76, (3, 3))
    pages = pages_of(xml, systems)
    heads = {head.id: head.x for system in systems for head in system.heads}
    assert pages.page(11.5) == 0 and pages.page(12) == 1
    assert pages.x(2) == pytest.approx(heads["n3"])
    assert heads["n3"] < pages.x(2.5) < heads["n4"]
    assert pages.x(12) == pytest.approx(heads["n15"])


RESTING = """<score-partwise><part-list><score-part id="P1"><part-name/></score-part></part-list><part id="P1">
<measure number="1"><attributes><divisions>2</divisions><key><fifths>-2</fifths></key><time><beats>6</beats>
<beat-type>8</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>
<note><rest measure="yes"/><duration>6</duration></note></measure>
<measure number="2"><note><rest/><duration>3</duration><type>quarter</type><dot/></note><note id="n1"><pitch>
<step>D</step><octave>5</octave></pitch><duration>3</duration><type>quarter</type><dot/></note></measure>
<measure number="3"><note id="n2"><pitch><step>D</step><octave>5</octave></pitch><duration>6</duration>
<type>half</type><dot/></note></measure></part></score-partwise>"""


def test_a_bar_that_begins_with_a_rest_has_its_place_all_the_same() -> None:
    """So that the chord of a bar stands over that bar, and not over the first note that is played."""
    systems = engrave(RESTING, 80)
    places = pages_of(RESTING, systems)
    first, second, third = (places.x(3.0 * bar) for bar in range(3))
    n1, n2 = (head.x for head in systems[0].heads)
    assert 0 < first < second < n1 < third <= n2
    assert third - second > 2 and second - first > 2
