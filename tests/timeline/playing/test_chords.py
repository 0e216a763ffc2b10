"""The chart's chords as they are played."""

from __future__ import annotations

from fractions import Fraction as F

import mir_eval.chord
import pychord
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.model import Play
from studio.theory.parts.close_voicing import close_voicings
from studio.timeline.heard import RATE
from studio.timeline.playing import replaced, tones_of
from tests.timeline.playing.songs import CHORDS, bars, change, song, struck_at

BEAT = RATE // 2  # at 120 beats a minute
START = RATE // 2  # where bar 1 starts

# As a chart has it, and in Harte's syntax (Harte et al., ISMIR 2005), which mir_eval.chord reads.
HARTE = {
    "C": "C:maj", "F#m": "F#:min", "Bbmaj7": "Bb:maj7", "E7": "E:7", "Am7": "A:min7", "B°": "B:dim", "Gaug": "G:aug",
    "Dsus4": "D:sus4", "C#m7b5": "C#:hdim7", "F6": "F:maj6", "Am6": "A:min6", "G°7": "G:dim7",
    "Abm(maj7)": "Ab:minmaj7", "D/F#": "D:maj/3", "C/Bb": "C:maj(b7)/b7",
}  # fmt: skip
PYCHORD = ("C", "F#m", "Bbm7", "E7", "Am6", "Dsus4", "G7sus4", "Cadd9", "A/C#", "Em7/D", "C5")
SYMBOLS = st.sampled_from(["C", "F#m7", "Bb", "E7/G#", "Am", "G13", "N.C.", "Dm7b5"])


@pytest.mark.parametrize("symbol", HARTE)
def test_the_notes_of_a_chord_are_those_of_mir_eval(symbol: str) -> None:
    root, bitmap, _ = mir_eval.chord.encode(HARTE[symbol])
    theirs = {(root + place) % 12 for place in range(12) if bitmap[place]}
    assert {tone.midi % 12 for tone in tones_of(CHORDS, bars(1, 1), song(f"| {symbol} |"))} == theirs


@pytest.mark.parametrize("symbol", PYCHORD)
def test_the_notes_of_a_chord_are_those_of_pychord(symbol: str) -> None:
    theirs = {pychord.utils.note_to_val(note) % 12 for note in pychord.Chord(symbol).components()}
    tones = tones_of(CHORDS, bars(1, 1), song(f"| {symbol} |"))
    assert {tone.midi % 12 for tone in tones} == theirs
    bass = pychord.Chord(symbol).on or pychord.Chord(symbol).root
    assert min(tone.midi for tone in tones) % 12 == pychord.utils.note_to_val(bass) % 12


def test_chords_are_struck_where_they_change_and_held_until_the_next() -> None:
    tones = tones_of(CHORDS, bars(1, 2), song("| C . F . | G |"))
    assert list(struck_at(tones)) == [START, START + 2 * BEAT, START + 4 * BEAT]
    assert {(tone.start, tone.length) for tone in tones} == {
        (START, 2 * BEAT), (START + 2 * BEAT, 2 * BEAT), (START + 4 * BEAT, 4 * BEAT)
    }  # fmt: skip


def test_they_are_led_as_the_keyboard_shows_them() -> None:
    symbols = ["C", "Am7", "F", "G7"]
    tones = struck_at(tones_of(CHORDS, bars(1, 4), song("| " + " | ".join(symbols) + " |")))
    shown = close_voicings([read_chord(symbol) for symbol in symbols])
    assert list(tones.values()) == [[pitch.midi for pitch in (one.bass, *one.upper)] for one in shown]


def test_a_chord_that_has_rung_for_a_bar_is_struck_again_at_the_bar_line() -> None:
    facts = song("| C | . | . . G . | . | . |")
    beats = [(at - START) / BEAT for at in struck_at(tones_of(CHORDS, bars(1, 5), facts))]
    # The G of bar 3 comes in the middle of it and is tied over the next bar line; at the one after it has rung a bar.
    assert beats == [0, 4, 8, 10, 16]
    held = tones_of(Play("chords", "chords", "sustained"), bars(1, 5), facts)
    assert [(at - START) / BEAT for at in struck_at(held)] == [0, 10]


def test_first_beats_lean_and_what_falls_between_beats_is_lighter() -> None:
    loud = {tone.start: tone.loud for tone in tones_of(CHORDS, bars(1, 1), song("| C C C C C C C C |"))}
    first, between, beat, *_ = (loud[at] for at in sorted(loud))
    assert first > beat > between


def test_a_stretch_cuts_the_chords_at_its_ends() -> None:
    tones = tones_of(CHORDS, Span(F(3), F(5)), song("| C | G |"))
    assert {(tone.start, tone.length) for tone in tones} == {
        (START + 3 * BEAT, BEAT),
        (START + 4 * BEAT, BEAT),
    }


def test_no_chord_is_silence() -> None:
    tones = tones_of(CHORDS, bars(1, 3), song("| C | N.C. | G |"))
    assert sorted(struck_at(tones)) == [START, START + 8 * BEAT]
    assert max(tone.start + tone.length for tone in tones if tone.start == START) == START + 4 * BEAT


def test_in_six_eight_the_beats_are_dotted_quarters() -> None:
    time = SongTime(((1, Meter(6, 8)),), ((F(0), F(0)), (F(3), F(1))))
    tones = tones_of(CHORDS, bars(1, 2, time), song("| C G | F |", time=time))
    assert list(struck_at(tones)) == [0, RATE // 2, RATE]


@settings(max_examples=40, deadline=None)
@given(st.lists(SYMBOLS, min_size=2, max_size=6), st.integers(1, 999), st.integers(1000, 3000))
def test_tones_join_to_the_sample_at_any_tempo(symbols: list[str], one: int, other: int) -> None:
    """Each chord ends on the sample on which the next starts, and each start is the nearest to its exact time."""
    time = SongTime(((1, Meter(4, 4)),), ((F(0), F(one, 1001)), (F(7), F(one, 1001) + F(other, 997))))
    facts = song("| " + " | ".join([*symbols, "C"]) + " |", time=time)
    tones = tones_of(CHORDS, bars(1, len(symbols) + 1), facts)
    lines = [time.seconds(F(4 * bar)) for bar in range(len(symbols) + 2)]
    nearest = [int((line * RATE * 2 + 1) // 2) for line in lines]
    for tone in tones:
        bar = nearest.index(tone.start)
        assert abs(tone.start - lines[bar] * RATE) <= F(1, 2)
        assert tone.start + tone.length == nearest[bar + 1]


# Instead


def test_a_chord_in_place_of_a_bar_changes_that_bar_alone() -> None:
    facts = song("| C | F | G | C |")
    as_written, changed = (
        tones_of(CHORDS, bars(1, 4), facts, instead) for instead in ((), (change("Dm7", 4, 8),))
    )
    before, after = struck_at(as_written), struck_at(changed)
    at = START + 4 * BEAT
    assert {midi % 12 for midi in after[at]} == read_chord("Dm7").pcs
    assert {when: keys for when, keys in after.items() if when != at} == {
        w: k for w, k in before.items() if w != at
    }
    assert replaced(CHORDS, bars(1, 4), facts, [change("Dm7", 4, 8)]) == (Span(F(4), F(8)),)


def test_a_moment_is_all_of_the_chord_that_sounds_at_it() -> None:
    facts = song("| C . F . | G |")
    assert replaced(CHORDS, bars(1, 2), facts, [change("Fm", 3)]) == (Span(F(2), F(4)),)
    tones = struck_at(tones_of(CHORDS, bars(1, 2), facts, [change("Fm", 3)]))
    assert {midi % 12 for midi in tones[START + 2 * BEAT]} == {5, 8, 0}


def test_another_chord_is_led_out_of_what_comes_before_it() -> None:
    """As if the chart had it there: after B♭ the hand stays low for D minor, which by itself would lie higher."""
    changed = struck_at(tones_of(CHORDS, bars(1, 5), song("| C | G | Bb | F | C |"), [change("Dm", 12)]))
    written = struck_at(tones_of(CHORDS, bars(1, 5), song("| C | G | Bb | Dm | C |")))
    alone = struck_at(tones_of(CHORDS, bars(1, 1), song("| Dm |")))
    assert changed[START + 12 * BEAT] == written[START + 12 * BEAT] != alone[START]


def test_a_change_keeps_the_rhythm_of_what_it_replaces() -> None:
    facts = song("| C . F . | G |")
    tones = struck_at(tones_of(CHORDS, bars(1, 2), facts, [change("Am", 0, 4)]))
    assert list(tones) == [START, START + 2 * BEAT, START + 4 * BEAT]


def test_part_of_a_chord_may_change() -> None:
    facts = song("| C | . | G |")
    changes = [change("C7", 6, 8)]
    tones = struck_at(tones_of(CHORDS, bars(1, 3), facts, changes))
    assert [(at - START) // BEAT for at in tones] == [0, 4, 6, 8]
    assert replaced(CHORDS, bars(1, 3), facts, changes) == (Span(F(6), F(8)),)


@pytest.mark.parametrize("silence", ["rest", "Rest", "N.C."])
def test_a_rest_leaves_the_chord_out(silence: str) -> None:
    facts = song("| C | F | G |")
    tones = tones_of(CHORDS, bars(1, 3), facts, [change(silence, 4, 8)])
    assert [(at - START) // BEAT for at in struck_at(tones)] == [0, 8]
    assert replaced(CHORDS, bars(1, 3), facts, [change(silence, 4, 8)]) == (Span(F(4), F(8)),)


def test_changes_that_touch_are_one_stretch() -> None:
    facts = song("| C | F | G | C |")
    changes = [change("Am", 8, 12), change("Dm", 4, 8)]
    assert replaced(CHORDS, bars(1, 4), facts, changes) == (Span(F(4), F(12)),)


@settings(max_examples=60, deadline=None)
@given(st.lists(SYMBOLS, min_size=1, max_size=5), st.integers(0, 4), st.integers(0, 19), st.integers(1, 8))
def test_outside_of_what_is_replaced_nothing_changes(
    symbols: list[str], moved: int, start: int, length: int
) -> None:
    facts = song("| " + " | ".join(["C", *symbols]) + " |")
    span = Span(F(moved), facts.song.end)
    asked = [change("F#7", start, start + length)]
    try:
        (differing,) = replaced(CHORDS, span, facts, asked) or (Span(F(0), F(0)),)
    except ValueError:
        return
    first, last = (START + quarters * BEAT for quarters in (differing.start, differing.end))
    bar = 4 * BEAT  # within which a chord may be cut in two by the change
    as_written, changed = (
        {t for t in tones_of(CHORDS, span, facts, made) if t.start < first - bar or t.start >= last + bar}
        for made in ((), asked)
    )
    assert as_written == changed
    inside = [t for t in tones_of(CHORDS, span, facts, asked) if first <= t.start < last]
    assert {t.midi % 12 for t in inside} <= read_chord("F#7").pcs


# What cannot be played


@pytest.mark.parametrize(
    ("chords", "changes", "sentence"),
    [
        ("", (), "there are no chords in bar 1 to play; write them in song: chords"),
        ("| N.C. |", (), "there are no chords in bar 1 to play"),
        (
            "| C | N.C. |",
            (change("G", 5),),
            "no chord that is played sounds at 2.2; name a place in bar 1 with one",
        ),
        ("| C |", (change("G", 5, 8),), "no chord that is played sounds at 2.2 to the end of the bar"),
        (
            "| C |",
            (change("C", 0, 4),),
            "'C' is what is written in bar 1 already; name another chord, or rest",
        ),
        ("| C |", (change("H", 0, 4),), "'H' cannot stand for a chord at bar 1: "),
        (
            "| C |",
            (change("F", 0, 2), change("G", 1, 4)),
            "two changes meet in 1.2 to 1.3; write one for each chord",
        ),
    ],
)
def test_what_cannot_be_played_is_a_sentence(chords: str, changes: tuple, sentence: str) -> None:
    with pytest.raises(ValueError) as found:
        tones_of(CHORDS, bars(1, 1), song(chords), changes)
    assert str(found.value).startswith(sentence)
