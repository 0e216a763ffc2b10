"""The same facts as tables, as Markdown and as JSON."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import pytest
from rich.console import Console

from studio.build import Opened, open_project
from studio.facts_report.markdown import markdown
from studio.facts_report.printing import print_facts
from studio.facts_report.sheet import Sheet

DEMO = Path(__file__).resolve().parents[2] / "demo_project"


@pytest.fixture(scope="module")
def demo() -> Opened:
    return open_project(DEMO)


def printed(opened: Opened, form: str) -> str:
    console = Console(file=io.StringIO(), width=80)
    print_facts(opened, form, console)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


@pytest.mark.slow
def test_tables_fit_a_terminal_and_hold_the_whole_report(demo: Opened) -> None:
    text = printed(demo, "tables")
    assert max(map(len, text.splitlines())) <= 80
    for title in ("Facts", "Keys", "Form", "Chords: verse", "Progressions", "Part: lead", "Grooves"):
        assert re.search(rf"^{title}\s*$", text, re.MULTILINE), title
    assert "V of vi, resolves" in text and "half cadence" in text and "pivot: vi in D major" in text


@pytest.mark.slow
def test_played_drums_are_read_in_each_section(demo: Opened) -> None:
    """Over the whole song the bars that vary would fill the table; in a section they are two of eight."""
    rows = {row["groove"]: row for row in json.loads(printed(demo, "json"))["facts"]["Grooves"]}
    assert [*rows] == [f"kit · {section.name}" for section in demo.project.song.sections]
    assert rows["kit · chorus"]["variation"] == "6 of 8 bars alike; bars 16 and 20 vary"
    assert rows["kit · bridge"]["what it does"].startswith("half time")


@pytest.mark.slow
def test_json_holds_every_chord_and_note_with_reason_and_sureness(demo: Opened) -> None:
    facts = json.loads(printed(demo, "json"))["facts"]
    chords = [row for title, rows in facts.items() if title.startswith("Chords: ") for row in rows]
    assert len(chords) == len(demo.project.song.chart.chords)
    assert all(row["why"] and 0 <= row["sureness"] <= 1 for row in chords)
    notes = facts["Part: lead, every note"]
    assert len(notes) >= len(demo.project.song.parts["lead"].part.notes)
    assert {row["fact"] for row in facts["Facts"]} >= {"loop", "late", "journey"}
    assert next(row for row in facts["Facts"] if row["fact"] == "colour")["expected"] == "Mixolydian"
    voicing = next(row for row in facts["Part: keys, voicings"] if row["bar"] == "6")
    assert voicing["voicing"].startswith("A/C♯") and voicing["hands"] == "left C♯–A, right C♯–E–A"
    assert "contrary motion" in voicing["to the next"]
    assert "Part: lead, voicings" not in facts  # a tune has none
    late = next(row for row in notes if row["bar"] == "13")
    assert (late["come to"], late["left"]) == ("held", "step down")


@pytest.mark.slow
def test_markdown_is_one_table_for_each_sheet(demo: Opened) -> None:
    text = printed(demo, "markdown")
    assert text.startswith("# Paraffin Tuesday\n")
    for block in re.findall(r"(?:^\|.*\n?)+", text, re.MULTILINE):
        widths = {len(re.findall(r"(?<!\\)\|", line)) for line in block.splitlines()}
        assert len(widths) == 1


def test_markdown_cells_keep_their_bars(tmp_path: Path) -> None:
    """A polychord is written with the sign that parts the cells of a table."""
    sheet = Sheet.of("A | B", "chord, (why)", [("D|C", "*not* bold")])
    text = markdown("song", [sheet])
    assert "| D\\|C | \\*not\\* bold |" in text and "## A \\| B" in text


def test_a_sheet_for_the_terminal_leaves_details_out() -> None:
    sheet = Sheet.of("Chords", "bar, chord, (why)", [("1", "A", "because")])
    assert [column.name for column in sheet.brief().columns] == ["bar", "chord"]
    assert sheet.brief().rows == (("1", "A"),)
