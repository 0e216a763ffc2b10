"""Every mistake that a person can make in what is heard: a plain sentence at the very words that are wrong."""

from __future__ import annotations

import sys
from collections.abc import Callable

import pytest

from tests.project.conftest import with_excerpt
from tests.project.mistakes_beside_excerpts import OTHERS
from tests.project.mistakes_in_playing import INSTEAD, PLAYED
from tests.project.mistakes_of_sound import STEMS, TIMES, Complaints

LINE, BEFORE = 39, len("    excerpt: ")


@pytest.mark.parametrize(("excerpt", "expected"), [*STEMS, *TIMES, *PLAYED, *INSTEAD])
def test_one_mistake_one_sentence(
    complaints: Callable[..., list[str]], excerpt: str, expected: Complaints
) -> None:
    written = f"{{{excerpt}}}"
    said = complaints(with_excerpt(excerpt))
    assert len(said) == len(expected), said
    in_order = sorted(expected, key=lambda one: written.index(one[0]))
    for sentence, (pointed, start) in zip(said, in_order, strict=True):
        column = BEFORE + written.index(pointed) + 1
        assert sentence.startswith(f"{LINE}:{column}: {start}"), said
        assert "pydantic" not in sentence and "Input should" not in sentence


@pytest.mark.parametrize(("mistake", "said"), OTHERS)
def test_mistakes_beside_the_excerpt(
    complaints: Callable[..., list[str]], mistake: dict[str, str], said: list[str]
) -> None:
    if "soundfont" in mistake.get("episode", ""):
        pytest.importorskip("tinysoundfont", reason="tinysoundfont is not installed")
    found = complaints(with_excerpt(**{"excerpt": "where: verse bars 1-2", **mistake}))
    assert len(found) == len(said), found
    for sentence, start in zip(found, said, strict=True):
        assert sentence.startswith(start), found


@pytest.mark.parametrize("value", ["yes", "de"])
def test_what_is_not_installed_is_named(
    complaints: Callable[..., list[str]], monkeypatch: pytest.MonkeyPatch, value: str
) -> None:
    """A package that is None in sys.modules cannot be imported (The Python Language Reference, 5.3.1)."""
    monkeypatch.setitem(sys.modules, "espeakng_loader", None)
    monkeypatch.setitem(sys.modules, "tinysoundfont", None)
    episode = f"  scratch-voice: {value}\n  soundfont: sounds/mine.sf2\n"
    assert complaints(with_excerpt("where: 5", episode=episode)) == [
        "5:18: A scratch voice needs the package espeakng_loader, which is not installed: "
        "pip install 'stave-and-slate[scratch]'.",
        "6:14: A SoundFont needs the package tinysoundfont, which is not installed: "
        "pip install --no-deps tinysoundfont.",
    ]
    assert complaints(with_excerpt("where: 5", episode="  scratch-voice: no\n")) == []


@pytest.mark.parametrize(
    ("right", "wrong", "excerpt", "said"),
    [
        # A recording that starts with bar 1 has nothing before it, so that a pickup lies before its 0.
        (
            "  tempo: 120\n",
            "  tempo: 120\n  pickup: 1\n",
            "where: 0",
            ["40:22: This starts 0:00.5 before the recording does; begin later."],
        ),
        (
            "bass: audio/bass.flac",
            "bass: audio/short.flac",
            "where: 5, mute: keys",
            ["39:22: This runs to 0:10, but 'short.flac' lasts 0:04; end it sooner."],
        ),
        (
            "bass: audio/bass.flac",
            "bass: audio/short.flac",
            "where: 5, feature: bass",
            [
                "39:22: This runs to 0:10, but 'short.flac' lasts 0:04, less than 'keys.flac' with 0:32; "
                "end it sooner, or leave bass out."
            ],
        ),
        (
            "bass: audio/bass.flac}",
            "bass: audio/bass.flac, lead: audio/mix.flac}",
            "where: 5-6, stems: [keys, bass, lead], play: lead, instead: {5.1: D5}",
            ["39:60: 'lead' is heard twice, as a stem and played; leave one of them out."],
        ),
        (
            "bass: audio/bass.flac}",
            "bass: audio/bass.flac, lead: audio/mix.flac}",
            "where: 5-6, mute: bass, play: [chords, lead]",
            ["39:54: 'lead' is heard twice, as a stem and played; leave one of them out."],
        ),
        # The tail of a short stem alone: what ends last decides, and here nothing lasts.
        (
            "bass: audio/bass.flac",
            "bass: audio/short.flac",
            "where: 0:01-0:03.5, stems: bass, tail: 2",
            ["39:54: The tail would take 2 s, but the sound ends 0.5 s after the excerpt; write tail: yes"],
        ),
        (
            "  stems: {keys: audio/keys.flac, bass: audio/bass.flac}\n",
            "",
            "where: 5, gain: {keys: 3 dB}",
            ["38:25: 'gain' is about stems, and the song has none; name their files in song: stems."],
        ),
        (
            '    verse: "| A | F#m . D . | Bm7 | E/G# | A | F#m | Dadd9 | E7sus4 E7 |"\n',
            '    verse: "| N.C. | F#m . D . | Bm7 | E/G# | A | F#m | Dadd9 | E7sus4 E7 |"\n',
            "where: 5, play: chords",
            ["39:31: There are no chords in this excerpt to play; write them in song: chords."],
        ),
        (
            "  loop: {numerals: verse}\n",
            "  loop: {numerals: verse}\n  turn: {numerals: bridge}\n",
            "play: [{fact: loop}, {fact: turn}]",
            ["40:14: The facts that are played stand in different places; say 'where' it is heard."],
        ),
        (
            "      Listen to the keyboard alone.\n      Under it sits {loop}, and the tune lands on {catch}.\n",
            "",
            "where: 5, at: after the voice",
            ["37:29: There is no voice to wait for; write a script, or a time, as at: 0:03."],
        ),
        # What is wrong elsewhere is told there, and only there.
        ("numerals: verse}", "numerals: vers}", "play: {fact: loop}", ["29:20: 'vers' is not a section"]),
        ("parts:\n    lead: |", "parts: {}\n  partz:\n    lead: |", "where: 5, play: chords", None),
        (
            "bass: audio/bass.flac",
            "bass: audio/bas.flac",
            "where: 5, mute: bass, gain: {keys: 3 dB}",
            ["19:40: There is no file 'audio/bas.flac'"],
        ),
        (
            "bass: audio/bass.flac",
            "bass: audio/bas.flac",
            "where: 5, mute: keys",
            ["19:40: There is no file 'audio/bas.flac'"],
        ),
    ],
)
def test_songs_in_which_it_does_not_fit(
    complaints: Callable[..., list[str]], right: str, wrong: str, excerpt: str, said: list[str] | None
) -> None:
    text = with_excerpt(excerpt)
    assert right in text
    found = complaints(text.replace(right, wrong, 1))
    if said is None:
        assert not any("excerpt" in sentence or "play" in sentence for sentence in found)
        return
    assert len(found) == len(said), found
    for sentence, start in zip(found, said, strict=True):
        assert sentence.startswith(start), found


def test_bars_that_are_wrong_in_one_way_are_told_once(complaints: Callable[..., list[str]]) -> None:
    """A tune in 4/4 under a song in 5/4 is not a dozen mistakes."""
    (about_bars,) = [
        said
        for said in complaints(
            with_excerpt("where: 5").replace("      M:4/4\n", "").replace("{1: 4/4, 14", "{1: 5/4, 14")
        )
        if "of lead holds" in said
    ]
    assert about_bars.endswith(
        "holds 4 beats, and 5/4 has 5, and so it is in 7 more bars; correct the song's meter, or the tune."
    )
    slips = [("A B c d | e4", "A B c | e3"), ("f2 d2", "f2 d")]
    text = with_excerpt("where: 5")
    for right, wrong in slips:
        text = text.replace(right, wrong)
    assert len([said for said in complaints(text) if "of lead holds 3 beats" in said]) == 3
