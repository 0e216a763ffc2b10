"""Mistakes for a good project file: what is right, what a person wrote instead, and how each complaint begins."""

from __future__ import annotations

SCRIPT = """\
    script: |
      Listen to the keyboard alone.
      Under it sits {loop}, and the tune lands on {catch}.
"""
DESK = """\
    camera: {take: footage/take.mp4, from: 0:00.5, to: 0:02}
    excerpt: {where: 0:02-0:03.2}
    callouts:
      - {kind: keyboard, part: lead}
"""

CASES = [
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
        "where: verse bars 1-2",
        "where: verse bar 9",
        ["39:22: 'verse bar 9' is past the end of verse, which has 8 bars"],
    ),
    (
        "where: verse bars 1-2",
        "where: 15-20",
        ["39:22: '15-20' is past the end of the song, whose last bar is 16"],
    ),
    (
        "where: verse bars 1-2",
        "where: 6.3",
        ["39:22: '6.3' is one moment; write a stretch, such as 6.3-6.4, or 6"],
    ),
    (
        "where: verse bars 1-2",
        "where: 6.4",
        ["39:22: '6.4' is one moment; write a stretch, such as 6.4-7.1, or 6"],
    ),
    (
        "where: verse bars 1-2",
        "where: vers bars 1-2",
        ["39:22: 'vers' is not a section of the song; did you mean 'verse'?"],
    ),
    ("where: verse bars 1-2", "where: 6.7-8.1", ["39:22: Bar 6 is in 4/4 and has beats 1 to 4, not 7"]),
    ("where: verse bars 1-2", "where: verse bars 3-2", ["39:22: 'verse bars 3-2' ends before it starts"]),
    (
        "stems: [keys, bass], fade",
        "stems: [keys, bas], fade",
        ["39:52: 'bas' is not a stem; did you mean 'bass'?"],
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
    ("fade: 0.05", "fade: 3", ["39:65: The fades take 6 s together, but the excerpt lasts only 4 s"]),
    ("fade: 0.05", "fade: {in: 0.05, ot: 1}", ["39:76: 'ot' is not a key of 'fade'; did you mean 'out'?"]),
    ("fade: 0.05", "fade: x", ["39:65: 'x' is not a time"]),
    ("Under it sits {loop}", "Under it sits {lop}", ["38:22: 'lop' is not a fact; did you mean 'loop'?"]),
    ("Under it sits {loop}", "Under it sits {loop", ["38:21: '{' begins a fact and has no '}'"]),
    ("- chords", "- chord", ["41:9: 'chord' is not a kind of callout; did you mean 'chords'?"]),
    (
        "labels: degrees",
        "labels: degree",
        ["42:55: 'degree' is not a choice for 'labels'; did you mean 'degrees'?"],
    ),
    (
        "part: lead, where",
        "parts: lead, where",
        ["42:23: 'parts' is not a key of the staff callout; did you mean 'part'?"],
    ),
    (
        "part: lead, where",
        "part: led, where",
        ["42:29: 'led' is not a part of the song; did you mean 'lead'?"],
    ),
    ("when: 0:01-0:03", "when: 0:03-0:01", ["43:62: '0:03-0:01' ends before it starts"]),
    (
        "when: 0:01-0:03",
        "when: 0:01-0:30",
        ["43:62: The text callout runs to 0:30 of a clip that lasts 0:06"],
    ),
    (
        "where: 5-6, labels",
        "where: 9-10, labels",
        ["42:42: '9-10' is not in the excerpt, so it would never show"],
    ),
    ("at: 0:20", "at: 0:02", ["45:9: 'desk' cannot start at 0:02: 'hook' lasts until 0:06"]),
    ("at: 0:20", "at: 20", ["45:9: '20' has no unit"]),
    ("id: desk", "id: hook", ["44:9: 'hook' is used twice"]),
    ("id: desk", "id: Hook", ["44:9: 'Hook' and 'hook' are one file name on some systems"]),
    ("id: desk", "id: CON", ["44:9: 'CON' cannot be a file name on Windows"]),
    (
        "id: desk",
        "id: a b.",
        ["44:10: 'a b.' names files, so it is written with letters a to z, digits,"],
    ),
    (
        "  - id: desk\n    at",
        "  - at",
        ["44:5: This segment needs an 'id', which names its files, as id: hook"],
    ),
    ("take: footage/take.mp4", "take: audio/mix.flac", ["46:20: 'audio/mix.flac' has no picture"]),
    ("to: 0:02}", "to: 0:03}", ["46:56: 0:03 is past the end of 'footage/take.mp4', which lasts 0:02"]),
    ("from: 0:00.5", "from: 0:02", ["46:44: 0:02 is past the end of 'footage/take.mp4', which lasts 0:02"]),
    ("to: 0:02}", "to: 0:00.2}", ["46:56: The take would end at 0:00.2, before it starts at 0:00.5"]),
    ("to: 0:02}", "to: 0:02, sound: yes}", ["46:69: 'footage/take.mp4' has no sound"]),
    ("to: 0:02}", "to: 0:02, sound: maybe}", ["46:69: 'maybe' is neither yes nor no"]),
    (
        "camera: {take: footage/take.mp4, from: 0:00.5, to: 0:02}",
        "camera: {from: 0:01}",
        ["46:13: 'camera' needs 'take'"],
    ),
    (
        "camera: {take: footage/take.mp4, from: 0:00.5, to: 0:02}",
        "camera: footage/take.mp4",
        ["46:13: 'camera' is a group of keys, not 'footage/take.mp4'"],
    ),
    (
        "where: 0:02-0:03.2",
        "where: 0:02-0:03.6",
        ["47:22: The excerpt would run to 0:01.6, but the take makes the clip 0:01.5"],
    ),
    ("where: 0:02-0:03.2", "where: 0:30-0:33", ["47:22: This runs to 0:33, but 'mix.flac' lasts 0:32"]),
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
    ("tempo: 120", "tempo: fast", ["12:10: 'fast' is not a number"]),
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
    ('say: "The tune lands on {catch}"', 'say: ""', ["43:27: 'say' is empty; write something after it."]),
    (
        "canvas: 1920x1080 @ 30",
        "canvas: {theme: #ffffff}",
        ["3:19: '#' begins a remark in YAML; put the colour in quotes, as \"#ffffff\"."],
    ),
    (
        "kind: staff, part: lead, where: 5-6",
        "kind: staff, part: led, melody: 3, where: 5-6",
        ["42:29: 'led' is not a part of the song", "42:34: 'melody' is not a key of the staff"],
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
    ("segments:\n", "segment:\n", ["32:1: 'segment' is not a key of the project; did you mean 'segments'?"]),
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
    (
        "script: |\n",
        "script: [a]\n    skript: |\n",
        [
            "36:13: This must be a single value, not a list or a group of keys",
            "37:5: 'skript' is not a key of a segment; did you mean 'script'?",
        ],
    ),
    (
        "at: 0:20",
        "at: 00:00:20;29",
        ["45:9: '00:00:20;29' is drop-frame timecode, which exists at 29.97 and 59.94 frames a second only"],
    ),
    (
        "at: 0:20",
        "at: 00:00:20:31",
        [
            "45:9: '00:00:20:31' is not a timecode at 30 frames a second: minutes and seconds go to 59, frames to 29"
        ],
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
        "{kind: keyboard, part: lead}",
        "{kind: keyboard, part: lead, octaves: many}",
        ["49:47: 'many' is not a whole number"],
    ),
    ("{kind: keyboard, part: lead}", "{kind: keyboard}", ["49:9: The keyboard callout needs 'part'"]),
    (
        "{kind: keyboard, part: lead}",
        "{part: lead}",
        ["49:9: A callout needs a kind: one of chords, keyboard, staff, text"],
    ),
    (
        "{kind: keyboard, part: lead}",
        "[a, b]",
        ["49:9: A callout is a kind, as chords, or a group such as {kind: staff, part: lead}"],
    ),
    (
        "{kind: keyboard, part: lead}",
        "{kind: }",
        ["49:15: A callout needs a kind: one of chords, keyboard, staff, text"],
    ),
    ("fade: 0.05", "fade: [1, 2]", ["39:65: 'fade' is a group of keys, not a list"]),
    ("stems: [keys, bass], fade", "stems: [keys, keys], fade", ["39:45: 'keys' is named twice"]),
    (
        'say: "The tune lands on {catch}"',
        "say: [a]",
        ["43:27: This must be a single value, not a list or a group of keys"],
    ),
    (
        "where: verse bars 1-2",
        "wher: verse bars 1-2",
        ["39:15: 'wher' is not a key of 'excerpt'; did you mean 'where'?"],
    ),
    (
        "where: verse bars 1-2",
        "where: [a]",
        ["39:22: This must be one place or one stretch of time, such as verse bars 1-4 or 1:03-1:10"],
    ),
    ("{kind: text, say", "{kind: txt, say", ["43:16: 'txt' is not a kind of callout; did you mean 'text'?"]),
    (
        SCRIPT,
        '    script: "{lop} and {cach}"\n',
        [
            "36:15: 'lop' is not a fact; did you mean 'loop'?",
            "36:25: 'cach' is not a fact; did you mean 'catch'?",
        ],
    ),
    (
        DESK,
        "",
        ["44:5: This segment is empty: it needs a script, a camera take or an excerpt"],
    ),
    (
        "    at: 0:20\n" + DESK,
        "    script: a\n    callouts: {kind: keyboard, part: led}\n",
        ["46:15: 'led' is not a part of the song; did you mean 'lead'?"],
    ),
    ("fade: 0.05", "at: 0:99", ["39:63: '0:99' is not a time: minutes and seconds go up to 59"]),
    (
        "  recording: audio/mix.flac\n  stems: {keys: audio/keys.flac, bass: audio/bass.flac}\n",
        "",
        [
            "37:46: 'keys' is not a stem",
            "37:52: 'bass' is not a stem",
            "45:14: There is nothing to hear: the song has neither a recording nor stems",
        ],
    ),
    (
        "bass: audio/bass.flac",
        "bass: audio/short.flac",
        ["39:22: This runs to 0:12, but 'short.flac' lasts 0:04"],
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
