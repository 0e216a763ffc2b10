"""The inverse of spelling: a chord symbol's notes are named by that symbol, or by a named equal."""

from __future__ import annotations

import pytest

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName
from studio.theory.parts.chord_naming import name_chord
from tests.music.chord_symbols import stack, symbols

C = NoteName("C")

# (symbol, in close and in open position, inverted with its second tone in the bass): a name that shares all its
# notes and is preferred, "=" where the symbol itself comes back. Common practice: C6 over E is Am7/E, a sus2
# inverted is a sus4, a minor chord with a ♭6 is the major seventh below; and where only an octave differs, the
# commoner name is kept (add2 is add9, a 7 with a 13 is a 13 without its ninth).
NAMED_EQUALS = """
Csus2              =              Gsus4/D
Csus4              =              Fsus2
C6                 =              Am7/E
Cm6                =              Am7♭5/E♭
Cm7                =              E♭6
Cm7♭5              =              E♭m6
Cm9                =              E♭maj13
Cm11               =              E♭maj13
Cmaj13             =              Am11/E
Cm13               =              E♭maj13♯11
Cm(maj13)          =              F13♯11/E♭
C7sus2             Gm/C           Gmadd4/D
C7sus4             =              Fsus4(add9)
C9sus4             =              B♭6/9/F
C13sus4            =              Gm11/F
Cmaj7sus2          G/C            Gadd4/D
Cmaj7sus4          =              G7(add11)/F
Cmaj9sus4          =              G7(add11)/F
Cadd2              Cadd9          C/D
Cadd11             Cadd4          Cadd4/E
C(no5)             C              C/E
Cm(♯5)             A♭/C           A♭/E♭
Cmadd2             Cmadd9         Cm/D
Cmadd4             =              E♭6/9
Cmadd11            Cmadd4         E♭6/9
Cmadd♭6            A♭maj7/C       A♭maj7/E♭
Cm(no5)            Cm             Cm/E♭
C+(add9)           =              E7♭13
C5(add9)           Csus2          Gsus4
Csus4(add2)        Csus4(add9)    Dm11
Csus4(add6)        Fadd9/C        Fadd9
Csus4(add♭9)       =              D♭maj7♯11/F
Csus2(add6)        D7sus4/C       D7sus4
C6(add11)          Fmaj9/C        Fmaj9/E
Cm6(add11)         F9/C           F9/E♭
C7(add13)          C13            C13/E
C7(no5)            C7             C7/E
Cmaj7(add13)       Cmaj13         Am9/E
Cm7♯5              =              A♭add9/E♭
Cm7♭9              =              E♭13
Cm7♭13             A♭maj9/C       A♭maj9/E♭
Cm7(add11)         Cm11           E♭6/9
Cm7(add13)         =              E♭6♯11
Cm7♭5(add11)       =              E♭m6/9
Cm7♭5♭9            =              E♭m7(add13)
Cm7♭5♭13           A♭9/C          A♭9/E♭
C°7(add9)          =              E♭°7(add7)
C°7(add11)         =              E♭°7(add9)
C°7♭13             A♭7♭9/C        A♭7♭9/E♭
Cmaj9♯5            =              E7♭13
Cm11♭5             =              E♭m(maj13)
Cmaj13♯11          =              Am13/E
C7sus4(♭9)         =              B♭m6/9/F
C7sus4(♭9♭13)      =              B♭m13/F
C7sus4(add3)       C7(add11)      C7(add11)/E
C13sus4(♭9)        =              Gm11♭5/F
Cmaj9sus4(add13)   F6/9♯11/C      F6/9♯11
""".strip().splitlines()
EQUALS = {symbol: (close, inverted) for symbol, close, inverted in map(str.split, NAMED_EQUALS)}


@pytest.mark.parametrize("chord", symbols(C), ids=str)
def test_a_symbol_that_is_spelled_comes_back_in_close_and_open_position_and_inverted(chord: Chord) -> None:
    close, inverted = EQUALS.get(chord.text, ("=", "="))
    notes = chord.notes()
    opened = (notes[0], *notes[2:], notes[1])
    over = Chord.of(chord.root, chord.quality, chord.changes, notes[1])
    assert name_chord(stack(notes)).text == (chord.text if close == "=" else close)
    assert name_chord(stack(opened)).text == (chord.text if close == "=" else close) or len(notes) < 3
    assert name_chord(stack((*notes[1:], notes[0]))).text == (over.text if inverted == "=" else inverted)


def test_named_equals_hold_the_same_notes_and_none_is_idle() -> None:
    known = {chord.text for chord in symbols(C)}
    assert set(EQUALS) <= known
    for symbol, both in EQUALS.items():
        chord = read_chord(symbol)
        assert set(both) != {"="}
        for name, bass in zip(both, (C, chord.notes()[1]), strict=True):
            if name != "=":
                equal = read_chord(name)
                assert chord.pcs <= equal.pcs, f"{name} lacks notes of {symbol}"
                assert (equal.bass or equal.root).pc == bass.pc


def test_most_symbols_come_back_as_themselves() -> None:
    close = sum(pair[0] != "=" for pair in EQUALS.values())
    inverted = sum(pair[1] != "=" for pair in EQUALS.values())
    assert close / len(symbols(C)) < 0.2
    assert inverted / len(symbols(C)) < 0.5
