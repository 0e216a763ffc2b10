"""Facts: named questions about the music, checked for having an answer."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import yaml

from studio.project.checking import Findings, check
from studio.project.complaints import MisfitError, unknown_name
from studio.project.marks import Marks, ValuePath
from studio.project.model import FactAsked, Song
from studio.project.questions import QUESTIONS, Question
from studio.project.surroundings import Known

_NAME = re.compile(r"[^\W\d][\w -]{0,59}")
_OTHER_KEYS = frozenset({"at", "over", "expect", "tonic", "against"})


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


class InWords:
    """Questions that stand in words, between braces, rather than under facts: ``{mode: lead, over: verse}``.

    Each is a fact whose name is its own text. ``facts`` are those that were asked so far.
    """

    def __init__(self, known: Known, song: Song | None, findings: Findings) -> None:
        self._known, self._song, self._findings = known, song, findings
        self.facts: dict[str, FactAsked] = {}

    def ask(self, text: str) -> None:
        """Take a question in. Raises MisfitError when it has no answer, or is none."""
        if text in self.facts:
            return
        try:
            asked = yaml.load(f"{{{text}}}", Loader=yaml.BaseLoader)
        except yaml.YAMLError:
            raise MisfitError(f"'{text}' is no question; ask as in {{degree: lead, at: 6.1}}") from None
        if isinstance(asked, dict) and (tight := next((key for key in asked if ":" in key), None)):
            raise MisfitError(f"'{tight}' needs a blank after its colon: {tight.replace(':', ': ', 1)}")
        if isinstance(asked, dict) and "expect" in asked:
            raise MisfitError("What you expect is written under facts; words in braces only ask")
        apart = replace(self._findings, marks=Marks("", ""), complaints=[], broken=set(self._findings.broken))
        fact = _asked(text, asked, ("facts", text), self._known, self._song, apart)
        if apart.complaints:
            raise MisfitError(apart.complaints[0].sentence)
        if fact is not None:
            self.facts[text] = fact


def _fact(name: str, asked: Any, known: Known, song: Song | None, findings: Findings) -> FactAsked | None:
    path: ValuePath = ("facts", name)
    if not _NAME.fullmatch(name):
        findings.complain_key(
            path, f"'{name}' is no name for a fact; begin with a letter, then letters, digits, - or _"
        )
    return _asked(name, asked, path, known, song, findings)


def _asked(
    name: str, asked: Any, path: ValuePath, known: Known, song: Song | None, findings: Findings
) -> FactAsked | None:
    kind = _kind(name, asked, path, findings)
    if kind is None:
        return None
    question = check(QUESTIONS[kind], asked, path, findings, known)
    if question is None or song is None:
        return None
    _find_answerable(question, kind, asked, path, song, findings)
    return question.asked(name, kind)


def _kind(name: str, asked: Any, path: ValuePath, findings: Findings) -> str | None:
    """The kind of a fact, which is the key that no other kind has."""
    if isinstance(asked, dict):
        kinds = [str(key) for key in asked if key in QUESTIONS]
        if len(kinds) > 1:
            findings.complain_key(
                (*path, kinds[1]), f"'{name}' asks two things, {kinds[0]} and {kinds[1]}; make it two facts"
            )
            return None
        if kinds:
            return kinds[0]
        if (other := next((key for key in asked if key not in _OTHER_KEYS), None)) is not None:
            findings.complain_key((*path, other), unknown_name("a kind of fact", other, QUESTIONS))
            return None
    findings.complain(path, f"'{name}' needs a question, as {{numerals: verse}} or {{degree: lead, at: 6.1}}")
    return None


def _find_answerable(
    question: Question, kind: str, asked: Any, path: ValuePath, song: Song, findings: Findings
) -> None:
    """Complain where the song has nothing to answer with."""
    for misfit in question.misfits(song):
        key = misfit.key or kind
        if findings.sound(*path, key) and (not misfit.for_chords or findings.sound("song", "chords")):
            part = _listed(asked.get(kind))
            findings.complain((*path, key), misfit.sentence.format(written=asked.get(key), part=part))


def _listed(part: Any) -> str:
    return " or ".join(part) if isinstance(part, list) else str(part)
