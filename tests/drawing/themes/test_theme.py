from __future__ import annotations

import re
from pathlib import Path

import fontpkg_source_sans_3
import pytest

from studio.drawing.themes.contrast import contrast, over
from studio.drawing.themes.theme import (
    SMALLEST,
    ThemeError,
    default_theme,
    read_theme,
    theme_names,
    theme_path,
)


def written(folder: Path, text: str, name: str = "mine.yaml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def changed(folder: Path, old: str, new: str) -> Path:
    """The theme slate with one thing written differently."""
    text = theme_path("slate").read_text(encoding="utf-8")
    assert old in text
    return written(folder, text.replace(old, new))


def complaints(path: Path) -> str:
    with pytest.raises(ThemeError) as raised:
        read_theme(path)
    return "\n".join(raised.value.complaints)


def test_there_are_three_themes_and_slate_is_the_usual_one() -> None:
    assert theme_names() == ("slate", "contrast", "paper")
    assert default_theme() == read_theme(theme_path("slate"))


@pytest.mark.parametrize("name", theme_names())
def test_each_theme_of_the_program_can_be_used(name: str) -> None:
    theme = read_theme(theme_path(name))
    assert theme.name == name
    assert min(vars(theme.sizes).values()) >= SMALLEST
    assert hash(theme) == hash(read_theme(theme_path(name)))


def test_contrast_is_seven_to_one_for_every_word_and_line_on_every_ground() -> None:
    # WCAG 2.2, 1.4.6, contrast (enhanced).
    theme = read_theme(theme_path("contrast"))
    colours = theme.colours
    for behind in (
        colours.ground,
        over(colours.panel, theme.panel_opacity, (255, 255, 255)),
        over(colours.panel, theme.panel_opacity, (0, 0, 0)),
    ):
        for role in (colours.ink, colours.quiet, colours.now, colours.next, colours.rule):
            assert contrast(role, behind) >= 7
    assert min(contrast(colours.on_accent, accent) for accent in (colours.now, colours.next)) >= 7


def test_paper_is_light_and_slate_is_dark() -> None:
    white = (255, 255, 255)
    assert contrast(read_theme(theme_path("paper")).colours.panel, white) < 1.2
    assert contrast(default_theme().colours.panel, white) > 15


def test_a_path_of_ones_own_is_found_beside_the_project(tmp_path: Path) -> None:
    path = changed(tmp_path, '"#ffb64c"', '"#ffc66c"')
    assert read_theme(theme_path("mine.yaml", tmp_path)).colours.now == (0xFF, 0xC6, 0x6C)
    assert theme_path("mine.yaml", tmp_path) == path


def test_an_unknown_theme_names_those_there_are() -> None:
    with pytest.raises(
        ThemeError, match=r"no theme 'slaet': did you mean 'slate'\?.*slate or contrast or paper"
    ):
        theme_path("slaet")


def test_a_theme_says_what_it_is_based_on_and_what_is_otherwise(tmp_path: Path) -> None:
    path = written(tmp_path, 'based on: paper\ncolours: {now: "#a34c1b"}\nsizes: {body: 50}\n')
    theme, paper = read_theme(path), read_theme(theme_path("paper"))
    assert theme.colours.now == (0xA3, 0x4C, 0x1B)
    assert theme.colours.next == paper.colours.next
    assert (theme.sizes.body, theme.sizes.title) == (50, paper.sizes.title)
    assert theme.name == "mine"


def test_themes_of_ones_own_stand_on_each_other_but_not_in_a_ring(tmp_path: Path) -> None:
    written(tmp_path, "based on: slate\nsizes: {body: 50}\n", "one.yaml")
    two = written(tmp_path, "based on: one.yaml\nsizes: {title: 66}\n", "two.yaml")
    assert (read_theme(two).sizes.body, read_theme(two).sizes.title) == (50, 66)
    written(tmp_path, "based on: two.yaml\n", "one.yaml")
    assert "based on each other" in complaints(two)


def test_what_is_based_on_contrast_is_held_to_seven_to_one(tmp_path: Path) -> None:
    path = written(tmp_path, 'based on: contrast\ncolours: {quiet: "#8d9598"}\n')
    assert "'quiet' stands out from 'ground' only 6.88 to 1, and 7 to 1 is needed" in complaints(path)


def test_fonts_to_fall_back_on_lie_beside_the_theme(tmp_path: Path) -> None:
    (tmp_path / "fonts").mkdir()
    font = tmp_path / "fonts" / "mine.ttf"
    ours = Path(fontpkg_source_sans_3.ROOT) / "files" / "SourceSans3[wght].ttf"
    font.write_bytes(ours.read_bytes())
    path = written(tmp_path, "based on: slate\nfonts: [fonts/mine.ttf]\n")
    assert read_theme(path).fonts == (str(font.resolve()),)
    path = written(tmp_path, "based on: slate\nfonts: [fonts/nine.ttf]\n")
    assert "no file 'fonts/nine.ttf'; did you mean 'fonts/mine.ttf'?" in complaints(path)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('  quiet: "#a9b6b8"', "  # nothing", "line 15 of mine.yaml: colours lacks 'quiet'"),
        ('"#ffb64c"', "orange-ish", "colours.now is 'orange-ish': write a colour as \"#rrggbb\""),
        ("  small: 28", "  small: 14", "sizes.small is '14': it must be from 28 to 400"),
        ("  small: 28", "  small: tiny", "sizes.small is 'tiny': write a number"),
        ("  small: 28", "  small: 1e2", "sizes.small is '1e2': write a number"),
        ("  small: 28", "  small: [28]", "sizes.small is no single value: write a number"),
        ("  quiet:", "  quite:", "'quite' is not a key of colours; did you mean 'quiet'?"),
        ("weights:", "wieghts:", "'wieghts' is not a key of the theme; did you mean 'weights'?"),
        ("appear: 0.16", "appear: 0.5", "timing.appear is '0.5': it must be from 0.12 to 0.2"),
        ("leave: 0.16", "leave: 0.05", "timing.leave is '0.05': it must be from 0.12 to 0.2"),
        ('quiet: "#a9b6b8"', 'quiet: "#5a6468"', "'quiet' stands out from 'panel' over white footage only"),
        ('"#59666d"', '"#c0c8cc"', "'now' stands out from 'light key' only"),
        (
            "panel opacity: 0.94",
            "panel opacity: 0.5",
            "make 'panel' lighter or darker, or raise 'panel opacity'",
        ),
        ('next: "#7fd0ee"', 'next: "#f2b650"', "'now' and 'next' look alike"),
        ("left: {columns: 1-4}", "left: {columns: 1-9}", "left ends at 9, so they would cover each other"),
        ("left: {columns: 1-4}", "left: {columns: 1-13}", "'1-13' are no columns"),
        ("left: {columns: 1-4}", "left: {columns: four}", "'four' are no columns"),
        (
            "left: {columns: 1-6}",
            "left: {columns: 1-1}",
            "left has 1 column and is too narrow on a tall canvas",
        ),
        (
            "lower: {columns: 1-12}",
            "lower: {columns: 1-1}",
            "lower has 1 column and is too narrow on a wide canvas",
        ),
        ("tallest: 36", "tallest: 4", "slots.tall.top.tallest is '4': it must be from 8 to 240"),
        ("fonts: []", "fonts: [{a: b}]", "a font is the name of an installed font, or the path of a file"),
        ("fonts: []", "fonts: {a: b}", "fonts is a list of fonts"),
        ("fonts: []", "fonts: [no-such-family]", "install the package fontpkg-no-such-family"),
        ("fonts: []", "fonts: [mine.yaml/]", "'mine.yaml' is no font that can be read"),
        ("fonts: []", "fonts: [../mine.ttf]", "'../mine.ttf' leads out of"),
        (
            "fonts: []",
            "based on: slaet",
            "a theme is based on slate or contrast or paper, or on a theme file",
        ),
        ("fonts: []", "least contrast: 3", "least contrast is '3': it must be from 4.5 to 21"),
    ],
)
def test_each_mistake_has_a_plain_sentence(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert said in complaints(changed(tmp_path, old, new))


@pytest.mark.parametrize(
    ("now", "alike_to"),
    [
        ("#5fd9a8", "'now' and 'next' look alike to blue-blind eyes (tritanopia)"),
        ("#d6f0d0", "'ink' and 'now' look alike to green-blind eyes (deuteranopia)"),
    ],
)
def test_colours_that_somebody_cannot_tell_apart_are_refused(tmp_path: Path, now: str, alike_to: str) -> None:
    said = complaints(changed(tmp_path, "#ffb64c", now))
    assert alike_to in said and "ΔE2000, and 10 is needed" in said


def test_a_colour_that_would_do_is_named_and_does(tmp_path: Path) -> None:
    said = complaints(changed(tmp_path, 'quiet: "#a9b6b8"', 'quiet: "#5a6468"'))
    remedy = said.partition("is needed: ")[2].partition(" would do")[0]
    assert remedy.startswith('quiet: "#')
    assert read_theme(changed(tmp_path, 'quiet: "#a9b6b8"', remedy)).name == "mine"


SEA = {"ground": "#1b1430", "panel": "#201838", "now": "#ffd23f", "next": "#6fe3c1"}


@pytest.mark.parametrize(
    "colours",
    [
        SEA,
        {"panel": "#808080"},
        {"now": "#7fd0ee"},
        {"ink": "#555555", "quiet": "#555555"},
        {"light key": "#ffb64c"},
        {"now": "#ff0000", "next": "#00ff00", "ground": "#333333"},
        {"ink": "#9c9992", "quiet": "#a1adaf", **SEA},
    ],
)
def test_whoever_writes_the_colours_that_would_do_has_a_theme(
    tmp_path: Path, colours: dict[str, str]
) -> None:
    path = written(tmp_path, based(colours))
    remedies = re.findall(r'([a-z ]+): "(#[0-9a-f]{6})" would do', complaints(path))
    assert remedies and len({role for role, _ in remedies}) == len(set(remedies))
    assert {role.strip() for role, _ in remedies} <= set(colours)
    theme = read_theme(written(tmp_path, based({**colours, **{role.strip(): to for role, to in remedies}})))
    assert theme.name == "mine"


def based(colours: dict[str, str]) -> str:
    return (
        "based on: slate\ncolours: {" + ", ".join(f'{role}: "{to}"' for role, to in colours.items()) + "}\n"
    )


def test_the_colour_to_change_is_the_one_that_is_in_most_faults(tmp_path: Path) -> None:
    said = complaints(written(tmp_path, based(SEA))).splitlines()
    assert len(said) == 2 and all('needed: next: "#' in line for line in said)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "line 1 of mine.yaml: the file is empty; a theme file has the keys based on, colours"),
        (
            "- a\n- b\n",
            "line 1 of mine.yaml: the file is not a group of keys; a theme file has the keys based on",
        ),
        (
            "colours: {ink: #ffffff}\n",
            "line 1 of mine.yaml: '#' begins a remark in YAML; put the colour in quotes",
        ),
        (
            "colours:\n  ink: #ffffff\n",
            'line 2 of mine.yaml: colours.ink is empty: write a colour as "#rrggbb"',
        ),
        ("based on: slatee\n", "did you mean 'slate'?"),
    ],
)
def test_the_likeliest_slips_of_a_first_theme(tmp_path: Path, text: str, said: str) -> None:
    assert said in complaints(written(tmp_path, text))


def test_all_complaints_come_at_once(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        "based on: slate\ncolours: {now: red}\ntiming: {appear: soon}\nslots: {wide: {left: {columns: x}}}\n",
    )
    said = complaints(path).splitlines()
    assert [line.split(" of ")[0] for line in said] == ["line 2", "line 3", "line 4"]


def test_what_is_no_yaml_is_said_to_be_none(tmp_path: Path) -> None:
    assert complaints(written(tmp_path, "colours: [")).startswith("line 1 of mine.yaml: ")
    assert "line 1 of mine.yaml" in complaints(written(tmp_path, "slate"))
