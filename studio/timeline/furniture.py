"""The pictures that every episode has whatever it teaches: grounds, the strip, and what is burnt in.

These are contents, in the sense of `Layer.content`; the drawing room draws them under their `kind`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Backdrop:
    """A bare ground, with a title and a line about the song where there are any. Look: None."""

    kind = "backdrop"
    title: str
    line: str


@dataclass(frozen=True)
class Slate:
    """The ground of a segment without a camera: its title, and its script in pages. Look: the page from 0, or -1."""

    kind = "slate"
    title: str
    pages: tuple[str, ...]
    reading: str  # "14 s to read"


@dataclass(frozen=True)
class Strip:
    """The clapper strip that fills as an excerpt plays. Look: how many of its `bars` are filled."""

    kind = "strip"
    bars: int


@dataclass(frozen=True)
class Burnt:
    """Words burnt into the rough cut: a segment's name, or one field of its timecode. Look: the words."""

    kind = "burnt"
    widest: str  # what the field must have room for, so that digits do not move
    align: str = "left"


MarkShape = Literal["line", "dot", "pointer"]
"""An upright line across what it passes over, a filled circle, a triangle that points down."""


@dataclass(frozen=True)
class MarkPicture:
    """A small shape that moves over a callout. Look: None."""

    kind = "mark"
    shape: MarkShape
