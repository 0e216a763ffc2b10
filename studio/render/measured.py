"""What is measured of an episode's sound beside its clips: each excerpt alone, and the files that it comes from."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass

from studio.render.clip_sound import heard_in
from studio.render.hashing import name_of
from studio.render.sound_names import sound_code
from studio.render.soundtrack import excerpt_track
from studio.render.workshop import Workshop
from studio.sound.condition import Condition, condition
from studio.sound.loudness import Levels
from studio.timeline.heard import Cut, Source
from studio.timeline.plan import Plan
from studio.whole_file import whole_file


@dataclass(frozen=True)
class Measured:
    """Levels of each excerpt by segment id, and the condition of each sound file by its path."""

    excerpts: Mapping[str, Levels]
    sources: Mapping[str, Condition]


def measured(plan: Plan, shop: Workshop) -> Measured:
    """Measure what is not known yet. Of a file, only what is heard is looked at. Raises SoundError, in words, for what
    cannot be read or cut, OSError when the disk refuses."""
    excerpts = {}
    for segment in plan.segments:
        if track := excerpt_track(plan, segment, shop):
            excerpts[segment.id] = track.levels
    return Measured(excerpts, _conditions(heard_cuts(plan), shop))


def excerpt_sources(plan: Plan, shop: Workshop) -> Mapping[str, Condition]:
    """The condition of each sound file that excerpts are cut from, by its path, for when no clips are made. Raises
    like `measured`."""
    return _conditions([segment.excerpt.laid.cut for segment in plan.segments if segment.excerpt], shop)


def heard_cuts(plan: Plan) -> Iterator[Cut]:
    """All that is heard in the clips of an episode, in order."""
    for segment in plan.segments:
        voice, beside = heard_in(segment)
        yield from (laid.cut for laid in (voice, *beside) if laid)


def stretches(cuts: Iterable[Cut]) -> dict[str, list[tuple[int, int]]]:
    """By path, the stretches (first sample, sample after the last) of each file that are heard in cuts, in order; those
    that meet or overlap are one."""
    found: dict[str, list[tuple[int, int]]] = {}
    for cut in cuts:
        for one in cut.passes:
            for source in one.sources:
                if isinstance(source, Source):
                    found.setdefault(source.path, []).append((one.start, one.end))
    return {path: _joined(sorted(parts)) for path, parts in found.items()}


def _joined(parts: list[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for start, end in parts:
        if joined and start <= joined[-1][1]:
            joined[-1] = joined[-1][0], max(end, joined[-1][1])
        else:
            joined.append((start, end))
    return joined


def _conditions(cuts: Iterable[Cut], shop: Workshop) -> dict[str, Condition]:
    return {path: _condition(path, parts, shop) for path, parts in stretches(cuts).items()}


def _condition(path: str, parts: list[tuple[int, int]], shop: Workshop) -> Condition:
    """The condition of a file from the store, or looked at and put there."""
    about = shop.store.path(name_of("condition", shop.digest(path), parts, sound_code()), ".json")
    if shop.store.has(about.stem, ".json"):
        try:
            known = json.loads(about.read_text("utf-8"))
            return Condition(**{**known, "clipped": tuple(known["clipped"])})
        except (OSError, ValueError, TypeError, KeyError):
            pass
    found = condition(path, parts)
    with whole_file(about) as part:
        part.write_text(json.dumps(asdict(found)), "utf-8")
    return found
