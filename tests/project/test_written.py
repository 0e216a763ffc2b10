"""YAML text into plain data in which every scalar is text."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from studio.project.complaints import ProjectError
from studio.project.written import DEEPEST, LARGEST_FILE, read, read_text


def problem(text: str) -> str:
    """The complaints about a text that cannot be read, or that is read with complaints."""
    try:
        return "\n".join(map(str, read_text(text, "p").complaints))
    except ProjectError as error:
        return str(error)


# Scalars that YAML 1.1 turns into something else, against what PyYAML's own safe_load makes of them.
TRAPS = [
    ("1:30", 90),
    ("5.10", 5.1),
    ("on", True),
    ("off", False),
    ("no", False),
    ("No", False),
    ("yes", True),
    ("null", None),
    ("~", None),
    ("0x1F", 31),
    ("010", 8),
    ("1.0e+3", 1000.0),
    ("3_000", 3000),
    (".inf", float("inf")),
    ("0b11", 3),
    ("1:03:20", 3800),
]


@pytest.mark.parametrize(("written", "trap"), TRAPS)
def test_a_scalar_stays_text_where_yaml_would_guess(written: str, trap: object) -> None:
    assert yaml.safe_load(written) == trap
    assert read_text(f"value: {written}", "p").data == {"value": written}
    assert read_text(f"{written}: value", "p").data == {written: "value"}


@pytest.mark.parametrize("written", ["2024-05-01", "2001-12-14 21:59:43.10 -5", "1e3", "E", "N.C.", "="])
def test_dates_chords_and_exponents_stay_text(written: str) -> None:
    assert read_text(f"value: {written}", "p").data == {"value": written}


def test_dates_are_a_trap_indeed() -> None:
    assert not isinstance(yaml.safe_load("2024-05-01"), str)


@pytest.mark.parametrize(
    ("text", "place", "phrase"),
    [
        ("", "p:1:1", "is empty"),
        ("# only a comment\n", "p:1:1", "is empty"),
        ("- a\n- b\n", "p:1:1", "not a group of keys"),
        ("just words", "p:1:1", "not a group of keys"),
        ("a: 1\na: 2\n", "p:2:1", "'a' is written twice; the first is on line 1"),
        ("a:\n  b: 1\n  b: 2\n", "p:3:3", "'b' is written twice; the first is on line 2"),
        ("a:\n\tb: 1\n", "p:2:1", "A tab stands here"),
        ("a: 'open\n", "p:1:4", "never closed"),
        ("a: {b: 1\n", "p:1:4", "'{' is opened here and never closed"),
        ("a: [1, 2\n", "p:1:4", "'[' is opened here and never closed"),
        ("a:\n  b: 1\n c: 2\n", "p:3:2", "do not line up"),
        ("title: Why: because\n", "p:1:11", "needs quotes"),
        ("verse: | A | E |\n", "p:1:8", "Chords that begin with | need quotes"),
        ("verse: %\n", "p:1:8", "cannot begin with %"),
        ("say: @home\n", "p:1:6", "cannot begin with this character"),
        ('path: "audio\\mix.flac"\n', "p:1:13", "write '/' in paths"),
        ('a: "\\UFFFFFFFF"\n', "p:1:1", "does not exist"),
        ("a: 'b' c\n", "p:1:8", "already complete"),
        ("a: !!python/name:os.system x\n", "p:1:4", "A tag such as"),
        ("a: !!int 3\n", "p:1:4", "A tag such as"),
        ("a: *nowhere\n", "p:1:4", "none is above"),
        ("a: &a [*a]\n", "p:1:8", "without end"),
        ("<<: {a: 1}\n", "p:1:1", "'<<' does not merge keys"),
        ("? [a, b]\n: c\n", "p:1:3", "A key is a single word"),
        ("a: b\n---\nc: d\n", "p:2:1", "A second document"),
        ("a: b\x00c\n", "p:1:5", "control character"),
        ("a: b\x1b[31m\n", "p:1:5", "control character here (code 27)"),
        ('a: "\\0"\n', "p:1:4", "control character (code 0)"),
        ("[" * 5000, f"p:1:{DEEPEST + 1}", "nested more than"),
        ("a: " + "{b: " * 500, "p:1:", "nested more than"),
    ],
)
def test_what_is_not_a_project_file_is_said_plainly(text: str, place: str, phrase: str) -> None:
    said = problem(text)
    assert said.startswith(place)
    assert phrase in said
    assert "\n" not in said


def test_aliases_are_allowed() -> None:
    written = read_text("stems: &all [keys, bass]\nagain: *all\n", "p")
    assert written.data == {"stems": ["keys", "bass"], "again": ["keys", "bass"]}
    assert not written.complaints


def test_aliases_that_explode_are_stopped() -> None:
    """The "billion laughs": nine levels of nine aliases each, a known attack on readers of YAML and XML."""
    levels = "\n".join(f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]" for n in range(1, 10))
    assert "more than 50,000 values" in problem(f"l0: &l0 [lol]\n{levels}\n")


@pytest.mark.parametrize(
    ("raw", "place", "phrase"),
    [
        ("title: café\n".encode("latin-1"), "p.yaml:1:11", "not UTF-8"),
        ("title: a\nby: é\n".encode("latin-1"), "p.yaml:2:5", "not UTF-8"),
        ("title: a\n".encode("utf-16"), "p.yaml:1:1", "UTF-16"),
        ("title: a\n".encode("utf-16-be"), "p.yaml:1:1", "UTF-16"),
        (b"a: 1\n" + b"#" * LARGEST_FILE, "p.yaml:1:1", "larger than 1 MB"),
    ],
)
def test_bytes_that_are_not_utf8(tmp_path: Path, raw: bytes, place: str, phrase: str) -> None:
    file = tmp_path / "p.yaml"
    file.write_bytes(raw)
    with pytest.raises(ProjectError) as raised:
        read(file)
    assert str(raised.value).startswith(place) and phrase in str(raised.value)


def test_a_byte_order_mark_and_windows_lines_are_fine(tmp_path: Path) -> None:
    file = tmp_path / "p.yaml"
    file.write_bytes(b"\xef\xbb\xbfa: 1\r\nb:\r\n  c: \xe2\x99\xad\r\n")
    written = read(file)
    assert written.data == {"a": "1", "b": {"c": "♭"}}
    assert str(written.marks.complaint(("b", "c"), "here")) == "p.yaml:3:6: Here."


def test_a_huge_file_is_not_read_at_all(tmp_path: Path) -> None:
    file = tmp_path / "take.mov"
    with file.open("wb") as sparse:
        sparse.truncate(50_000_000)
    with pytest.raises(ProjectError, match="larger than 1 MB"):
        read(file)


@pytest.mark.parametrize(("name", "phrase"), [("none.yaml", "no such file"), (".", "a folder")])
def test_no_file_and_a_folder(tmp_path: Path, name: str, phrase: str) -> None:
    with pytest.raises(ProjectError, match=phrase):
        read(tmp_path / name)
