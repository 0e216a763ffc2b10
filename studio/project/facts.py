"""Facts: named questions about the music, checked for having an answer."""

from __future__ import annotations

import re
from typing import Any

from studio.project.checking import Findings, check
from studio.project.complaints import unknown_name
from studio.project.marks import ValuePath
from studio.project.model import FactAsked, Song
from studio.project.schema import DegreeText, NumeralsText
from studio.project.song import chords_in
from studio.project.surroundings import Known

_KINDS = ("numerals", "degree")
_NAME = re.compile(r"[^\W\d][\w -]{0,59}")


def read_facts(written: Any, known: Known, song: Song | None, findings: Findings) -> tuple[FactAsked, ...]:
    """Every fact that can be answered; the others are complained of."""
    if written == "":
        return ()
    if not isinstance(written, dict):
        findings.complain(
            ("facts",), "facts is a group of names, each with its question, as loop: {numerals: verse}"
        )
        return ()
    facts = (_fact(name, asked, known, song, findings) for name, asked in written.items())
    return tuple(fact for fact in facts if fact is not None)


def _fact(name: str, asked: Any, known: Known, song: Song | None, findings: Findings) -> FactAsked | None:
    path: ValuePath = ("facts", name)
    if not _NAME.fullmatch(name):
        findings.complain_key(
            path, f"'{name}' is no name for a fact; begin with a letter, then letters, digits, - or _"
        )
    if not isinstance(asked, dict):
        findings.complain(
            path, f"'{name}' needs a question, as {{numerals: verse}} or {{degree: lead, at: 6.1}}"
        )
        return None
    if "numerals" in asked:
        return _numerals(name, asked, path, known, song, findings)
    if "degree" in asked:
        return _degree(name, asked, path, known, song, findings)
    other = next((key for key in asked if key != "at"), None)
    if other is None:
        findings.complain(
            path, f"'{name}' needs a question, as {{numerals: verse}} or {{degree: lead, at: 6.1}}"
        )
    else:
        findings.complain_key((*path, other), unknown_name("a kind of fact", other, _KINDS))
    return None


def _numerals(
    name: str, asked: Any, path: ValuePath, known: Known, song: Song | None, findings: Findings
) -> FactAsked | None:
    text = check(NumeralsText, asked, path, findings, known)
    if text is None or song is None:
        return None
    if findings.sound("song", "chords") and not chords_in(song.chart, text.numerals.start, text.numerals.end):
        findings.complain(
            (*path, "numerals"), f"There are no chords at '{asked['numerals']}'; write them in song: chords"
        )
    return FactAsked(name, "numerals", span=text.numerals)


def _degree(
    name: str, asked: Any, path: ValuePath, known: Known, song: Song | None, findings: Findings
) -> FactAsked | None:
    text = check(DegreeText, asked, path, findings, known)
    if text is None or song is None:
        return None
    at = (*path, "at")
    part = song.parts.get(text.degree)
    if part is not None and not any(note.onset <= text.at < note.end for note in part.part.notes):
        findings.complain(
            at, f"No note of {text.degree} sounds at {asked['at']}; name a moment at which one does"
        )
    elif findings.sound("song", "chords") and not chords_in(song.chart, text.at, text.at + 1):
        findings.complain(
            at, f"No chord sounds at {asked['at']}, so there is no degree; write one in song: chords"
        )
    return FactAsked(name, "degree", part=text.degree, at=text.at)
