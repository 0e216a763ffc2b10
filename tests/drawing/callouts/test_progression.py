from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from studio.drawing.callouts.progression import KIND, MOST, ProgressionOptions
from studio.drawing.loop.arrangement import arranged
from studio.drawing.themes.theme import default_theme
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.place import Span
from studio.timeline.kind import Composed
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts

from ..small_song import TIME, WIDE, RefusedError, ask, bars, composed, facts

THEME = default_theme()


def over(chords: str, key: str = "C major", slot: SlotName = "lower", **options: Any) -> Composed:
    """A progression callout over a chart of its own."""
    chart = Chart(read_bars(chords, 1, TIME))
    song = replace(
        facts().song, chart=chart, parts={}, keys=((Fraction(0), Key.parse(key)),), end=Fraction(64)
    )
    span = Span(Fraction(0), max(at.end for at in chart.chords))
    asked = replace(ask(span, WIDE, slot), facts=SongFacts(song, "relative-to-major"))
    return KIND.compose(ProgressionOptions(kind="progression", slot=slot, **options), asked)


def test_the_loop_is_shown_once_with_how_often_it_is_heard() -> None:
    content = composed("progression", bars(1, 8)).content
    assert [step.symbol.text for step in content.steps] == ["A", "C♯7", "F♯m", "D", "Dm", "E/G♯", "E7sus4"]
    assert content.times == 2 and content.key == "in A major" and content.often == "heard twice"


def test_without_repeats_all_of_it_is_shown_once() -> None:
    made = composed("progression", bars(1, 2), title="The way in")
    assert made.content.times == 1 and len(made.content.steps) == 3 and made.content.often == ""
    assert made.alt.startswith("Progression I–V7/vi–vi in A major (A–C♯7–F♯m).")


def test_the_chord_that_differs_from_the_plain_form_is_marked_and_said() -> None:
    # I–V–vi–IV is the loop; that a minor iv stands in place of IV is how musicians say it (common practice).
    made = over("| C | G | Am | Fm | C | G | Am | Fm |")
    assert [step.differs for step in made.content.steps] == [False, False, False, True]
    assert made.content.plain == "I–V–vi–IV, with iv in place of IV"
    assert made.alt.endswith("heard twice. It is I–V–vi–IV, with iv in place of IV.")


def test_a_name_that_people_use_is_called_common() -> None:
    plain = over("| C | G | Am | F |").content
    assert plain.plain == "four-chord loop (common name)" and not any(step.differs for step in plain.steps)
    assert (
        over("| Am7 | F | C | G |").content.plain == "I–V–vi–IV begun on vi · four-chord loop (common name)"
    )
    blues = "| C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | C7 |"
    assert over(blues).content.plain == "known as a twelve-bar blues with the quick change"


def test_numerals_of_the_plain_form_are_in_the_project_s_style() -> None:
    chords, key = "| Am | F | C | G | Am | Fm | C | G |", "A minor"
    chart = Chart(read_bars(chords, 1, TIME))
    song = replace(
        facts().song, chart=chart, parts={}, keys=((Fraction(0), Key.parse(key)),), end=Fraction(32)
    )
    asked = replace(ask(Span(Fraction(0), Fraction(16))), facts=SongFacts(song, "common-practice"))
    made = KIND.compose(ProgressionOptions(kind="progression"), asked)
    assert "♭" not in made.content.plain


def test_what_is_like_no_form_says_nothing_of_one() -> None:
    content = over("| C | Eb7 . F#m . | D | Ab |").content
    assert content.plain == "" and not any(step.differs for step in content.steps)


def test_the_plain_form_may_be_left_out() -> None:
    content = over("| C | G | Am | Fm |", plain=False).content
    assert content.plain == "" and not any(step.differs for step in content.steps)


def test_bars_without_chords_are_refused() -> None:
    with pytest.raises(RefusedError, match="no chords"):
        composed("progression", bars(20, 24))


def test_what_does_not_repeat_for_long_is_refused() -> None:
    with pytest.raises(RefusedError, match=rf"choose bars that hold {MOST} at most"):
        over("| C G/B Am G | F C/E Dm G | E7 Am D7 G7 | Bb F Gm D7 | Eb Bb/D Cm Bb |")


def test_a_loop_that_is_too_long_for_a_column_is_refused_with_the_remedy() -> None:
    long = "| C G/B Am7 Gm7 | Fmaj7 C/E Dm7sus4 G7 | E7sus4 Am9 D7 G7 | Bb F Gm7 D7b9 |"
    assert len(over(long, slot="card").content.steps) == 16
    with pytest.raises(RefusedError, match="choose fewer bars, or give it a wider 'slot'"):
        over(long, slot="left", title="Round and round and round " * 40)
    with pytest.raises(RefusedError, match="choose fewer bars'"):
        over(long, slot="top", title="Round and round and round " * 40)


def test_a_title_that_no_font_has_is_refused() -> None:
    with pytest.raises(RefusedError, match="no font here has 漢"):
        over("| C | G |", title="漢")


@pytest.mark.parametrize("slot", KIND.slots)
def test_four_chords_have_room_in_every_slot(slot: SlotName) -> None:
    made = over("| C | G | Am | Fm |", slot=slot)
    assert made.content.large == (slot == "card")


JAZZ_BLUES = "| F7 | Bb7 | F7 | % | Bb7 | Bdim7 | F7 | D7 | Gm7 | C7 | F7 . D7 . | Gm7 . C7 . |"


def test_a_form_that_is_counted_in_bars_keeps_its_bars() -> None:
    """Twelve bars are three lines of four, a bar that is held is a bar (the form of the blues: common practice)."""
    content = over(JAZZ_BLUES, "F major").content
    assert content.parts == 2 and content.columns == 24 and content.plain == "known as a jazz blues"
    assert [step.place for step in content.steps if step.numeral.text == "%"] == [6]
    starts = {step.place // 2 for step in content.steps if step.place % 2 == 0}
    assert starts == set(range(12))
    found = arranged(content, 1728, THEME)
    assert (found.rows, found.across) == (3, 8)
    lines = [found.place(number) for number, step in enumerate(content.steps) if step.place in (0, 8, 16)]
    assert lines == [(0, 0), (1, 0), (2, 0)]


def test_a_blues_that_is_heard_twice_is_shown_once() -> None:
    blues = "| C7 | C7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7 | "
    content = over(blues + blues.removeprefix("| "), "C major").content
    assert content.times == 2 and content.columns == 12
    assert [step.numeral.text for step in content.steps][:6] == ["I7", "%", "%", "%", "IV7", "%"]


def test_columns_are_of_one_width() -> None:
    content = over("| C | E7b9 | Am7/G | Fmaj7 |").content
    found = arranged(content, 1728, THEME)
    places = [found.x(column) for column in range(found.across)]
    assert {round(two - one, 3) for one, two in pairwise(places)} == {round(found.pitch, 3)}


def test_chords_in_two_keys_are_refused_and_none_is_lost() -> None:
    chart = Chart(read_bars("| A | D | E | A | E | A | B7 | E |", 1, TIME))
    keys = ((Fraction(0), Key.parse("A major")), (Fraction(16), Key.parse("E major")))
    song = replace(facts().song, chart=chart, parts={}, keys=keys)
    asked = replace(ask(bars(1, 8)), facts=SongFacts(song, "relative-to-major"))
    with pytest.raises(RefusedError, match="these chords are in A major and E major; choose bars in one key"):
        KIND.compose(ProgressionOptions(kind="progression"), asked)
    in_one = replace(asked, span=bars(5, 8))
    assert KIND.compose(ProgressionOptions(kind="progression"), in_one).alt.startswith(
        "Progression I–IV–V7–I in E major"
    )


def test_silence_is_written_out() -> None:
    made = over("| A | N.C. | E | A |", "A major")
    assert made.alt.startswith("Progression I–N.C.–V–I in A major (A–N.C.–E–A)")
    assert [step.numeral.text for step in made.content.steps] == ["I", "N.C.", "V", "I"]
    with pytest.raises(RefusedError, match="no chord sounds in these bars"):
        over("| N.C. | N.C. |")


def test_a_form_of_many_bars_in_a_low_slot_is_refused_with_the_remedy() -> None:
    with pytest.raises(RefusedError, match="rows of four; give it the slot 'card'"):
        over(JAZZ_BLUES, "F major", slot="top")
