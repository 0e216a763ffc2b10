"""Words with facts in them.

`{name}` stands for the answer of a fact, `{degree: lead, at: 6.1}` for the answer to a question asked on the
spot, and `{{` for a brace.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from studio.project.complaints import MisfitError, UnknowableError, nearest, unknown_name

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


def check_facts(text: str, known: Callable[[], frozenset[str]], ask: Callable[[str], None]) -> str:
    """The text as it is, if each fact in it is known, and each question has an answer (`ask` takes them in).

    Raises MisfitError with every one that is not.
    """
    wrong = [
        MisfitError(misfit.sentence, offset)
        for name, offset in fact_names(text)
        if (misfit := _misfit(name, known, ask)) is not None
    ]
    if wrong:
        wrong[0].every = tuple(wrong)
        raise wrong[0]
    return text


def _misfit(name: str, known: Callable[[], frozenset[str]], ask: Callable[[str], None]) -> MisfitError | None:
    if ":" not in name:
        facts = known()
        if name in facts:
            return None
        if " " in name and nearest(name, facts) is None:
            return MisfitError(f"'{name}' is not a fact; a question has colons, as {{degree: lead, at: 6.1}}")
        return MisfitError(unknown_name("a fact", name, facts))
    try:
        ask(name)
    except UnknowableError:
        raise
    except MisfitError as misfit:
        return misfit
    return None


def fill(text: str, answer: Callable[[str], str]) -> str:
    """The text with each fact answered and each doubled brace single."""
    return _BRACE.sub(lambda found: "{" if found[0] == "{{" else answer(found[1].strip()), text)
