"""Mistakes in what is heard: the excerpt that a person wrote, and each complaint with what it points at.

An excerpt stands in the good project file in place of its first one, whose song has the stems keys and bass (32 s
each), the part lead, which rests in bars 3 and 4, and the facts loop (numerals) and catch (degree).
"""

from __future__ import annotations

Complaints = list[tuple[str, str]]
"""(What is pointed at, how the sentence begins.)"""

_HERE = "where: verse bars 1-2"

STEMS: list[tuple[str, Complaints]] = [
    (
        f"{_HERE}, stems: [keys], mute: [bass]",
        [("mute", "'stems' names all that is heard and 'mute' all that is not; write one of them.")],
    ),
    (f"{_HERE}, mute: drums", [("drums", "'drums' is not a stem; choose from bass, keys.")]),
    (f"{_HERE}, mute: [bas]", [("bas]", "'bas' is not a stem; did you mean 'bass'?")]),
    (
        f"{_HERE}, mute: [keys, bass]",
        [("[keys, bass]", "This mutes every stem, so that nothing is left to hear; name fewer.")],
    ),
    (f"{_HERE}, mute: [bass, bass]", [("[bass, bass]", "'bass' is named twice; once is enough.")]),
    (
        f"{_HERE}, gain: {{bas: 3 dB}}",
        [("bas:", "'bas' is not heard in this excerpt; did you mean 'bass'?")],
    ),
    (
        f"{_HERE}, stems: keys, gain: {{bass: 3 dB}}",
        [("bass:", "'bass' is not heard in this excerpt, so 'gain' of it changes nothing; name it in stems")],
    ),
    (
        f"{_HERE}, mute: bass, pan: {{bass: right}}",
        [("bass: r", "'bass' is not heard in this excerpt, so 'pan' of it changes nothing")],
    ),
    (
        f"{_HERE}, play: lead, gain: {{bass: 3 dB}}",
        [("bass:", "'bass' is not heard in this excerpt, so 'gain' of it changes nothing")],
    ),
    (
        f"{_HERE}, stems: []",
        [("[]", "This list is empty; name the stems that are heard, or leave the key out.")],
    ),
    (f"{_HERE}, mute: []", [("[]", "This list is empty; name the stems that are not heard")]),
    (
        f"{_HERE}, gain: {{keys: -3,5 dB}}",
        [("5 dB", "'5 dB' stands alone after a comma; numbers take a point, as in -3.5 dB.")],
    ),
    (
        f"{_HERE}, gain: {{keys: -3,5 dB, bass:  2,5 dB}}",
        [
            ("5 dB, bass", "'5 dB' stands alone after a comma; numbers take a point, as in -3.5 dB."),
            ("5 dB}", "'5 dB' stands alone after a comma; numbers take a point, as in 2.5 dB."),
        ],
    ),
    (
        f"{_HERE}, pan: {{keys: left 12,5 %, bass: right 40}}",
        [
            ("5 %", "'5 %' stands alone after a comma; numbers take a point, as in left 12.5 %."),
            ("right 40", "'right 40' has no unit; write right 40 %."),
        ],
    ),
    (f"{_HERE}, gain: -3 dB", [("-3 dB", "Say of which stem this is, as {keys: -3 dB}.")]),
    (f"{_HERE}, pan: left", [("left", "Say of which stem this is, as {keys: left}.")]),
    (
        f"{_HERE}, gain: {{keys: -3, bass: 30 dB}}",
        [
            ("-3", "'-3' has no unit; write -3 dB."),
            ("30 dB", "'30 dB' is out of range; this goes from -60 to 24 dB."),
        ],
    ),
    (
        f"{_HERE}, pan: {{keys: centre, bass: left 140 %}}",
        [
            ("centre", "'centre' is written middle here."),
            ("left 140 %", "'left 140 %' is further out than a side; the most is left 100 %."),
        ],
    ),
    (f"{_HERE}, feature: bas", [("bas", "'bas' is not heard in this excerpt; did you mean 'bass'?")]),
    (
        f"{_HERE}, stems: keys, feature: {{stem: bass}}",
        [("bass", "'bass' is not heard in this excerpt, so it cannot be in front")],
    ),
    (
        f"{_HERE}, stems: keys, feature: keys",
        [("keys}", "'keys' is heard alone, so nothing makes room for it; name more stems.")],
    ),
    (
        f"{_HERE}, feature: {{stem: keys, by: -9 dB}}",
        [("-9 dB", "'-9 dB' says by how much something goes down, so it has no minus; write 9 dB.")],
    ),
    (
        f"{_HERE}, feature: {{stem: keys, by: 0 dB}}",
        [("0 dB", "'0 dB' lowers nothing; write more than 0 dB, or leave it out.")],
    ),
    (
        f"{_HERE}, feature: {{stem: keys, where: bridge}}",
        [("bridge", "Nothing of this is in the excerpt, so 'keys' would never be in front.")],
    ),
    (
        f"{_HERE}, feature: {{stem: keys, where: 5, over: 3 beats}}",
        [("3 beats", "The others would still be on their way down when they have to come back")],
    ),
    (
        f"{_HERE}, feature: {{stm: keys}}",
        [("stm", "'stm' is not a key of 'feature'; did you mean 'stem'?")],
    ),
    (
        f"{_HERE}, feature: [keys, bass]",
        [("[keys", "One stem at a time stands in front; write feature: keys.")],
    ),
    (
        f"{_HERE}, feature: {{keys: 12 dB}}",
        [("{keys", "Say which of these is the stem, as {stem: keys, by: 12 dB}.")],
    ),
    (
        f"{_HERE}, feature: {{stem: keys, by: much}}",
        [("much", "'much' is not a level; write decibels, as 9 dB.")],
    ),
    (f"{_HERE}, feature: {{stem: keys, by: -9}}", [("-9", "'-9' says by how much something goes down")]),
    (f"{_HERE}, feature: {{by: 9 dB}}", [("{by", "'feature' needs 'stem'.")]),
]

TIMES: list[tuple[str, Complaints]] = [
    (f"{_HERE}, speed: 0 %", [("0 %", "At a speed of 0 % nothing would ever be heard")]),
    (f"{_HERE}, speed: 0", [("0}", "At a speed of 0 nothing would ever be heard")]),
    (
        f"{_HERE}, speed: 0.39",
        [("0.39", "'0.39' is out of range: speeds go from 0.4 to 1.5, or 40 % to 150 %.")],
    ),
    (f"{_HERE}, speed: 151 %", [("151 %", "'151 %' is out of range")]),
    (
        f"{_HERE}, speed: 80",
        [("80", "'80' is out of range: speeds go from 0.4 to 1.5, or 40 % to 150 %; did you")],
    ),
    (f"{_HERE}, speed: half", [("half", "'half' is not a speed; write 0.8 or 80 %")]),
    (f"{_HERE}, speed: -0.8", [("-0.8", "'-0.8' is not a speed")]),
    (
        f"{_HERE}, repeat: 0",
        [("0}", "'0' is too few: this says how often it is heard in all; write 1 to 8.")],
    ),
    (
        f"{_HERE}, repeat: 9",
        [("9}", "'9' is too many: this says how often it is heard in all; write 1 to 8.")],
    ),
    (
        f"{_HERE}, repeat: 2.5",
        [("2.5", "'2.5' is not a whole number; write how often it is heard in all, as 2.")],
    ),
    (
        f"{_HERE}, repeat: twice",
        [("twice", "'twice' is not a whole number; write how often it is heard in all, as 2.")],
    ),
    (
        f"{_HERE}, repeat: three times",
        [("three", "'three times' is not a whole number; write how often it is heard in all, as 3.")],
    ),
    (f"{_HERE}, pitch: -15", [("-15", "'-15' has no unit; write -15 cents, or half steps.")]),
    (
        f"{_HERE}, pitch: 1201 cents",
        [("1201", "'1201 cents' is out of range; pitch moves by an octave at most")],
    ),
    (f"{_HERE}, pitch: -13 half steps", [("-13", "'-13 half steps' is out of range")]),
    (f"{_HERE}, pitch: 1", [("1}", "'1' has no unit; write 1 cent, or half steps.")]),
    (f"{_HERE}, pitch: -1 ct", [("-1 ct", "'-1 ct' is written -1 cent here.")]),
    (f"{_HERE}, pitch: 2000 ct", [("2000", "'2000 ct' is out of range; pitch moves by an octave at most")]),
    (f"{_HERE}, pitch: 13 semitones", [("13", "'13 semitones' is out of range")]),
    (f"{_HERE}, pitch: up", [("up", "'up' is no shift of pitch; write it as -15 cents or 2 half steps.")]),
    (
        f"{_HERE}, fade: {{in: 2 bars, out: 1 beat}}",
        [("{in", "The fades take 4.5 s together, but the excerpt lasts only 4 s; make them shorter.")],
    ),
    (
        f"{_HERE}, repeat: 2, speed: 0.5, fade: 9",
        [("9}", "The fades take 18 s together, but the excerpt lasts only 16 s")],
    ),
    (
        f"{_HERE}, fade: 1 bra",
        [("1 bra", "'1 bra' is not a time, nor a number of bars or beats; write 0.5, 2 beats or 1 bar.")],
    ),
    (f"{_HERE}, fade: {{in: a beat}}", [("a beat", "'a beat' is not a length in bars or beats")]),
    (f"{_HERE}, fade: {{out: 1/0 beat}}", [("1/0", "'1/0 beat' divides by nothing")]),
    (f"{_HERE}, tail: 65 bars", [("65 bars", "'65 bars' is longer than any use of it")]),
    (
        f"{_HERE}, tail: long",
        [("long", "'long' is not a time, nor a number of bars or beats; write yes, to ring on")],
    ),
    (
        f"{_HERE}, tail: 0:03:00",
        [("0:03:00", "This tail is longer than any use of it; write 64 bars at most.")],
    ),
    # The recording ends at 0:32, 1.5 s after this excerpt; a bar takes 2 s.
    (
        "where: 0:29-0:30.5, tail: 2 bars",
        [("2 bars", "The tail would take 4 s, but the sound ends 1.5 s after the excerpt; write tail: yes")],
    ),
    (
        "where: 0:29-0:32, tail: 1 beat",
        [("1 beat", "Nothing is left after the excerpt that could ring on; leave 'tail' out")],
    ),
    (
        "where: 0:29-0:31.5, tail: yes, fade: {out: 2 bars}",
        [
            (
                "{out",
                "The fades take 4 s together, but the excerpt lasts only 3 s, as nothing is left to ring on",
            )
        ],
    ),
    # Only played, it ends with the song, at 0:31.
    (
        "where: 16, play: chords, tail: 1 bar",
        [("1 bar", "Nothing is left after the excerpt that could ring on")],
    ),
    (f"{_HERE}, fade: 50 ms", [("50 ms", "'50 ms' is written 0.05 here; a bare number is seconds.")]),
    (
        f"{_HERE}, fade: 50",
        [
            (
                "50}",
                "The fades take 100 s together, but the excerpt lasts only 4 s; "
                "a bare number is seconds: did you mean 0.05?",
            )
        ],
    ),
    (f"{_HERE}, fade: .5", [(".5", "'.5' begins with its point; write 0.5.")]),
    (f"{_HERE}, speed: .8", [(".8", "'.8' begins with its point; write 0.8.")]),
    (f"{_HERE}, speed: 0,8", [("8}", "'8' stands alone after a comma; numbers take a point, as in 0.8.")]),
    (f"{_HERE}, speed: '0,8'", [("'0,8'", "'0,8' has a comma in it; numbers take a point, as in 0.8.")]),
    (
        f"{_HERE}, pitch: 15,5 cents",
        [("5 cents", "'5 cents' stands alone after a comma; numbers take a point, as in 15.5 cents.")],
    ),
    (f"{_HERE}, at: 2:00:00", [("2:00:00", "'2:00:00' is longer than any use of it; the most is an hour.")]),
    (
        f"{_HERE}, tempo: 90",
        [
            (
                "tempo",
                "'tempo' belongs in 'play', for what stands in no place of the song, as play: {chord: G, tempo: 90}",
            )
        ],
    ),
    (f"{_HERE}, narration: voice/hook.wav", [("narration", "'narration' belongs to the segment")]),
    (f"{_HERE}, count-in: 4", [("4}", "'4' has no unit; write 4 beats, or 1 bar.")]),
    (f"{_HERE}, count-in: 1", [("1}", "'1' has no unit; write 1 beat, or 1 bar.")]),
    *(
        (
            f"{_HERE}, count-in: {no}",
            [(no, f"'{no}' is no count-in; write 1 bar, or 4 beats: whole ones, up to 4")],
        )
        for no in ("1/2 bar", "17 beats", "0 bars", "yes", "2 s", "65 bars", "99")
    ),
    (
        f"{_HERE}, countin: 1 bar",
        [("countin", "'countin' is not a key of 'excerpt'; did you mean 'count-in'?")],
    ),
    (
        f"{_HERE}, click: loud",
        [("loud", "'loud' is no way to click; write yes, or its level against the music")],
    ),
    (f"{_HERE}, click: -6", [("-6", "'-6' has no unit; write -6 dB.")]),
    (f"{_HERE}, click: 20 dB", [("20 dB", "'20 dB' is out of range; this goes from -60 to 12 dB.")]),
    (
        f"{_HERE}, at: after the vioce",
        [("after", "'after the vioce' is not a time; did you mean 'after the voice'?")],
    ),
    ("where: 0:31-0:33", [("0:31", "This runs to 0:33, but 'mix.flac' lasts 0:32; end it sooner.")]),
]
