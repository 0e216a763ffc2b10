"""The signs of ABC, each with its place in the text. Section numbers are those of the standard, ABC 2.1."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

# Words and signs that only look like notes come first. Letters from H to W and h to w are decorations where they stand
# before what can be decorated (4.14) and have a meaning, the standard's or one that U: gives them (4.16).
_DECORATIONS = ".~HLMOPSTuv"
_SIGN = re.compile(
    r'(?P<words>"[^"\n]{0,400}")'
    r"|(?P<decoration>![^!\n|]{0,60}!|\+[^+\n|]{0,60}\+"
    r'|[.~H-Wh-w](?=(?:[.~H-Wh-w]|"[^"\n]{0,60}"){0,9}\s*[\[{!"+(^_=A-Ga-gzxZ|:-]))'
    r"|(?P<field>\[[A-Za-z]:[^\]\n]{0,400}\])"
    r"|(?P<remark>%.*)"
    r"|(?P<grace>\{[^}\n]{0,200}\})"
    r"|(?P<bar>(?:\[\|[|:\]]*|[|:]*\|[|:\]]*|::+)(?:\s*\[\d[\d,-]*|\d[\d,-]*)?|\[\d[\d,-]*)"
    r"|(?:(?P<chord>\[[^\]\[|\n]{0,200}\])"
    r"|(?P<note>(?:\^\^|\^|__|_|=)?[A-Ga-g][,']*)"
    r"|(?P<rest>[zx]))(?P<length>\d*(?:/\d+|/+)?)"
    r"|(?P<tuplet>\(\d(?::\d*){0,2})"
    r"|(?P<broken>[<>]+)"
    r"|(?P<link>[()-])"
    r"|(?P<room>[ \t\r]+|`|\\(?=\s*$)|y\d*|\$)"
    r"|(?P<stray>(?:\^+|_+|=)[\d/]+(?=[A-Ga-g])|\S[\d/]*)",
    re.MULTILINE,
)
IN_CHORD = re.compile(
    r'"[^"]*"|![^!]*!|(?P<sign>\^\^|\^|__|_|=|)(?P<letter>[A-Ga-g])(?P<octave>[,\']*)(?P<length>\d*(?:/\d+|/+)?)'
)
"""A note of a chord, or words and decorations before it."""

_FIELD_LINE = re.compile(r"\s*([A-Za-z+]):(.*)")
_IN_THE_BODY = set("IKLMmNPQRrsTUVwW+")  # 3: the fields that may stand among the music
_NUMBER = re.compile(r"(\d*)(/\d+|/*)")


@dataclass(frozen=True)
class Token:
    """One sign. `kind` is the group of the pattern that found it, `line field` for a field that fills its line, or
    `line` for a line without music; `at` is its place in the text. A field has its letter and `value`."""

    kind: str
    text: str
    at: int
    length: str = ""
    letter: str = ""
    value: str = ""

    @property
    def share(self) -> tuple[int, int]:
        """The length of a note as a share of the unit length (4.3): over, under."""
        return share(self.length)

    @property
    def first_inside(self) -> tuple[int, int]:
        """The share of the first note of a chord."""
        found = IN_CHORD.search(self.text)
        return share(found["length"]) if found else (1, 1)


def share(length: str) -> tuple[int, int]:
    """A written length: `3/2` is (3, 2), `/` is (1, 2), `//` is (1, 4).

    >>> share("3/2"), share("//"), share("")
    ((3, 2), (1, 4), (1, 1))
    """
    found = _NUMBER.fullmatch(length)
    assert found is not None
    under = int(found[2][1:]) if found[2][1:].isdigit() else 1 << len(found[2])
    return int(found[1] or 1), under


def tokens(tune: str) -> Iterator[Token]:
    """Every sign of a tune, in order; all lines up to the first K: are its head (3)."""
    at, in_head, decorations = 0, True, set(_DECORATIONS)
    for line in tune.split("\n"):
        found = _FIELD_LINE.match(line)
        if line.lstrip().startswith("%") or not line.strip():
            yield Token("line", line, at)
        elif found and (in_head or found[1] in _IN_THE_BODY):
            value = found[2].partition("%")[0].strip()
            if found[1] == "U":
                decorations.add(value[:1])
            yield Token("line field", line, at + found.start(1), letter=found[1], value=value)
            in_head = in_head and found[1] != "K"
        elif in_head:
            yield Token("early", line, at)
        elif found:
            yield Token("stray", f"{found[1]}:", at + found.start(1))
        else:
            yield from _signs(line, at, decorations)
        at += len(line) + 1
        yield Token("end of line", "\n", at - 1)


def _signs(line: str, at: int, decorations: set[str]) -> Iterator[Token]:
    for found in _SIGN.finditer(line):
        kind = next(name for name, text in found.groupdict().items() if text and name != "length")
        text, length = found[0], found["length"] or ""
        if kind == "decoration" and len(text) == 1 and text not in decorations:
            kind = "stray"
        if kind == "chord" and (unread := _unread_inside(text)) is not None:
            yield Token("stray", text[unread], at + found.start() + unread)
        elif kind == "field":
            yield Token(kind, text, at + found.start(), letter=text[1], value=text[3:-1].strip())
        else:
            yield Token(kind, text[: len(text) - len(length)], at + found.start(), length)


def _unread_inside(chord: str) -> int | None:
    """The place in a chord of what is no note of it; of the bracket, where it has none."""
    bare = IN_CHORD.sub(lambda found: " " * len(found[0]), chord)
    if found := re.search(r"[^\s()\-.~HLMOPSTuv]", bare[1 : bare.rindex("]")]):
        return found.start() + 1
    return None if any(found["letter"] for found in IN_CHORD.finditer(chord)) else 0
