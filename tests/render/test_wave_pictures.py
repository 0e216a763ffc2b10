"""Pictures of excerpts: their facts against the plan's samples, and their files against what they depend on."""

from __future__ import annotations

import os
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from studio.build import Opened, open_project
from studio.drawing.excerpt_picture.setting import SIZE, columns
from studio.music.place import Span
from studio.project.model import CountIn, Excerpt, Instead
from studio.render.soundtrack import excerpt_track
from studio.render.wave_pictures import (
    excerpt_shown,
    make_wave_picture,
    peaks,
    wave_picture_path,
    wave_picture_words,
)
from studio.render.workshop import Workshop
from studio.sound import wav
from studio.timeline.heard import RATE, Click, Cut, Laid, Pass, Source
from studio.timeline.plan import ExcerptPlan, Voice
from tests.click_episode import write_episode

HALF = F(1, 2)


def asked(**more: object) -> Excerpt:
    """Two seconds from 10 s on, as somebody asks for them."""
    return Excerpt(F(10), F(12), Span(F(0), F(4)), (), (), F(0), F(0), **more)  # type: ignore[arg-type]


def planned(passes: int, tail: int = 0, lead: int = 0, speed: F = F(1), at: int = 0) -> ExcerptPlan:
    """`passes` times two seconds, and `tail` samples in which the last rings on."""
    lengths = [2 * RATE] * (passes - 1) + [2 * RATE + tail]
    cut = Cut(
        tuple(Pass((Source("a.wav"),), 10 * RATE, length) for length in lengths),
        fade_in=240,
        fade_out=2400,
        speed=speed,
        lead=lead,
        clicks=(Click(0, True), Click(lead // 2, False)) if lead else (),
    )
    return ExcerptPlan(Laid(cut, at), (), Span(F(0), F(4)), ((7, lead),))


def test_every_time_is_a_second_of_the_clip() -> None:
    plan = planned(2, tail=RATE, lead=RATE, speed=HALF, at=RATE // 2)
    shown = excerpt_shown("Twice", "bars 1–2", asked(tail=F(1), count_in=CountIn(F(-1), F(1))), plan)
    # From 0.5 s on: one second of count-in, twice two seconds and one of tail, all at half the speed.
    assert (shown.start, shown.counted, shown.rings, shown.end) == (0.5, 1.5, 9.5, 11.5)
    assert [(one.start, one.end) for one in shown.passes] == [(1.5, 5.5), (5.5, 11.5)]
    assert shown.bars == ((7, 1.5),) and shown.clicks == ((0.5, True), (1.0, False))
    assert (shown.fade_in, shown.fade_out) == (0.005, 0.05)


def test_an_excerpt_as_it_is_has_no_count_in_and_no_tail() -> None:
    shown = excerpt_shown("Once", "", asked(), planned(1))
    assert shown.start == shown.counted == 0 and shown.rings == shown.end == 2
    assert [one.names for one in shown.passes] == [()]


def test_what_is_played_instead_names_every_second_pass() -> None:
    changed = asked(instead=(Instead(Span(F(0), F(1)), "Bb"), Instead(Span(F(2), F(3)), "rest")))
    names = [one.names[0] for one in excerpt_shown("Without", "", changed, planned(4)).passes]
    assert names == ["as written", "with B♭ and a rest instead"] * 2


def test_peaks_are_those_of_the_louder_side_in_each_stretch() -> None:
    samples = np.zeros((1000, 2), np.float32)
    samples[250, 0], samples[251, 1], samples[999, 1] = 0.5, -0.75, 0.25
    for size in (1000, 300, 7):  # in whichever blocks it comes
        found = peaks((samples[at : at + size] for at in range(0, 1000, size)), 1000, 10)
        assert len(found) == 10 and found[2] == (-750, 500) and found[9] == (0, 250)
        assert all(pair == (0, 0) for n, pair in enumerate(found) if n not in (2, 9))
    assert len(peaks([samples[:3]], 3, 10)) == 10


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    return open_project(write_episode(tmp_path_factory.mktemp("episode") / "clicks"))


def make(opened: Opened, shop: Workshop, number: int = 1) -> tuple[Path, bool]:
    segment = opened.plan.segments[number]
    made = make_wave_picture(opened.project, opened.plan, segment, shop)
    return wave_picture_path(segment, shop), made


def test_a_picture_is_made_once_and_again_only_when_what_it_shows_is_another(opened: Opened) -> None:
    shop = Workshop(opened.build, opened.theme, 1)
    path, made = make(opened, shop)
    assert made and path == opened.build / "waves" / "chart.png"
    before = path.read_bytes()
    assert make(opened, Workshop(opened.build, opened.theme, 1)) == (path, False)

    renamed = replace(opened.plan.segments[1], title="Another name")
    assert make_wave_picture(opened.project, opened.plan, renamed, shop)
    assert path.read_bytes() != before
    assert make(opened, shop) == (path, True) and path.read_bytes() == before

    path.write_bytes(before[:100])
    os.utime(path, (1, 1))
    assert make(opened, shop) == (path, True) and path.read_bytes() == before


def test_a_picture_says_in_words_what_it_shows(opened: Opened) -> None:
    shop = Workshop(opened.build, opened.theme, 1)
    path, _ = make(opened, shop)
    segment = opened.plan.segments[1]
    picture = Image.open(path)
    words = wave_picture_words(opened.project, opened.plan, segment, shop)
    assert picture.size == SIZE and picture.mode == "RGB"
    assert picture.text["Description"] == words  # type: ignore[attr-defined]
    assert words.startswith("Wave of the excerpt of bars 2–5, ") and "from 0.8 s of the clip." in words
    assert "4 bar lines in it, the first of bar 2." in words


def test_a_voice_over_the_excerpt_is_told_of_and_one_before_it_is_not(opened: Opened) -> None:
    shop, segment = Workshop(opened.build, opened.theme, 1), opened.plan.segments[1]
    assert segment.excerpt
    # The excerpt starts at 0.75 s, and the voice lasts as long.
    for start, told in ((0, False), (1, True), (segment.excerpt.laid.end, False)):
        speaking = Cut.of((Source("a.wav"),), 0, RATE * 3 // 4, 240, 240)
        spoken = replace(segment, voice=Voice(Laid(speaking, start), "narration"))
        words = wave_picture_words(opened.project, opened.plan, spoken, shop)
        assert ("without the voice" in words) == told


def test_a_segment_without_an_excerpt_has_no_picture(opened: Opened) -> None:
    shop = Workshop(opened.build, opened.theme, 1)
    path, made = make(opened, shop, 0)
    assert not made and not path.exists()
    assert wave_picture_words(opened.project, opened.plan, opened.plan.segments[0], shop) == ""


def test_clicks_of_the_song_stand_where_the_picture_has_its_bar_lines(opened: Opened) -> None:
    # A click on every beat, so the first column after each bar line is high; the wave is read as the picture reads it.
    segment = opened.plan.segments[1]
    track = excerpt_track(opened.plan, segment, Workshop(opened.build, opened.theme, 1))
    assert track and segment.excerpt
    length = segment.excerpt.laid.cut.length
    wave = peaks(wav.blocks(track.path), length, columns())
    for _, sample in segment.excerpt.bars[1:]:
        column = sample * columns() // length
        assert max(high for _, high in wave[column : column + 2]) > 10 * wave[column - 3][1] + 100
