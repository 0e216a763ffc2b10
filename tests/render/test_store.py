"""The cache and the ledger: nothing damaged is served, nothing outside is touched, nothing in use is removed."""

from __future__ import annotations

import json
import os
import time
from pathlib import Path

import av
import pytest

from studio.drawing.themes.theme import default_theme
from studio.render.store import Store
from studio.render.workshop import Ledger, Workshop
from tests.click_episode import write_counting_take


def aged(store: Store, name: str, size: int, seconds: float) -> Path:
    path = store.path(name, ".wav")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(bytes(size))
    os.utime(path, (time.time() - seconds,) * 2)
    return path


def test_clean_up_takes_what_was_used_longest_ago(tmp_path: Path) -> None:
    store = Store(tmp_path)
    old, middle, new = (
        aged(store, name * 8, 100, age) for name, age in (("a1", 300), ("b2", 200), ("c3", 100))
    )
    store.clean(limit=200)
    assert not old.exists() and middle.exists() and new.exists()


def test_clean_up_spares_what_this_run_used_and_the_ledger(tmp_path: Path) -> None:
    store = Store(tmp_path)
    used = aged(store, "a1a1", 100, 300)
    assert store.has("a1a1", ".wav")
    (tmp_path / "ledger.json").write_text("{}", "utf-8")
    store.clean(limit=0)
    assert used.exists() and (tmp_path / "ledger.json").exists()


def test_clean_up_removes_what_a_killed_run_left(tmp_path: Path) -> None:
    left = tmp_path / "ab" / ".abc.mp4.1-2.unfinished"
    left.parent.mkdir()
    left.write_bytes(b"half")
    os.utime(left, (time.time() - 7200,) * 2)
    Store(tmp_path).clean()
    assert not left.exists()


@pytest.mark.parametrize("keep", [0, 1, 7, 200, -1])
def test_a_movie_cut_short_is_not_there(tmp_path: Path, keep: int) -> None:
    store = Store(tmp_path)
    path = store.path("abcd", ".mp4")
    path.parent.mkdir()
    write_counting_take(path, frames=5)
    assert store.has("abcd", ".mp4")
    path.write_bytes(path.read_bytes()[:keep])
    assert not store.has("abcd", ".mp4")


def test_a_ledger_cannot_name_a_file_outside_the_build_folder(tmp_path: Path) -> None:
    victim = tmp_path / "victim.txt"
    victim.write_text("mine", "utf-8")
    build = tmp_path / "project" / "build"
    (build / ".cache").mkdir(parents=True)
    hostile = {
        "../../victim.txt": ["a", 1, 2],
        str(victim): ["a", 1, 2],
        ".cache/ledger.json": ["a", 1, 2],
        "clips/old.mp4": "no list",
        "clips/hook.mp4": ["a", 1, 2],
    }
    file = build / ".cache" / "ledger.json"
    file.write_text(json.dumps(hostile), "utf-8")
    assert Ledger(build, file).places == ("clips/hook.mp4",)


@pytest.mark.parametrize("text", ["", "[]", "nonsense", "{", '{"a": 1}'])
def test_a_ledger_that_cannot_be_read_is_empty(tmp_path: Path, text: str) -> None:
    (tmp_path / "ledger.json").write_text(text, "utf-8")
    assert Ledger(tmp_path, tmp_path / "ledger.json").places == ()


def test_a_result_that_somebody_changed_is_made_again(tmp_path: Path) -> None:
    shop, path = Workshop(tmp_path, default_theme(), 1), tmp_path / "clips" / "a.txt"
    path.parent.mkdir()
    assert shop.ledger.make(path, "one", lambda: path.write_text("ours", "utf-8") and None)
    assert not shop.ledger.make(path, "one", lambda: pytest.fail("made again"))
    path.write_text("changed by hand", "utf-8")
    assert shop.ledger.make(path, "one", lambda: path.write_text("ours", "utf-8") and None)
    assert shop.ledger.make(path, "two", lambda: path.write_text("more", "utf-8") and None)


def test_the_counting_take_is_a_movie(tmp_path: Path) -> None:
    write_counting_take(tmp_path / "take.mp4", frames=5)
    with av.open(str(tmp_path / "take.mp4")) as container:
        assert container.streams.video[0].frames == 5
