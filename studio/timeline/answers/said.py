"""What theory says to one question, and the answer that a project gets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio.music.place import Span

Verdict = Literal["agrees", "open", "disagrees", ""]


@dataclass(frozen=True, slots=True)
class Said:
    """An answer in words, before it is known who asked.

    ``also`` are other names of the same answer ("♭13" for "♭6"); ``possible`` the answers that the music
    allows as well, where it does not decide. ``span`` is where it holds, if that is not all of what was asked about.
    ``sureness`` runs from 0 to 1.
    """

    words: str
    reason: str = ""
    sureness: float = 1.0
    runner_up: str = ""
    also: tuple[str, ...] = ()
    possible: tuple[str, ...] = ()
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """A fact of the project, answered: the words that stand for ``{name}``, where it holds, and why.

    ``expect`` is what its writer believes, and ``verdict`` how that compares: it "agrees", it "disagrees", or
    the music leaves it "open"; both are "" where nothing is expected.
    """

    name: str
    kind: str
    words: str
    where: str
    reason: str
    sureness: float = 1.0
    runner_up: str = ""
    expect: str = ""
    verdict: Verdict = ""
