"""Charts of our own whose chords keep pointing away from home: chains of dominants, ii–V chains, passing chords.

The keys are a judgement by ear and by the habits of the trade (common practice). What these charts have in common
is that a key must be heard through chords that, one pair at a time, would each be at home elsewhere.
"""

from __future__ import annotations

from tests.theory.harmony.popular_charts import song

_TURN = "C6 Am7 | Dm7 G7 | C6 Am7 | Dm7 G7 | C7 | F6 F#dim7 | C6 Am7 | Dm7 G7"
_HOME = "C6 Am7 | Dm7 G7 | C6 Am7 | Dm7 G7 | C7 | F6 F#dim7 | Dm7 G7 | C6"

RESTLESS_JAZZ = (
    song("blues of a jazz group",
          ("chorus", "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7", "F")),
    song("the same blues up a fourth",
          ("chorus", "Bb7 | Eb7 | Bb7 | Fm7 Bb7 | Eb7 | Edim7 | Bb7 | Dm7b5 G7b9 | Cm7 | F7 | Bb7 G7 | Cm7 F7", "Bb")),
    song("blues with a major seventh",
          ("chorus", "Fmaj7 | Em7b5 A7 | Dm7 G7 | Cm7 F7 | Bb7 | Bbm7 Eb7 | Am7 D7 | Abm7 Db7 | Gm7 | C7 | "
                     "Fmaj7 D7 | Gm7 C7", "F")),
    song("quick-change blues",
          ("chorus", "C7 | F7 | C7 | Gm7 C7 | F7 | F#dim7 | C7 | A7 | Dm7 | G7 | C7 A7 | Dm7 G7", "C")),
    song("minor blues of a jazz group",
          ("chorus", "Gm7 | Cm7 | Gm7 | Dm7b5 G7 | Cm7 | Cm7 | Gm7 | Em7b5 | Eb7 | D7 | Gm7 Eb7 | Am7b5 D7", "Gm")),
    song("thirty-two bars with a bridge of dominants",
          ("A", _TURN, "C"), ("A2", _HOME, "C"),
          ("B", "E7 | E7 | A7 | A7 | D7 | D7 | G7 | G7", "C"), ("A3", _HOME, "C")),
    song("passing diminished to iii",
          ("A", "Dm7 | Ebdim7 | Em7 | A7 | Dm7 | G7sus4 G7 | C6/9 Dm7 | Em7 Ebm7", "C")),
    song("ii–V chains",
          ("A", "Fmaj7 | Bm7b5 E7 | Am7 D7 | Gm7 C7 | Fmaj7 F7 | Bbmaj7 Eb7 | Am7 D7 | Gm7 C7", "F")),
    song("bossa with passing diminished chords",
          ("A", "Dmaj7 | D#dim7 | Em7 | A7 | F#m7 | Fdim7 | Em7 | A7", "D"),
          ("A2", "Dmaj7 | D#dim7 | Em7 | A7 | F#m7 B7 | Em7 A7 | Dmaj7 | Dmaj7", "D")),
    song("samba in minor",
          ("A", "Cm7 | Cm7 | Fm7 | Bb7 | Ebmaj7 | Abmaj7 | Dm7b5 | G7", "Cm"),
          ("A2", "Cm7 | Cm7 | Fm7 | Bb7 | Ebmaj7 | Abmaj7 | Dm7b5 G7 | Cm6", "Cm")),
    song("waltz with chains in the middle",
          ("A", "Fmaj7 | Fmaj7 | Gm7 | C7 | Fmaj7 | D7 | Gm7 C7 | Fmaj7", "F"),
          ("B", "Am7 D7 | Am7 D7 | Gm7 | Gm7 | Dm7 G7 | Dm7 G7 | Gm7 | C7", "F"),
          ("A2", "Fmaj7 | Fmaj7 | Gm7 | C7 | Fmaj7 | D7 | Gm7 C7 | Fmaj7", "F")),
)  # fmt: skip
"""Jazz and bossa."""

RESTLESS_SOUL = (
    song("soul in five flats",
          ("verse", "Dbmaj9 | Cm7 F7#9 | Bbm9 | Eb13sus4 Ab13sus4 | Dbmaj9 | Cm7 F7#9 | Bbm9 Ebm9 | Gbmaj7/Ab Dbmaj9",
           "Db")),
    song("soul in five sharps",
          ("verse", "Bmaj9 | A#m7 D#7 | G#m9 | F#m9 B13 | Emaj9 | D#m7 G#7 | C#m9 | E/F#", "B")),
    song("soul with a chain to IV",
          ("verse", "Ebmaj7 | G7 | Cm7 | Bbm7 Eb7 | Abmaj7 | Abm6 | Gm7 C7 | Fm7 Bb7", "Eb")),
    song("gospel shout", ("verse", "Ab7 | Ab7 | Db7 | Ddim7 | Ab/Eb F7 | Bb7 Eb7 | Ab Db7 | Ab", "Ab")),
    song("slow loop from IV",
          ("verse", "Abmaj7 | Gm7 | Fm7 | Ebmaj7 | Abmaj7 | Gm7 | Fm7 Bb7sus4 | Ebmaj7", "Eb")),
)  # fmt: skip
"""Soul and gospel."""

RESTLESS_POP = (
    song("V of V before the chorus",
          ("verse", "D A/C# Bm G D A G A", "D"), ("pre", "Em E7 A A", "D"), ("chorus", "D A Bm G D A G D", "D")),
    song("chain of dominants in the verse",
          ("verse", "C E7 A7 A7 D7 G7 C G7", "C"), ("chorus", "F C E7 Am D7 G7 C C", "C")),
    song("flat seven, then five", ("verse", "E D A E E D B B", "E"), ("chorus", "A E B E A E B E", "E")),
    song("major two as a colour", ("verse", "C D F C C D F C", "C")),
    song("major three and minor four", ("verse", "G B C Cm G B C Cm", "G")),
    song("up a step through its dominant",
          ("verse", "F Bb C7 F F", "F"), ("last verse", "D7 G C D7 G G", "G")),
    song("minor loop with its dominant",
          ("verse", "Am F C E7 Am F C E7", "Am"), ("chorus", "F G C Am F Dm E7 E7", "Am")),
    song("falling bass", ("verse", "A A/G# F#m A/E D Dm A E7", "A"), ("chorus", "D E A F#m Bm7 E7 A A", "A")),
    song("up a minor third without warning",
          ("verse", "C F G C Am F G C", "C"), ("last verse", "Eb Ab Bb Eb Cm Ab Bb Eb", "Eb")),
    song("sevenths and a minor six", ("verse", "Emaj7 G#m7 Amaj7 Am6 Emaj7 G#m7 Amaj7 B7sus4", "E")),
    song("bridge that turns up a step at its end",
          ("verse", "Bb F Gm Eb Bb F Eb Bb", "Bb"), ("bridge", "Bb Gm7 Eb F Eb Cm7 Fsus4", "Bb"),
          ("chorus", "G C G Am F C G F C", "C")),
)  # fmt: skip
"""Pop and rock."""
