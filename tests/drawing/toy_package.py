"""A package that adds a kind of callout, as somebody else might write one; made by code where a test needs it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

KIND = """
from dataclasses import dataclass

from pydantic import Field

from studio.drawing.frame import CanvasSize
from studio.project.callouts import CalloutOptions
from studio.timeline.kind import Composed, Extent, Kind

from toy_bells.pictures import bells


class BellsOptions(CalloutOptions):
    count: int = Field(3, ge=1, le=9, description="how many bells hang there")


@dataclass(frozen=True)
class Bells:
    canvas: CanvasSize
    count: int


class BellsKind(Kind):
    name = "bells"
    says = "a row of bells"
    slots = ("lower", "card")
    example = "{kind: bells, count: 4}"
    Options = BellsOptions

    def compose(self, options, ask):
        if options.count == 7:
            ask.refuse("count", "seven bells ring too long; write another number")
        content = Bells(CanvasSize.of(ask.canvas), options.count)
        return Composed(content, (), None, None, f"{options.count} bells hang in a row.")

    def extent(self, content, width, theme):
        return Extent(12, 16)

    def draw(self, content, look, size, theme):
        return bells(content, size, theme)


KIND = BellsKind()
"""

PICTURES = """
from studio.drawing.frame import panelled


def bells(content, size, theme):
    sheet = panelled(size, content.canvas, theme)
    for number in range(content.count):
        x = (number + 1) * size[0] / (content.count + 1)
        sheet.dot(x, size[1] / 2, 3 * content.canvas.unit, theme.colours.now)
    return sheet.picture
"""

PROJECT = """
episode: {title: Bells, canvas: 640x360 @ 30}
song: {title: A song with bells, key: G major, tempo: 90, sections: {all: 1-4}, chords: {all: "| G | C | D | G |"}}
segments:
  - id: ring
    script: Four bells hang here.
    callouts: [{kind: bells, count: 4}]
"""


def install(
    site: Path, value: str = "toy_bells.kind:KIND", kind: str = KIND, pictures: str = PICTURES
) -> Path:
    """Write the package and what an installer leaves beside it; returns the folder, for PYTHONPATH."""
    package, about = site / "toy_bells", site / "toy_bells-1.0.dist-info"
    package.mkdir(parents=True, exist_ok=True)
    about.mkdir(exist_ok=True)
    (package / "__init__.py").write_text("", "utf-8")
    (package / "kind.py").write_text(kind, "utf-8")
    (package / "pictures.py").write_text(pictures, "utf-8")
    (about / "METADATA").write_text("Metadata-Version: 2.1\nName: toy-bells\nVersion: 1.0\n", "utf-8")
    (about / "entry_points.txt").write_text(f"[studio.callouts]\nbells = {value}\n", "utf-8")
    return site


def python(site: Path, *arguments: str, here: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run Python where the package is installed."""
    known = [str(site), *filter(None, [os.environ.get("PYTHONPATH")])]
    surroundings = {**os.environ, "PYTHONPATH": os.pathsep.join(known), "PYTHONUTF8": "1", "COLUMNS": "80"}
    command = [sys.executable, "-B", *arguments]
    return subprocess.run(
        command, cwd=here, env=surroundings, capture_output=True, text=True, encoding="utf-8", timeout=120
    )
