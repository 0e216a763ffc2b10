"""`studio facts`: answers and chord readings as tables for a person."""

from __future__ import annotations

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table

from studio.build import Opened
from studio.theory.wording import key_words, reading_note, spaced
from studio.timeline.song_facts import SongFacts


def print_facts(opened: Opened, console: Console | None = None) -> None:
    """Print the named facts, then each section's chords with their numerals."""
    console = console or Console()
    song = opened.project.song
    song_facts = SongFacts(song, opened.project.episode.numerals)
    for inferred in song_facts.inferred:
        console.print(f"{key_words(inferred.key, inferred)}: {inferred.reason}", style="dim")
    if opened.plan.answers:
        console.print(_answers(opened))
    for section in song.sections:
        readings = song_facts.readings(section.span)
        if not readings:
            continue
        table = Table(title=section.name, title_justify="left", box=SIMPLE_HEAD, title_style="bold")
        for heading in ("bar", "chord", "numeral", "key", "what it is"):
            table.add_column(heading, overflow="fold")
        for reading in readings:
            chord = str(reading.at.chord) if reading.at.chord else "N.C."
            place = str(song.time.place(reading.at.start))
            table.add_row(place, chord, reading.numeral, str(reading.key), reading_note(reading))
        console.print(table)


def _answers(opened: Opened) -> Table:
    table = Table(title="facts", title_justify="left", box=SIMPLE_HEAD, title_style="bold")
    for heading in ("name", "answer", "where", "why"):
        table.add_column(heading, overflow="fold")
    for answer in opened.plan.answers:
        table.add_row(answer.name, spaced(answer.words), answer.where, answer.reason)
    return table
