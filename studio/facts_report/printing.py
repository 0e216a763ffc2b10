"""Collecting the facts of a project and printing them in the form that was asked for."""

from __future__ import annotations

from rich.console import Console

from studio.build import Opened
from studio.facts_report.as_json import as_json
from studio.facts_report.markdown import markdown
from studio.facts_report.sheets import sheets
from studio.facts_report.tables import print_sheets
from studio.timeline.song_facts import SongFacts


def print_facts(opened: Opened, form: str = "tables", console: Console | None = None) -> None:
    """Print all facts: ``form`` is "tables", "json" or "markdown"."""
    console = console or Console()
    song, episode = opened.project.song, opened.project.episode
    found = sheets(SongFacts(song, episode.numerals, episode.figured), opened.plan.answers)
    if form == "tables":
        print_sheets(found, console)
        return
    write = as_json if form == "json" else markdown
    console.file.write(write(song.title, found))
