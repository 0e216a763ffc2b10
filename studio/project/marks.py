"""Where each key and value of a project file stands, so that a complaint can point at it."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass

from studio.project.complaints import Complaint

ValuePath = tuple[str | int, ...]
"""Keys and list indexes from the top of the file: ("segments", 2, "callouts", 0, "where")."""


@dataclass(frozen=True)
class Mark:
    """One key or value: its first and last character in the file, how YAML quotes it, and its text."""

    start: int
    end: int = 0
    style: str | None = None
    text: str = ""


class Marks:
    """The place of every key and value in one file."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self._text = text
        self._lines = [0, *(found.end() for found in re.finditer(r"\r\n|\r|\n", text))]
        self.values: dict[ValuePath, Mark] = {}
        self.keys: dict[ValuePath, Mark] = {}

    def position(self, index: int) -> tuple[int, int]:
        """Line and column, both from 1, of a character of the file."""
        line = bisect_right(self._lines, index)
        return line, index - self._lines[line - 1] + 1

    def at_index(self, index: int, sentence: str) -> Complaint:
        line, column = self.position(index)
        return Complaint(self.file, line, column, _plain(sentence))

    def complaint(self, path: ValuePath, sentence: str, offset: int = 0) -> Complaint:
        """A complaint about the value at a path, or at a character of it; else about what holds the path."""
        while path and path not in self.values:
            path, offset = path[:-1], 0
        mark = self.values.get(path, Mark(0))
        return self.at_index(self._index(mark, offset) if offset else mark.start, sentence)

    def key_complaint(self, path: ValuePath, sentence: str, offset: int = 0) -> Complaint:
        """A complaint about a key, rather than about what it holds."""
        mark = self.keys.get(path)
        if mark is None:
            return self.complaint(path, sentence)
        return self.at_index(self._index(mark, offset) if offset else mark.start, sentence)

    def stands_alone(self, path: ValuePath) -> bool:
        """Whether a key has no ':' after it, as what follows a comma in {gain: -3,5 dB}."""
        mark = self.keys.get(path)
        return mark is not None and not self._text[mark.end :].lstrip().startswith(":")

    def _index(self, mark: Mark, offset: int) -> int:
        """The character of the file at which character `offset` of a value is written.

        YAML folds line breaks, drops indents and doubles quotes, but leaves all else in order. So the nth
        visible character of the value is the nth of its source, after what opens it. Where a backslash
        escapes something the count is lost, and the value's start has to do.
        """
        source = self._text[mark.start : mark.end]
        first = 0
        if mark.style in ("|", ">"):
            first = source.find("\n") + 1
        elif mark.style in ("'", '"'):
            first = 1
        if mark.style == '"' and "\\" in source:
            return mark.start
        wanted = len(re.findall(r"\S", mark.text[:offset]))
        pattern = r"''|\S" if mark.style == "'" else r"\S"
        visible = [found.start() for found in re.finditer(pattern, source[first:])]
        if offset < len(mark.text) and not mark.text[offset].isspace() and wanted < len(visible):
            return mark.start + first + visible[wanted]
        after = visible[wanted - 1] + 1 if 0 < wanted <= len(visible) else 0
        return mark.start + first + after


# A quotation opens after a space and closes before one or a stop; between two quotations stands no third.
_LONG_QUOTATION = re.compile(r"(?<![^\s(])'([^']{60})[^']{10,}'(?![^\s.,;:!?)])")


def _plain(sentence: str) -> str:
    """With a capital, a full stop and no endless quotation, wherever the sentence comes from."""
    sentence = sentence.replace("“", "'").replace("”", "'")
    sentence = _LONG_QUOTATION.sub(r"'\1…'", " ".join(sentence.split()))
    if not sentence.endswith((".", "?", "!")):
        sentence += "."
    return sentence[0].upper() + sentence[1:]
