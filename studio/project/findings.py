"""The complaints of one reading of a project file, gathered as they are found."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from studio.project.complaints import Complaint, MisfitError, UnknowableError
from studio.project.marks import Marks, ValuePath

Value = TypeVar("Value")


@dataclass
class Findings:
    """The complaints of a run so far, and the paths whose values cannot be relied upon."""

    marks: Marks
    complaints: list[Complaint] = field(default_factory=list)
    broken: set[ValuePath] = field(default_factory=set)

    def complain(self, path: ValuePath, sentence: str, offset: int = 0) -> None:
        self.complaints.append(self.marks.complaint(path, sentence, offset))
        self.broken.add(path)

    def lacks(self, path: ValuePath, sentence: str) -> None:
        """A complaint about something that is not there; what is there can still be relied upon."""
        self.complaints.append(self.marks.complaint(path, sentence))

    def complain_key(self, path: ValuePath, sentence: str, offset: int = 0) -> None:
        self.complaints.append(self.marks.key_complaint(path, sentence, offset))
        self.broken.add(path)

    def attempt(self, path: ValuePath, read: Callable[[], Value], key: bool = False) -> Value | None:
        """What `read` gives, or None after a complaint at the path when it does not fit."""
        try:
            return read()
        except ValueError as error:
            self.misfit(path, error, key)
        return None

    def misfit(self, path: ValuePath, error: Exception, key: bool = False) -> None:
        """The complaints that an error stands for: none for what cannot be judged."""
        self.broken.add(path)
        if isinstance(error, UnknowableError):
            return
        complain = self.complain_key if key else self.complain
        if not isinstance(error, MisfitError):
            complain(path, str(error))
            return
        for each in error.every:
            complain(path, each.sentence, each.offset)

    def sound(self, *path: str | int) -> bool:
        """Whether neither this nor anything in it or around it is wrong."""
        return not any(path[: len(at)] == at or at[: len(path)] == path for at in self.broken)
