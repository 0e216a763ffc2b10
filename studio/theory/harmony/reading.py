"""What is said of one chord where it stands: its numeral, its function, where it comes from and why."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from studio.music.chart import ChordAt
from studio.music.key import Key

Function = Literal["tonic", "subdominant", "dominant", ""]
Kind = Literal[
    "diatonic",
    "borrowed",
    "applied",
    "chromatic mediant",
    "Neapolitan",
    "augmented sixth",
    "substitute dominant",
    "common-tone diminished",
    "passing",
    "blues",
    "other",
    "none",
]
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

    ``kind`` says what the chord is in its key: "borrowed" (``source`` says from which mode), "applied" or
    "substitute dominant" (``of`` is the numeral of the chord it points to, "" for the tonic, ``resolved``
    whether that chord follows), "other" where none of the kinds fits, "none" for N.C. ``name`` is the trade's
    name where there is one beside the kind: "German augmented sixth", "backdoor dominant", "passing diminished".

    ``pivot`` is the other key and the numeral in it, where a chord leads from one key into the next. ``reason``
    is one short sentence. ``sureness`` runs from 0 to 1 and is a judgement, not a probability;
    ``studio.theory.harmony.sureness`` says how it follows from the lead over the next best reading.
    ``runner_up`` is the numeral of that reading, where it is worth telling.
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
    name: str = ""
