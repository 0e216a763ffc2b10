from __future__ import annotations

from pathlib import Path

import pytest

from studio.drawing.themes.theme import SMALLEST, ThemeError, default_theme, faint, read_theme, theme_path


def changed(folder: Path, old: str, new: str) -> Path:
    """The theme slate with one thing written differently."""
    text = theme_path("slate").read_text(encoding="utf-8")
    assert old in text
    path = folder / "mine.yaml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


def complaints(path: Path) -> str:
    with pytest.raises(ThemeError) as raised:
        read_theme(path)
    return "\n".join(raised.value.complaints)


def test_slate_reads_and_every_pair_stands_apart() -> None:
    theme = default_theme()
    assert list(faint(theme)) == []
    assert min(vars(theme.sizes).values()) >= SMALLEST
    assert hash(theme) == hash(read_theme(theme_path("slate")))


def test_a_path_of_ones_own_is_found_beside_the_project(tmp_path: Path) -> None:
    path = changed(tmp_path, '"#ffb64c"', '"#ffc66c"')
    assert read_theme(theme_path("mine.yaml", tmp_path)).colours.now == (0xFF, 0xC6, 0x6C)
    assert theme_path("mine.yaml", tmp_path) == path


def test_an_unknown_theme_names_those_there_are() -> None:
    with pytest.raises(ThemeError, match=r"no theme `slaet`.*slate"):
        theme_path("slaet")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('  quiet: "#a9b6b8"', "  # nothing", "colours lacks `quiet`"),
        ('"#ffb64c"', "orange-ish", "colours.now is `orange-ish`: write a colour as '#rrggbb'"),
        ("  small: 28", "  small: 14", "sizes.small is 14: it must be from 28 to 400"),
        ("  small: 28", "  small: tiny", "sizes.small is `tiny`: write a number"),
        ("  quiet:", "  quite:", "`quite` means nothing in colours; did you mean `quiet`?"),
        ('quiet: "#a9b6b8"', 'quiet: "#5a6468"', "`quiet` stands out from ground only"),
        ('"#59666d"', '"#c0c8cc"', "`now` stands out from light key only"),
        ("panel opacity: 0.94", "panel opacity: 0.5", "panel over white footage"),
    ],
)
def test_each_mistake_has_a_plain_sentence(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert said in complaints(changed(tmp_path, old, new))


def test_all_complaints_come_at_once(tmp_path: Path) -> None:
    path = changed(tmp_path, '"#ffb64c"', "red")
    path.write_text(
        path.read_text(encoding="utf-8").replace("appear: 0.16", "appear: soon"), encoding="utf-8"
    )
    said = complaints(path)
    assert "colours.now" in said and "timing.appear" in said


def test_what_is_no_yaml_is_said_to_be_none(tmp_path: Path) -> None:
    path = tmp_path / "broken.yaml"
    path.write_text("colours: [", encoding="utf-8")
    assert "cannot be read as YAML" in complaints(path)
