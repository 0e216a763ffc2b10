"""What a person should know about an episode though nothing in its project file is wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from studio.findings.sound import level_findings, source_findings
from studio.handoff.captions import too_fast
from studio.handoff.chapters import FEWEST, chapters
from studio.project.model import Project
from studio.sound.condition import Condition
from studio.sound.loudness import Levels
from studio.timeline.heard import RATE
from studio.timeline.plan import Plan, SegmentPlan


def findings(
    project: Project,
    plan: Plan,
    levels: Mapping[str, Levels] | None = None,
    sources: Mapping[str, Condition] | None = None,
    excerpts: Mapping[str, Levels] | None = None,
    whole: Levels | None = None,
) -> Iterator[str]:
    """What a person should know though nothing is wrong with the file. Where they were measured: `levels` of the clips
    and of the `excerpts` by themselves, by segment id, the condition of each sound file by its path, and the levels of
    the `whole` rough cut."""
    if plan.keys and not project.song.keys:
        keys = ", then ".join(str(key) for _, key in plan.keys)
        yield f"The project names no key, so it was inferred from the music: {keys}."
    yield from _keys_apart(project, plan)
    for name, part in project.song.parts.items():
        if part.left_out:
            yield f"{name} has {' and '.join(part.left_out)}, which are not read: no picture and no fact has them."
    yield from _beliefs(project, plan)
    for segment in plan.segments:
        if too_fast(segment, plan.canvas.rate):
            yield _too_fast(segment, segment.frames / plan.canvas.rate)
    yield from level_findings(plan, levels, excerpts, whole)
    yield from source_findings(sources or {})
    if len(chapters(plan)) < FEWEST:
        yield f"Fewer than {FEWEST} chapters of 10 s or more; most players show none of them then."


def _too_fast(segment: SegmentPlan, clip: Fraction) -> str:
    """What is too short for a script: its narration, the clip for whoever says it, or the clip for who reads it."""
    takes = f"{segment.id}: the script takes about {float(segment.reading):.0f} s to say"
    if segment.voice and segment.voice.kind == "narration":
        said = float(Fraction(segment.voice.laid.cut.length, RATE))
        return (
            f"{takes} and its narration lasts {said:.1f} s, so captions go by too fast; is it the right file?"
        )
    if segment.reading > clip:
        return f"{takes} and the clip lasts {float(clip):.1f} s; write less, or use more of the take."
    return (
        f"{segment.id}: the clip lasts {float(clip):.1f} s, too short to read the {len(segment.script)} letters of its "
        "script in captions; use shorter words, or a longer clip."
    )


def _keys_apart(project: Project, plan: Plan) -> Iterator[str]:
    """Where a part is written under another key signature than the project's key has."""
    time = project.song.time
    for name, part in project.song.parts.items():
        for at, key in plan.keys:
            if (written := part.signature(at)) != key.signature:
                yield (
                    f"{name} is written with {_signature(written)} at {time.moment(at)}, "
                    f"and {key} has {_signature(key.signature)}; is one of them wrong?"
                )


def _beliefs(project: Project, plan: Plan) -> Iterator[str]:
    """Where a fact says what its writer expects, and the music says something else or does not decide."""
    for answer in plan.answers:
        if answer.verdict == "disagrees":
            said = f"'{answer.name}' expects {answer.expect}, and the answer is {answer.words}"
        elif answer.verdict == "open":
            said = f"'{answer.name}' expects {answer.expect}, which may be; the answer is {answer.words}"
        else:
            continue
        sentence = f"{said} ({answer.where}). {answer.reason}".rstrip()
        yield str(project.marks.complaint(("facts", answer.name, "expect"), sentence))


def _signature(sharps: int) -> str:
    if not sharps:
        return "no sharps or flats"
    kind = "sharp" if sharps > 0 else "flat"
    return f"{abs(sharps)} {kind}{'s' if abs(sharps) > 1 else ''}"
