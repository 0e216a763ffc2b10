"""Words with facts in them: `{name}` stands for the answer of a fact, `{{` for a brace."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from studio.project.complaints import MisfitError, unknown_name

_BRACE = re.compile(r"\{\{|\{([^{}\n]*)(\}?)")


def fact_names(text: str) -> Iterator[tuple[str, int]]:
    """(name, its first character in the text) for each fact that the text asks for.

    Raises MisfitError at a brace that is not closed.

    >>> list(fact_names("Under it sits {loop}."))
    [('loop', 15)]
    """
    for found in _BRACE.finditer(text):
        if found[0] == "{{":
            continue
        if not found[2]:
            raise MisfitError(
                "'{' begins a fact and has no '}'; a brace on its own is written '{{'", found.start()
            )
        if not found[1].strip():
            raise MisfitError("'{}' names no fact; a brace on its own is written '{{'", found.start())
        yield found[1].strip(), found.start() + 1


def check_facts(text: str, known: Callable[[], frozenset[str]]) -> str:
    """The text as it is, if each fact in it is known. Raises MisfitError with every one that is not."""
    unknown = [
        MisfitError(unknown_name("a fact", name, facts), offset)
        for name, offset in fact_names(text)
        if name not in (facts := known())
    ]
    if unknown:
        unknown[0].every = tuple(unknown)
        raise unknown[0]
    return text


def fill(text: str, answer: Callable[[str], str]) -> str:
    """The text with each fact answered and each doubled brace single."""
    return _BRACE.sub(lambda found: "{" if found[0] == "{{" else answer(found[1].strip()), text)
