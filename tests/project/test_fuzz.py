"""Whatever a person does to a good file, load() returns a project or raises ProjectError, and nothing else."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.project.complaints import ProjectError
from studio.project.loader import load
from tests.project.conftest import GOOD, KINDS

# The tune as ABC makes music21 work for each example; two bars are enough here.
TREE = yaml.load(GOOD, Loader=yaml.BaseLoader)
TREE["song"]["parts"]["lead"] = "X:1\nM:4/4\nL:1/4\nK:A\nA B c d | e4 | z4 | z4 | A c e c | f2 d2 |\n"
TREE["episode"] |= {"ducking": {"by": "12 dB", "attack": "0.1"}, "scratch-voice": "de"}
TREE["segments"] += [
    {
        "id": "slow",
        "narration": {"file": "voice/hook.wav", "from": "0:00.5", "at": "0.5"},
        "ducking": "off",
        "excerpt": {
            "where": "5.1-6.3",
            "mute": ["bass"],
            "gain": {"keys": "-3 dB", "lead": "2 dB"},
            "pan": {"keys": "left 40 %"},
            "feature": {"stem": "lead", "by": "6 dB", "where": "6", "over": "1/2 beat"},
            "fade": {"in": "1 beat", "out": "1 bar"},
            "tail": "yes",
            "repeat": "2",
            "speed": "80 %",
            "pitch": "-15 cents",
            "count-in": "1 bar",
            "click": "-6 dB",
            "at": "after the voice",
            "play": [{"part": "lead", "sound": "plucked"}],
            "instead": {"5.2": "D5", "6": "rest"},
        },
        "callouts": [{"kind": "chords", "pass": "3"}],
    },
    {"id": "alone", "excerpt": {"play": {"scale": "D Mixolydian", "tempo": "90"}, "fade": "1 beat"}},
    {"id": "fact", "excerpt": {"play": {"fact": "loop"}}},
]

SCALARS = st.one_of(
    st.sampled_from(
        """- 0 1 -1 6.3 5-8 8-5 0-0 verse 99999-99999 1:30 0:04-0:12 00:00:01;02 no ~ 4/4 0/0 6/8 A | { {} {{ {loop}
        . .. / audio audio/mix.flac footage/take.mp4 CON a/b 1e999 nan 99999999999999999999 1/0 0x10 ½ ٣ chords
        staff keyboard chords lead loop catch -3 80% 0.5 rest yes off""".split()  # noqa: SIM905
    ),
    st.sampled_from(
        [
            "",
            "verse bar 99",
            "| A |",
            "| % |",
            "F# minor",
            "K:\n\n",
            "X:1\nK:C\nC|",
            "\u2028",
            "é" * 300,
            "1 bar",
            "1/2 beat",
            "-6 dB",
            "after the voice",
            "soundfont 3",
            "2 half steps",
            "0 %",
        ]
    ),
    st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=12),
)
WRONG = st.one_of(
    SCALARS,
    st.lists(SCALARS, max_size=3),
    st.dictionaries(SCALARS, SCALARS, max_size=3),
    st.just([[]]),
    st.just({"kind": {"kind": []}}),
    st.just([{"kind": "staff"}]),
)


def places(node: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    children = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    return [path, *(deeper for key, child in children for deeper in places(child, (*path, key)))]


PLACES = [path for path in places(TREE) if path]


def changed(tree: Any, path: tuple[Any, ...], how: str, value: Any) -> Any:
    """The tree with the value at a path replaced or deleted, or with a key added beside it."""
    node = tree
    for step in path[:-1]:
        try:
            node = node[step]
        except (KeyError, IndexError, TypeError):
            return tree
    last = path[-1]
    if isinstance(node, list):
        if isinstance(last, int) and last < len(node):
            node[last : last + 1] = (
                [value] if how == "replace" else [node[last], value] if how == "add" else []
            )
    elif isinstance(node, dict):
        if how == "delete":
            node.pop(last, None)
        else:
            node[last if how == "replace" else f"{last}s"] = value
    return tree


CHANGES = st.lists(
    st.tuples(st.sampled_from(PLACES), st.sampled_from(["replace", "replace", "delete", "add"]), WRONG),
    min_size=1,
    max_size=3,
)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(changes=CHANGES)
def test_any_change_of_a_good_file_ends_in_complaints_or_a_project(
    episode_folder: Path, changes: Any
) -> None:
    _load_changed(episode_folder, changes)


@pytest.mark.slow
@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(changes=CHANGES)
def test_many_changes_of_a_good_file_end_in_complaints_or_a_project(
    episode_folder: Path, changes: Any
) -> None:
    _load_changed(episode_folder, changes)


CUT = st.integers(0, len(GOOD))
PASTED = st.text(st.sampled_from(" \n\t:-|>'\"{}[]&*!%#?,.0159abAB~é\x00\\"), max_size=8)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(start=CUT, length=st.integers(0, 40), put=PASTED)
def test_any_cut_or_paste_ends_in_complaints_or_a_project(
    episode_folder: Path, start: int, length: int, put: str
) -> None:
    _load_pasted(episode_folder, start, length, put)


@pytest.mark.slow
@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(start=CUT, length=st.integers(0, 40), put=PASTED)
def test_many_cuts_and_pastes_end_in_complaints_or_a_project(
    episode_folder: Path, start: int, length: int, put: str
) -> None:
    _load_pasted(episode_folder, start, length, put)


@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(raw=st.binary(max_size=200))
def test_any_bytes_end_in_complaints(episode_folder: Path, raw: bytes) -> None:
    file = episode_folder / "bytes.yaml"
    file.write_bytes(raw)
    with pytest.raises(ProjectError):
        load(file, KINDS)


def _load_changed(folder: Path, changes: Any) -> None:
    tree = copy.deepcopy(TREE)
    for path, how, value in changes:
        tree = changed(tree, path, how, value)
    file = folder / "fuzz.yaml"
    file.write_text(yaml.safe_dump(tree, allow_unicode=True, sort_keys=False), encoding="utf-8")
    _load(file)


def _load_pasted(folder: Path, start: int, length: int, put: str) -> None:
    file = folder / "pasted.yaml"
    file.write_text(GOOD[:start] + put + GOOD[start + length :], encoding="utf-8")
    _load(file)


def _load(file: Path) -> None:
    try:
        load(file, KINDS)
    except ProjectError as error:
        assert error.complaints
        lines = file.read_text(encoding="utf-8").count("\n") + 1
        for complaint in error.complaints:
            assert complaint.file == file.name
            assert 1 <= complaint.line <= lines + 1 and complaint.column >= 1
            assert complaint.sentence.endswith((".", "?", "!")) and "\n" not in complaint.sentence
