"""The command: fast to answer, plain in its words, honest in its exit status."""

from __future__ import annotations

import errno
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from studio.cli import MOVING, run
from studio.render import moving
from studio.render.takes import TakeError
from studio.sound import SoundError
from studio.sound.error import SourceError
from tests.click_episode import write_episode

COMMANDS = ("new", "check", "facts", "overlays", "excerpts", "build", "review")


def studio(*arguments: str, **more: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "studio", *arguments]
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", errors="replace", **more)  # type: ignore[call-overload]


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_has_help_with_an_example(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run([command, "--help"]) == 0
    assert f"studio {command} my-episode" in capsys.readouterr().out


def test_overlays_offers_the_codecs_that_there_are() -> None:
    assert MOVING == moving.MOVING


def test_help_imports_nothing_heavy() -> None:
    # What takes time is known by name, so that a busy machine cannot fail this.
    code = "import sys; from studio.cli import run; run(['--help']); print(sorted(sys.modules))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True).stdout
    for heavy in ("numpy", "PIL", "av", "music21", "moviepy", "verovio", "pydantic", "rich", "yaml"):
        assert f"'{heavy}'" not in loaded


def test_a_bad_project_shows_all_complaints_and_renders_nothing(tmp_path: Path) -> None:
    folder = write_episode(tmp_path / "bad")
    file = folder / "project.yaml"
    text = file.read_text("utf-8").replace("titel", "").replace("| G | C |", "| G | Hm |", 1)
    file.write_text(
        text.replace("  title: Clicks", "  titel: Clicks\n  theme: nix").replace("2-5", "2-50"), "utf-8"
    )
    done = studio("build", str(folder))
    assert done.returncode == 1 and not (folder / "build").exists()
    assert "Traceback" not in done.stderr
    for words in ("project.yaml:2:3:", "'title'", "'nix'", "Hm", "2-50"):
        assert words in done.stderr


def test_wrong_use_is_status_2(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["biuld"]) == 2
    assert run(["build"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_an_unknown_segment_is_wrong_use(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write_episode(tmp_path / "clicks")
    assert run(["overlays", str(folder), "chrat"]) == 2
    assert "there are words, chart, keys, take" in capsys.readouterr().err


def test_a_missing_project_is_a_complaint(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", str(tmp_path / "nowhere")]) == 1
    assert run(["check", str(tmp_path)]) == 1
    assert "project.yaml" in capsys.readouterr().err


def test_a_folder_that_cannot_be_written_is_the_machine_s_failure(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_episode(tmp_path / "clicks")
    (folder / "build").write_text("in the way", "utf-8")
    assert run(["overlays", str(folder)]) == 3
    assert "Traceback" not in capsys.readouterr().err


@pytest.mark.parametrize("command", ["excerpts", "build"])
def test_a_sound_file_that_is_cut_short_is_the_project_s_fault_and_leaves_nothing_half_written(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_episode(tmp_path / "clicks")
    sound = folder / "audio/click.flac"
    sound.write_bytes(sound.read_bytes()[: sound.stat().st_size // 10])  # its header still promises all of it
    assert run([command, str(folder)]) == 1
    said = capsys.readouterr().err
    assert "audio/click.flac" in said and "get a whole copy of it" in said and "Traceback" not in said
    assert not list(folder.glob("build/excerpts/*")) and not list(folder.glob("build/clips/*"))
    assert not [path for path in folder.rglob("*") if ".unfinished" in path.name]


@pytest.mark.parametrize(
    ("error", "status"),
    [
        (SourceError("song.wav is cut short."), 1),
        (TakeError("The pictures of desk.mp4 cannot be read."), 1),
        (SoundError("ffmpeg could not be started."), 3),
        (OSError(errno.ENOSPC, "No space left on device"), 3),
        (MemoryError(), 3),
    ],
)
def test_what_is_the_project_s_fault_is_told_from_what_is_the_machine_s(
    error: Exception, status: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr("studio.build.open_project", fail)
    assert run(["build", "my-episode"]) == status
    said = capsys.readouterr().err
    assert said.endswith(".\n") and "Traceback" not in said


def test_a_segment_that_has_no_moving_overlay_is_told_of(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_episode(tmp_path / "clicks")
    assert run(["overlays", str(folder), "words", "--moving", "rle"]) == 0
    assert (
        "note: words: nothing lies over its ground, so it has no moving overlay." in capsys.readouterr().out
    )
    assert not (folder / "build" / "overlays" / "words.mov").exists()


def test_excerpts_say_how_loud_they_are_and_where_their_pictures_lie(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_episode(tmp_path / "clicks")
    assert run(["excerpts", str(folder)]) == 0
    lines = [line for line in capsys.readouterr().out.splitlines() if not line.startswith("note: ")]
    assert lines[0].startswith("4 files in ") and "4 made now" in lines[0]
    assert [line.split()[0] for line in lines[1:]] == ["chart", "keys"]
    for line in lines[1:]:
        assert len(line) <= 80 and re.search(r"-\d+\.\d LUFS, .* peak +-\d+\.\d dBTP$", line)
    assert sorted(path.name for path in (folder / "build/waves").iterdir()) == ["chart.png", "keys.png"]
    assert run(["excerpts", str(folder), "chart"]) == 0
    assert "0 made now, 2 unchanged" in capsys.readouterr().out
    assert run(["excerpts", "--help"]) == 0
    assert "build/waves" in " ".join(capsys.readouterr().out.split())


def test_facts_are_printed_for_a_person(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write_episode(tmp_path / "clicks")
    assert run(["facts", str(folder)]) == 0
    printed = capsys.readouterr().out
    assert "V7/vi" in printed and "borrowed from G minor" in printed


def test_new_makes_a_project_that_is_right_and_spares_what_is_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "mine"
    assert run(["new", str(folder)]) == 0
    assert run(["check", str(folder)]) == 0
    (folder / "project.yaml").write_text("mine", "utf-8")
    assert run(["new", str(folder)]) == 2
    assert (folder / "project.yaml").read_text("utf-8") == "mine"
    assert "not empty" in capsys.readouterr().err


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process on Windows")
def test_an_interrupt_leaves_no_half_file(tmp_path: Path) -> None:
    folder = write_episode(tmp_path / "clicks", "1280x720 @ 30")
    command = [sys.executable, "-m", "studio", "build", str(folder), "--workers", "2"]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, start_new_session=True)
    deadline = time.monotonic() + 60
    while time.monotonic() < deadline and not list(folder.glob("build/.cache/**/*.mp4")):
        time.sleep(0.05)
    os.killpg(process.pid, signal.SIGINT)
    _, said = process.communicate(timeout=60)
    assert process.returncode == 130 and "Traceback" not in said
    left = [path for path in folder.rglob("*") if path.is_file() and ".unfinished" in path.name]
    assert not left
    assert not (folder / "build" / "rough-cut.mp4").exists()
    assert run(["build", str(folder), "words"]) == 0


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process on Windows")
@pytest.mark.parametrize("wait", [0.1, 0.4, 0.8])
def test_an_interrupt_while_workers_start_prints_no_traceback(tmp_path: Path, wait: float) -> None:
    folder = write_episode(tmp_path / "clicks", "1280x720 @ 30")
    command = [sys.executable, "-m", "studio", "build", str(folder), "--workers", "2"]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, start_new_session=True)
    assert process.stderr
    said = ""
    while "sound: done" not in said:
        said += process.stderr.readline()
    time.sleep(wait)
    os.killpg(process.pid, signal.SIGINT)
    said += process.communicate(timeout=60)[1]
    assert process.returncode == 130 and "Traceback" not in said


def test_words_that_an_old_code_page_lacks_do_not_stop_the_program(tmp_path: Path) -> None:
    folder = write_episode(tmp_path / "clicks")
    done = studio("facts", str(folder), env={**os.environ, "PYTHONIOENCODING": "cp1252"})
    assert done.returncode == 0


def test_a_key_that_a_part_is_not_written_in_is_pointed_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_episode(tmp_path / "clicks")
    file = folder / "project.yaml"
    file.write_text(file.read_text("utf-8").replace("key: G major", "key: B major"), "utf-8")
    assert run(["check", str(folder)]) == 0
    assert "line is written with 1 sharp at 1.1, and B major has 5 sharps" in capsys.readouterr().out
