"""What a person should know about an episode though nothing in its project file is wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from studio.handoff.captions import too_fast
from studio.handoff.chapters import FEWEST, chapters
from studio.project.model import Project
from studio.sound.loudness import Levels
from studio.timeline.plan import Plan


def findings(project: Project, plan: Plan, levels: Mapping[str, Levels] | None = None) -> Iterator[str]:
    """What a person should know though nothing is wrong with the file."""
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
            clip = float(segment.frames / plan.canvas.rate)
            yield (
                f"{segment.id}: the script takes about {float(segment.reading):.0f} s to say "
                f"and the clip lasts {clip:.1f} s."
            )
        level = (levels or {}).get(segment.id)
        if level and level.held_by_peak and level.after.integrated is not None:
            yield (
                f"{segment.id}: its peaks hold it at {level.after.integrated:.1f} LUFS, "
                f"under the target of {plan.loudness:g} LUFS."
            )
    if len(chapters(plan)) < FEWEST:
        yield f"Fewer than {FEWEST} chapters of 10 s or more; most players show none of them then."


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
