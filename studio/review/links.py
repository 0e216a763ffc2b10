"""Links of the review page: files of the build folder, as a page reaches them that lies one folder down."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from urllib.parse import quote


@dataclass(frozen=True)
class Link:
    """A file of the build folder, as the page names and reaches it."""

    words: str
    href: str


def links(standing: Collection[str], *wanted: tuple[str, str]) -> tuple[Link, ...]:
    """A link for each (words, path) whose file there is: `standing` are paths relative to the build folder."""
    return tuple(Link(words, href(place)) for words, place in wanted if place in standing)


def href(place: str) -> str:
    """A path of the build folder as a link from the page."""
    return quote(f"../{place}")
