from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image
from rich.console import Console

from studio.cli import DONE, WRONG_USE, run
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.kinds_shown.half_blocks import half_blocks
from studio.kinds_shown.printing import print_kinds


def test_the_list_needs_no_project_and_fits_a_terminal(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert run(["overlays", "--list"]) == DONE
    shown = capsys.readouterr().out
    assert max(map(len, shown.splitlines())) <= 80
    words = " ".join(shown.split())
    for name, kind in KINDS.items():
        assert f"\n{name}\n" in f"\n{shown}"
        assert " ".join(kind.says.split()) in words
    assert "--pictures" in shown and "▀" not in shown


@pytest.mark.slow
def test_a_picture_of_each_kind_is_saved(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "some" / "pictures"
    assert run(["overlays", "--list", "--pictures", str(folder)]) == DONE
    said = capsys.readouterr().out
    assert f"{len(KINDS)} pictures in" in said and "note:" not in said
    assert {path.stem for path in folder.iterdir()} == set(KINDS)
    for path in folder.iterdir():
        picture = Image.open(path)
        assert picture.mode == "RGB"
        assert picture.getpixel((0, 0)) == default_theme().colours.ground
        assert len(picture.getcolors(1 << 22) or []) > 8, f"{path.stem} is blank"


@pytest.mark.slow
def test_a_terminal_in_colour_shows_the_pictures_themselves() -> None:
    seen = io.StringIO()
    console = Console(
        file=seen, width=80, force_terminal=True, color_system="truecolor", legacy_windows=False
    )
    print_kinds(console=console)
    assert seen.getvalue().count("▀") > 100 * len(KINDS)
    assert "--pictures" not in seen.getvalue()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["overlays"], "Missing argument 'PROJECT'"),
        (["overlays", "here", "--list"], "takes no PROJECT"),
        (["overlays", "here", "--pictures", "there"], "--pictures goes with --list"),
    ],
)
def test_wrong_use_is_said(arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(arguments) == WRONG_USE
    assert said in capsys.readouterr().err


def test_half_blocks_keep_shape_and_colour() -> None:
    picture = Image.new("RGB", (400, 100), (20, 30, 40))
    picture.paste((250, 180, 70), (0, 0, 200, 50))
    shown = half_blocks(picture, 40, 12)
    assert [len(line) for line in shown.plain.split("\n")] == [40] * 5
    first, last = shown.spans[0].style, shown.spans[-1].style
    assert str(first) == "#fab446 on #fab446" and str(last) == "#141e28 on #141e28"
