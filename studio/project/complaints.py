"""What is wrong with a project file, said in plain sentences with file, line and column."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

_MOST_LISTED = 16


@dataclass(frozen=True, order=True)
class Complaint:
    """One mistake: where it is (line and column count from 1) and what would be right."""

    file: str
    line: int
    column: int
    sentence: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}: {self.sentence}"


class ProjectError(Exception):
    """A project that cannot be built, with every complaint about it, in file order."""

    def __init__(self, complaints: Iterable[Complaint]) -> None:
        self.complaints = tuple(sorted(set(complaints)))
        super().__init__("\n".join(map(str, self.complaints)))


class MisfitError(ValueError):
    """One value that does not fit, as a plain sentence, raised before it is known where the value stands.

    `offset` is the character of the value (from 0) at which it stops making sense. `every` holds all that is
    wrong with the value, this first.
    """

    def __init__(self, sentence: str, offset: int = 0) -> None:
        self.sentence = sentence
        self.offset = offset
        self.every: tuple[MisfitError, ...] = (self,)
        super().__init__(sentence)


class UnknowableError(MisfitError):
    """A value that cannot be judged, because what it depends on is wrong; it gets no complaint of its own."""

    def __init__(self) -> None:
        super().__init__("this depends on something else that is wrong in the file")


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name that a mistyped one most likely meant, or None when nothing is near."""
    by_case = {choice.casefold(): choice for choice in known}
    found = difflib.get_close_matches(name.casefold(), by_case, n=1, cutoff=0.6)
    return by_case[found[0]] if found else None


def unknown_name(what: str, name: str, known: Iterable[str]) -> str:
    """`'bas' is not a stem; did you mean 'bass'?`, or the names that there are."""
    choices = sorted(known)
    guess = nearest(name, choices)
    if guess is not None:
        return f"'{name}' is not {what}; did you mean '{guess}'?"
    if not choices:
        return f"'{name}' is not {what}; there are none here."
    listed = ", ".join(choices[:_MOST_LISTED]) + (", …" if len(choices) > _MOST_LISTED else "")
    return f"'{name}' is not {what}; choose from {listed}."
