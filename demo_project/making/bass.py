"""The bass. F#1 to D3. It walks down the verse, springs in the chorus, and stands still in the bridge.

The first note over each chord is that chord's bass. Notes outside the chord come on the last beat of a bar and are
marked beside it: passing notes between two steps, or the next chord's root played early.
"""

from __future__ import annotations

from making.notation import Event, read_line

_RIFF = """
    D2 .75   D2 .75  D2 1    D2 .5   A1 .5  C2 .5   | D5; C early
    C2 .75   C2 .75  C2 .5   G1 .75  G1 .75 G1 .5   | C5  G5
"""
_VERSE = """
    D2 1.5   D2 .5   A1 1    D2 1                   | Dadd9
    C#2 1.5  C#2 .5  E2 1    C#2 1                  | A/C#
    B1 1.5   F#2 .5  B1 1    A1 1                   | Bm; A passing
    G1 1.5   G1 .5   D2 1    B1 .5   C#2 .5         | G; C# passing
    D2 1.5   D2 .5   F#2 1   A1 1                   | Dadd9
    A#1 1.5  A#1 .5  F#2 1   C#2 .5  A#1 .5         | F#7/A#
    B1 1.5   D2 .5   E2 1.5  B1 .5                  | Bm  Em7
    A1 1.5   E2 .5   A1 1    B1 .5   C#2 .5         | Asus4  A; B passing
"""
_LOOP = """
    D2 1.5   D2 .5   r .5    D3 .5   A2 .5   D2 .5  | D
    C2 1.5   C2 .5   r .5    C3 .5   G2 .5   C2 .5  | C
    G1 1.5   G1 .5   r .5    G2 .5   D2 .5   G1 .5  | G
    G1 1.5   G1 .5   r .5    G1 .5   Bb1 .5  C2 .5  | Gm; C passing
"""
_CHORUS_2_END = """
    D2 1.5   D2 .5   r .5    D3 .5   A2 .5   D2 .5  | D
    C2 1.5   C2 .5   r .5    C3 .5   G2 .5   C2 .5  | C
    G1 1.5   G1 .5   r .5    G2 .5   D2 .5   G1 .5  | G
    A1 1.5   A1 .5   r .5    A2 .5   E2 .5   C#2 .5 | A
    B1 2                                            | Bm
"""
_BRIDGE = """
    B1 2.5   F#2 .5  B1 .5   D2 .5                  | Bm7
    E2 2.5   B1 .5   G#1 1                          | E7
    A1 2.5   E2 .5   A1 .5   G#1 .5                 | A; G# passing
    F#1 2.5  C#2 .5  F#1 .5  A1 .5                  | F#m7
    B1 2.5   F#2 .5  D2 1                           | Bm7
    E2 2     E2 1    G#1 1                          | E7sus4  E7
    A1 2.5   E2 .5   A1 .5   B1 .5                  | Aadd9
    C#2 2.5  E2 .5   C#2 1                          | A7/C#
"""
_END = """
    G1 2     G1 2                                   | G  Gm
    D2 4~                                           | Dadd9
    D2 4                                            | Dadd9
"""


def bass() -> list[Event]:
    """The whole bass part; it waits through the first two bars of the riff."""
    blocks = (
        _RIFF,
        _VERSE,
        _LOOP,
        _LOOP,
        _VERSE,
        _LOOP,
        _CHORUS_2_END,
        _BRIDGE,
        _LOOP,
        _LOOP,
        _RIFF,
        _RIFF,
        _END,
    )
    return read_line(3, "\n".join(block.strip("\n") for block in blocks))
