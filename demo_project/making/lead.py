"""The tune. Lead, A3 to F#5.

The verse speaks in short falling phrases. The chorus is late at the bar line: the tune holds the old note while the
band moves on, and steps down a beat later (9-8 over D, 9-8 over C, 4-3 over G). The bridge stretches out and has the
song's one high F#.
"""

from __future__ import annotations

from making.notation import Event, read_line

_VERSE = """
    F#4 1.5  E4 .5   D4 1    A3 1          | Dadd9
    E4 1.5   D4 .5   C#4 .5  D4 .5  E4 1~  | A/C#
    E4 1     D4 1    G4 1.5  F#4 .5        | Bm: 4-3, then the flat sixth
    E4 .5    D4 1.5  r 1     D4 .5  E4 .5  | G
    F#4 1.5  E4 .5   D4 .5   E4 .5  F#4 1  | Dadd9
    F#4 1    E4 .5   F#4 .5  C#5 2         | F#7/A#
    B4 1.5   A4 .5   G4 1.5  F#4 .5        | Bm  Em7
    E4 1.5   r .5    A4 .5   C#5 .5 E5 1~  | Asus4  A
"""
_VERSE_2 = """
    F#4 .5   F#4 1   E4 .5   D4 1    A3 1           | Dadd9
    E4 .5    E4 1    D4 .5   C#4 .5  D4 .5  E4 1~   | A/C#
    E4 1     D4 .5   F#4 .5  G4 1    F#4 1          | Bm: 4-3, then the flat sixth as a neighbour
    B4 1     A4 .5   G4 1.5  D4 .5   E4 .5          | G
    F#4 1    E4 .5   F#4 .5  A4 1.5  F#4 .5         | Dadd9
    C#5 1.5  E5 .5   C#5 2                          | F#7/A#
    B4 1     D5 .5   B4 .5   G4 1.5  F#4 .5         | Bm  Em7
    E4 1.5   r .5    A4 .5   C#5 .5  E5 1~          | Asus4  A
"""
_HOOK = """
    E5 1     D5 1    A4 .5   B4 .5   D5 1~          | D: 9-8
    D5 1     C5 1    G4 .5   A4 .5   C5 1~          | C: 9-8
    C5 1     B4 1    G4 .5   A4 .5   B4 1           | G: 4-3
    Bb4 1.5  A4 .5   G4 2~                          | Gm
    G4 1     F#4 1   A4 .5   B4 .5   D5 1~          | D: 4-3
    D5 1     C5 1    G4 .5   A4 .5   C5 1~          | C: 9-8
"""
_CHORUS_END = """
    C5 1     B4 .5   D5 .5   E5 1    D5 1           | G: 4-3
    Bb4 1.5  A4 .5   G4 1    r 1                    | Gm
"""
_CHORUS_2_END = """
    C5 1     B4 .5   D5 .5   E5 1    D5 1~          | G: 4-3
    D5 1     C#5 1.5 B4 .5   C#5 1                  | A: 4-3
    D5 1     r 1                                    | Bm, the bar of 2/4
"""
_BRIDGE = """
    r 1      B4 .5   C#5 .5  D5 2~                  | Bm7, now ii of A
    D5 1     C#5 .5  B4 .5   G#4 2                  | E7
    A4 1.5   C#5 .5  E5 2                           | A
    C#5 1.5  B4 .5   A4 2                           | F#m7
    r 1      B4 .5   C#5 .5  D5 1    F#5 1~         | Bm7
    F#5 1    E5 1    D5 .5   C#5 .5  B4 1           | E7sus4 (9-8)  E7
    C#5 2.5  B4 .5   A4 1                           | Aadd9
    G4 1.5   A4 .5   C#5 1   E5 1~                  | A7/C#, V of D again
"""
_OUTRO = """
    r 2      A4 .5   B4 .5   D5 1~                  | D5
    D5 1     C5 1    B4 1    A4 1                   | C5  G5
    D5 1.5   A4 .5   A4 .5   B4 .5   D5 1~          | D5
    D5 1     C5 1    B4 1    A4 1                   | C5  G5
    B4 2     Bb4 2                                  | G  Gm
    A4 4~                                           | Dadd9
    A4 3     r 1                                    | Dadd9
"""


def _joined(*texts: str) -> str:
    return "\n".join(text.strip("\n") for text in texts)


def lead() -> list[Event]:
    """The whole tune, from its upbeat in bar 4 to the last held A."""
    upbeat = "r 3  D4 .5  E4 .5"
    first = _joined(upbeat, _VERSE, _HOOK, _CHORUS_END)
    second = _joined(_VERSE_2, _HOOK, _CHORUS_2_END)
    last = _joined(_BRIDGE, _HOOK, _CHORUS_END, _OUTRO)
    return read_line(4, _joined(first, second, last))
