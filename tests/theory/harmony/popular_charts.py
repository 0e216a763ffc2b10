"""Short charts of our own in popular forms, with the key that a musician would say of each section.

All of them are invented here. The keys are a judgement by ear and by the habits of the trade (common practice),
not a measurement. Where musicians would disagree, ``or_key`` names the other answers that some would give, and the
finder has to have one of them all as its key and another as its runner-up.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Song:
    """A chart in 4/4: (section, bars, key) in order; words without bar lines are one bar each."""

    name: str
    form: tuple[tuple[str, str, str], ...]
    or_key: str = ""


def song(name: str, *form: tuple[str, str, str], or_key: str = "") -> Song:
    return Song(name, form, or_key)


POP = (
    song("four-chord loop from I", ("verse", "C G Am F C G Am F", "C"), ("chorus", "C G Am F C G Am F", "C")),
    song("two chords", ("all", "C G C G C G C G", "C")),
    song("doo-wop loop", ("verse", "G Em C D G Em C D", "G"), ("chorus", "G Em C D G Em C G", "G")),
    song("loop from vi, chorus on I",
          ("verse", "F#m D A E F#m D A E", "A"), ("chorus", "A E F#m D A E F#m D", "A"), ("outro", "D E A A", "A")),
    song("loop from IV", ("verse", "F G Am C F G Am C", "C"), ("chorus", "F G C C/E F G C C", "C")),
    song("ballad with a minor four",
          ("verse", "E B/D# C#m A E/G# A Am E", "E"), ("chorus", "A B E C#m A Am E E", "E")),
    song("verse in minor, chorus in its relative",
          ("verse", "Em B7 Em Em Am B7 Em Em", "Em"), ("chorus", "G D G C G D7 G G", "G"),
          ("verse 2", "Em B7 Em Em Am B7 Em Em", "Em")),
    song("verse in major, chorus in the relative minor",
          ("verse", "D G A D D G A D", "D"), ("chorus", "Bm Em F#7 Bm Em Bm F#7 Bm", "Bm")),
    song("up a step at the end",
          ("verse", "C Am F G C Am F G", "C"), ("chorus", "F G C Am F G C C", "C"),
          ("last chorus", "G A D Bm G A D D", "D")),
    song("up a half step at the end",
          ("chorus", "Ab Eb Fm Db Ab Eb Db Ab", "Ab"), ("last chorus", "A E F#m D A E D A", "A")),
    song("bridge on the flat side",
          ("verse", "A D E A A D E A", "A"), ("bridge", "F Bb C F F Bb C C", "F"), ("verse 2", "E7 A D A E A", "A")),
    song("bridge in the key of IV",
          ("verse", "G C D G G C D G", "G"), ("bridge", "Dm7 G7 C C Dm7 G7 C C A7 D7", "C"),
          ("verse 2", "G C D G", "G")),
    song("secondary dominants only",
          ("verse", "C E7 Am C7 F D7 G7 C", "C"),
          ("chorus", "F G7 C A7 D7 G7 C C", "C")),
    song("stepwise bass", ("verse", "C G/B Am C/G F C/E Dm7 G", "C"), ("chorus", "F G C Am F G C C", "C")),
    song("pedal under the verse",
          ("verse", "D A/D G/D D D A/D G/D D", "D"),
          ("chorus", "Bm G A D Bm G A D", "D")),
    song("one chord to the bar, slow six",
          ("verse", "Bb Bb Gm Gm Eb Eb F F", "Bb"),
          ("chorus", "Bb F Eb Bb Eb F Bb Bb", "Bb")),
    song("suspensions everywhere",
          ("verse", "Dsus2 D Asus4 A Bm7 G6 Asus4 A", "D"),
          ("chorus", "Gadd9 D/F# Em7 A Gadd9 A D D", "D")),
    song("flat-side pop in five flats",
          ("verse", "Db Bbm Gb Ab Db Bbm Gb Ab", "Db"),
          ("chorus", "Gb Ab Db Bbm Gb Ab Db Db", "Db")),
    song("minor pop with major dominant",
          ("verse", "Cm Ab Eb G7 Cm Ab Eb G7", "Cm"),
          ("chorus", "Fm Cm G7 Cm Fm Cm G7 Cm", "Cm")),
    song("Aeolian loop", ("verse", "Am F G Am Am F G Am", "Am"), ("chorus", "Am F G Am F G Am Am", "Am")),
    song("Aeolian anthem",
          ("verse", "Bm G D A Bm G D A", "Bm"),
          ("chorus", "Bm A G A Bm A G F#7", "Bm"),
          ("outro", "Bm G A Bm", "Bm")),
    song("Andalusian descent",
          ("verse", "Am G F E7 Am G F E7", "Am"),
          ("chorus", "Dm Am E7 Am Dm Am E7 Am", "Am")),
    song("Dorian vamp", ("verse", "Em7 A Em7 A Em7 A Em7 A", "Em"), ("chorus", "Em7 A Em7 A C D Em7 Em7", "Em")),
    song("minor with Picardy end",
          ("verse", "Dm Gm A7 Dm Bb Gm A7 Dm", "Dm"),
          ("chorus", "Dm C Bb A7 Dm Gm A7 D", "Dm")),
)  # fmt: skip
"""Pop and ballads."""

ROCK = (
    song("Mixolydian vamp", ("verse", "D C G D D C G D", "D"), ("chorus", "D C G D D C G D", "D")),
    song("Mixolydian riff in power chords",
          ("riff", "E5 D5 A5 E5 E5 D5 A5 E5", "E"),
          ("verse", "E A E A E D A E", "E")),
    song("double plagal in the chorus", ("verse", "A A D A E D A A", "A"), ("chorus", "G D A A G D A A", "A")),
    song("minor rock riff", ("riff", "Em G A Em Em G A Em", "Em"), ("chorus", "C D Em Em C D Em Em", "Em")),
    song("major with flat three and flat six",
          ("verse", "C Eb F C C Eb F C", "C"),
          ("chorus", "Ab Bb C C Ab Bb C C", "C")),
    song("bVI bVII I arrival", ("verse", "G C G C G C D D", "G"), ("chorus", "Eb F G G Eb F G G", "G")),
    song("verse in minor, chorus in parallel major",
          ("verse", "Am G F E Am G F E", "Am"), ("chorus", "A F#m D E A F#m D E A", "A")),
    song("solo in another key",
          ("verse", "E B C#m A E B A E", "E"), ("solo", "G D Em C G D C G", "G"),
          ("verse 2", "E B C#m A E B A E", "E")),
    song("punk", ("verse", "A5 D5 E5 D5 A5 D5 E5 D5", "A"), ("chorus", "D5 E5 A5 F#5 D5 E5 A5 A5", "A")),
    song("power-chord minor",
          ("verse", "C5 Ab5 Bb5 C5 C5 Ab5 Bb5 C5", "Cm"),
          ("chorus", "Ab5 Bb5 Cm Cm Ab5 Bb5 Cm Cm", "Cm")),
    song("grunge mediants", ("verse", "E G E G E G A C", "E"), ("chorus", "E B A E E B A E", "E")),
    song("country",
          ("verse", "G G C G G A7 D7 D7 G G7 C C G D7 G G", "G"),
          ("chorus", "C G D7 G C G A7 D7 G C D7 G", "G")),
    song("folk in minor", ("verse", "Dm C Dm F C Dm Am Dm", "Dm"), ("chorus", "F C Dm Am Dm C Dm Dm", "Dm")),
)  # fmt: skip
"""Rock, country, folk."""

BLUES_AND_SOUL = (
    song("twelve-bar blues",
          ("chorus", "A7 D7 A7 A7 D7 D7 A7 A7 E7 D7 A7 E7", "A"),
          ("chorus 2", "A7 D7 A7 A7 D7 D7 A7 A7 E7 D7 A7 A7", "A")),
    song("slow blues with changes",
          ("chorus", "Bb7 | Eb7 | Bb7 | Fm7 Bb7 | Eb7 | Edim7 | Bb7 | Dm7 G7 | Cm7 | F7 | Bb7 G7 | Cm7 F7", "Bb")),
    song("minor blues",
          ("chorus", "Cm7 Cm7 Cm7 Cm7 Fm7 Fm7 Cm7 Cm7 Ab7 G7 Cm7 G7", "Cm"),
          ("chorus 2", "Cm7 Fm7 Cm7 Cm7 Fm7 Fm7 Cm7 Cm7 Dm7b5 G7 Cm7 Cm7", "Cm")),
    song("eight-bar blues", ("verse", "E7 B7 A7 A7 E7 B7 E7 B7 E7 B7 A7 A7 E7 B7 E7 E7", "E")),
    song("one-chord funk", ("verse", "E9 E9 E9 E9 E9 E9 E9 E9", "E"), ("bridge", "A9 A9 E9 E9", "E")),
    song("soul ballad in triplets", ("verse", "C Em F G C Em F G", "C"), ("chorus", "F Fm C A7 Dm7 G7 C C", "C")),
    song("gospel",
          ("verse", "Eb | Eb7 | Ab | Adim7 | Eb/Bb | C7 | Fm7 Bb7 | Eb", "Eb"),
          ("chorus", "Ab | Abm | Eb/Bb | C7 | F7 | Bb7 | Eb Ab | Eb", "Eb")),
    song("soul vamp ii V",
          ("verse", "Dm7 G7 Dm7 G7 Dm7 G7 Dm7 G7", "C"),
          ("chorus", "Cmaj7 Am7 Dm7 G7 Cmaj7 Am7 Dm7 G7 Cmaj7", "C")),
    song("maj7 soul",
          ("verse", "Fmaj7 Bbmaj7 Fmaj7 Bbmaj7 Fmaj7 Bbmaj7 Gm7 C7", "F"),
          ("chorus", "Bbmaj7 Am7 Gm7 C7 Fmaj7 Dm7 Gm7 C7 Fmaj7", "F")),
    song("minor soul vamp",
          ("verse", "Am7 D9 Am7 D9 Am7 D9 Am7 D9", "Am"),
          ("chorus", "Fmaj7 Em7 Am7 Am7 Fmaj7 E7 Am7 Am7", "Am")),
    song("eleven chords",
          ("verse", "F/G C F/G C F/G C F/G C", "C"),
          ("chorus", "Am7 Dm7 F/G C Am7 Dm7 F/G C", "C")),
)  # fmt: skip
"""Blues, soul, funk, gospel."""

JAZZ = (
    song("rhythm changes",
          ("A", "Bb6 G7 | Cm7 F7 | Bb6 G7 | Cm7 F7 | Bb7 | Eb6 Ab7 | Bb6 G7 | Cm7 F7", "Bb"),
          ("A2", "Bb6 G7 | Cm7 F7 | Bb6 G7 | Cm7 F7 | Bb7 | Eb6 Ab7 | Cm7 F7 | Bb6", "Bb"),
          ("bridge", "D7 D7 G7 G7 C7 C7 F7 F7", "Bb"),
          ("A3", "Bb6 G7 | Cm7 F7 | Bb6 G7 | Cm7 F7 | Bb7 | Eb6 Ab7 | Cm7 F7 | Bb6", "Bb")),
    song("ii V I in three keys",
          ("A", "Am7 D7 Gmaj7 Gmaj7 Am7 D7 Gmaj7 Gmaj7", "G"), ("B", "Gm7 C7 Fmaj7 Fmaj7 Gm7 C7 Fmaj7 Fmaj7", "F"),
          ("C", "Fm7 Bb7 Ebmaj7 Ebmaj7 Fm7 Bb7 Ebmaj7 Ebmaj7", "Eb")),
    song("falling fifths in minor",
          ("A", "Am7 Dm7 G7 Cmaj7 Fmaj7 Bm7b5 E7 Am6", "Am"), ("B", "Bm7b5 E7 Am6 Am6 Bm7b5 E7 Am6 Am6", "Am")),
    song("minor standard with a major middle",
          ("A", "Cm6 Cm6 Dm7b5 G7 Cm6 Cm6 Dm7b5 G7 Cm6", "Cm"),
          ("B", "Fm7 Bb7 Ebmaj7 Ebmaj7 Fm7 Bb7 Ebmaj7 Ebmaj7", "Eb"),
          ("A2", "Dm7b5 G7 Cm6 Cm6 Dm7b5 G7 Cm6 Cm6", "Cm")),
    song("modal A and B a half step up",
          ("A", "Dm7 Dm7 Dm7 Dm7 Dm7 Dm7 Dm7 Dm7", "Dm"), ("B", "Ebm7 Ebm7 Ebm7 Ebm7 Ebm7 Ebm7 Ebm7 Ebm7", "Ebm"),
          ("A2", "Dm7 Dm7 Dm7 Dm7 Dm7 Dm7 Dm7 Dm7", "Dm")),
    song("bossa",
          ("A", "Fmaj7 Fmaj7 G7 G7 Gm7 Gb7 Fmaj7 Gb7", "F"),
          ("A2", "Fmaj7 Fmaj7 G7 G7 Gm7 Gb7 Fmaj7 Fmaj7", "F")),
    song("turnaround with tritone substitutes",
          ("A", "Cmaj7 Eb7 | Dm7 Db7 | Cmaj7 Eb7 | Dm7 Db7 | Cmaj7 | A7 | Dm7 G7 | Cmaj7", "C")),
    song("ballad with back door",
          ("A", "Ebmaj7 Abm7 | Ebmaj7 | Abm7 Db7 | Ebmaj7 | Cm7 F7 | Fm7 Bb7 | Ebmaj7 | Fm7 Bb7", "Eb"),
          ("A2", "Ebmaj7 Abm7 | Ebmaj7 | Abm7 Db7 | Ebmaj7 | Cm7 F7 | Fm7 Bb7 | Ebmaj7 | Ebmaj7", "Eb")),
    song("waltz-like standard",
          ("A", "Gmaj7 Em7 Am7 D7 Gmaj7 E7 Am7 D7", "G"),
          ("A2", "Gmaj7 | Em7 | Am7 | D7 | Bm7 E7 | Am7 D7 | Gmaj7 | Gmaj7", "G")),
    song("bop blues",
          ("chorus", "F7 | Em7b5 A7 | Dm7 G7 | Cm7 F7 | Bb7 | Bbm7 Eb7 | "
                     "Am7 D7 | Abm7 Db7 | Gm7 | C7 | F7 D7 | Gm7 C7", "F")),
    song("jazz minor vamp", ("A", "Gm6 A7 | D7 Gm6 | Gm6 A7 | D7 Gm6 | Cm6 | Gm6 | A7 D7 | Gm6", "Gm")),
)  # fmt: skip
"""Jazz and bossa."""

DOUBTFUL = (
    song("three chords, starts on IV",
          ("verse", "D A E E D A E E", "E"),
          ("chorus", "A B E E A B E E", "E"), or_key="A"),
    song("neo-soul", ("verse", "Dbmaj9 C7 Fm9 Ebm9 Ab13 Dbmaj9 C7 Fm9 Fm9", "Fm"), or_key="Db"),
    song("Aeolian or relative major", ("all", "Am F C G Am F C G", "Am"), or_key="C"),
    song("loop that starts on IV and never settles", ("all", "F G Am Em F G Am Em", "Am"), or_key="C F G"),
    song("Mixolydian on D or plagal in G", ("all", "D C G G D C G G", "D"), or_key="G"),
    song("ii V without its I", ("all", "Gm7 C7 Gm7 C7 Gm7 C7 Gm7 C7", "F"), or_key="Gm"),
    song("Lydian vamp", ("all", "F G F G F G F G", "F"), or_key="C G"),
    song("vi IV vamp", ("all", "Em C Em C Em C Em C", "Em"), or_key="G C"),
    song("Dorian or ii V", ("all", "Am7 D Am7 D Am7 D Am7 D", "Am"), or_key="G"),
    song("two sections, one loop turned", ("verse", "Dm Bb F C Dm Bb F C", "Dm"), or_key="F"),
)  # fmt: skip
"""Charts on which musicians differ."""

HELD_BACK = (
    song("mid-tempo pop",
          ("verse", "D Bm G A D Bm G A", "D"),
          ("pre", "Em G A A", "D"),
          ("chorus", "G D A Bm G D A A", "D")),
    song("sad pop", ("verse", "Dm Bb Gm A Dm Bb Gm A", "Dm"), ("chorus", "F C Gm Bb F C Gm A7", "F")),
    song("hymn-like", ("verse", "F Bb/F F C/E Dm Bb F/C C F", "F"), ("chorus", "Bb F/A Gm7 F C/E F Bb C F", "F")),
    song("minor disco",
          ("verse", "Am7 Em7 Am7 Em7 Am7 Em7 Am7 Em7", "Am"),
          ("chorus", "Dm7 G7 Cmaj7 Fmaj7 Bm7b5 E7 Am7 Am7", "Am")),
    song("up a minor third", ("verse", "G D/F# Em C G D C D", "G"), ("chorus", "Bb F/A Gm Eb Bb F Eb Bb", "Bb")),
    song("hard rock", ("riff", "A5 C5 D5 A5 A5 C5 D5 A5", "A"), ("chorus", "A G D A A G D A", "A")),
    song("garage",
          ("verse", "G C D C G C D C", "G"),
          ("break", "Em Em C D", "G"),
          ("verse 2", "G C D C G C D C G", "G")),
    song("surf in minor", ("verse", "Em Em D D C C B7 B7", "Em"), ("chorus", "Am Em B7 Em Am Em B7 Em", "Em")),
    song("southern", ("verse", "D Cadd9 G D D Cadd9 G D", "D"), ("chorus", "A G D D A G D D", "D")),
    song("prog",
          ("A", "Fm Db Eb Fm Fm Db Eb C7", "Fm"),
          ("B", "A E D A A E D E", "A"),
          ("A2", "Fm Db Eb Fm", "Fm")),
    song("Chicago blues", ("chorus", "G7 C7 G7 G7 C7 C7 G7 G7 D7 C7 G7 D7", "G")),
    song("minor blues with turnaround", ("chorus", "Am7 Dm7 Am7 Am7 Dm7 Dm7 Am7 Am7 F7 E7 Am7 E7", "Am")),
    song("sixties soul", ("verse", "D D7 G Gm D A7 D A7", "D"), ("chorus", "G A7 F#m Bm Em7 A7 D D", "D")),
    song("modern gospel",
          ("verse", "Abmaj7 Gm7 | Cm7 | Abmaj7 Gm7 | Cm7 | Fm7 Gm7 | Abmaj7 | Bb7sus4 | Eb", "Eb")),
    song("standard in thirty-two bars, halved",
          ("A", "Dm7 | G7 | Cmaj7 | Am7 | Dm7 | G7 | Cmaj7 | Cmaj7", "C"),
          ("B", "Fmaj7 | Bb7 | Cmaj7 | A7 | D7 | D7 | Dm7 | G7", "C"), ("A2", "Dm7 | G7 | Cmaj7 | Cmaj7", "C")),
    song("bridge up a fourth and down again",
          ("A", "Bb6 | Gm7 | Cm7 | F7 | Bb6 | Gm7 | Cm7 F7 | Bb6", "Bb"),
          ("bridge", "Fm7 | Bb7 | Ebmaj7 | Ebmaj7 | Fm7 | Bb7 | Ebmaj7 | Ebmaj7", "Eb"),
          ("A2", "Cm7 | F7 | Bb6 | Bb6", "Bb")),
    song("minor bossa", ("A", "Dm6 | Dm6 | E7 | E7 | Gm7 A7 | Dm6 | Em7b5 A7 | Dm6", "Dm")),
    song("chain of tonics", ("A", "Cmaj7 | Cmaj7 | Abmaj7 | Abmaj7 | Dm7 | G7 | Cmaj7 | Cmaj7", "C")),
    song("folk waltz", ("verse", "A E A D A E A A", "A"), ("refrain", "D A E A D A E A", "A")),
    song("ballad in E flat minor",
          ("verse", "Ebm Cb Gb Db Ebm Cb Gb Db", "Ebm"),
          ("chorus", "Cb Db Ebm Ebm Cb Db Ebm Ebm", "Ebm")),
)  # fmt: skip
"""Written after the first weights were settled; none of them changed a weight."""
