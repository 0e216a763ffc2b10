"""A script as words for the ear: symbols are words, and words stay as they are."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.aloud import for_the_ear
from studio.music.aloud.signs import DASHES, SIGNS

SCRIPTS = {
    "Under it sits I–♭VII–IV–iv.": "Under it sits one, flat seven, four, minor four.",
    "I – V – vi – IV, again": "one, five, six, four, again",
    "It goes I-V-vi-IV.": "It goes one, five, six, four.",
    "ii7–V7–Imaj7": "two minor seven, five seven, one major seven",
    "V7/vi, then vi": "five seven of six, then six",
    "back from V to I, where I began": "back from five to one, where I began",
    "the I chord": "the one chord",
    "play A/C♯ (or F♯m7), not “B♭”": "play A over C sharp (or F sharp minor seven), not “B flat”",
    "D, C♯, B, A, G": "D, C sharp, B, A, G",
    "C – G – Am – F": "C, G, A minor, F",
    "Dm–G7–C": "D minor, G seven, C",
    "D → C♯": "D to C sharp",
    "D→C♯": "D to C sharp",
    "the C♯'s third, in an F♯-minor scale": "the C sharp's third, in an F sharp minor scale",
    "a 9–8 suspension, bars 5–8": "a nine eight suspension, bars five to eight",
    "bars 7–8, a 7–6": "bars seven to eight, a seven six",
    "8–7–♭7–6": "eight, seven, flat seven, six",
    "it is in 6/8, not 4/4": "it is in six eight, not four four",
    "the ♭6, the ♯11th": "the flat six, the sharp 11th",
    "♩ = 96": "quarter note equals 96",
    "the staircase — slowly — comes down": "the staircase, slowly, comes down",
    "it stops—and starts": "it stops, and starts",
    "N.C.": "no chord",
    "Part II, verse IV": "Part two, verse four",
    "A3 to E5": "A three to E five",
    "30°C": "30 degrees C",
    "−3 dB": "-3 dB",
    "One\n\nTwo  three\nfour": "One\n\nTwo three four",
    # inversions and figures
    "ii6 iv6 i6 vi6": "two six minor four six minor one six six six",
    "a V6/4–5/3 over the bass": "a five six four, five three over the bass",
    "V⁷ I⁶, then V⁶₅": "five seven one six, then five six five",
    "a 5/3, not a 6/3": "a five three, not a six three",
    "It6, Ger+6, Ger6, Fr6 and N6": "Italian sixth, German sixth, German sixth, French sixth and Neapolitan sixth",
    "N6–V–i": "Neapolitan sixth, five, minor one",
    # minor and major are said once
    "the minor iv": "the minor four",
    "the minor v, a minor iv7": "the minor five, a minor four seven",
    "a major II": "a major two",
    "In A minor iv is D minor": "In A minor minor four is D minor",
    # degrees in plain letters
    "the b6, b3 and b9": "the flat six, flat three and flat nine",
    "#4 or #11, 1 #1 2": "sharp four or sharp eleven, 1 sharp one 2",
    "our #1 hit, take #4": "our number one hit, take number four",
    # the numeral and the pronoun
    "I to V and back to I.": "one to five and back to one.",
    "Chords I, IV and V": "Chords one, four and five",
    "ii, V, I.": "two, five, one.",
    "IV and I.": "four and one.",
    "play ii V I slowly": "play two five one slowly",
    "ii, V, I and home": "two, five, one and home",
    "It is the I.": "It is the one.",
    "The I is home": "The one is home",
    "chord I leads on": "chord one leads on",
    "back to I and then on": "back to one and then on",
    "an I chord, the I-chord": "a one chord, the one chord",
    "I → V, I V vi IV": "one to five, one five six four",
    "I go to V and I smile": "I go to five and I smile",
    "At V, I stop, and to IV I return.": "At five, I stop, and to four I return.",
    # things that are counted
    "Vol. II, World War II": "Vol. two, World War two",
    "Part I. In World War I we": "Part one. In World War one we",
    # charts
    "|: C | Am :|": "C, A minor",
    "||: C Am7 | F / G / :|| twice": "C A minor seven, F G, twice",
    "|C|Am|": "C, A minor",
    # shares and meters
    "3/4 of the song": "three quarters of the song",
    "1/3 of them, the 3/4 of a waltz": "one third of them, the three four of a waltz",
    "6/8 of old": "six eight of old",
    "A ♭5 substitution. A♭5": "a flat five substitution. A flat five",
    "": "",
}

ORDINARY = [
    "I am a tune. A major, a minor; and I, too, am late!",
    "Am I late? Go on: do it, and add a bass.",
    "It's a well-known, off-beat A-side, isn't it?",
    "He said: “I can't. Dim the lights (all of them)…”",
    "In this verse I play it, and in that part I do not.",
    "Ebb and flow, mix and match, six of one, half a dozen of the other.",
    "Der er smørrebrød på bordet.",
    "Sieh an: Das ist ein schöner Takt, und ich höre ihn.",
    "Δεν πειράζει.",
    "Im Takt, im Valt, da ist Ino; vim, vino, Galt und Amadeo, Isabel, Vadim.",
    "The part I play, the chord I love: it is I. She and I, too; as do I, and so am I.",
    "Who am I? Than I. Between you and I, I think I do.",
    "Am Anfang war das Wort.",
    "An m², a #hash, a B-side, and/or b2b.",
    "In 1999 there were 24 of them; 3.5 % stayed.",
]


@pytest.mark.parametrize(("written", "said"), SCRIPTS.items())
def test_symbols_are_said_as_musicians_say_them(written: str, said: str) -> None:
    assert for_the_ear(written) == said


@pytest.mark.parametrize("text", ORDINARY)
def test_ordinary_words_stay_as_they_are(text: str) -> None:
    assert for_the_ear(text) == text


def test_a_minor_chord_named_am_is_told_from_the_word() -> None:
    assert for_the_ear("Am I on Am now?") == "Am I on A minor now?"


SIGN = st.sampled_from([*SIGNS, *DASHES])
BITS = st.one_of(
    SIGN,
    st.sampled_from([*"ABCDEFGIVivabm#79/()|+-,. \n'°ø", "maj", "sus4", "vi", "VII", "add9", "dim", "6/4"]),
    st.text("aeioustrn ", max_size=4),
)


@given(st.lists(BITS, max_size=24).map("".join))
def test_no_sign_of_music_is_left_over(text: str) -> None:
    said = for_the_ear(text)
    left = set(said) & {*"".join(SIGNS), *DASHES}
    assert not left, f"{left} of {text!r} is left"
    assert not re.search(r"(?<![^\W\d_])[øØºΔ](?![^\W\d_])", said), "a letter alone is a sign"
    assert said == said.strip() and "  " not in said


@given(st.text(max_size=40))
def test_any_text_at_all_can_be_said(text: str) -> None:
    assert not set(for_the_ear(text)) & {*"".join(SIGNS), *DASHES}


WORD = st.from_regex(r"[h-uw-z][a-z]{2,8}", fullmatch=True).filter(
    lambda word: not re.fullmatch("[ivx]+", word)
)


@given(st.lists(WORD, min_size=1, max_size=12), st.sampled_from([" ", ", ", "; "]))
def test_small_words_are_never_taken_for_symbols(words: list[str], between: str) -> None:
    text = between.join(words) + "."
    assert for_the_ear(text) == text
