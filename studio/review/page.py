"""What the review page says, as values: the template sets them and decides nothing."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any
from urllib.parse import quote

from studio.music.timecode import can_drop, timecode
from studio.project.model import Project
from studio.project.model import Segment as WrittenSegment
from studio.review.facts_used import answers_used
from studio.timeline.answers.said import Answer
from studio.timeline.plan import CalloutPlan, Plan, SegmentPlan


@dataclass(frozen=True)
class Link:
    """A file of the build folder, as the page names and reaches it."""

    words: str
    href: str


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
class Segment:
    """A segment as it is reviewed. `chapter`: the title of the chapter that begins with it, "" where none does;
    `clip` is None where there is none yet."""

    anchor: str
    number: int
    title: str
    chapter: str
    start: str
    when: str
    clip: str | None
    shape: str
    script: tuple[str, ...]
    sources: tuple[str, ...]
    facts: tuple[Fact, ...]
    stills: tuple[Still, ...]
    findings: tuple[str, ...]
    files: tuple[Link, ...]


@dataclass(frozen=True)
class Page:
    """The review page of an episode."""

    title: str
    song: str
    about: str
    made_with: str
    findings: tuple[str, ...]
    segments: tuple[Segment, ...]
    used: tuple[tuple[str, str], ...]
    care: str
    files: tuple[Link, ...]


def page_of(
    project: Project,
    plan: Plan,
    report: Mapping[str, Any],
    chapters: Sequence[tuple[int, str]],
    standing: Collection[str],
) -> Page:
    """The page of an episode.

    `report` is what `report.json` says; `chapters` are (second, title); `standing` are the paths, relative to the
    build folder, of the files that there are: nothing else is linked to.
    """
    written = {segment.id: segment for segment in project.segments}
    findings: list[str] = list(report["findings"])
    song = " · ".join(text for text in (project.song.title, project.song.by) if text)
    length, marks = _clock(plan.frames / plan.canvas.rate), dict(chapters)
    return Page(
        title=plan.title,
        song=song,
        about=f"{plan.canvas.width}×{plan.canvas.height}, {float(plan.canvas.rate):g} frames a second, {length}",
        made_with=report["made_with"],
        findings=tuple(findings),
        segments=tuple(
            _segment(project, plan, segment, written[segment.id], about, findings, marks, standing)
            for segment, about in zip(plan.segments, report["segments"], strict=True)
        ),
        used=_used(report["used"]),
        care=report["care"],
        files=_links(
            standing,
            ("Rough cut", "rough-cut.mp4"),
            ("Captions", "captions.vtt"),
            ("Chapters", "chapters.txt"),
            ("Report", "report.json"),
        ),
    )


def _segment(
    project: Project,
    plan: Plan,
    segment: SegmentPlan,
    written: WrittenSegment,
    about: Mapping[str, Any],
    findings: Sequence[str],
    chapters: Mapping[int, str],
    standing: Collection[str],
) -> Segment:
    rate, clip = plan.canvas.rate, f"clips/{segment.id}.mp4"
    starts = timecode(segment.start, rate, can_drop(rate))
    return Segment(
        anchor=f"segment-{segment.number}",
        number=segment.number,
        title=segment.title or segment.id,
        chapter=chapters.get(int(segment.start / rate), ""),
        start=_clock(Fraction(int(segment.start / rate))),
        when=f"{starts}, {_clock(segment.frames / rate)} long",
        clip=_href(clip) if clip in standing else None,
        shape=f"aspect-ratio: {plan.canvas.width} / {plan.canvas.height}",
        script=tuple(text for part in segment.script.split("\n\n") if (text := " ".join(part.split()))),
        sources=_sources(about),
        facts=tuple(_fact(*fact) for fact in answers_used(project, plan, written)),
        stills=tuple(
            _still(segment, callout, plan)
            for callout in segment.callouts
            if f"overlays/{segment.id}/{callout.name}.png" in standing
        ),
        findings=tuple(
            _sentence(sentence.removeprefix(f"{segment.id}: "))
            for sentence in findings
            if sentence.startswith(f"{segment.id}: ")
        ),
        files=_links(
            standing,
            ("Excerpt as WAV", f"excerpts/{segment.id}.wav"),
            ("Moving overlay, .mov", f"overlays/{segment.id}.mov"),
            ("Moving overlay, .webm", f"overlays/{segment.id}.webm"),
        ),
    )


def _fact(question: str, answer: Answer) -> Fact:
    fares = {"agrees": "and it is so", "open": "which may be", "disagrees": "and it is not so"}
    belief = f"Expected: {answer.expect}, {fares[answer.verdict]}." if answer.verdict else ""
    return Fact(answer.name, question, answer.words, answer.reason, belief)


def _still(segment: SegmentPlan, callout: CalloutPlan, plan: Plan) -> Still:
    """The whole canvas is in the file; the page shows the part that the callout takes."""
    rate, box = plan.canvas.rate, callout.layer.box
    start, end = (float(frame / rate) for frame in (callout.layer.start, callout.layer.end))
    width, left, top = (100 * side / box.width for side in (plan.canvas.width, -box.x, -box.y))
    return Still(
        href=_href(f"overlays/{segment.id}/{callout.name}.png"),
        alt=callout.alt,
        kind=callout.layer.kind,
        when=f"{start:.1f}–{end:.1f} s of the clip",
        shape=f"aspect-ratio: {box.width} / {box.height}",
        crop=f"width: {width:.4f}%; margin: {top:.4f}% 0 0 {left:.4f}%",
    )


def _sources(about: Mapping[str, Any]) -> tuple[str, ...]:
    """Where picture and sound come from, a sentence each."""
    found = []
    if camera := about.get("camera"):
        take, begin, end = camera["take"], camera["from_s"], camera["to_s"]
        found.append(f"Camera: {take}, {_exact(begin)} to {_exact(end)}.")
    if excerpt := about.get("excerpt"):
        begin, end = _exact(excerpt["source_in_s"]), _exact(excerpt["source_out_s"])
        found.append(
            f"Excerpt: {excerpt['where']} ({', '.join(excerpt['stems'])}), {begin} to {end} of the recording."
        )
    if sound := about.get("sound"):
        loudness, peak = sound["integrated_LUFS"], sound["true_peak_dBTP"]
        if loudness is not None and peak is not None:
            found.append(f"Sound: {loudness:.1f} LUFS, true peak {peak:.1f} dBTP.")
    return tuple(found)


def _used(used: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
    """What of the recording the episode plays, as (what, how much)."""
    rows = [
        ("Excerpts", str(used["excerpts"])),
        ("Played in all, counting repeats", f"{used['played_s']:.1f} s"),
        ("Longest single excerpt", f"{used['longest_excerpt_s']:.1f} s"),
        ("Different parts of the recording", f"{used['different_parts_of_the_recording_s']:.1f} s"),
        ("Share of the episode", _percent(used["share_of_episode_percent"])),
        ("Share of the recording", _percent(used["share_of_recording_percent"])),
    ]
    return tuple(row for row in rows if row[1])


def _percent(share: float | None) -> str:
    return "" if share is None else f"{share:.1f} %"


def _links(standing: Collection[str], *wanted: tuple[str, str]) -> tuple[Link, ...]:
    return tuple(Link(words, _href(place)) for words, place in wanted if place in standing)


def _href(place: str) -> str:
    """A path of the build folder as a link from the page, which lies one folder down."""
    return quote(f"../{place}")


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _clock(seconds: Fraction) -> str:
    whole = int(seconds + Fraction(1, 2))
    return f"{whole // 60}:{whole % 60:02}"


def _exact(seconds: float) -> str:
    minutes, rest = divmod(round(seconds, 2), 60)
    return f"{int(minutes)}:{rest:05.2f}"
