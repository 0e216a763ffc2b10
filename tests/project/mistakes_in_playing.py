"""Mistakes in what the program plays: the excerpt that a person wrote, and each complaint with what it points at.

An excerpt stands in the good project file in place of its first one, whose song has the stems keys and bass (32 s
each), the part lead, which rests in bars 3 and 4, and the facts loop (numerals) and catch (degree).
"""

from __future__ import annotations

Complaints = list[tuple[str, str]]
"""(What is pointed at, how the sentence begins.)"""

_HERE = "where: verse bars 1-2"

PLAYED: list[tuple[str, Complaints]] = [
    ("play: lead", [("{play", "'excerpt' needs 'where', the bars over which lead is played.")]),
    ("stems: keys", [("{stems", "'excerpt' needs 'where'.")]),
    (f"{_HERE}, play: led", [("led", "'led' is not a part of the song; did you mean 'lead'?")]),
    (f"{_HERE}, play: chord", [("chord", "'chord' is not a part of the song; did you mean 'chords'?")]),
    (
        f"{_HERE}, play: piano",
        [("piano", "'piano' is not a part of the song; choose from chords, lead; a sound is written")],
    ),
    (
        f"{_HERE}, play: keys",
        [("keys", "'keys' is a stem, which is heard with stems: [keys]; 'play' is for")],
    ),
    (f"{_HERE}, play: yes", [("yes", "'yes' does not say what is played; write play: chords, or a part")]),
    (f"{_HERE}, play: []", [("[]", "This list is empty; name what is played, as chords or a part")]),
    (
        f"{_HERE}, play: {{lead: plucked}}",
        [("{lead", "Say which of these is the part, as {part: lead, sound: plucked}.")],
    ),
    (
        "play: {chord: [G, C]}",
        [
            (
                "[G",
                "One chord is played by itself; several are those of the song, as play: chords over a 'where'.",
            )
        ],
    ),
    ("play: {scale: Dorian}", [("Dorian", "'Dorian' has no tonic; write it before the scale, as D Dorian.")]),
    ("play: {chord: G, tempo: fast}", [("fast", "'fast' is no tempo; write beats a minute, as 96.")]),
    (
        "play: {chord: G, tempo: 90,5}",
        [("5}", "'5' stands alone after a comma; numbers take a point, as in 90.5.")],
    ),
    (f"{_HERE}, play: loop", [("loop", "'loop' is a fact, and is played as {fact: loop}.")]),
    (
        f"{_HERE}, play: F#m7",
        [("F#m7", "'F#m7' is no part of the song; as a chord it is played as {chord: F#m7}.")],
    ),
    (f"{_HERE}, play: [lead, lead]", [("lead]", "'lead' is played twice at once; once is enough.")]),
    (
        "where: 3-4, play: lead",
        [("lead", "'lead' has no notes in this excerpt; choose bars in which it plays.")],
    ),
    (f"{_HERE}, play: {{fact: lop}}", [("lop", "'lop' is not a fact; did you mean 'loop'?")]),
    (
        f"{_HERE}, play: {{fact: catch}}",
        [
            (
                "catch",
                "'catch' asks for the degree, which is nothing to play; of the facts here, loop can be played.",
            )
        ],
    ),
    ("play: {chord: H7}", [("H7", "'H7' starts with H: write B for the German H")]),
    ("play: {chord: Gxyz}", [("xyz", "'xyz' makes no sense")]),
    ("play: {scale: D}", [("D}", "'D' is a note without its scale; write both, as D Mixolydian.")]),
    ("play: {scale: dorian}", [("dorian", "'dorian' has no tonic; write it before the scale, as D dorian.")]),
    ("play: {sound: plucked}", [("{sound", "Say what is played: chords, a part")]),
    (
        f"{_HERE}, play: {{part: lead, chord: G}}",
        [("G}", "This plays two things, part and chord; make each a group of its own.")],
    ),
    (f"{_HERE}, play: [[lead]]", [("[lead]", "An item of 'play' is a group of keys, not a list.")]),
    (
        f"{_HERE}, play: [{{prt: lead}}]",
        [("prt", "'prt' is not a key of an item of 'play'; did you mean 'part'?")],
    ),
    (
        f"{_HERE}, play: {{part: led, sound: plukd, temp: 90}}",
        [
            ("led", "'led' is not a part of the song; did you mean 'lead'?"),
            ("plukd", "'plukd' is not a sound; did you mean 'plucked'?"),
            ("temp", "'temp' is not a key of 'play'; did you mean 'tempo'?"),
        ],
    ),
    (
        f"{_HERE}, play: {{part: lead, sound: soundfont 12}}",
        [
            (
                "soundfont 12",
                "'soundfont 12' needs a SoundFont; name its file in episode, as soundfont: sounds/mine.sf2.",
            )
        ],
    ),
    (
        "play: {chord: G, sound: soundfont 0}",
        [("soundfont 0", "'soundfont 0' names no program; they count from 1")],
    ),
    ("play: {chord: G, sound: soundfont 129}", [("soundfont 129", "'soundfont 129' names no program")]),
    ("play: {chord: G, sound: soundfont}", [("soundfont", "'soundfont' names no program")]),
    ("play: {chord: G, tempo: 10}", [("10", "'10' is no tempo; beats a minute go from 20 to 400.")]),
    (
        f"{_HERE}, play: {{part: lead, tempo: 90}}",
        [("90", "'lead' keeps the tempo of the song; leave tempo out, or write speed: 80 %.")],
    ),
    (
        f"{_HERE}, play: [lead, {{chord: G}}]",
        [("[lead", "'G' is played by itself, in no place of the song, so nothing else can sound with it")],
    ),
    (
        f"{_HERE}, play: {{chord: G}}",
        [("where", "'G' is played by itself, in no place of the song; leave 'where' out.")],
    ),
    (
        "play: {chord: G}, stems: keys, click: yes, tail: yes, count-in: 1 bar",
        [
            ("stems", "'G' is played by itself, and no stem can sound with it; leave 'stems' out."),
            ("click", "'G' is played by itself, and has no beats to click on; leave 'click' out."),
            ("tail", "'G' is played by itself, and nothing goes on after it; leave 'tail' out."),
            ("count-in", "'G' is played by itself, and has no beats to count in; leave 'count-in' out."),
        ],
    ),
    (
        "play: {chord: G}, fade: {in: 1 bar}",
        [("1 bar", "'G' stands in no place of the song and has no bars; write beats or seconds.")],
    ),
    ("feature: G, play: {chord: G}", [("G,", "'G' is heard alone, so nothing makes room for it")]),
]

INSTEAD: list[tuple[str, Complaints]] = [
    (
        f"{_HERE}, instead: {{5: G}}",
        [
            (
                "instead",
                "'instead' changes what the program plays, so it needs something in 'play'; write play: chords",
            )
        ],
    ),
    # What no one of several can play is told of the first that could, else of the first.
    (
        f"{_HERE}, play: [lead, chords], instead: {{5: Hm7}}",
        [("Hm7", "'Hm7' is neither a note nor a chord; write D5, D, F#m7 or rest.")],
    ),
    (
        f"{_HERE}, play: [chords, lead], instead: {{5: G, 5.1: A}}",
        [("5.1", "'5.1' is replaced already, by a line above; write it once.")],
    ),
    (
        "where: 3-5, play: [lead, chords], instead: {3.1: D5}",
        [("3.1", "'lead' plays nothing at '3.1', so there is nothing to replace.")],
    ),
    (
        f"{_HERE}, play: lead, instead: {{5: D10}}",
        [("D10", "'D10' is out of range; notes go from A0 to C8, the keys of a piano.")],
    ),
    (
        f"{_HERE}, play: lead, instead: {{5: Dbbb}}",
        [("Dbbb", "'Dbbb' has more than two accidentals; write the note that sounds the same.")],
    ),
    (
        f"{_HERE}, play: lead, instead: [5, G]",
        [("[5", "Say where something else is played, as {chorus bar 4: G}.")],
    ),
    (
        "play: {chord: G}, instead: {5: G}",
        [("instead", "'G' stands in no place of the song, so nothing in it can be replaced.")],
    ),
    (
        f"{_HERE}, play: chords, instead: {{7: G}}",
        [("7:", "'7' is not in the excerpt; replace something that is heard in it.")],
    ),
    (f"{_HERE}, play: chords, instead: {{7.1: G}}", [("7.1", "'7.1' is not in the excerpt")]),
    (
        f"{_HERE}, play: chords, instead: {{vers: G}}",
        [("vers:", "'vers' is not a section of the song; did you")],
    ),
    (
        f"{_HERE}, play: chords, instead: {{5: G, 5.1: A}}",
        [("5.1", "'5.1' is replaced already, by a line above; write it once.")],
    ),
    (f"{_HERE}, play: chords, instead: {{5: H}}", [("H}", "'H' starts with H: write B for the German H")]),
    (f"{_HERE}, play: chords, instead: {{5: Gxx}}", [("xx}", "'xx' makes no sense")]),
    (
        f"{_HERE}, play: lead, instead: {{5: low}}",
        [("low", "'low' is neither a note nor a chord; write D5, D, F#m7 or rest.")],
    ),
    (
        "where: 1-4, play: lead, instead: {3.1: D}",
        [("3.1", "'lead' plays nothing at '3.1', so there is nothing to replace.")],
    ),
    (
        f"{_HERE}, play: lead, instead: D",
        [("D}", "Say where something else is played, as {chorus bar 4: D}.")],
    ),
    (f"{_HERE}, play: lead, instead: {{5: [D]}}", [("[D]", "This must be a single value, not a list")]),
]
