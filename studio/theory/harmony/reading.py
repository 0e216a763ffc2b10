"""What is said of one chord where it stands: its numeral, its function, where it comes from and why."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from studio.music.chart import ChordAt
from studio.music.key import Key

Function = Literal["tonic", "subdominant", "dominant", ""]
Kind = Literal["diatonic", "borrowed", "applied", "other", "none"]
Style = Literal["relative-to-major", "common-practice"]


@dataclass(frozen=True, slots=True)
class NumeralDisplay:
    """A numeral cut up for typesetting: ♭ · vi · raised "7" · stacked figures · "/" and what it is of.

    ``str()`` is its plain form: "♭VI", "ii7", "V6/5", "V4/2/vi". All parts may be empty (for N.C.).
    """

    accidental: str = ""
    base: str = ""
    raised: str = ""
    figures: tuple[str, ...] = ()
    of: str = ""

    def __str__(self) -> str:
        applied = f"/{self.of}" if self.of else ""
        return f"{self.accidental}{self.base}{self.raised}{'/'.join(self.figures)}{applied}"


@dataclass(frozen=True, slots=True)
class Reading:
    """One chord of the chart, read in its key.

    ``kind`` is "diatonic", "borrowed" (``source`` says from which mode), "applied" (``of`` is the numeral of
    the chord it points to, ``resolved`` whether that chord follows), "other", or "none" for N.C. ``pivot`` is
    the other key and the numeral in it, where a chord leads from one key into the next. ``reason`` is one
    short sentence; ``sureness`` runs from 0 to 1 and is a judgement, not a probability; ``runner_up`` is the
    numeral of the next best reading, where there is one worth telling.
    """

    at: ChordAt
    key: Key
    numeral: str
    function: Function
    kind: Kind
    of: str = ""
    resolved: bool = False
    source: str = ""
    pivot: tuple[Key, str] | None = None
    reason: str = ""
    sureness: float = 1.0
    runner_up: str = ""
    numeral_display: NumeralDisplay = field(default_factory=NumeralDisplay)
