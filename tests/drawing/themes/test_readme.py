"""The theme of three lines that the README writes is one that can be used as it stands there."""

from __future__ import annotations

import re
from pathlib import Path

from studio.drawing.themes.theme import default_theme, read_theme

README = Path(__file__).parents[3] / "README.md"


def test_the_theme_that_the_readme_writes_can_be_used(tmp_path: Path) -> None:
    (colours,) = re.findall(r"`(colours: \{now: \"#\w+\"\})`", README.read_text("utf-8"))
    file = tmp_path / "my-theme.yaml"
    file.write_text(f"based on: slate\n{colours}\n", "utf-8")
    mine, slate = read_theme(file), default_theme()
    assert mine.colours.now != slate.colours.now
    assert mine.sizes == slate.sizes and mine.slots == slate.slots
