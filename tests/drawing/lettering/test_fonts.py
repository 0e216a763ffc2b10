from __future__ import annotations

from pathlib import Path

import fontpkg_heebo
import pytest

from studio.drawing.lettering.face import Face
from studio.drawing.lettering.fonts import FontError, family, files_of, listed
from studio.drawing.lettering.outlines import outline
from studio.drawing.lettering.type import mask, plain

HEBREW = "שלום"
FILE = str(Path(fontpkg_heebo.ROOT) / "files" / "Heebo[wght].ttf")


def ink(text: str, face: Face) -> int:
    return sum(count * level for level, count in enumerate(mask(plain(text, 100, face))[0].histogram()))


def test_a_font_is_listed_by_the_name_of_its_package_or_by_its_file() -> None:
    assert not family(400).has(HEBREW)
    for name in ("heebo", "Heebo", FILE):
        assert listed(name, 400).has(HEBREW)
    assert outline(HEBREW, Face(600, ("heebo",))) == outline(HEBREW, Face(600, (FILE,)))


def test_a_font_comes_in_the_weight_that_is_asked_for() -> None:
    assert ink(HEBREW, Face(400, ("heebo",))) < 0.9 * ink(HEBREW, Face(700, ("heebo",)))


def test_outlines_know_which_fonts_they_are_of() -> None:
    without, with_font = outline(HEBREW, Face(400)), outline(HEBREW, Face(400, ("heebo",)))
    assert without != with_font and outline(HEBREW, 400) == without


def test_latin_letters_stay_in_the_text_family() -> None:
    assert outline("Harmony", Face(400, ("heebo",))) == outline("Harmony", 400)


def test_the_files_behind_a_face_are_told() -> None:
    assert files_of(Face(400, ("heebo", FILE))) == (Path(FILE), Path(FILE))


def test_a_font_that_is_not_installed_is_named_with_its_package() -> None:
    with pytest.raises(FontError, match="install the package fontpkg-no-such-letters"):
        listed("no-such-letters", 400)


def test_a_file_that_is_no_font_is_refused(tmp_path: Path) -> None:
    broken = tmp_path / "letters.ttf"
    broken.write_text("these are no letters")
    with pytest.raises(FontError, match=r"'letters\.ttf' is no font"):
        listed(str(broken), 400)
    with pytest.raises(FontError, match="cannot be read"):
        listed(str(tmp_path / "gone.ttf"), 400)
