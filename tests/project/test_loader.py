"""The whole of a good project file, read into exact values."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from studio.music.key import Key
from studio.music.place import Span
from tests.project.conftest import GOOD, Load


def test_a_good_file_becomes_exact_values(load_text: Load) -> None:
    project = load_text(GOOD)
    song = project.song
    assert [s.name for s in song.sections] == ["intro", "verse", "bridge"]
    assert song.end == 62  # 16 bars of 4/4, one of them 2/4
    assert song.sections[2].span == Span(Fraction(48), Fraction(62))
    assert song.keys == ((Fraction(0), Key.parse("A")), (Fraction(48), Key.parse("F# minor")))
    assert song.time.seconds(Fraction(62)) == 31
    hook, desk = project.segments
    assert hook.excerpt is not None and (hook.excerpt.start, hook.excerpt.end) == (8, 12)
    assert hook.excerpt.names == ("keys", "bass") and hook.excerpt.fade_out == Fraction(1, 20)
    assert [callout.kind for callout in hook.callouts] == ["chords", "staff", "text"]
    assert hook.callouts[1].where == Span(Fraction(16), Fraction(24))
    assert hook.callouts[2].when == (1, 3)
    assert desk.camera is not None and (desk.camera.start, desk.camera.end) == (Fraction(1, 2), 2)
    assert desk.excerpt is not None and desk.excerpt.span == Span(Fraction(4), Fraction(32, 5))
    assert desk.excerpt.sources == (song.recording,)
    assert project.facts[1].at == 20 and project.facts[1].parts == ("lead",)


def test_a_missing_title_hides_no_other_complaint(complaints: Callable[..., list[str]]) -> None:
    text = GOOD.replace("  title: Why the lamp stays lit\n", "")
    assert len(complaints(text.replace("| A | % |", "| A | Q |").replace("  title: Lamp\n", ""))) == 3
