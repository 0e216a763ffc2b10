"""Excerpts as exact values: who is heard, how loud, how fast, how often, and what the program plays."""

from __future__ import annotations

from fractions import Fraction

import pytest

from studio.music.place import Span
from studio.project.lengths import clip_length, excerpt_start
from studio.project.model import CountIn, Excerpt, Featured, Instead, Play, Segment, StemLevel
from tests.project.conftest import GOOD, Load, with_excerpt

VERSE_1_2 = "where: verse bars 1-2"
"""Quarters 16 to 24 of a song at 120 a minute in 4/4: seconds 8 to 12 of its recording."""


@pytest.fixture
def segment_of(load_text: Load) -> Load:
    def first(excerpt: str, **lines: str) -> Segment:
        return load_text(with_excerpt(excerpt, **lines)).segments[0]

    return first


@pytest.fixture
def excerpt_of(segment_of: Load) -> Load:
    def read(excerpt: str, **lines: str) -> Excerpt:
        found = segment_of(excerpt, **lines).excerpt
        assert found is not None
        return found

    return read


def test_an_excerpt_of_which_nothing_more_is_said_is_as_it_was(load_text: Load) -> None:
    hook, desk = load_text(GOOD).segments
    assert hook.excerpt is not None and desk.excerpt is not None
    assert hook.excerpt.heard == hook.excerpt.length == 4 and hook.excerpt.passes == 1
    assert (hook.excerpt.speed, hook.excerpt.cents, hook.excerpt.tail, hook.excerpt.levels) == (1, 0, 0, {})
    assert hook.excerpt.fade_in == hook.excerpt.fade_out == Fraction(1, 20)
    assert desk.excerpt.names == () and desk.excerpt.at == 0


@pytest.mark.parametrize(
    ("excerpt", "names"),
    [
        ("", ()),  # the full recording
        (", stems: bass", ("bass",)),
        (", mute: bass", ("keys",)),
        (", gain: {bass: -3 dB}", ("keys", "bass")),  # what is said of a stem makes stems of the recording
        (", pan: {bass: left}", ("keys", "bass")),
        (", feature: bass", ("keys", "bass")),
        (", play: lead", ()),
        (", play: lead, stems: [bass]", ("bass",)),
        (", play: lead, mute: [bass]", ("keys",)),
        (", play: lead, gain: {lead: 3 dB}", ()),
    ],
)
def test_who_is_heard(excerpt_of: Load, excerpt: str, names: tuple[str, ...]) -> None:
    found = excerpt_of(VERSE_1_2 + excerpt)
    assert found.names == names
    recording = 0 if "play" in excerpt else 1
    assert [media.path.stem for media in found.sources] == list(names or ["mix"][:recording])


def test_how_loud_and_where(excerpt_of: Load) -> None:
    found = excerpt_of(
        f"{VERSE_1_2}, gain: {{bass: -3 dB, lead: 2 dB}}, pan: {{bass: left 40 %}}, stems: [keys, bass], play: lead"
    )
    assert found.levels == {"bass": StemLevel(-3.0, -0.4), "lead": StemLevel(2.0, 0.0)}


@pytest.mark.parametrize(
    ("feature", "expected"),
    [
        ("bass", Featured("bass")),
        ("{stem: bass, by: 6 dB}", Featured("bass", 6.0)),
        # 1 beat at 120 a minute is half a second.
        (
            "{stem: bass, where: 6, over: 1 beat}",
            Featured("bass", 9.0, Span(Fraction(20), Fraction(24)), Fraction(1, 2)),
        ),
        ("{stem: bass, over: 0.5}, speed: 0.5", Featured("bass", 9.0, None, Fraction(1, 4))),
        # Where the usual glide has no room it takes what there is: half of a quarter of a second.
        (
            "{stem: bass, where: 5.1-5.1+1/2}",
            Featured("bass", 9.0, Span(Fraction(16), Fraction(33, 2)), Fraction(1, 8)),
        ),
    ],
)
def test_one_stem_in_front(excerpt_of: Load, feature: str, expected: Featured) -> None:
    assert excerpt_of(f"{VERSE_1_2}, feature: {feature}").featured == expected


@pytest.mark.parametrize(
    ("written", "fade_in", "fade_out", "tail"),
    [
        ("fade: 0.05", Fraction(1, 20), Fraction(1, 20), 0),
        ("fade: 1 beat", Fraction(1, 2), Fraction(1, 2), 0),
        ("fade: {in: 1/2 beat, out: 1 bar}", Fraction(1, 4), 2, 0),
        ("fade: {in: 1 beat, out: 0.1}, speed: 0.5", 1, Fraction(1, 10), 0),  # seconds are as heard
        # The excerpt ends on a bar line, and rings on to the next.
        ("tail: yes", 0, 2, 2),
        ("tail: no", 0, 0, 0),
        ("tail: 2 beats", 0, 1, 1),
        ("tail: 1.5", 0, Fraction(3, 2), Fraction(3, 2)),
        ("tail: 1.5, speed: 0.5", 0, Fraction(3, 2), Fraction(3, 4)),
        ("tail: 1 bar, speed: 0.5", 0, 4, 2),
        # A fade out takes all of the tail, unless it is written by itself.
        ("tail: 1 bar, fade: 0.05", Fraction(1, 20), 2, 2),
        ("tail: 1 bar, fade: {out: 1 beat}", 0, Fraction(1, 2), 2),
    ],
)
def test_fades_and_tails(
    excerpt_of: Load, written: str, fade_in: Fraction, fade_out: Fraction, tail: Fraction
) -> None:
    found = excerpt_of(f"{VERSE_1_2}, {written}")
    assert (found.fade_in, found.fade_out, found.tail) == (fade_in, fade_out, tail)
    assert found.heard == (4 + tail) / found.speed


@pytest.mark.parametrize(
    ("where", "tail"),
    [
        ("5.1-6.3", 1),  # from beat 3 of 4 to the bar line
        ("15.1-16.1", 2),
        ("0:29-0:30.5", Fraction(1, 2)),  # bar 17 begins at 0:31
        ("0:29-0:31.5", Fraction(1, 2)),  # the recording ends at 0:32, before the next bar line
        ("0:29-0:32", 0),  # and here nothing follows
    ],
)
def test_a_tail_rings_to_the_next_bar_line_or_as_long_as_the_recording(
    excerpt_of: Load, where: str, tail: Fraction
) -> None:
    found = excerpt_of(f"where: {where}, tail: yes, fade: 0.05")
    assert found.tail == tail
    assert found.fade_out == max(tail, Fraction(1, 20))


def test_fades_may_be_off(excerpt_of: Load) -> None:
    assert excerpt_of(f"{VERSE_1_2}, fade: off").fade_in == 0
    assert excerpt_of(f"{VERSE_1_2}, fade: {{in: no, out: 1 beat}}").fade_in == 0


def test_the_file_that_lasts_longest_lets_the_tail_ring(load_text: Load) -> None:
    """The bass ends at 0:04, the keys at 0:32: what rings on is the keys."""
    text = with_excerpt("where: 0:02-0:03.5, stems: [keys, bass], tail: 4").replace(
        "bass: audio/bass.flac", "bass: audio/short.flac"
    )
    found = load_text(text).segments[0].excerpt
    assert found is not None and found.tail == 4


def test_a_tail_is_part_of_the_excerpt(excerpt_of: Load) -> None:
    """Bar 7 rings on after bars 5 and 6: a stem may be in front there, and a chord another one."""
    here = f"{VERSE_1_2}, tail: 1 bar"
    bar_7 = Span(Fraction(24), Fraction(28))
    assert excerpt_of(f"{here}, feature: {{stem: bass, where: 7}}").featured == Featured("bass", 9.0, bar_7)
    assert excerpt_of(f"{here}, play: chords, instead: {{7: G}}").instead == (Instead(bar_7, "G", "chords"),)


def test_what_is_played_rings_no_longer_than_the_song(excerpt_of: Load) -> None:
    """The song ends with bar 16, of which this leaves two beats, a second."""
    assert excerpt_of("where: 15.1-16.3, play: chords, tail: yes").tail == 1
    assert excerpt_of("where: 15.1-16.3, play: chords, tail: 3 beats").tail == 1


def test_a_fade_is_measured_in_the_song_where_it_stands(load_text: Load) -> None:
    """Bars 5 to 9 take twice as long as those before: a beat there is a second."""
    text = with_excerpt("where: 4-5, fade: 1 beat").replace("tempo: 120", "bars: {1: 0:00, 5: 0:08, 9: 0:24}")
    found = load_text(text).segments[0].excerpt
    assert found is not None and (found.fade_in, found.fade_out) == (Fraction(1, 2), 1)


@pytest.mark.parametrize(
    ("written", "count_in"),
    [
        ("count-in: 1 bar", CountIn(Fraction(12), Fraction(2))),
        ("count-in: 2 beats", CountIn(Fraction(14), Fraction(1))),
        ("count-in: 2 bars, speed: 80 %", CountIn(Fraction(8), Fraction(5))),
    ],
)
def test_a_count_in(excerpt_of: Load, written: str, count_in: CountIn) -> None:
    found = excerpt_of(f"{VERSE_1_2}, {written}")
    assert found.count_in == count_in
    assert found.heard == count_in.seconds + 4 / found.speed


def test_a_count_in_may_reach_before_the_song(excerpt_of: Load) -> None:
    assert excerpt_of("where: 1-2, count-in: 1 bar").count_in == CountIn(Fraction(-4), Fraction(2))


def test_a_count_in_keeps_the_tempo_of_the_first_beat(load_text: Load) -> None:
    text = with_excerpt("where: 5, count-in: 1 bar").replace(
        "tempo: 120", "bars: {1: 0:00, 5: 0:08, 9: 0:24}"
    )
    found = load_text(text).segments[0].excerpt
    assert found is not None and found.count_in == CountIn(Fraction(12), Fraction(4))


def test_passes_speed_and_pitch(excerpt_of: Load) -> None:
    found = excerpt_of(f"{VERSE_1_2}, repeat: 3, speed: 0.8, pitch: -2 half steps, click: -6 dB, tail: 1 bar")
    assert (found.passes, found.speed, found.cents, found.click) == (3, Fraction(4, 5), -200, -6.0)
    assert found.heard == (3 * 4 + 2) / Fraction(4, 5)
    assert excerpt_of(f"{VERSE_1_2}, click: yes").click == 0.0
    assert excerpt_of(f"{VERSE_1_2}, click: no").click is None


@pytest.mark.parametrize(
    ("play", "expected"),
    [
        ("chords", (Play("chords", "chords"),)),
        ("lead", (Play("part", "lead"),)),
        (
            "[lead, {part: chords, sound: sustained}]",
            (Play("part", "lead"), Play("chords", "chords", "sustained", named=True)),
        ),
        ("{fact: loop, sound: plucked}", (Play("chords", "loop", "plucked", named=True),)),
    ],
)
def test_what_is_played_over_a_stretch(excerpt_of: Load, play: str, expected: tuple[Play, ...]) -> None:
    found = excerpt_of(f"{VERSE_1_2}, play: {play}")
    assert found.plays == expected and found.sources == ()
    assert found.span == Span(Fraction(16), Fraction(24))


def test_a_fact_brings_its_place(excerpt_of: Load) -> None:
    found = excerpt_of("play: {fact: loop}, count-in: 1 bar")
    assert found.span == Span(Fraction(16), Fraction(48)) and (found.start, found.end) == (8, 24)
    assert found.count_in == CountIn(Fraction(12), Fraction(2))


def test_a_part_that_is_called_chords_wins_over_the_word(load_text: Load) -> None:
    text = (
        with_excerpt("where: 5, play: chords")
        .replace("    lead: |", "    chords: |")
        .replace("lead", "chords")
    )
    found = load_text(text).segments[0].excerpt
    assert found is not None and found.plays == (Play("part", "chords"),)


@pytest.mark.parametrize(
    ("play", "expected"),
    [
        ("{chord: F#m7}", Play("chord", "F#m7")),
        ("{scale: D Mixolydian, tempo: 90}", Play("scale", "D Mixolydian", tempo=Fraction(90))),
        ("{fact: colour, sound: struck}", Play("fact", "colour", named=True)),
        ("{fact: under}", Play("fact", "under")),
    ],
)
def test_what_is_played_by_itself(load_text: Load, play: str, expected: Play) -> None:
    """How long it takes, theory has to say, so that nothing is judged by the length of its clip."""
    text = with_excerpt(
        f"play: {play}, repeat: 2, speed: 0.5, fade: 1 beat, gain: {{{expected.name}: -3 dB}}"
    )
    text = text.replace("facts:\n", "facts:\n  colour: {mode: lead, over: verse}\n  under: {chord: 6.1}\n")
    found = load_text(text.replace("  - id: desk\n", "  - id: desk\n    at: 0:01\n")).segments[0].excerpt
    assert found is not None
    assert found.plays == (expected,) and found.span is None and found.length == 0
    assert found.passes == 2 and found.levels == {expected.name: StemLevel(-3.0)}
    assert found.fade_in == 60 / expected.tempo / Fraction(1, 2)


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (
            "play: chords, instead: {verse bar 2: G}",
            (Instead(Span(Fraction(20), Fraction(24)), "G", "chords"),),
        ),
        (
            "play: chords, instead: {6.3: N.C.}",
            (Instead(Span(Fraction(22), Fraction(22)), "rest", "chords"),),
        ),
        (
            "play: lead, instead: {6: D}, repeat: 2",
            (Instead(Span(Fraction(20), Fraction(24)), "D", "lead"),),
        ),
        (
            "play: lead, instead: {6.1: D5, 5.2: rest}",
            (
                Instead(Span(Fraction(17), Fraction(17)), "rest", "lead"),
                Instead(Span(Fraction(20), Fraction(20)), "D5", "lead"),
            ),
        ),
        # Of several the first that a change fits: a chord is one of the chords, a note one of the part.
        (
            "play: [lead, chords], instead: {5.1: D5, 6: Gm}",
            (
                Instead(Span(Fraction(16), Fraction(16)), "D5", "lead"),
                Instead(Span(Fraction(20), Fraction(24)), "Gm", "chords"),
            ),
        ),
        ("play: [lead, chords], instead: {6: G}", (Instead(Span(Fraction(20), Fraction(24)), "G", "lead"),)),
        (
            "play: [chords, lead], instead: {6: G}",
            (Instead(Span(Fraction(20), Fraction(24)), "G", "chords"),),
        ),
        (
            "play: [lead, chords], instead: {6: F#m7}",
            (Instead(Span(Fraction(20), Fraction(24)), "F#m7", "chords"),),
        ),
        # A note is one near those of the part; F#7, three octaves above them, is the chord.
        (
            "play: [chords, lead], instead: {6: F#7}",
            (Instead(Span(Fraction(20), Fraction(24)), "F#7", "chords"),),
        ),
        (
            "play: [chords, lead], instead: {6: F#4}",
            (Instead(Span(Fraction(20), Fraction(24)), "F#4", "lead"),),
        ),
        (
            "play: [lead, chords], instead: {6: rest}",
            (Instead(Span(Fraction(20), Fraction(24)), "rest", "lead"),),
        ),
        ("play: lead, instead: {5: F#m7}", (Instead(Span(Fraction(16), Fraction(20)), "F#m7", "lead"),)),
    ],
)
def test_with_and_without(excerpt_of: Load, written: str, expected: tuple[Instead, ...]) -> None:
    found = excerpt_of(f"{VERSE_1_2}, {written}")
    assert found.instead == expected
    assert found.passes == 2 * found.repeat and found.heard == 4 * found.passes


def test_after_the_voice(segment_of: Load) -> None:
    """15 words take 6 s at 150 a minute (common practice); a narration takes its own time."""
    words = segment_of(f"{VERSE_1_2}, at: after the voice")
    assert words.excerpt is not None and words.excerpt.at is None
    assert excerpt_start(words.script, None, words.excerpt) == 6
    assert clip_length(words) == 6 + 4
    told = segment_of(
        f"{VERSE_1_2}, at: After the  voice", segment="    narration: {file: voice/hook.wav, at: 0.5}\n"
    )
    assert clip_length(told) == Fraction(7, 2) + 4


def test_a_callout_may_speak_of_the_tail_and_of_one_pass(segment_of: Load) -> None:
    callouts = "    callouts: [{kind: chords, where: 7, pass: 2}]\n"
    (callout,) = segment_of(f"{VERSE_1_2}, tail: 1 bar, repeat: 2", callouts=callouts).callouts
    assert callout.pass_ == 2 and callout.where == Span(Fraction(24), Fraction(28))


def test_what_is_played_may_start_before_the_recording(load_text: Load) -> None:
    text = with_excerpt("where: 0-1, play: chords, tail: 1 bar").replace(
        "  tempo: 120\n", "  tempo: 120\n  pickup: 1\n"
    )
    found = load_text(text).segments[0].excerpt
    assert found is not None and (found.start, found.end, found.tail) == (Fraction(-1, 2), 2, 2)
