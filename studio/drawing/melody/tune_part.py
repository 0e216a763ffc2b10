"""Which part is meant where a callout speaks of the tune."""

from __future__ import annotations

from studio.theory.plain_english import listed
from studio.timeline.ask import Ask


def tune_part(written: str | None, ask: Ask) -> str:
    """The part that is written, else the one that carries the song's tune; refuses where none plainly does."""
    part = written or ask.facts.lead
    if part is None:
        names = list(ask.facts.song.parts)
        many = f"none of the parts is plainly the tune; write part: {listed(names, 'or')}"
        ask.refuse("part", many if names else "the song has no written parts; write one under song.parts")
    return part
