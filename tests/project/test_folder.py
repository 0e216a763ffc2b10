"""Paths of a project stay inside its folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio.project.complaints import MisfitError
from studio.project.folder import Folder


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "outside.flac").write_bytes(b"x")
    home = tmp_path / "home"
    (home / "audio").mkdir(parents=True)
    (home / "audio" / "bass.flac").write_bytes(b"x")
    return home


@pytest.mark.parametrize("written", ["audio/bass.flac", "./audio/bass.flac", "audio/../audio/bass.flac"])
def test_a_file_inside(folder: Path, written: str) -> None:
    assert Folder(folder).file(written).samefile(folder / "audio" / "bass.flac")


@pytest.mark.parametrize(
    ("written", "phrase"),
    [
        ("../outside.flac", "leads out of the project's folder"),
        ("audio/../../outside.flac", "leads out"),
        ("/etc/hostname", "not relative"),
        ("C:/music/a.flac", "not relative"),
        ("audio\\bass.flac", "write '/' between folders"),
        ("audio", "is a folder"),
        ("", "names no file"),
        ("audio/bas.flac", "did you mean 'audio/bass.flac'"),
        ("audoi/bass.flac", "the folder 'audoi' does not exist"),
        ("audio/\x00", "cannot be read|no file"),
        ("a" * 5000, "cannot be read|no file"),
    ],
)
def test_what_is_refused(folder: Path, written: str, phrase: str) -> None:
    with pytest.raises(MisfitError, match=phrase):
        Folder(folder).file(written)


def test_a_link_that_leads_out_is_refused_too(folder: Path) -> None:
    try:
        (folder / "link.flac").symlink_to(folder.parent / "outside.flac")
    except OSError:
        pytest.skip("this system does not let us make links")
    with pytest.raises(MisfitError, match="leads out"):
        Folder(folder).file("link.flac")
    assert Folder(folder, outside=True).file("link.flac").read_bytes() == b"x"


def test_outside_can_be_allowed(folder: Path) -> None:
    assert Folder(folder, outside=True).file("../outside.flac").is_file()
    assert Folder(folder, outside=True).file(str(folder.parent / "outside.flac")).is_file()
