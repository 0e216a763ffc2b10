"""Captions: readable in their time, never over a cut, and read back by other people's parsers."""

import itertools
from fractions import Fraction as F
from io import StringIO
from types import SimpleNamespace as Fake

import pysubs2
import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from studio.handoff.captions import FASTEST, LINE, LINES, LONGEST, Cue, cues, subrip, too_fast
from studio.handoff.captions import webvtt as webvtt_text

words = st.text(alphabet=st.sampled_from("abcdefghijklmnop"), min_size=1, max_size=14)
scripts = st.lists(
    st.tuples(words, st.sampled_from([" ", " ", " ", ". ", ", "])), min_size=1, max_size=120
).map(lambda pieces: "".join(word + gap for word, gap in pieces))


def episode(*scripts: str, rate: F = F(30), frames: int | None = None) -> Fake:
    segments, at = [], 0
    for script in scripts:
        reading = F(60 * len(script.split()), 150)
        length = frames or max(1, int(reading * rate) + 1)
        segments.append(
            Fake(id="s", start=at, frames=length, script=script, reading=reading, end=at + length, voice=None)
        )
        at += length
    return Fake(segments=tuple(segments), canvas=Fake(rate=rate), frames=at)


@given(st.lists(scripts, min_size=1, max_size=3))
def test_cues_keep_the_rules_of_reading(texts: list[str]) -> None:
    # Common practice: two lines of 42 characters, at most 7 s, and no cue over a cut.
    plan = episode(*texts)
    found = cues(plan)
    for cue in found:
        assert len(cue.lines) <= LINES and all(0 < len(line) <= LINE for line in cue.lines)
        assert 0 < cue.end - cue.start <= LONGEST
        assert any(s.start <= cue.start * 30 and cue.end * 30 <= s.end for s in plan.segments)
    assert all(a.end <= b.start for a, b in itertools.pairwise(found))
    assert " ".join(line for cue in found for line in cue.lines).split() == " ".join(texts).split()


def test_plain_talk_is_never_too_fast_to_read_nor_gone_at_once() -> None:
    talk = (
        "Listen to the keyboard alone. Under it sits a loop of four chords, and the tune lands on a note that "
        "none of them holds. Ask yourself which one it is, and then sing it. Now hear how the bass moves down by "
        "step while the guitar stays where it was; that is why the second half feels wider than the first."
    )
    for cue in cues(episode(talk)):
        assert sum(map(len, cue.lines)) / (cue.end - cue.start) <= FASTEST
        assert cue.end - cue.start >= 1


def test_other_parsers_read_back_the_same_cues() -> None:
    # Sources: pysubs2 for SubRip, webvtt-py for WebVTT.
    found = cues(
        episode("One & two < three. Then a longer sentence that has to go over onto a second line, surely.")
    )
    theirs = pysubs2.SSAFile.from_string(subrip(found), format_="srt")
    assert [(line.start, line.end) for line in theirs] == [
        (int(c.start * 1000), int(c.end * 1000)) for c in found
    ]
    assert [line.plaintext.split("\n") for line in theirs] == [list(cue.lines) for cue in found]
    captions = webvtt.from_buffer(StringIO(webvtt_text(found))).captions
    assert len(captions) == len(found)
    assert captions[0].start == "00:00:00.000"


def test_webvtt_escapes_what_would_be_markup() -> None:
    text = webvtt_text([Cue(F(0), F(2), ("a < b & c",))])
    assert "a &lt; b &amp; c" in text


@pytest.mark.parametrize("writer", [subrip, webvtt_text])
def test_no_script_means_no_cues(writer) -> None:  # type: ignore[no-untyped-def]
    assert "-->" not in writer(cues(episode("")))


def test_an_episode_of_more_than_an_hour_is_written_with_hours() -> None:
    text = subrip([Cue(F(3725), F(3727), ("late",))])
    assert "01:02:05,000 --> 01:02:07,000" in text


def test_a_long_chain_of_numerals_breaks_between_them() -> None:
    chain = "I–♭VII–IV–iv–I–♭VII–IV–V7sus4–V7–vi–ii7–V7–I–IV–I–V6/5/vi–vi–ii7–V7–I"
    lines = [
        line for cue in cues(episode(f"The long way round goes {chain} and home.")) for line in cue.lines
    ]
    numerals = set(chain.split("–")) | {"–", "The", "long", "way", "round", "goes", "and", "home."}
    assert {word for line in lines for word in line.split()} <= numerals


def narrated(script: str, at: F, length: F, frames: int) -> Fake:
    """A clip of one narration, after a clip of a second."""
    laid = Fake(at=int(at * 48_000), cut=Fake(length=int(length * 48_000)))
    reading = F(60 * len(script.split()), 150)
    clip = Fake(id="s", start=30, frames=frames, script=script, reading=reading, end=30 + frames)
    clip.voice = Fake(kind="narration", laid=laid)
    return Fake(segments=(clip,), canvas=Fake(rate=F(30)), frames=30 + frames)


TALK = "Listen to the bar lines. Three times running the band changes chord, and the tune does not."


def test_captions_follow_the_narration_and_not_a_guess_of_how_fast_it_is_read() -> None:
    found = cues(narrated(TALK, F(5, 2), F(9), 600))
    assert found[0].start == 1 + F(5, 2) and found[-1].end == 1 + F(5, 2) + 9
    assert all(a.end == b.start for a, b in itertools.pairwise(found))


@given(scripts, st.fractions(0, 8, max_denominator=100), st.fractions(F(1, 2), 60, max_denominator=100))
def test_captions_of_a_narration_stay_while_it_is_heard_and_in_the_clip(text: str, at: F, length: F) -> None:
    plan = narrated(text, at, length, 450)
    for cue in cues(plan):
        assert 1 + at - F(1, 48_000) <= cue.start < cue.end <= min(1 + at + length, F(16))


@pytest.mark.parametrize(("length", "fast"), [(F(9), False), (F(3), True)])
def test_a_narration_is_too_fast_to_read_or_not_by_its_own_length(length: F, fast: bool) -> None:
    (clip,) = narrated(TALK, F(0), length, 600).segments
    assert too_fast(clip, F(30)) == fast
