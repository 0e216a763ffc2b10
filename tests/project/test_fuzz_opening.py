"""Whatever a person does to what is heard, opening gives a plan or complaints, and nothing else: with the real kinds
of callout, and with excerpts that are read well and only then planned."""

from __future__ import annotations

import copy
import random
from pathlib import Path
from typing import Any

import pytest
import yaml

from studio.build import open_project
from studio.project.complaints import ProjectError
from tests.project.test_fuzz import TREE, changed, places

WORDS = [
    *(
        "",
        "-",
        "0",
        "1",
        "8",
        "9",
        "-1",
        "1.0",
        "0.1",
        "1/0",
        "½",
        "٣",
        "nan",
        "inf",
        "1e999",
        "9" * 20,
        "x" * 5000,
    ),
    *(
        "6.3",
        "5-8",
        "8-5",
        "1-4",
        "13-14",
        "5.1+1/2",
        "verse",
        "verse bars 1-2",
        "1:30",
        "0:04-0:12",
        "63.25s",
    ),
    *(
        "00:00:01:02",
        "yes",
        "no",
        "off",
        "~",
        "null",
        "true",
        "[",
        "{",
        "{loop}",
        "{{",
        "&a",
        "\u2028",
        "é" * 300,
    ),
    *(
        "audio/mix.flac",
        "voice/hook.wav",
        "voice",
        "..",
        "/",
        "chords",
        "lead",
        "loop",
        "catch",
        "keys",
        "bass",
    ),
    *("-3 dB", "−3 dB", "3,5 dB", "80 %", "0.4", "0.39999", "1.5", "left", "right 101 %", "middle", "1 bar"),
    *(
        "0 bars",
        "1/2 beat",
        "1000 bars",
        "-1 beat",
        "after the voice",
        "after voice",
        "soundfont 3",
        "soundfont",
    ),
    *(
        "2 half steps",
        "0 %",
        "C",
        "F#m7",
        "D5",
        "Cb99",
        "N.C.",
        "rest",
        "D Mixolydian",
        "D Nonsense",
        "de",
        "xx",
    ),
]
GOOD_KEYS: dict[str, list[Any]] = {
    "where": ["5.1-6.3", "verse bars 1-2", "5", "0:02-0:05", "intro", "1-16", "16", "1"],
    "stems": [["keys"], ["keys", "bass"]],
    "mute": [["bass"]],
    "gain": [{"keys": "-3 dB"}, {"lead": "3 dB"}, {"chords": "3 dB"}],
    "pan": [{"keys": "left 40 %"}, {"lead": "right"}],
    "feature": [
        "keys",
        "lead",
        {"stem": "lead", "where": "6", "over": "1 bar"},
        {"stem": "bass", "by": "60 dB"},
    ],
    "fade": ["0.1", "1 beat", {"in": "1 bar"}, {"out": "2 bars"}],
    "tail": ["yes", "1 bar", "2 beats", "30", "0.001"],
    "repeat": ["2", "8"],
    "speed": ["0.4", "150 %", "0.8"],
    "pitch": ["1200 cents", "-1 half step"],
    "count-in": ["1 bar", "3 beats", "16 beats", "4 bars"],
    "click": ["yes", "-60 dB"],
    "at": ["0:01", "after the voice"],
    "play": [
        *(
            "chords",
            "lead",
            ["lead", "chords"],
            {"chord": "F#m7"},
            {"scale": "D Mixolydian"},
            {"fact": "loop"},
        ),
        *({"scale": "D major", "tempo": "20"}, {"fact": "catch"}, {"part": "lead", "sound": "plucked"}),
    ],
    "instead": [{"5.2": "D5"}, {"6": "rest"}, {"6": "G"}, {"5.1": "C#"}, {"5.2": "D5", "6": "Gm"}],
}
CALLOUTS: list[Any] = [
    *("chords", {"kind": "stems"}, {"kind": "stems", "pass": "1"}, {"kind": "staff", "part": "lead"}),
    *({"kind": "map"}, {"kind": "text", "say": "{catch}"}),
    {"kind": "text", "say": "x", "pass": "2", "where": "5.2-5.3"},
]
HEARD = ("ducking", "scratch-voice", "soundfont")
PLACES = [
    path
    for path in places(TREE)
    if path[:1] == ("segments",) or (path[:1] == ("episode",) and path[1:2] in [(key,) for key in HEARD])
]


def wrong(chance: random.Random) -> Any:
    """A word, or a list or a group of words, where it hardly belongs."""

    def one() -> str:
        return chance.choice(WORDS)

    return chance.choice(
        [
            one(),
            one(),
            one(),
            [one() for _ in range(chance.randrange(3))],
            {one(): one()},
            {one(): {one(): [one()]}},
        ]
    )


def an_excerpt(chance: random.Random) -> dict[str, Any]:
    """A segment whose every key is right by itself."""
    excerpt = {key: chance.choice(good) for key, good in GOOD_KEYS.items() if chance.random() < 0.35}
    if chance.random() < 0.7:
        excerpt["where"] = chance.choice(GOOD_KEYS["where"])
    segment: dict[str, Any] = {"id": "z", "excerpt": excerpt}
    around: dict[str, list[Any]] = {
        "narration": ["voice/hook.wav", {"file": "voice/hook.wav", "from": "1", "to": "2.5", "at": "2"}],
        "script": ["one two {loop} three"],
        "camera": [{"take": "footage/take.mp4"}, {"take": "footage/loud.mp4"}],
        "ducking": ["off", "3 dB", {"by": "3 dB"}, {"attack": "0"}, {"release": "9"}],
        "callouts": [[one] for one in CALLOUTS],
    }
    return segment | {key: chance.choice(good) for key, good in around.items() if chance.random() < 0.35}


def a_tree(chance: random.Random) -> Any:
    tree = copy.deepcopy(TREE)
    if chance.random() < 0.5:
        tree["segments"] = [an_excerpt(chance)]
        if chance.random() < 0.6:
            return tree
    spots = [path for path in places(tree) if path[:1] == ("segments",)] + PLACES
    for _ in range(chance.randint(1, 3)):
        how = chance.choice(["replace", "replace", "delete", "add"])
        tree = changed(tree, chance.choice(spots), how, wrong(chance))
    return tree


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(100))
def test_opening_ends_in_a_plan_or_in_complaints(episode_folder: Path, seed: int) -> None:
    text = yaml.safe_dump(a_tree(random.Random(seed)), allow_unicode=True, sort_keys=False)
    file = episode_folder / f"opened-{seed}.yaml"
    file.write_text(text, encoding="utf-8")
    try:
        open_project(file)
    except ProjectError as error:
        assert error.complaints
        for complaint in error.complaints:
            assert 1 <= complaint.line <= text.count("\n") + 2 and complaint.column >= 1
            assert complaint.sentence.endswith((".", "?", "!")) and "\n" not in complaint.sentence
    finally:
        file.unlink()
