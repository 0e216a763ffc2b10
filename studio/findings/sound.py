"""What a person should know of an episode's sound: where it stays short of its target, and what no gain can mend."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from studio.project.times import time_text
from studio.sound.condition import Condition
from studio.sound.loudness import Levels, Quiet
from studio.timeline.plan import Plan

FAR_OFF_ZERO = 0.005
"""Of full scale; -46 dB. Under it an offset takes no room to speak of and makes no click at a cut (common practice)."""
SOFTEST = -40.0
"""dBTP; what has no loudness and higher peaks is not soft but short."""
_MORE = {1: "one more place"}


def level_findings(
    plan: Plan,
    clips: Mapping[str, Levels] | None = None,
    excerpts: Mapping[str, Levels] | None = None,
    whole: Levels | None = None,
) -> Iterator[str]:
    """A sentence for each clip, each excerpt by itself, and the rough cut, where its peaks hold it under the target,
    and for each camera whose own sound was left quiet. `clips` and `excerpts` are by segment id, as far as they were
    measured. Of an excerpt nothing is said where its clip says it."""
    for segment in plan.segments:
        clip, alone = (clips or {}).get(segment.id), (excerpts or {}).get(segment.id)
        if clip and clip.quiet_camera:
            yield _quiet(segment.id, clip.quiet_camera)
        if _too_soft(alone):
            yield (
                f"{segment.id}: its excerpt is too soft to be brought to any loudness, and was left as it is; "
                "look at its place and its gains."
            )
        elif clip and clip.held_by_peak:
            yield _held(f"{segment.id}: its peaks hold it", clip, plan)
        elif alone and alone.held_by_peak:
            yield _held(f"{segment.id}: the peaks of its excerpt hold it", alone, plan)
    if whole and whole.held_by_peak:
        yield _held("The rough cut: its peaks hold it", whole, plan)


def _too_soft(excerpt: Levels | None) -> bool:
    """Whether an excerpt is silent, or stays under the absolute gate (BS.1770): no gain is right for it."""
    if excerpt is None or excerpt.after.integrated is not None:
        return False
    peak = excerpt.after.true_peak
    return peak is None or peak < SOFTEST


def _held(what: str, levels: Levels, plan: Plan) -> str:
    reached = levels.after.integrated
    where = "under" if reached is None else f"at {reached:.1f} LUFS, under"
    return (
        f"{what} {where} the target of {plan.loudness:g} LUFS, with {levels.limited_by_db:.0f} dB of gain reduction on "
        "them already; softer hits or a lower target would help."
    )


def _quiet(segment: str, left: Quiet) -> str:
    if left.lifted_db <= 0:
        return (
            f"{segment}: nothing stands out in the camera's own sound, which is at {left.integrated:.0f} LUFS; it is "
            "taken for the tone of the room and not brought up. With sound: no it is left out."
        )
    return (
        f"{segment}: the camera's own sound is at {left.integrated:.0f} LUFS, and is brought up by "
        f"{left.lifted_db:.0f} dB and no more, because the hiss of its room comes up with it; a microphone closer to "
        "what should be heard would help."
    )


def source_findings(sources: Mapping[str, Condition]) -> Iterator[str]:
    """A sentence for each flaw of each file, by its path as the reader should see it."""
    for name, found in sources.items():
        if found.clipped:
            more = len(found.clipped) - 1
            also = f" and {_MORE.get(more, f'{more} more places')}" if more else ""
            yield f"{name} is clipped at {_clock(found.clipped[0])}{also}; ask for a mix with headroom."
        if found.offset is not None and abs(found.offset) >= FAR_OFF_ZERO:
            yield (
                f"{name} has a DC offset of {abs(found.offset):.2g} of full scale, which takes headroom and can click "
                "at cuts; ask for it with a high-pass filter at 20 Hz."
            )


def _clock(seconds: float) -> str:
    return time_text(Fraction(round(seconds * 100), 100))
