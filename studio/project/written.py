"""From YAML text to what was written: plain groups, lists and texts, with the place of every key and value.

Every scalar stays text: YAML's own guesses (1:30 is 90, `no` is false, 5.10 is 5.1) are never made. Each
field converts its own text later.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NoReturn

import yaml
from yaml import events

from studio.project.complaints import Complaint, ProjectError
from studio.project.marks import Mark, Marks, ValuePath
from studio.project.yaml_sentences import sentence_for

LARGEST_FILE = 1_000_000
"""Bytes. An episode with every chord and word written out is a tenth of this."""

DEEPEST = 30
MOST_VALUES = 50_000
"""Values after aliases are unfolded."""

_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Written:
    """A project file as it was written. `data` holds dict, list and str only."""

    data: dict[str, Any]
    marks: Marks
    complaints: tuple[Complaint, ...]


PROJECT_KEYS = ("episode", "song", "facts", "segments")


def read(file: Path, what: str = "project", keys: Sequence[str] = PROJECT_KEYS) -> Written:
    """Read a project file, or a file of another kind (`what`) with `keys` of its own.

    Raises ProjectError when it cannot be read as YAML at all.
    """
    return read_text(_text(file, file.name, what), file.name, what, keys)


def read_text(text: str, name: str, what: str = "project", keys: Sequence[str] = PROJECT_KEYS) -> Written:
    """Read the text of such a file; `name` is what complaints call the file."""
    marks = Marks(name, text)
    if odd := _UNPRINTABLE.search(text):
        sentence = f"There is an invisible control character here (code {ord(odd[0])}); delete it."
        raise ProjectError([marks.at_index(odd.start(), sentence)])
    builder = _Builder(marks, iter(yaml.parse(text, Loader=yaml.BaseLoader)))
    try:
        top = builder.document()
    except yaml.MarkedYAMLError as error:
        raise ProjectError([*builder.complaints, marks.at_index(*sentence_for(error, text))]) from None
    except (ValueError, OverflowError):  # PyYAML on "\UFFFFFFFF", a character that does not exist
        sentence = "A backslash in double quotes names a character that does not exist; use single quotes."
        raise ProjectError([*builder.complaints, marks.at_index(builder.index, sentence)]) from None
    if not isinstance(top, _Group):
        state = "is empty" if top is None else "is not a group of keys"
        sentence = f"The file {state}; a {what} file has the keys {', '.join(keys[:-1])} and {keys[-1]}."
        raise ProjectError([marks.at_index(0 if top is None else top.start, sentence)])
    return Written(_unfold(top, (), marks), marks, tuple(builder.complaints))


def _text(file: Path, name: str, what: str) -> str:
    def refuse(sentence: str, line: int = 1, column: int = 1) -> ProjectError:
        return ProjectError([Complaint(name, line, column, sentence)])

    try:
        if file.is_dir():
            raise refuse(f"This is a folder, not a {what} file.")
        if file.stat().st_size > LARGEST_FILE:
            raise refuse(
                f"The file is larger than {LARGEST_FILE // 1_000_000} MB, which no {what} file is; "
                "is it a media file?"
            )
        raw = file.read_bytes()
    except FileNotFoundError:
        raise refuse("There is no such file.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name is not one that a file can have"
        raise refuse(f"The file cannot be read: {reason}.") from None
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\x00" in raw[:4]:
        raise refuse("The file is saved as UTF-16 or UTF-32; save it as UTF-8.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8-sig", "replace")
        line, column = Marks(name, before).position(len(before))
        raise refuse("This character is not UTF-8; save the file as UTF-8.", line, column) from None


@dataclass
class _Scalar:
    start: int
    end: int
    text: str
    style: str | None
    size: int = 1


@dataclass
class _List:
    start: int
    items: list[_Node] = field(default_factory=list)
    size: int = 1
    open: bool = True


@dataclass
class _Group:
    start: int
    items: dict[str, tuple[_Scalar, _Node]] = field(default_factory=dict)
    size: int = 1
    open: bool = True


_Node = _Scalar | _List | _Group


class _Builder:
    """Makes nodes from YAML events, complaining about what a project file has no use for."""

    def __init__(self, marks: Marks, stream: Iterator[events.Event]) -> None:
        self._marks = marks
        self._stream = stream
        self._anchors: dict[str | None, _Node] = {}
        self.index = 0
        self.complaints: list[Complaint] = []

    def document(self) -> _Node | None:
        top: _Node | None = None
        for event in self._stream:
            if isinstance(event, events.DocumentStartEvent):
                if top is not None:
                    self._stop(event, "A second document starts here with '---'; a project is one document.")
                top = self._node(next(self._stream), 1)
                if isinstance(top, _Scalar) and not top.text:
                    top = None
        return top

    def _node(self, event: events.Event, depth: int) -> _Node:
        self.index = _index(event)
        if isinstance(event, events.AliasEvent):
            return self._alias(event)
        assert isinstance(event, events.NodeEvent)
        if depth > DEEPEST:
            self._stop(
                event, f"Lists and groups are nested more than {DEEPEST} deep here; nothing needs that."
            )
        tag = getattr(event, "tag", None)
        if tag is not None and tag != "!":
            self._complain(event, "A tag such as '!!int' means nothing here; write the value alone.")
        start = _index(event)
        node: _Node
        if isinstance(event, events.ScalarEvent):
            node = _Scalar(start, _end_index(event), event.value, event.style)
            if odd := _UNPRINTABLE.search(node.text):
                self._complain(
                    event, f"This names an invisible control character (code {ord(odd[0])}); delete it."
                )
            self._name(event, node)
        elif isinstance(event, events.SequenceStartEvent):
            node = _List(start)
            self._name(event, node)
            self._fill_list(node, depth)
        else:
            node = _Group(start)
            self._name(event, node)
            self._fill_group(node, depth)
        return node

    def _name(self, event: events.NodeEvent, node: _Node) -> None:
        if event.anchor is not None:
            self._anchors[event.anchor] = node

    def _fill_list(self, node: _List, depth: int) -> None:
        while not isinstance(event := next(self._stream), events.SequenceEndEvent):
            item = self._node(event, depth + 1)
            self._grow(event, node, item)
            node.items.append(item)
        node.open = False

    def _fill_group(self, node: _Group, depth: int) -> None:
        while not isinstance(event := next(self._stream), events.MappingEndEvent):
            key = self._node(event, depth + 1)
            value = self._node(next(self._stream), depth + 1)
            self._grow(event, node, value)
            if not isinstance(key, _Scalar):
                self._complain(event, "A key is a single word or number, not a list or a group.")
            elif key.text == "<<" and key.style is None:
                self._complain(event, "'<<' does not merge keys here; write the keys out.")
            elif key.text in node.items and _alone(key, value):
                again = f"{key.text} "  # no key that is written ends in a blank
                while again in node.items:
                    again += " "
                node.items[again] = (key, value)
            elif key.text in node.items:
                line, _ = self._marks.position(node.items[key.text][0].start)
                self._complain(event, f"'{key.text}' is written twice; the first is on line {line}.")
            else:
                node.items[key.text] = (key, value)
        node.open = False

    def _alias(self, event: events.AliasEvent) -> _Node:
        node = self._anchors.get(event.anchor)
        if node is None:
            self._stop(
                event, f"'*{event.anchor}' stands for a value marked '&{event.anchor}', and none is above."
            )
        if not isinstance(node, _Scalar) and node.open:
            self._stop(event, f"'*{event.anchor}' stands inside the value that it stands for, without end.")
        return node

    def _grow(self, event: events.Event, node: _List | _Group, item: _Node) -> None:
        node.size += item.size
        if node.size > MOST_VALUES:
            self._stop(
                event, f"This is more than {MOST_VALUES:,} values, each alias counted in full; write less."
            )

    def _complain(self, event: events.Event, sentence: str) -> None:
        self.complaints.append(self._marks.at_index(_index(event), sentence))

    def _stop(self, event: events.Event, sentence: str) -> NoReturn:
        raise ProjectError([*self.complaints, self._marks.at_index(_index(event), sentence)])


def _index(event: events.Event) -> int:
    return event.start_mark.index if event.start_mark is not None else 0


def _end_index(event: events.Event) -> int:
    return event.end_mark.index if event.end_mark is not None else 0


def _alone(key: _Scalar, value: _Node) -> bool:
    """Whether a key has no ':' after it, as both of 5 in [-3,5, 2,5] have: its value is empty and where it ends."""
    return isinstance(value, _Scalar) and value.text == "" and value.style is None and value.start <= key.end


def _unfold(node: _Node, path: ValuePath, marks: Marks) -> Any:
    """Plain data from nodes; `marks` notes where each value stands (an aliased one: where it is written)."""
    if isinstance(node, _Scalar):
        marks.values[path] = Mark(node.start, node.end, node.style, node.text)
        return node.text
    marks.values[path] = Mark(node.start)
    if isinstance(node, _List):
        return [_unfold(item, (*path, n), marks) for n, item in enumerate(node.items)]
    data = {}
    for name, (key, value) in node.items.items():
        marks.keys[*path, name] = Mark(key.start, key.end, key.style, key.text)
        data[name] = _unfold(value, (*path, name), marks)
    return data
