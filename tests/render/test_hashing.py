from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import fontpkg_source_sans_3

from studio.drawing.themes.theme import default_theme, read_theme, theme_path
from studio.render.hashing import theme_digest

FONT = Path(fontpkg_source_sans_3.ROOT) / "files" / "SourceSans3[wght].ttf"


def with_font(folder: Path, font: bytes) -> str:
    """The digest of a theme of one's own that lists a font file."""
    folder.mkdir()
    (folder / "mine.ttf").write_bytes(font)
    (folder / "mine.yaml").write_text("based on: slate\nfonts: [mine.ttf]\n", "utf-8")
    return theme_digest(read_theme(folder / "mine.yaml"))


def test_a_theme_is_named_by_what_is_in_its_fonts_and_not_by_where_they_lie(tmp_path: Path) -> None:
    font = FONT.read_bytes()
    here, there = with_font(tmp_path / "here", font), with_font(tmp_path / "there", font)
    assert here == there
    assert with_font(tmp_path / "other", font + b"\0") != here


def test_themes_have_names_of_their_own() -> None:
    slate, paper = default_theme(), read_theme(theme_path("paper"))
    later = replace(slate, timing=replace(slate.timing, appear=0.2))
    assert len({theme_digest(theme) for theme in (slate, paper, later)}) == 3
