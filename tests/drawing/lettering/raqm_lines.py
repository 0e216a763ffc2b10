"""Lines as Pillow sets them with Raqm, which orders and shapes text by FriBidi and HarfBuzz: kept beside the tests, so
that they can be compared with on machines whose Pillow has no Raqm, or finds no FriBidi.

Made again, where a font's package or the list of lines has changed, on a machine that has both:

    python -m tests.drawing.lettering.raqm_lines
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

import fontpkg_heebo
import fontpkg_noto_sans_arabic
import fontpkg_source_sans_3
from PIL import Image, ImageDraw, ImageFont, features

SIZE, LARGE = 100, 1000
SANS = Path(fontpkg_source_sans_3.ROOT) / "files" / "SourceSans3[wght].ttf"
HEEBO = Path(fontpkg_heebo.ROOT) / "files" / "Heebo[wght].ttf"
ARABIC = Path(fontpkg_noto_sans_arabic.ROOT) / "files" / "NotoSansArabic[wdth,wght].ttf"
# Each in one font, since Pillow knows no other to fall back on.
LINES = [
    ("Wave To AV fi ffl", SANS),
    ("Ünïcödé q̃ x̣ ẹ̀ Việt Nam", SANS),
    ("Ελληνική μουσική", SANS),
    ("שלום עולם", HEEBO),
    ("שָׁלוֹם, (עוֹלָם)!", HEEBO),
    ("مرحبا بالعالم", ARABIC),
    ("لا إله، الموسيقى", ARABIC),
    ("مُوسِيقَى", ARABIC),
]
HAS_RAQM = bool(features.check("raqm") and features.check("fribidi"))
_ABOUT = Path(__file__).parent / "data" / "raqm_lines.json"
_SHEET = Path(__file__).parent / "data" / "raqm_lines.png"
_REGULAR = 400
_NORMAL_WIDTH = 100


@dataclass(frozen=True)
class SetLine:
    """A line as it is set: `advance` at 1000 pixels, and its ink at 100, cut to where there is any."""

    text: str
    font: str
    advance: float
    width: int
    height: int


def kept(text: str) -> tuple[SetLine, Image.Image]:
    """A line of `LINES` and its ink, as they were set when the reference was made."""
    return _kept()[text]


def set_now(text: str, file: Path) -> tuple[SetLine, Image.Image]:
    """The same by the Pillow of this machine, which must have Raqm."""
    font = _font(file, SIZE)
    whole = Image.new("L", (round(font.getlength(text)) + 2 * SIZE, 3 * SIZE))
    ImageDraw.Draw(whole).text((SIZE, 2 * SIZE), text, fill=255, font=font, anchor="ls")
    ink = whole.crop(whole.getbbox())
    return SetLine(text, file.name, _font(file, LARGE).getlength(text), *ink.size), ink


def _font(file: Path, size: int) -> ImageFont.FreeTypeFont:
    font = ImageFont.truetype(str(file), size, layout_engine=ImageFont.Layout.RAQM)
    names = [axis["name"] or b"" for axis in font.get_variation_axes()]
    font.set_variation_by_axes([_REGULAR if b"eight" in name else _NORMAL_WIDTH for name in names])
    return font


@cache
def _kept() -> dict[str, tuple[SetLine, Image.Image]]:
    lines = [SetLine(**line) for line in json.loads(_ABOUT.read_text("utf-8"))["lines"]]
    sheet, found, top = Image.open(_SHEET), {}, 0
    for line in lines:
        found[line.text] = line, sheet.crop((0, top, line.width, top + line.height))
        top += line.height
    return found


def _made_with() -> dict[str, Any]:
    libraries = {name: features.version(name) for name in ("raqm", "fribidi", "harfbuzz", "freetype2")}
    packages = ("Pillow", "fontpkg-source-sans-3", "fontpkg-heebo", "fontpkg-noto-sans-arabic")
    return {**libraries, **{name: version(name) for name in packages}}


def make() -> None:
    """Write the reference: a sheet of all lines, one under the other, and what there is to say of them."""
    made = [set_now(text, file) for text, file in LINES]
    sheet = Image.new("L", (max(line.width for line, _ in made), sum(line.height for line, _ in made)))
    top = 0
    for line, ink in made:
        sheet.paste(ink, (0, top))
        top += line.height
    sheet.save(_SHEET, optimize=True)
    about = {"made with": _made_with(), "lines": [asdict(line) for line, _ in made]}
    _ABOUT.write_text(json.dumps(about, ensure_ascii=False, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    if not HAS_RAQM:
        raise SystemExit("This Pillow has no Raqm, or finds no FriBidi; make the reference where both are.")
    make()
