"""The tones of every chord symbol, against four other people's tables.

Compared as pitch classes above the root. Every difference is named in DIFFERENCES with what the other table
has more and less than ours, and why; a difference that is not named there fails, and so does a named one
that is no longer found.
"""

from __future__ import annotations

import json
from pathlib import Path

import mir_eval.chord
import pychord
import pytest
from music21 import harmony
from pychord.constants.qualities import DEFAULT_QUALITIES

from studio.music.chord import Chord, Tone
from studio.music.chord_qualities import ALTERATIONS, QUALITIES
from studio.music.chord_reader import ChordError, read_chord
from studio.music.pitch import NoteName
from tests.music.chord_symbols import symbols

ROOTS = [NoteName.parse(name) for name in ("C", "F♯", "B♭", "A♭", "C♭", "B", "D♯")]
TONAL = json.loads((Path(__file__).parent / "data" / "tonal_chords.json").read_text(encoding="utf-8"))

# Each quality in Harte's syntax (Harte et al., ISMIR 2005), which mir_eval.chord reads.
HARTE = {
    "": "maj", "m": "min", "dim": "dim", "aug": "aug", "5": "5", "sus2": "sus2", "sus4": "sus4", "6": "maj6",
    "m6": "min6", "6/9": "maj6(9)", "m6/9": "min6(9)", "7": "7", "maj7": "maj7", "m7": "min7",
    "mMaj7": "minmaj7", "m7♭5": "hdim7", "dim7": "dim7", "dimMaj7": "dim(7)",
    "7alt": "7(*5,b9,#9,#11,b13)", "9": "9", "maj9": "maj9", "m9": "min9", "mMaj9": "minmaj7(9)", "11": "11",
    "maj11": "maj9(11)", "m11": "min11", "mMaj11": "minmaj7(9,11)", "13": "13", "maj13": "maj13",
    "m13": "min13", "mMaj13": "minmaj7(9,11,13)", "7sus2": "sus2(b7)", "7sus4": "sus4(b7)",
    "9sus4": "sus4(b7,9)", "13sus4": "sus4(b7,9,13)", "maj7sus2": "sus2(7)", "maj7sus4": "sus4(7)",
    "maj9sus4": "sus4(7,9)",
}  # fmt: skip

# Each quality as a kind of music21 (MusicXML's kinds), with degrees added where no kind has them.
MUSIC21: dict[str, tuple[str, str]] = {
    "": ("major", ""), "m": ("minor", ""), "dim": ("diminished", ""), "aug": ("augmented", ""),
    "5": ("power", ""), "sus2": ("suspended-second", ""), "sus4": ("suspended-fourth", ""),
    "6": ("major-sixth", ""), "m6": ("minor-sixth", ""), "6/9": ("major-sixth", "9"),
    "m6/9": ("minor-sixth", "9"), "7": ("dominant-seventh", ""), "maj7": ("major-seventh", ""),
    "m7": ("minor-seventh", ""), "mMaj7": ("minor-major-seventh", ""), "m7♭5": ("half-diminished-seventh", ""),
    "dim7": ("diminished-seventh", ""), "dimMaj7": ("diminished", "7"), "9": ("dominant-ninth", ""),
    "7alt": ("dominant-seventh", "♭9 ♯9 ♯11 ♭13 no5"),
    "maj9": ("major-ninth", ""), "m9": ("minor-ninth", ""), "mMaj9": ("minor-major-ninth", ""),
    "11": ("dominant-11th", ""), "maj11": ("major-11th", ""), "m11": ("minor-11th", ""),
    "mMaj11": ("minor-major-11th", ""), "13": ("dominant-13th", ""), "maj13": ("major-13th", ""),
    "m13": ("minor-13th", ""), "mMaj13": ("minor-major-13th", ""), "7sus2": ("suspended-second", "♭7"),
    "7sus4": ("suspended-fourth-seventh", ""), "9sus4": ("suspended-fourth-seventh", "9"),
    "13sus4": ("suspended-fourth-seventh", "9 13"), "maj7sus2": ("suspended-second", "7"),
    "maj7sus4": ("suspended-fourth", "7"), "maj9sus4": ("suspended-fourth", "7 9"),
}  # fmt: skip

# Why we differ -> library -> its name of the chord (for mir_eval and music21, ours) -> pitch classes above the
# root that the library has more and less than we.
Differences = dict[str, dict[str, dict[str, tuple[set[int], set[int]]]]]
THIRTEENTHS = ["C13", "Cmaj13", "C13♭9", "C13♯9", "C13♭5", "C13♯5"]
THIRTEENTHS_WITH_SHARP_11 = ["C13♯11", "C13(♭9♯11)", "C13(♯9♯11)", "Cmaj13♯11"]
FLAT_FIFTHS = ["M6b5", "6b5", "7b5b13", "7b5#9", "7#9b5", "9b5b13", "7b5b9", "7b9b5", "7b5b9b13"]
DIFFERENCES: Differences = {
    "The natural 11 grinds against the major third, and players leave it out of a 13.": {
        "mir_eval": dict.fromkeys([*THIRTEENTHS, *THIRTEENTHS_WITH_SHARP_11], ({5}, set())),
        "music21": dict.fromkeys(THIRTEENTHS, ({5}, set())),
        "pychord": dict.fromkeys(["13", "maj13", "M13", "13b9", "13#9", "13-9", "13+9"], ({5}, set())),
    },
    "music21 leaves the 11 of its thirteenth chord plain when asked to alter it.": {
        "music21": dict.fromkeys(THIRTEENTHS_WITH_SHARP_11, ({5}, {6})),
    },
    "MusicXML has no kind 9sus4; music21 adds the ♭9 beside the 9 that was added to its 7sus4.": {
        "music21": {"C13sus4(♭9)": ({2}, set())},
    },
    "pychord builds this on its eleventh chord; nothing in the symbol asks for an eleventh.": {
        "pychord": {"7b9b13": ({5}, set())},
    },
    "A ♭13 is a tension: tonal drops the fifth under it, we leave that to the player, as with every tension.": {
        "tonal": dict.fromkeys(["7b13", "9b13", "M7b6", "^7b6", "mb6b9"], (set(), {7})),
    },
    "tonal takes ♭5 for another name of ♯11 and keeps the fifth; a flat fifth stands in its place.": {
        "tonal": dict.fromkeys(FLAT_FIFTHS, ({7}, set())),
    },
    "The triangle without a number is a major seventh here, in tonal it (^) is a triad.": {
        "tonal": {"^": (set(), {11}), "^#5": (set(), {11})},
    },
    "No seventh is asked for by maj and ♯4.": {"tonal": {"maj#4": ({11}, set())}},
    "An 11 keeps its third here; 9sus4 says that it is gone.": {
        "tonal": {"11": (set(), {4}), "11b9": (set(), {4})},
    },
    "An m13 holds its eleventh, as nothing grinds.": {"tonal": {"m13": (set(), {5}), "-13": (set(), {5})}},
    "tonal's altered chord is the one with ♯5 and ♯9 alone; ours has every altered tension.": {
        "tonal": {"7alt": (set(), {1, 6})},
    },
    "An added 13 brings no ninth.": {"tonal": {"M7add13": ({2}, set())}},
    "A 4 after a root is an added fourth here, stacked fourths in tonal.": {
        "tonal": {"4": ({3, 10}, {4, 7})},
    },
    "After a plain root, b9sus reads as the root's flat: C♭9sus4.": {"tonal": {"b9sus": ({1}, {2})}},
}

# What tonal calls by names that no fake book prints: read_chord refuses them.
TONAL_ALONE = {"dom", "67", "mb6M7", "h7", "h", "o7M7", "quartal", "m11A", "phryg", "alt7"}


def tones(chord: Chord) -> set[int]:
    return {tone.semitones % 12 for tone in chord.tones}


def in_mir_eval(chord: Chord) -> set[int]:
    """Pitch classes of the chord's Harte label with its degrees, the root's own among them."""
    altered = [change for change in chord.changes if change in ALTERATIONS]
    replaced = {change.lstrip("♭♯") for change in altered}
    there = QUALITIES[chord.quality].split()
    degrees = [f"*{number}" for number in sorted(replaced) if number in there]
    degrees += [change.removeprefix("add") for change in chord.changes if not change.startswith("no")]
    degrees += [f"*{tone}" for tone in there if f"no{tone.lstrip('♭♯')}" in chord.changes]
    kind, _, base = HARTE[chord.quality].partition("(")
    inside = (
        ",".join([*(base.rstrip(")").split(",") if base else []), *degrees])
        .replace("♭", "b")
        .replace("♯", "#")
    )
    root = str(chord.root).replace("♭", "b").replace("♯", "#")
    label = f"{root}:{kind}({inside})" if inside else f"{root}:{kind}"
    name, quality, modified, _ = mir_eval.chord.split(label, reduce_extended_chords=True)
    bitmap = mir_eval.chord.quality_to_bitmap(quality).copy()
    for degree in modified:
        bitmap = bitmap + mir_eval.chord.scale_degree_to_bitmap(degree, modulo=True, length=12)
    at = mir_eval.chord.pitch_class_to_semitone(name)
    return {(at + place) % 12 for place in range(12) if bitmap[place] > 0}


def in_music21(chord: Chord) -> set[int]:
    """Pitch classes of the chord as MusicXML writes it: a kind, and degrees altered, added or subtracted."""
    kind, more = MUSIC21[chord.quality]
    symbol = harmony.ChordSymbol(root=str(chord.root).replace("♭", "-").replace("♯", "#"), kind=kind)
    there = {tone.lstrip("♭♯") for tone in QUALITIES[chord.quality].split()}
    for change in (*more.split(), *chord.changes):
        how = "subtract" if change.startswith("no") else "alter" if change.lstrip("♭♯") in there else "add"
        tone = change.removeprefix("add").removeprefix("no")
        how = "add" if change.startswith("add") else how
        alter = tone.count("♯") - tone.count("♭")
        symbol.addChordStepModification(harmony.ChordStepModification(how, int(tone.lstrip("♭♯")), alter))
    return {pitch.pitchClass for pitch in symbol.pitches}


def in_tonal(intervals: str) -> set[int]:
    """Semitones above the root of tonal's intervals: "1P 3m 5d 7m"."""
    flattened = {"P": 0, "M": 0, "A": 1}
    found = set()
    for interval in intervals.split():
        number, quality = int(interval[:-1]), interval[-1]
        perfect = number % 7 in (1, 4, 5)
        alter = flattened.get(quality, -1 if quality == "m" or perfect else -2)
        found.add((Tone.of(str(number)).semitones + alter) % 12)
    return found


def named(library: str) -> dict[str, tuple[set[int], set[int]]]:
    rows = [table.get(library, {}) for table in DIFFERENCES.values()]
    assert sum(map(len, rows)) == len({name for row in rows for name in row}), "a difference is named twice"
    return {name: difference for row in rows for name, difference in row.items()}


def differences(
    pairs: dict[str, tuple[set[int], Chord]], root: NoteName
) -> dict[str, tuple[set[int], set[int]]]:
    """Of each name, what another table's pitch classes have more and less than our chord, above the root."""
    found = {}
    for name, (pcs, chord) in pairs.items():
        theirs = {(pc - root.pc) % 12 for pc in pcs}
        if theirs != tones(chord):
            found[name] = (theirs - tones(chord), tones(chord) - theirs)
    return found


def on_c(chord: Chord) -> str:
    return Chord(NoteName("C"), chord.quality, chord.changes).text


def test_every_quality_is_compared() -> None:
    assert set(HARTE) == set(MUSIC21) == set(QUALITIES)
    assert {chord.quality for chord in symbols(NoteName("C"))} == set(QUALITIES)


@pytest.mark.parametrize("root", ROOTS, ids=str)
def test_tones_agree_with_mir_eval(root: NoteName) -> None:
    pairs = {on_c(chord): (in_mir_eval(chord), chord) for chord in symbols(root)}
    assert len(pairs) > 120
    assert differences(pairs, root) == named("mir_eval")


@pytest.mark.parametrize("root", ROOTS[:3], ids=str)
def test_tones_agree_with_music21(root: NoteName) -> None:
    pairs = {on_c(chord): (in_music21(chord), chord) for chord in symbols(root)}
    assert differences(pairs, root) == named("music21")


@pytest.mark.parametrize("root", ROOTS, ids=str)
def test_tones_agree_with_pychord(root: NoteName) -> None:
    """pychord's whole table, spellings such as 7-5, 7+9 and mM7 among it. "Cb5" is a power chord on C♭ for us."""
    names = [name for name, _ in DEFAULT_QUALITIES]
    ascii_root = str(root).replace("♭", "b").replace("♯", "#")
    pairs = {}
    for name in names:
        theirs = {NoteName.parse(note).pc for note in pychord.Chord(f"{ascii_root}{name}").components()}
        pairs[name] = (theirs, read_chord(f"{ascii_root}{name}"))
    assert differences(pairs, root) == named("pychord")


def test_tones_agree_with_tonal() -> None:
    """The whole table of tonal, as run once from npm; its version stands in the file."""
    pairs, refused = {}, set()
    for row in TONAL["chords"]:
        for name in row["names"]:
            try:
                pairs[name] = (in_tonal(row["intervals"]), read_chord(f"C{name}"))
            except ChordError:
                refused.add(name)
    assert len(pairs) > 180
    assert refused == TONAL_ALONE
    assert differences(pairs, NoteName("C")) == named("tonal")
