"""Mistakes in the episode, the song and the facts: what is right, what is wrong, and how each complaint begins."""

from __future__ import annotations

OF_THE_SONG = [
    (
        "numerals: verse}",
        "numerals: vers}",
        ["29:20: 'vers' is not a section of the song; did you mean 'verse'?"],
    ),
    ("title: Why", "titel: Why", ["2:3: 'titel' is not a key of 'episode'; did you mean 'title'?"]),
    ("canvas: 1920x1080 @ 30", "canvas: 1920x1080 @ 31", ["3:23: '31' frames a second is not a rate here"]),
    ("canvas: 1920x1080 @ 30", "canvas: big", ["3:11: 'big' is not a canvas"]),
    ("loudness: -14 LUFS", "loudness: -3 LUFS", ["4:13: '-3 LUFS' is out of range"]),
    ("loudness: -14 LUFS", "loudness: loud", ["4:13: 'loud' is not a loudness"]),
    (
        "recording: audio/mix.flac",
        "recording: audio/mixx.flac",
        ["18:14: There is no file 'audio/mixx.flac'; did you mean 'audio/mix.flac'?"],
    ),
    (
        "recording: audio/mix.flac",
        "recording: audio/notes.txt",
        ["18:14: 'notes.txt' cannot be read as sound or video"],
    ),
    (
        "recording: audio/mix.flac",
        "recording: ../mix.flac",
        ["18:14: '../mix.flac' leads out of the project's folder"],
    ),
    (
        "recording: audio/mix.flac",
        "recording: /etc/passwd",
        ["18:14: '/etc/passwd' is not relative to the project file"],
    ),
    ("recording: audio/mix.flac", "recording: audio\\mix.flac", ["18:19: 'audio\\mix.flac' has '\\' in it"]),
    ("recording: audio/mix.flac", "recording: audio", ["18:14: 'audio' is a folder, not a file"]),
    (
        "recording: audio/mix.flac",
        "recording: sounds/mix.flac",
        ["18:14: There is no file 'sounds/mix.flac'"],
    ),
    (
        "recording: audio/mix.flac",
        "recording: footage/take.mp4",
        ["18:14: 'footage/take.mp4' has no sound in it"],
    ),
    (
        "stems: {keys: audio/keys.flac, bass: audio/bass.flac}",
        "stems: audio",
        ["19:10: 'stems' is a group of keys, not 'audio'"],
    ),
    (
        "stems: {keys: audio/keys.flac, bass: audio/bass.flac}",
        "stems: {keys: audio/keys.flac, bass: [1]}",
        ["19:40: This must be a single value, not a list or a group of keys"],
    ),
    ("F#m . D", "H#m . D", ["16:19: 'H#m' starts with H"]),
    ("| A | % | D | E |", "| A | % | D |", ["15:25: These chords fill 3 bars, but intro has 4"]),
    ("| A | % | D | E |", "| A | % | D | Exyz | A |", ["15:28: 'xyz' makes no sense"]),
    (
        '    intro: "| A',
        '    itro: "| A',
        ["15:5: 'itro' is not a section of the song, nor a range of bars; did you mean 'intro'?"],
    ),
    ("verse: 5-12,", "verse: 4-12,", ["13:33: 'verse' overlaps 'intro': both have bar 4"]),
    ("meter: {1: 4/4, 14", "meter: {2: 4/4, 14", ["11:11: The first meter is for bar 2"]),
    (
        "meter: {1: 4/4, 14: 2/4, 15: 4/4}",
        "meter: {}",
        ["11:10: No meter is written here; write one, as 4/4"],
    ),
    ("14: 2/4, 15", "14: 2/5, 15", ["11:23: '2/5' is not a meter"]),
    (
        "15: 4/4}",
        "15: 4/4, 40: 3/4}",
        ["11:37: The meter changes at bar 40, past the end of the song, whose last bar is 16"],
    ),
    ("tempo: 120", "tempo: fast", ["12:10: 'fast' is no tempo; write beats a minute, as 96."]),
    ("tempo: 120", "tempo: 90 bpm", ["12:10: '90 bpm' is written 90 here; a tempo is always beats"]),
    ("tempo: 120", "tempo: '90,5'", ["12:10: '90,5' has a comma in it; numbers take a point, as in 90.5."]),
    ("loudness: -14 LUFS", "loudness: -16", ["4:13: '-16' has no unit; write -16 LUFS."]),
    ("loudness: -14 LUFS", "loudness: -16,5 LUFS", ["4:13: '-16,5 LUFS' has a comma in it; numbers take a"]),
    (
        "loudness: -14 LUFS",
        "narration: voice/hook.wav",
        ["4:3: 'narration' belongs to a segment."],
    ),
    ("tempo: 120", "by: x", ["7:3: The song has no tempo", "12:3: 'by' is written twice"]),
    ("tempo: 120", "bars: {1: 0:00, 5: 0:08, 4: 0:09}", ["12:28: Bar 4 does not come after bar 5"]),
    ("tempo: 120", "bars: {1: 0:00}", ["12:9: With the time of one bar alone the song has no tempo"]),
    (
        "tempo: 120",
        "bars: {1: 0:00, 9: 0:16}\n  tempo: 60",
        ["13:10: The tempo is written as 60, but the times in bars make it 120"],
    ),
    ("tempo: 120", "bars: {1: 0:00, verse: 0:16}", ["12:19: 'verse' is not a bar"]),
    ("tempo: 120", "bars: {1: 0:01, 9: 0:00}", ["12:22: Bar 9 is at 0:00, but bar 1 is already at 0:01"]),
    (
        "bridge: F# minor",
        "bridg: F# minor",
        ["10:21: 'bridg' is not a section of the song; did you mean 'bridge'?"],
    ),
    (
        "bridge: F# minor",
        "bridge: E dorian",
        [
            "10:29: 'E dorian' is a mode, and a key here is major or minor: write E minor, which has the same third, "
            "and ask for the mode with a fact, as {mode: lead}."
        ],
    ),
    (
        "bridge: F# minor",
        "bridge: G mixolydian",
        ["10:29: 'G mixolydian' is a mode, and a key here is major or minor: write G major,"],
    ),
    (
        "intro: 1-4,",
        "song: 1-4,",
        ["13:14: 'song' stands for the whole song, so it cannot be the name of a section"],
    ),
    (
        "canvas: 1920x1080 @ 30",
        "canvas: {theme: #ffffff}",
        ["3:19: '#' begins a remark in YAML; put the colour in quotes, as \"#ffffff\"."],
    ),
    ("bridge: F# minor", "bridge: H minor", ["10:29: 'H minor' is not a key"]),
    ("key: {1: A major", "key: {5: A major", ["10:9: The first key holds from 5 on"]),
    ("A major, bridge", "A majr, bridge", ["10:12: 'A majr' is not a key"]),
    ("at: 6.1", "at: 6", ["30:29: '6' is a stretch"]),
    ("tempo: 120", "tempo: 1000000", ["12:10: '1000000' is no tempo; beats a minute go from 20 to 400"]),
    ("degree: lead", "degre: lead", ["30:11: 'degre' is not a kind of fact; did you mean 'degree'?"]),
    (
        "facts:\n",
        "facts: [a]\nfacst:\n",
        [
            "28:8: Facts is a group of names, each with its question, as loop: {numerals: verse}",
            "29:1: 'facst' is not a key of the project; did you mean 'facts'?",
        ],
    ),
    (
        "loop: {numerals: verse}",
        "loop: verse",
        ["29:9: 'loop' needs a question, as {numerals: verse} or {degree: lead, at: 6.1}"],
    ),
    (
        "song:\n",
        "song: x\nsongs:\n",
        [
            "6:7: 'song' is a group of keys, not 'x'",
            "7:1: 'songs' is not a key of the project; did you mean 'song'?",
        ],
    ),
    ("by: Nobody", "tempo: 1", ["8:10: '1' is no tempo", "12:3: 'tempo' is written twice"]),
    ("K:A\n", "X\n", ["21:11: This ABC has no key"]),
    (
        "M:4/4\n      L",
        "M:3/4\n      L",
        ["23:7: The meter here is 3/4 at bar 1 of lead, and the song's is 4/4; correct one of them"],
    ),
    ("tempo: 120", "tempo: 120\n  pickup: 5", ["13:11: A pickup of 5 beats fills a bar of 4/4"]),
    ("intro: 1-4,", "intro: 0-4,", ["13:21: There is no bar 0 without a pickup"]),
    (
        "intro: 1-4,",
        "3-4: 1-4,",
        ["13:14: '3-4' reads as bars of the song, so it cannot be the name of a section"],
    ),
    ("loudness: -14 LUFS", "theme: mine/a.yaml", ["4:10: There is no file 'mine/a.yaml'"]),
    (
        "numerals: verse}",
        "numerals: 13-16, at: 3}",
        ["29:27: 'at' is not a key of 'loop'; choose from expect, numerals."],
    ),
    (
        "loop: {numerals: verse}",
        "loop: {numerals: verse}\n  9x!: {numerals: verse}",
        ["30:3: '9x!' is no name for a fact"],
    ),
    (
        "catch: {degree: lead, at: 6.1}",
        "catch: {degree: lead, at: 4.1}",
        ["30:29: No note of lead sounds at 4.1"],
    ),
    (
        "  loudness: -14 LUFS",
        "  numerals: roman",
        ["4:13: 'roman' is not a choice for 'numerals'; choose from common-practice, relative-to-major."],
    ),
    ("  title: Lamp\n", "", ["7:3: The song needs a 'title'"]),
    ("episode:\n  title: Why the lamp stays lit", "episode:", ["2:3: The episode needs a 'title'"]),
    ("rights: {licence: CC0}", "rights: CC0", ["9:11: 'rights' is a group of keys, not 'CC0'"]),
    (
        "rights: {licence: CC0}",
        "rights: {license: CC0}",
        ["9:12: 'license' is not a key of 'rights'; did you mean 'licence'?"],
    ),
    (
        "A B c d | e4",
        "A [c d | e4",
        ["26:9: '[' in bar 1 of lead has no other half on its line; close what is opened, as [CEG]"],
    ),
    (
        "f2 d2 | f4",
        "f2 Q2 | f4",
        ["26:45: 'Q2' in bar 6 of lead is no note of ABC: notes are A to G and a to g, and a rest is z"],
    ),
    (
        "f2 d2 | f4",
        "f2 H2 | f4",
        ["26:45: 'H2' in bar 6 of lead is no note of ABC, which has A to G: the German H"],
    ),
    (
        "f2 d2 | f4",
        "f2 d# | f4",
        ["26:46: '#' in bar 6 of lead is no sign of ABC: accidentals stand before the"],
    ),
    (
        "f2 d2 | f4",
        "f2 d 2 | f4",
        ["26:47: '2' in bar 6 of lead belongs to no note; a length follows its note at"],
    ),
    ("f2 d2 | f4", "f2 & d2 | f4", ["26:45: '&' in bar 6 of lead writes two voices into one bar"]),
    ("f2 d2 | f4", "f2 [dQ]2 | f4", ["26:47: 'Q' in bar 6 of lead is no note of ABC"]),
    ("f2 d2 | f4", "f2 [c#e]2 | f4", ["26:47: '#' in bar 6 of lead is no sign of ABC"]),
    ("z4 | z4 |", "Z2 |", ["26:22: 'Z2' in bar 3 of lead is a rest of whole bars, which is not read here"]),
    (
        "f2 d2 | f4",
        "f2 d3 | f4",
        ["26:42: Bar 6 of lead holds 5 beats, and 4/4 has 4; take some of it out, or set a bar line |."],
    ),
    (
        "f2 d2 | f4",
        "f2 d3/2 | f4",
        [
            "26:42: Bar 6 of lead holds 3 1/2 beats, and 4/4 has 4; fill it with notes or with a rest such as z."
        ],
    ),
    (
        "A B c d | e4",
        "A B c d e | e4",
        ["26:7: Bar 1 of lead holds 5 beats, and 4/4 has 4; take some of it out"],
    ),
    (
        "A B c d | e4",
        "A B c | e4",
        [
            "26:7: Bar 1 of lead holds 3 beats, and 4/4 has 4; fill it with a rest such as z, or, if it is a pickup "
            "before bar 1, write pickup: 3 in song."
        ],
    ),
    (
        "| f4 | e4 |",
        "| f4 | e4 | z4 | z4 | z4 | z4 | z4 | [M:2/4] z2 | [M:4/4] z4 | z4 | a4 |",
        [
            "26:116: Bar 17 of lead is past the end of the song, whose last bar is 16; take it away, or add bars"
        ],
    ),
    (
        "| f4 | e4 |",
        "| [M:3/4] f3 | [M:4/4] e4 |",
        [
            "26:50: The meter here is 3/4 at bar 7 of lead, and the song's is 4/4; correct one of them.",
            "26:58: Bar 7 of lead holds 3 beats, and 4/4 has 4",
        ],
    ),
    (
        "      A B c d | e4",
        "      %A B c d | e4",
        ["21:11: This ABC has no notes: none are written after its key"],
    ),
    ("K:A\n", "K:H\n", ["25:7: 'K:H' is not a key of ABC (the German H is B); write one such as K:Em"]),
    (
        "K:A\n",
        "K:A clef=trebel\n",
        ["25:7: 'trebel' is not a clef that is read here: write treble, alto, tenor"],
    ),
    ("K:A\n", "K:A perc\n", ["25:7: The clef 'perc' has no pitches; a drum part goes under song: grooves"]),
    ("K:A\n", "K:A transpose=-2\n", ["25:7: 'transpose=-2' is not read here; write the notes as they sound"]),
    ("K:A\n", "K:A ^d\n", ["25:7: The accidentals '^d' beside the key are not read here"]),
    ("L:1/4", "L:4", ["24:7: 'L:4' is not a length; write one such as L:1/8"]),
    ("M:4/4\n", "M:5\n", ["23:7: 'M:5' is not a meter that is read here; write one such as M:4/4"]),
    ("K:A\n", "P:AAB\n      K:A\n", ["25:7: 'P:' gives an order in which to play the parts of the tune"]),
]
