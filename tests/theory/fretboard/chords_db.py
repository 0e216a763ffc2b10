"""Shapes that people play: the guitar part of `@tombatossals/chords-db` (npm), as far as the tests need it.

Where its names are not written as our reader takes them, `READ_AS` says what they mean. Where a shape does not
sound what its name says, it is listed here with the reason, and the tests prove the reason too.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.theory.fretboard.shape import Shape, read_shape

LIBRARY = json.loads((Path(__file__).parent / "chords_db_guitar.json").read_text(encoding="utf-8"))

READ_AS = {
    "major": "",
    "minor": "m",
    "69": "6/9",
    "aug7": "7#5",
    "aug9": "9#5",
    "mmaj7": "m(maj7)",
    "mmaj7b5": "dim(maj7)",
    "mmaj9": "m(maj9)",
    "mmaj11": "m(maj11)",
    "alt": "(b5)",  # all twelve keys hold 1 3 ♭5 under this name, not an altered dominant
    "7sg": "7/G",  # only under C, and all three shapes are C7 over G
}

ROOT_LEFT_OUT = {
    "C# 7b9": "x-x-9-10-9-10", "Eb maj9": "x-x-12-12-11-13", "Eb m9": "x-x-8-10-7-9", "Eb mmaj9": "698766",
    "E maj9": "x-x-9-11-9-11", "F maj9": "xx2213 x-x-10-12-10-12", "F# m9": "x-x-11-13-10-12", "G maj9": "xx4435",
    "Ab aug9": "xx4556", "Ab 7b9": "xx4545", "Bb m9": "xx3524", "B maj9": "xx4646",
}  # fmt: skip
"""The root is left to somebody's bass. Our rule keeps it unless a rootless shape is asked for."""

WITH_ELEVENTH = {
    "C 13": "333355", "C maj13": "x32201 x33455 8-8-9-9-10-8", "C# 13": "x43302 444466 9-9-9-10-11-11",
    "C# maj13": "x44566 9-9-10-10-11-9", "D 13": "555577", "D maj13": "x55677",
    "Eb 13": "666688 11-10-10-0-9-9 11-11-11-12-13-13", "Eb maj13": "x66788", "E 13": "000122 777799",
    "E maj13": "x77899", "F 13": "111233 8-8-8-8-10-10", "F maj13": "x-8-8-9-10-10",
    "F# 13": "221300 222344 9-9-9-9-11-11", "F# maj13": "x64466 x-9-9-10-11-11", "G maj13": "334453 x-10-10-11-12-12",
    "Ab 13": "444566", "Ab maj13": "445564 x-11-11-12-13-13", "A 13": "544030", "Bb 13": "650044 666788",
    "Bb maj13": "x11233 667786", "B 13": "222244 777899", "B maj13": "x22344 778897",
}  # fmt: skip
"""A natural eleventh sounds beside the major third: every third is stacked up to the 13th.

Our 13 and maj13 hold no eleventh, as the table of qualities explains; the other shapes under these names, more
than half of them, hold none either.
"""

OPEN_FOR_SILENT = {
    "D 7#9": "0-0-0-10-7-8>x-x-0-10-7-8", "Eb 11": "066686>x66686", "Ab maj7b5": "006788>xx6788",
    "B aug": "x-14-13-12-12-0>x-14-13-12-12-x",
}  # fmt: skip
"""An open string is written where it has to be silent; the shape after > is right."""

ANOTHER_CHORD = {
    "C 9": "032030=Cadd9 8-10-8-7-8-10=C9no3",  # no seventh; no third
    "C# aug": "x44422=F#sus4/C# 446474=C#7sus4/G#",  # no third and no raised fifth: slips in the data
    "C# 7b5": "x-x-12-13-13-14=D7b5",  # filed a half step too low
    "C# 11": "x43004=C#7#11 x45464=C#7#11 989889=C#9#11 9-10-9-10-9-9=C#7#11",  # ♯11 for 11
    "C# 9#11": "x32003=Cmaj7",  # filed under a wrong name
    "D maj9": "x5464x=Dmaj7b9",  # one fret short of the 9
    "D mmaj7": "x53220=Dm(maj9)",  # the open string is its 9
    "D mmaj11": "555775=Dadd11/A",  # major third, no seventh
    "Eb 7b5": "x67686=Eb7#11",  # the plain fifth sounds as well, so that A is a ♯11
    "Eb maj7b5": "x67786=Ebmaj7#11",  # the same
    "Eb m69": "11-9-10-10-9-9=Ebm13",  # seventh and eleventh sound as well
    "E madd9": "xx3113=Fmadd9 x8658x=Fmadd9 x86068=Fmadd9 x-8-10-0-9-8=Fmadd9",  # filed a half step too low
    "F /A": "533560=Fmaj7/A",  # the open E is its seventh
    "F# alt": "x-9-10-11-11-9=F#add#11",  # the plain fifth sounds as well
    "G m11": "xx5577=Gmaj7add11",  # a major seventh chord
    "G add9": "xx3214=Fadd#9",  # not on G at all
    "A dim": "53x43x=Am(add9,add11)",  # no diminished fifth
    "A m/G#": "xx4555=F#m7b5",  # F♯ on the string where G♯ is meant, two frets too low
    "Bb 6": "x-13-11-11-10-x=F#add#9/A#",  # none of B♭'s tones but the root
}
"""A shape, and the chord that it really is."""


@dataclass(frozen=True)
class Entry:
    """A name of the library, as it is written there, the chord that it means, and its shapes with their fingers."""

    name: str
    suffix: str
    chord: Chord
    shapes: tuple[Shape, ...]


def entries() -> Iterator[Entry]:
    for key, suffix, written in LIBRARY["chords"]:
        chord = read_chord(key + READ_AS.get(suffix, suffix))
        yield Entry(f"{key} {suffix}", suffix, chord, tuple(_shape(text) for text in written.split()))


def _shape(text: str) -> Shape:
    frets, fingers = text.split(":")
    return Shape(read_shape(frets, 6).frets, tuple(int(finger) for finger in fingers))
