"""Printing the kinds of callout for a person, and saving a picture of each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from PIL import Image
from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.example import Examples, plan_examples
from studio.kinds_shown.half_blocks import half_blocks
from studio.kinds_shown.option_lines import COMMON, NEEDED, OptionLine, option_lines
from studio.timeline.kind import Kind
from studio.timeline.slots import SlotName
from studio.whole_file import whole_file

SLOT_WORDS: Mapping[SlotName, str] = {
    "lower": "the lower third",
    "left": "the left column",
    "right": "the right column",
    "card": "the full card",
    "top": "the strip along the top",
}
_WIDEST = 100
_PICTURE_ROWS = 12
_COLOURS_ENOUGH = ("256", "truecolor", "windows")


def print_kinds(pictures: Path | None = None, console: Console | None = None) -> None:
    """Print each kind with what it says, where it may stand, its options and, in colour, a small picture.

    With `pictures`, save a picture of each as `<kind>.png` in that folder too.
    """
    console = console or Console()
    width = min(console.width, _WIDEST)
    in_colour = console.color_system in _COLOURS_ENOUGH
    examples = plan_examples(default_theme()) if in_colour or pictures else None
    drawn = dict(_pictures(examples)) if examples else {}
    for name, kind in KINDS.items():
        shown = half_blocks(drawn[name], width - 2, _PICTURE_ROWS) if in_colour and name in drawn else None
        console.print(_about(kind, shown), width=width)
    console.print(_common(), width=width)
    if pictures is not None:
        saved = _save(drawn, pictures)
        console.print(f"{saved} pictures in {pictures}", highlight=False, soft_wrap=True)
    elif not in_colour:
        console.print("For a picture of each: studio overlays --list --pictures FOLDER", highlight=False)
    for name, wrong in (examples.refused if examples else {}).items():
        console.print(
            f"note: {name} has no picture, as its example cannot be planned: {wrong}", highlight=False
        )


def _pictures(examples: Examples) -> Iterable[tuple[str, Image.Image]]:
    return ((name, examples.picture(callout, margin=16)) for name, callout in examples)


def _save(pictures: Mapping[str, Image.Image], folder: Path) -> int:
    folder.mkdir(parents=True, exist_ok=True)
    for name, picture in pictures.items():
        with whole_file(folder / f"{name}.png") as part:
            picture.save(part, "PNG")
    return len(pictures)


def _about(kind: Kind, picture: Text | None) -> Group:
    under: list[RenderableType] = [
        Text(kind.says),
        *([picture] if picture else []),
        _options(option_lines(kind.Options)),
        Text.assemble(("stands in ", "dim"), ", ".join(kind.slots)),
        Text.assemble(("written as ", "dim"), f"- {kind.example}"),
        Text(),
    ]
    return Group(Text(kind.name, style="bold"), *(Padding(row, (0, 0, 0, 2)) for row in under))


def _options(lines: Iterable[OptionLine]) -> Table:
    table = _table()
    for line in lines:
        otherwise = (
            line.otherwise if line.otherwise == NEEDED or not line.otherwise else f"else {line.otherwise}"
        )
        table.add_row(line.name, line.takes, Text(otherwise, style="dim"), line.meaning)
    return table


def _common() -> Group:
    table = _table()
    for name, takes, meaning in COMMON:
        table.add_row(name, takes or ", ".join(SLOT_WORDS), "", meaning)
    slots = "; ".join(f"{name}, {words}" for name, words in SLOT_WORDS.items())
    return Group(
        Text("every kind", style="bold"),
        Padding(Text("takes these as well"), (0, 0, 0, 2)),
        Padding(table, (0, 0, 0, 2)),
        Padding(
            Text(f"Slots: {slots}. The one that a kind names first is its own.", style="dim"), (0, 0, 1, 2)
        ),
    )


def _table() -> Table:
    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0), pad_edge=False)
    table.add_column(min_width=10, max_width=16)
    table.add_column(max_width=22)
    table.add_column(max_width=12)
    table.add_column(ratio=1)
    return table
