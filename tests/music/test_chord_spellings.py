"""Spellings of one chord that fake books, lead sheets, song sheets and jazz charts print.

All of the table is common practice of the trade: the printed form first, then what people write for it. Where
a spelling means two things in use, the docstring of ``read_chord`` says which one is read.
"""

import pytest

from studio.music.chord_reader import read_chord

SPELLINGS = """
# triads
C          Cmaj CM Cma CMA CMaj Cmajor CMAJ C5(add3)
Cm         Cmin Cmi CMI C- C– C− CMin Cminor
C°         Cdim Co Cm(b5) Cº Cmb5 Cm-5 Cdiminished CDIM
C+         Caug C(#5) C(+5) C+5 C(+) Caugmented CAUG
C(♭5)      C(b5) C-5 C(-5)
C5         C(no3) Cno3 C(omit3) C(no3rd) Comit3 Cmno3
Csus4      Csus C(sus) C(sus4) CSUS Csuspended Cmsus4 Cmajsus4
Csus2      C(sus2) Cmsus2 CSUS2
Csus4(add2) Csus2sus4 Csus24 Csus2/4 Csus4/2 Csus42 Csus4sus2 Csus2add4 Csus4(2)
Cadd9      C(add9) C(9) C/9 Cmajadd9 CMadd9 Cmaj(add9) CM(add9) C♮9
Cadd2      C2 C(2) C(add2) CM(2)
Cadd4      C4 C(4) C(add4)
Cadd11     C(add11) C(11) C/11
Cadd♯11    C(#11) C(add#11) Cadd#11
Cmadd9     Cm(add9) C-add9 Cminadd9 Cm(9) Cm/9
Cmadd2     Cm2 Cm(2) C-2
Cmadd4     Cm4 Cm(4) Cm(add4)
Cmadd♭6    Cm(b6) Cmb6 Cmaddb6
C(no5)     Cno5 C(omit5) C(no5th)
C(add9,add11) Cadd9add11 C(add9)(add11) C(add9,11) C(9,11)
# sixths
C6         CM6 Cma6 Cmaj6 C(6) C(add6) CΔ6
Cm6        C-6 Cmin6 Cmi6 Cm(6) Cm(add6) C–6
C6/9       C69 C6+9 C6add9 C6(9) CM6/9 C6,9 C(6,9) C6/9 C6(add9) C⁶⁄₉ C⁶⁹
Cm6/9      Cm69 C-6/9 C-69 Cm6(9) Cmin6add9 Cm6(add9)
C6/9♯11    C69#11 C6/9(#11) C6/9+11
Csus4(add6) C6sus4 C6sus
# sevenths
C7         Cdom7 C(7) C⁷ Cdominant7
Cmaj7      CΔ C△ C∆ C^ CΔ7 C^7 CM7 Cma7 CMA7 CMaj7 Cmajor7 C(maj7) C(M7) C(Δ) Cj7 CJ7 C7M C△⁷
Cm7        C-7 Cmin7 Cmi7 CMI7 C–7 C−7 Cminor7 Cm(7) Cm⁷
Cm(maj7)   CmMaj7 CmM7 Cm(M7) C-Δ7 CmΔ C-Δ C-^7 Cmin(maj7) Cmi(MA7) Cmi(ma7) Cmmaj7 Cm/maj7 Cm/M7 Cmin/maj7 Cm+7
Cm(maj7)   Cm#7 Cm(#7) Cm(+7) Cm7M C-7M C-j7 CminMaj7 C-maj7 C–M7 Cm7(maj7)
Cm7♭5      Cø Cø7 C∅ Cm7b5 C-7b5 Cm7(b5) Cm7-5 C-7-5 C–7♭5 Cmi7b5 Cmin7(♭5) CMI7(b5) Chalfdim7 Chalf-dim Cm7dim5
C°7        Cdim7 Co7 Cº7 Cdiminished7 C°⁷
C°(maj7)   C°Maj7 C°Δ7 Cdim(maj7) C°M7 CmMaj7b5 C°(add7)
C7♯5       C+7 Caug7 C7#5 C7(#5) C7+5 C7+ C7aug5 C7aug C7(+5) C7(+)
C7♭5       C7b5 C7-5 C7(b5) C7(-5) C7dim5
Cmaj7♯5    C+maj7 Cmaj7#5 Cmaj7(♯5) CΔ#5 C+M7 C+Δ Caug(maj7) CM7+5 C+7M CΔ+ C+j7
Cmaj7♭5    Cmaj7b5 CΔb5 CM7(b5) CM7-5
C7sus4     C7sus C7(sus4) C7(sus) Csus7 Cm7sus4 Csus4(7)
Cmaj7sus4  CΔsus Cmaj7sus CM7sus4 Csus4(maj7) Csus(maj7)
Cmaj7sus2  CΔsus2 CM7sus2 Csus2(maj7)
C7sus2     Csus2(7) C7(sus2)
C7sus4(add3) C7sus(add3)
C7(no3)    C7no3 C7(omit3) C5(7)
C7(no5)    C7no5 C7(omit5) C7(no5th)
C7(add13)  C7(13) C7/13 C7add13 C7(♮13)
C7(add11)  C7(11) C7/11 C7add11
Cm7(add11) Cm7(11) Cm7/11 Cm7add11 C-7(11)
Cmaj7(add13) Cmaj7(13) CΔ(13) CM7add13
# ninths and above
C9         C7(9) C7/9 C7add9 C7,9 Cdom9 C7♮9 C⁹ C9(add9)
Cmaj9      CM9 CΔ9 Cma9 CMA9 C^9 Cj9 C9M Cmaj7(9) CM7(9) Cmaj7/9 C(maj9) C9(maj7) Cmaj7add9
Cm9        C-9 Cmin9 Cmi9 Cm7(9) Cm7/9 Cm7add9
Cm(maj9)   CmM9 CmMaj9 Cm9(maj7) C-Δ9 Cm9(Δ7) CmΔ9 Cm9(M7)
C11        Cdom11 C9(11) C9add11
Cm11       C-11 Cmin11 Cmi11 Cm9(11) Cm7(9,11)
Cmaj11     CM11 CΔ11
C13        Cdom13 C9(13) C7(9,13) C9add13 C13(♮9)
Cm13       C-13 Cmin13 Cmi13
Cmaj13     CM13 CΔ13 C^13 CMA13 Cmaj9(13) Cmaj7(9,13)
C9sus4     C9sus C9(sus4) C11sus4 Csus9 C7sus4(9) C7sus4(add9)
C13sus4    C13sus C13(sus4) Csus13 C9sus4(13)
Cm9♭5      Cø9 Cm9b5 C-9b5
Cm11♭5     Cø11 Cm11b5
Cm7♭5(add11) Cø7(11) Cø(11) Cm7b5add11
C°7(add9)  C°9 Cdim9 C°7(9)
C9♯5       C+9 C9+5 C9#5 C9+ Caug9 C9(#5)
C9♭5       C9b5 C9-5
# alterations
C7♭9       C7b9 C7(b9) C7-9 C7/b9 C7addb9 C7,b9 C7b2
C7♯9       C7#9 C7(#9) C7+9 C7/#9 C7#2
C7♯11      C7#11 C7+11 C7(#11) C7#4 C7add#11
C7♭13      C7b13 C7(b13) C7b6 C7-13 C7addb13
C7(♭9♯11)  C7b9#11 C7(b9,#11) C7(b9)(#11) C7(b9#11) C7b9,#11 C7(b9/#11) C7b9/#11 C7#11b9
C7(♭9♭13)  C7b9b13 C7(b9,b13) C7b9,b13 C7(b9/b13) C7-9-13 C7b13b9
C7(♭9♯9)   C7b9#9 C7(#9,b9)
C7(♯5♯9)   C7#5#9 C+7#9 C7#9#5 C7+5+9 C+7(#9)
C7(♯5♭9)   C7#5b9 C+7b9 C7+5-9 C+7(b9)
C7(♭5♭9)   C7b5b9 C7-5-9 C7b9b5
C7(♭5♯9)   C7b5#9 C7#9b5
C7(♯9♭13)  C7#9b13 C7(#9,b13)
C13♭9      C13b9 C13(b9) C7(b9,13) C7(b9)(13) C7b9(13) C7b9,13 C7(♭9,♮13)
C13♯9      C13#9 C7(#9,13)
C13♯11     C13#11 C13(#11) C9(#11,13) C13+11
C13(♭9♯11) C13b9#11 C13(b9,#11)
C9♯11      C9#11 C9+11 C9(#11)
C11♭9      C11b9 C11-9
Cmaj7♯11   Cmaj7#11 CΔ#11 CM7#11 CΔ7(#11) Cmaj7#4 Cmaj7+11 C^7#11
Cmaj9♯11   Cmaj9#11 CΔ9#11 CM9(#11)
Cmaj13♯11  Cmaj13#11 CΔ13#11
Cm7♭13     Cm7b13 Cm7b6 C-7(b13)
Cm(♯5)     Cm#5 Cm(#5) Cm+ Cm+5
Cm7♯5      Cm7#5 C-7#5 Cm7+5
C7alt      Calt C7(alt) C7alt. Calt. C7altered C7(alt.) C7ALT
C7sus4(♭9) C7sus(b9) C7b9sus C7b9sus4 C7(b9)sus C7susb9 C7(b9,sus4)
C13sus4(♭9) C13sus(b9) C13b9sus C13b9sus4
Csus4(add♭9) Csusb9 Csus(b9)
# basses, roots and one chord over another
C/E        Cmaj/E CM/E
F♯m7/E     F#m7/E F#-7/E F♯−7/E
C6/9/E     C69/E
C9/E       C7/9/E
B♭13♯11    Bb13#11 Bb13(#11) B♭13+11
B♭♭7       Bbb7 B𝄫7
F♯♯°7      F##dim7 F𝄪o7
D|C        (D|C) Dmaj|C
Bm7|E7     (B-7|E7) (Bmin7|Edom7)
F♯|C/E     F#|C/E (F#|C/E)
D+|C7♭9    Daug|C7(b9) (D+|C7(b9))
""".strip().splitlines()
ROWS = [line.split() for line in SPELLINGS if not line.startswith("#")]


@pytest.mark.parametrize(("printed", "written"), [(row[0], text) for row in ROWS for text in row])
def test_many_spellings_one_chord(printed: str, written: str) -> None:
    assert read_chord(written).text == printed


@pytest.mark.parametrize(
    ("written", "tones"),
    [
        # What a spelling that is easily misread holds, tone by tone.
        ("C7+9", "1 3 5 ♭7 ♯9"), ("C+9", "1 3 ♯5 ♭7 9"), ("Cm+7", "1 ♭3 5 7"), ("Cm9(maj7)", "1 ♭3 5 7 9"),
        ("C13sus(b9)", "1 4 5 ♭7 ♭9 13"), ("Csus2/4", "1 2 4 5"), ("C7/13", "1 3 5 ♭7 13"), ("C9+5", "1 3 ♯5 ♭7 9"),
        ("C6sus4", "1 4 5 6"), ("C9(add♭9)", "1 3 5 ♭7 ♭9 9"), ("C9(♭9,add9)", "1 3 5 ♭7 ♭9 9"), ("C-5", "1 3 ♭5"),
        ("D|C", "1 3 5 9 ♯11 13"), ("F#|C", "1 3 5 ♯8 ♯11 ♯13"), ("Bb|C", "1 3 5 ♭7 9 11"), ("Eb|C", "1 3 5 ♭7 ♭10"),
        ("G|C", "1 3 5 7 9"), ("Am|C", "1 3 5 13"), ("Ab|Cm", "1 ♭3 5 ♭13"),
    ],
)  # fmt: skip
def test_tones_of_spellings_that_are_easily_misread(written: str, tones: str) -> None:
    assert " ".join(tone.degree for tone in read_chord(written).tones) == tones
