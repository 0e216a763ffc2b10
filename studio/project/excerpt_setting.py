"""What an excerpt is read against."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from studio.project.checking import Findings
from studio.project.marks import ValuePath
from studio.project.model import FactAsked, Song
from studio.project.surroundings import Known


@dataclass(frozen=True)
class ExcerptSetting:
    """The song as far as it is known, the facts that can be answered, and the programs of the episode's SoundFont.

    `programs` are their names by their numbers, none without a SoundFont, and None where it cannot be judged.
    """

    known: Known
    song: Song | None
    facts: tuple[FactAsked, ...] = ()
    programs: Mapping[int, str] | None = field(default_factory=dict)


def item(path: ValuePath, number: int, findings: Findings) -> ValuePath:
    """Where an item of a list stands, of which one alone may be written without the list."""
    listed = (*path, number)
    return listed if listed in findings.marks.values else path
