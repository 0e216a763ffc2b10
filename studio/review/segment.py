"""What the review page says of one segment, as values."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from studio.music.timecode import can_drop, timecode
from studio.project.model import Project
from studio.project.model import Segment as WrittenSegment
from studio.review.facts_used import answers_used
from studio.review.levels import LevelRow, level_rows
from studio.review.links import Link, href, links
from studio.review.sound_sentences import sound_sentences
from studio.review.sources import files_heard_in, sources
from studio.review.times import clock
from studio.theory.plain_english import capital, listed
from studio.timeline.answers.said import Answer
from studio.timeline.plan import CalloutPlan, Plan, SegmentPlan


@dataclass(frozen=True)
class Fact:
    """A question and its answer. `belief`: what the writer expected, and how that fares; "" without one."""

    name: str
    question: str
    answer: str
    reason: str
    belief: str


@dataclass(frozen=True)
class Still:
    """A callout's picture. `crop`: style of the picture in a frame of its callout's own shape, `shape` of the frame."""

    href: str
    alt: str
    kind: str
    when: str
    shape: str
    crop: str


@dataclass(frozen=True)
class Wave:
    """The picture of an excerpt, and its words for whoever does not see it."""

    href: str
    alt: str


@dataclass(frozen=True)
class Segment:
    """A segment as it is reviewed. `chapter`: the title of the chapter that begins with it, "" where none does;
    `clip` and `wave` are None where there is none yet; `scratch`: whether it still speaks with the scratch voice."""

    anchor: str
    number: int
    title: str
    chapter: str
    start: str
    when: str
    clip: str | None
    shape: str
    scratch: bool
    wave: Wave | None
    heard: tuple[str, ...]
    levels: tuple[LevelRow, ...]
    script: tuple[str, ...]
    sources: tuple[str, ...]
    facts: tuple[Fact, ...]
    stills: tuple[Still, ...]
    findings: tuple[str, ...]
    files: tuple[Link, ...]


@dataclass(frozen=True)
class Desk:
    """What all segments are reviewed with: `findings` of the episode, `chapters` by second, the files `standing` in
    the build folder, and the words of excerpts' pictures, `waves`, by segment."""

    project: Project
    plan: Plan
    findings: Sequence[str]
    chapters: Mapping[int, str]
    standing: Collection[str]
    waves: Mapping[str, str]


def segment_of(
    desk: Desk, segment: SegmentPlan, written: WrittenSegment, about: Mapping[str, Any]
) -> Segment:
    """A segment as it is reviewed; `about` is what the report says of it."""
    canvas, clip = desk.plan.canvas, f"clips/{segment.id}.mp4"
    second = int(segment.start / canvas.rate)
    return Segment(
        anchor=f"segment-{segment.number}",
        number=segment.number,
        title=segment.title or segment.id,
        chapter=desk.chapters.get(second, ""),
        start=clock(Fraction(second)),
        when=f"{timecode(segment.start, canvas.rate, can_drop(canvas.rate))}, "
        f"{clock(segment.frames / canvas.rate)} long",
        clip=href(clip) if clip in desk.standing else None,
        shape=f"aspect-ratio: {canvas.width} / {canvas.height}",
        scratch=bool((about.get("voice") or {}).get("scratch")),
        wave=_wave(desk, segment),
        heard=sound_sentences(about),
        levels=level_rows(about),
        script=tuple(text for part in segment.script.split("\n\n") if (text := " ".join(part.split()))),
        sources=sources(about),
        facts=tuple(_fact(*fact) for fact in answers_used(desk.project, desk.plan, written)),
        stills=tuple(
            _still(segment, callout, desk.plan)
            for callout in segment.callouts
            if f"overlays/{segment.id}/{callout.name}.png" in desk.standing
        ),
        findings=tuple(_found(desk.findings, segment, about)),
        files=links(
            desk.standing,
            ("Excerpt as WAV", f"excerpts/{segment.id}.wav"),
            ("Moving overlay, .mov", f"overlays/{segment.id}.mov"),
            ("Moving overlay, .webm", f"overlays/{segment.id}.webm"),
        ),
    )


def _wave(desk: Desk, segment: SegmentPlan) -> Wave | None:
    place = f"waves/{segment.id}.png"
    return Wave(href(place), desk.waves.get(segment.id, "")) if place in desk.standing else None


def _found(findings: Sequence[str], segment: SegmentPlan, about: Mapping[str, Any]) -> list[str]:
    """What is to be known of a segment, and of the files that are heard in it: sentences begin with what they are
    about, an id or the path of a file from the project's folder on."""
    own = f"{segment.id}: "
    files = tuple(f"{file} " for file in files_heard_in(about))
    return [
        capital(found.removeprefix(own)) if found.startswith(own) else found
        for found in findings
        if found.startswith((own, *files))
    ]


def _fact(question: str, answer: Answer) -> Fact:
    fares = {"agrees": "and it is so", "open": "which may be", "disagrees": "and it is not so"}
    belief = f"Expected: {answer.expect}, {fares[answer.verdict]}." if answer.verdict else ""
    return Fact(answer.name, question, answer.words, answer.reason, belief)


def _still(segment: SegmentPlan, callout: CalloutPlan, plan: Plan) -> Still:
    """The whole canvas is in the file; the page shows the part that the callout takes."""
    rate, box = plan.canvas.rate, callout.layer.box
    shown = listed(
        f"{float(start / rate):.1f}–{float(end / rate):.1f} s" for start, end in callout.layer.times
    )
    width, left, top = (100 * side / box.width for side in (plan.canvas.width, -box.x, -box.y))
    return Still(
        href=href(f"overlays/{segment.id}/{callout.name}.png"),
        alt=callout.alt,
        kind=callout.layer.kind,
        when=f"{shown} of the clip",
        shape=f"aspect-ratio: {box.width} / {box.height}",
        crop=f"width: {width:.4f}%; margin: {top:.4f}% 0 0 {left:.4f}%",
    )
