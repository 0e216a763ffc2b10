"""Mistakes in segments: what is right, what a person wrote instead, and how each complaint begins."""

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

OF_SEGMENTS = [
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
    ("fade: 0.05", "fade: 3", ["39:65: The fades take 6 s together, but the excerpt lasts only 4 s"]),
    ("fade: 0.05", "fade: {in: 0.05, ot: 1}", ["39:76: 'ot' is not a key of 'fade'; did you mean 'out'?"]),
    ("fade: 0.05", "fade: x", ["39:65: 'x' is not a time, nor a number of bars or beats"]),
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
    ("at: 0:20", "at: 20", ["45:9: '20' has no unit; write 20s, or 0:20 as minutes and seconds."]),
    ("at: 0:20", "at: 90.5", ["45:9: '90.5' has no unit; write 90.5s, or 1:30.5 as minutes and seconds."]),
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
    ('say: "The tune lands on {catch}"', 'say: ""', ["43:27: 'say' is empty; write something after it."]),
    (
        "kind: staff, part: lead, where: 5-6",
        "kind: staff, part: led, melody: 3, where: 5-6",
        ["42:29: 'led' is not a part of the song", "42:34: 'melody' is not a key of the staff"],
    ),
    ("segments:\n", "segment:\n", ["32:1: 'segment' is not a key of the project; did you mean 'segments'?"]),
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
        ["44:5: This segment is empty: it needs a script, a camera take, a narration or an excerpt"],
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
]
