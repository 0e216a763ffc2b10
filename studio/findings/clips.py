"""What a person should know of clips before they are published: stand-ins for voices, and names that do not sound."""

from __future__ import annotations

from collections.abc import Iterator

from studio.drawing.excerpt_picture.words import shift_words
from studio.theory.plain_english import listed
from studio.timeline.plan import Plan

ANOTHER_NOTE = 50
"""Cents; from half of a half step on, what sounds is nearer to another note than to its own."""


def clip_findings(plan: Plan) -> Iterator[str]:
    """All of them, in sentences."""
    yield from scratch_findings(plan)
    yield from moved_findings(plan)


def scratch_findings(plan: Plan) -> Iterator[str]:
    """One sentence that names the segments whose voice is a scratch voice; nothing where there is none."""
    ids = [segment.id for segment in plan.segments if segment.voice and segment.voice.kind == "scratch"]
    if ids:
        verb, them = ("speaks", "it") if len(ids) == 1 else ("speak", "them")
        yield f"{listed(ids)} {verb} with the scratch voice; record {them} before you publish."


def moved_findings(plan: Plan) -> Iterator[str]:
    """A sentence for each segment whose callouts name notes that its excerpt, moved in pitch, does not sound as."""
    for segment in plan.segments:
        cents = segment.excerpt.laid.cut.cents if segment.excerpt else 0.0
        if segment.callouts and abs(cents) >= ANOTHER_NOTE:
            yield (
                f"{segment.id}: the excerpt is moved {shift_words(cents)}, and names of notes, chords and keys on "
                "screen do not move with it; say in the script what sounds, or leave the pitch as it is."
            )
