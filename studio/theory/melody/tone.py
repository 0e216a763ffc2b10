"""What is said of one note over one chord: its kind, why, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tone:
    """The kind of a note over its chord.

    ``kind`` is one of ``KINDS``, where a suspension and a retardation carry their figures: "suspension 4–3".
    ``traits`` say more ("accented", "chromatic", "double", "upper", "decorated", …). ``sureness`` runs from 0
    to 1 and is a judgement, not a probability: how often a musician who sees the same notes and chords would
    give the same name. ``runner_up`` is the other name that some would give, or "".
    """

    kind: str
    reason: str
    traits: tuple[str, ...] = ()
    sureness: float = 0.95
    runner_up: str = ""


ORNAMENTS = ("passing", "neighbour", "double neighbour", "enclosure", "cambiata")
"""Kinds of notes that embellish others by step on both sides, alone or in a figure."""

BLUE_NOTES = {"third": "blue third", "fifth": "blue fifth", "seventh": "blue seventh"}
"""Kinds of blue notes, by the degree that is lowered."""

KINDS = (
    "chord tone", "passing", "neighbour", "double neighbour", "enclosure", "cambiata", "incomplete neighbour",
    "suspension", "retardation", "anticipation", "appoggiatura", "escape", "pedal", *BLUE_NOTES.values(), "colour tone",
    "non-chord tone", "no chord",
)  # fmt: skip
"""Every kind of note, by the names that harmony textbooks use; "enclosure" is the trade's (jazz) name for two
notes that surround the tone they lead to, an incomplete neighbour group in textbooks; so are the blue notes and
"colour tone", a ninth, eleventh or thirteenth that does not move on by step."""
