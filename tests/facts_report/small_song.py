"""A small song as a project of its own, so that a report can be read row by row."""

from __future__ import annotations

from pathlib import Path

import yaml

from studio.build import open_project
from studio.facts_report.sheet import Row
from studio.facts_report.sheets import sheets
from studio.timeline.song_facts import SongFacts


def report(
    folder: Path, chords: str | dict[str, str], parts: dict[str, str] | None = None, **song: object
) -> dict[str, tuple[Row, ...]]:
    """The rows of each sheet by its title. ``chords`` by section, or of one "tune"; ``parts`` in ABC."""
    by_section = {"tune": chords} if isinstance(chords, str) else chords
    song |= {"title": "t", "meter": "4/4", "tempo": 100, "chords": by_section} | song
    song["sections"], at = {}, 1
    for name, text in by_section.items():
        bars = text.count("|") - 1
        song["sections"] |= {name: f"{at}-{at + bars - 1}"}  # type: ignore[operator]
        at += bars
    for name, abc in (parts or {}).items():
        (folder / f"{name}.abc").write_text(f"X:1\nT:t\nM:{song['meter']}\nL:1/8\n{abc}\n")
    song["parts"] = {name: f"{name}.abc" for name in parts or {}}
    segment = {"id": "a", "title": "t", "script": "Hello there."}
    document = {"episode": {"title": "t"}, "song": song, "segments": [segment]}
    (folder / "project.yaml").write_text(yaml.safe_dump(document, allow_unicode=True, sort_keys=False))
    opened = open_project(folder)
    episode = opened.project.episode
    facts = SongFacts(opened.project.song, episode.numerals, episode.figured)
    return {sheet.title: sheet.rows for sheet in sheets(facts, opened.plan.answers) if sheet.rows}
