"""Words for grooves."""

from fractions import Fraction as F

import pytest

from studio.music.meter import Meter
from studio.theory.rhythm.difference import groove_difference
from studio.theory.rhythm.reading import GrooveReading, drums_reading
from studio.theory.wording.counting import count_words, places_words
from studio.theory.wording.rhythm import (
    difference_words,
    groove_words,
    kick_words,
    swing_words,
    syncopation_words,
    variation_words,
)
from tests.theory.rhythm.grooves import groove, played, reading, song_time

VERSE = reading(kick="x... ..x. x... ....", side_stick=".x.x", hat="xxxx")
CHORUS = reading(kick="x..x ..x. x.x. ....", snare=".x.x", clap=".x.x", hat="xxxxxxxx")
BRIDGE = reading(kick="x...", snare="..x.", ride="xxxx")


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (CHORUS, "backbeat on 2 and 4, eighth-note hats, straight"),
        (VERSE, "backbeat on 2 and 4 (side stick), quarter-note hats"),
        (BRIDGE, "half time, snare on 3, quarter-note ride"),
        (reading(kick="xxxx", open_hat=".x.x.x.x", clap=".x.x"),
         "backbeat on 2 and 4 (clap), four on the floor, off-beat hats"),
        (reading(kick="x.x.", snare=".x.x", hat="x.x x.x x.x x.x"),
         "backbeat on 2 and 4, shuffle, eighth-note hats"),
        (reading(claves="| x..x..x. | ..x.x... |"), "son clave 3–2"),
        (reading("6/8", kick="x.....", snare="...x..", hat="xxxxxx"), "backbeat on 2, eighth-note hats"),
        (reading(kick="x.x."), "kick on 1 and 3"),
        (reading(kick="x...", snare=".x.x", hat="X.xx X.xx X.xx X..."),
         "backbeat on 2 and 4, broken sixteenth-note hats, straight"),
        (reading(kick="x...", snare="xxxx"), "snare on every beat"),
        (reading(kick="xxxx", snare="ooXo ooXo ooXo ooXo"), "four on the floor, train beat"),
        (reading(ride="x.. x.x x.. x.x", pedal_hat="... x.. ... x.."), "swing ride, hi-hat on 2 and 4"),
        (reading(kick="x..x x..x x..x x..x", side_stick="x..x ..x. ..x. .x..", hat="x.x. x.x. x.x. x.x."),
         "bossa clave 3–2, eighth-note hats, straight"),
        (reading("7/8", kick="x...x..", snare="..x...x", hat="xxxxxxx"),
         "2+2+3, snare on 3 and 7, eighth-note hats"),
        (reading("3/4", kick="x..", snare=".xx"), "snare on 2 and 3"),
        (reading(kick="x.x. x.x. x.x. x.x.", snare=".x.x .x.x .x.x .x.x"), "blast beat"),
    ],
)  # fmt: skip
def test_a_groove_in_a_line(found: GrooveReading, words: str) -> None:
    assert groove_words(found) == words


def test_moments_are_counted_as_drummers_do() -> None:
    four, six = Meter(4, 4), Meter(6, 8)
    steps = [count_words(F(step, 16), four) for step in range(4, 8)]
    assert steps == ["2", "2e", "2&", "2a"]
    assert count_words(F(5, 12), four) == "2 (3rd triplet)"
    assert [count_words(F(step, 6), six) for step in (3, 5)] == ["2", "the 3rd eighth of 2"]
    assert places_words([F(0), F(3, 8), F(1, 2)], four) == "1, 2& and 3"
    assert places_words([F(1, 4), F(5, 4)], four, bars=2) == "2"
    assert places_words([F(1, 4), F(3, 2)], four, bars=2) == "2 of bar 1 and 3 of bar 2"


def test_kicks() -> None:
    assert kick_words(VERSE) == "kick on 1, 2& and 3, leading into 3"
    assert kick_words(reading(kick="x... ..x. .... ..x.")) == "kick on 1, 2& and 4&, pushed before 3"
    assert kick_words(reading(kick="xxxx")) == "kick on every beat"
    assert kick_words(reading(clap=".x.x")) == "no kick"


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (reading(kick="xxxx xxxx xxxx xxxx", snare=".x.x"), "kick in sixteenths"),
        (reading(kick="xxxxxxxx", snare=".x.x"), "kick in eighths"),
        (reading("3/4", kick="xxx"), "kick on every beat"),
        (reading("12/8", kick="xxxxxxxxxxxx"), "kick in eighths"),
        (reading(kick="x..x x..x x..x x..x"), "kick on every beat and every a"),
        (reading("12/8", kick="x.. ..x x.. ..."), "kick on 1, 3 and the 3rd eighth of 2, leading into 3"),
        (
            reading(kick="xxxx xxxx xxxx xxx."),
            "kick on 1, 1e, 1&, 1a, 2, 2e, 2&, 2a, 3, 3e, 3&, 3a, 4, 4e and 4&",
        ),
    ],
)
def test_a_kick_that_runs_is_no_list(found: GrooveReading, words: str) -> None:
    """Double kick, blast beat, bossa: as drummers say it, common practice."""
    assert kick_words(found) == words


def test_swing_and_syncopation() -> None:
    time = song_time()
    swung = drums_reading(played(groove(hat="xxxxxxxx"), 4, F(1, 6)), time, time.bars(1, 4))
    assert swing_words(swung) == "triplet swing, 2.0 to 1 (±0.0)"
    assert swing_words(CHORUS) == "straight sixteenths", "the kick plays them beside the eighths of the hats"
    assert swing_words(reading(kick="x.x.", snare=".x.x", hat="xxxxxxxx")) == "straight eighths"
    assert swing_words(BRIDGE) == "nothing plays the off-beats"
    assert syncopation_words(CHORUS) == "kick: syncopation 3 a bar (Longuet-Higgins & Lee)"
    assert syncopation_words(BRIDGE) == "kick: no syncopation (Longuet-Higgins & Lee)"
    assert syncopation_words(reading(claves="| x..x..x. | ..x.x... |")).startswith("syncopation ")


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (reading(kick="xxxx", side_stick="x..x ..x. ..x. x..."), "straight sixteenths"),
        (reading(kick="xxxx", snare="ooXo ooXo ooXo ooXo"), "straight sixteenths"),
        (reading(clap=".... x... .... x.x."), "straight eighths"),
        (reading("6/8", kick="x.....", snare="...x..", hat="xxxxxx"), ""),
        (reading("6/8", kick="x.....", snare="...x.."), "nothing plays the off-beats"),
    ],
)
def test_whoever_plays_the_off_beats_tells_of_them(found: GrooveReading, words: str) -> None:
    """A clave on the side stick, a train beat's snare, claps, the eighths of 6/8: common practice."""
    assert swing_words(found) == words


def test_which_bars_vary() -> None:
    time, fill = song_time(), played(groove(snare="xxxx"), 1, first_bar=8)
    drums = played(groove(kick="x.x.", snare=".x.x"), 7)
    both = type(drums)((*drums.strokes, *fill.strokes))
    assert variation_words(drums_reading(both, time, time.bars(1, 8))) == "7 of 8 bars alike; bar 8 varies"
    assert variation_words(drums_reading(drums, time, time.bars(1, 7))) == "all 7 bars alike"
    assert variation_words(CHORUS) == ""


@pytest.mark.parametrize(
    ("before", "after", "name", "other", "words"),
    [
        (reading(kick="x.x.", snare=".x.x", hat="xxxx"),
         reading(kick="x.x.", snare=".x.x", hat="xxxxxxxx", clap=".x.x"),
         "chorus", "verse", "The chorus doubles the hats and adds a clap on 2 and 4."),
        (VERSE, CHORUS, "chorus", "verse",
         "The chorus doubles the hats, trades the side stick for the snare and adds a clap on 2 and 4,"
         " and kicks on 1a and 3&."),
        (CHORUS, CHORUS, "chorus 2", "chorus", "Chorus 2 has the same groove as the chorus."),
        (VERSE, BRIDGE, "bridge", "verse 2",
         "The bridge drops to half time, moves from hats to the ride in quarters, trades the side stick for the snare"
         " and leaves out the kicks on 2& and 3."),
        (reading("3/4", kick="x.....", snare="..x.x.", hat="x.x.x."),
         reading("3/4", kick="x...x.", snare="..X.Xo", hat="x.x.x.", crash="x....."), "press", "waltz",
         "The press adds a kick on 3 and a crash on 1, and differs in ghost notes and accents."),
        (reading("7/8", kick="x...x..", snare="..X...X", hat="x.x.x.x"),
         reading("7/8", kick="x..xx..", snare="......o", hat="x.x.x.x"), "lift", "riff",
         "The lift leaves out the snare on 3, softens the snare on 7 and adds a kick on 4."),
        (reading(kick="x.x.", snare=".x.x"), reading(kick="x.x.", snare=".xoX"), "chorus", "verse",
         "The chorus has the same groove as the verse, but for ghost notes and accents."),
        (reading(kick="x.x."), reading(kick="x.x.", hat="xxxxxxxx"), "chorus", "verse",
         "The chorus adds eighth-note hats."),
        (VERSE, reading("3/4", kick="x.."), "outro", "verse", "The outro is in 3/4, not 4/4."),
    ],
)  # fmt: skip
def test_one_sentence_of_difference(
    before: GrooveReading, after: GrooveReading, name: str, other: str, words: str
) -> None:
    assert difference_words(groove_difference(before, after), name, other) == words


def test_what_a_sentence_has_no_room_for_it_says_is_more() -> None:
    before = reading(kick="x...", snare=".x.x", hat="xxxx")
    after = reading(kick="x.x.", snare=".x.o", hat="xxxxxxxx")
    found = groove_difference(before, after)
    assert difference_words(found, "chorus", "verse") == (
        "The chorus doubles the hats, softens the snare on 4 and adds a kick on 3."
    )
    assert difference_words(found, "chorus", "verse", most=2) == "The chorus doubles the hats and more."
