"""Charts that no weight was settled on: written apart from the work on the key finder, and heard after it.

The keys are a judgement by ear and by the habits of the trade (common practice).
"""

from __future__ import annotations

from tests.theory.harmony.popular_charts import song

HELD_BACK_RESTLESS = (
    song("soul ballad in four flats",
          ("A", "Abmaj7 | Gm7 C7 | Fm7 | Ebm7 Ab7 | Dbmaj7 | Gb9 | Abmaj7 Fm7 | Bbm7 Eb7sus4", "Ab")),
    song("gospel walk-up",
          ("verse", "F | F/A | Bb | Bdim7 | F/C | D7 | Gm7 C7 | F", "F"),
          ("chorus", "Bb | C/Bb | Am7 | Dm7 | Gm7 | C7sus4 | F | F7", "F")),
    song("bossa in minor with a chain", ("A", "Am7 | Am7 | Dm7 | G7 | Cmaj7 | F#m7b5 B7 | Bm7b5 E7 | Am7", "Am")),
    song("guitar blues with a turnaround",
          ("chorus", "E7 | A7 | E7 | E7 | A7 | A#dim7 | E7 | C#7 | F#7 | B7 | E7 C#7 | F#7 B7", "E")),
    song("standard with a bridge of dominants",
          ("A", "Ebmaj7 | Cm7 | Fm7 | Bb7 | Ebmaj7 | C7b9 | Fm7 Bb7 | Ebmaj7", "Eb"),
          ("bridge", "G7 | G7 | C7 | C7 | F7 | F7 | Bb7 | Bb7", "Eb"),
          ("A2", "Ebmaj7 | Cm7 | Fm7 | Bb7 | Ebmaj7 | C7b9 | Fm7 Bb7 | Ebmaj7", "Eb")),
    song("pop, last chorus up a step",
          ("verse", "A E/G# F#m D A E D E", "A"), ("bridge", "F#m E D A/C# Bm7 Esus4", "A"),
          ("last chorus", "F# B F#/A# G#m E B F# E B", "B")),
    song("rock with flat seven and major two", ("verse", "D C G D D E G D", "D")),
    song("minor funk",
          ("verse", "Em7 | Em7 | A7 | A7 | Em7 | Em7 | C7 B7 | Em7", "Em"),
          ("chorus", "Am7 | D7 | Gmaj7 | Cmaj7 | F#m7b5 | B7 | Em7 | Em7", "Em")),
    song("soul with a walk down from iii",
          ("verse", "Gmaj9 | Bm7 Bbdim7 | Am7 | D13sus4 D13 | Gmaj9 | Dm7 G7 | Cmaj7 F9 | Bm7 E7 | Am7 D7", "G")),
    song("country waltz, up a step",
          ("verse", "C G7 C C7 F C D7 G7 C G7 C", "C"), ("last verse", "A7 D A7 D G D A7 D", "D")),
)  # fmt: skip
"""Soul, gospel, jazz, bossa, pop and rock, written before the finder learned of chains and heard after it."""

HELD_BACK_HARDER = (
    song("ballad, bridge in ♭VI",
          ("A", "C Em F G C Am Dm G", "C"),
          ("B", "Ab Eb/G Fm Db Ab Eb Db Eb", "Ab"),
          ("A2", "C Em F G C F G C", "C")),
    song("standard, bridge to IV and then II",
          ("A", "Fmaj7 | Dm7 | Gm7 | C7 | Am7 D7 | Gm7 C7 | Fmaj7 | Fmaj7", "F"),
          ("B", "Cm7 | F7 | Bbmaj7 | Bbmaj7 | Dm7 | G7 | Gm7 | C7", "F"),
          ("A2", "Fmaj7 | Dm7 | Gm7 | C7 | Am7 D7 | Gm7 C7 | Fmaj7 | Fmaj7", "F")),
    song("soul minor to relative",
          ("verse", "Bm7 | Em7 | F#7#9 | Bm7 | Bm7 | Em7 | F#7#9 | Bm7", "Bm"),
          ("chorus", "Gmaj7 | A | Dmaj7 | Bm7 | Gmaj7 | A7sus4 | Dmaj7 | Dmaj7", "D")),
    song("gospel turn with 2-5s to 6 and 4",
          ("A", "Db | F7/C | Bbm | Abm7 Db7 | Gbmaj7 | Gdim7 | Db/Ab Bb7 | Ebm7 Ab7", "Db"),
          ("A2", "Db | F7/C | Bbm | Abm7 Db7 | Gbmaj7 | Gdim7 Ab7 | Db Gb | Db", "Db")),
    song("minor bossa with line",
          ("A", "Dm | Dm/C# | Dm7/C | Bm7b5 | Gm7 | Em7b5 A7 | Dm6 | A7", "Dm")),
    song("rock, solo up a fourth",
          ("verse", "A D A E A D E A", "A"),
          ("solo", "D G D A D G A D", "D"),
          ("verse 2", "A D A E A D E A", "A")),
    song("blues with V7/ii turn",
          ("chorus", "Eb7 | Ab7 | Eb7 | Bbm7 Eb7 | Ab7 | Adim7 | Eb7 | Gm7b5 C7 | Fm7 | Bb7 | Eb7 C7 | Fm7 Bb7", "Eb")),
    song("lydian-tinged pop",
          ("verse", "F G Am C F G Am Am", "Am"),
          ("chorus", "C G Dm F C G F F", "C")),
    song("backdoor and sub",
          ("A", "Bbmaj7 | Ebm7 Ab7 | Bbmaj7 | Dm7 Db7 | Cm7 | B7 | Bbmaj7 G7 | Cm7 F7", "Bb")),
    song("half-step lift in soul",
          ("A", "C Am Dm G7 C Am Dm G7", "C"),
          ("last", "Ab7 Db Bbm Ebm Ab7 Db Gb Db", "Db")),
)  # fmt: skip
"""With more changes of key, written last. Hearing them led to one change of a weight, which helped none of them."""
