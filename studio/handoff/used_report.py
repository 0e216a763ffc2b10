"""What the report says of how much of the recording an episode takes."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from studio.handoff.figures import percent, seconds
from studio.project.model import Project
from studio.timeline.heard import RATE, Cut, Pass, Source
from studio.timeline.plan import Plan


def used(project: Project, plan: Plan) -> dict[str, Any]:
    """How much of the recording the episode takes, by itself or through its stems.

    What the program's own instrument plays is no use of the recording, though it may be one of the composition: it is
    told apart. The recording's own seconds are counted, once for each pass; `heard_s` is how long it sounds.
    """
    cuts = [segment.excerpt.laid.cut for segment in plan.segments if segment.excerpt]
    taking = [cut for cut in cuts if any(map(_takes, cut.passes))]
    examples = [cut for cut in cuts if cut not in taking]
    passes = [one for cut in taking for one in cut.passes]
    covered, whole = _covered(passes), _whole(project)
    heard = Fraction(sum(cut.music for cut in taking), RATE)
    return {
        "excerpts": len(taking),
        "played_s": seconds(Fraction(sum(one.length for one in passes), RATE)),
        "heard_s": seconds(heard),
        "longest_excerpt_s": seconds(max(map(_lasts, taking), default=Fraction(0))),
        "different_parts_of_the_recording_s": seconds(covered),
        "share_of_episode_percent": percent(heard, plan.frames / plan.canvas.rate),
        "share_of_recording_percent": percent(covered, whole) if whole else None,
        "played_examples": len(examples),
        "played_examples_s": seconds(Fraction(sum(cut.music for cut in examples), RATE)),
    }


def _takes(one: Pass) -> bool:
    """Whether any of it is the recording."""
    return any(isinstance(source, Source) for source in one.sources)


def _lasts(cut: Cut) -> Fraction:
    """Seconds for which an excerpt sounds."""
    return Fraction(cut.music, RATE)


def _covered(passes: Iterable[Pass]) -> Fraction:
    """Seconds of the recording that are heard at least once."""
    covered = reach = 0
    for one in sorted(passes, key=lambda one: one.start):
        covered += max(0, one.end - max(one.start, reach))
        reach = max(reach, one.end)
    return Fraction(covered, RATE)


def _whole(project: Project) -> Fraction | None:
    """Seconds of the recording; of the longest stem, where there are only stems."""
    if project.song.recording is not None:
        return project.song.recording.seconds
    return max((stem.seconds for stem in project.song.stems.values()), default=None)
