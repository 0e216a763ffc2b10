"""Draft clips: chunks of picture made where they are missing, joined with the sound by copying."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from studio.render.chunks import Chunk, chunks_of
from studio.render.clip_sound import samples_at
from studio.render.mux import join
from studio.render.soundtrack import clip_track, encoded
from studio.render.takes import Take
from studio.render.workers import make
from studio.render.workshop import Workshop
from studio.timeline.burnt import burnt_over
from studio.timeline.plan import Plan, SegmentPlan

ENDING = ".mp4"


def chunks_for(plan: Plan, segment: SegmentPlan, burnt: bool, shop: Workshop) -> tuple[Chunk, ...]:
    """A segment's pictures in chunks; `burnt`: with its name and timecode over them, for the rough cut.

    Where a scratch voice speaks, the pictures say so over all else.
    """
    camera = segment.camera
    take = Take(camera.path, shop.digest(camera.path), camera.start, camera.end) if camera else None
    over = burnt_over(segment.burnt if burnt else (), segment.scratch, plan.canvas)
    return chunks_of(plan.canvas, segment.frames, segment.ground, take, segment.layers + over)


def make_chunks(chunks: Sequence[Chunk], shop: Workshop) -> list[Path]:
    """The files of the chunks, in order; those that are not in the store are made, each name once."""
    names = [chunk.name(shop.theme_name) for chunk in chunks]
    wanted = {
        name: chunk for name, chunk in zip(names, chunks, strict=True) if not shop.store.has(name, ENDING)
    }
    if wanted:
        jobs = [(chunk, shop.store.path(name, ENDING)) for name, chunk in wanted.items()]
        with shop.progress.stage("pictures", sum(chunk.frames for chunk, _ in jobs)) as step:
            make(jobs, shop.theme, shop.workers, step)
        shop.encoded += len(jobs)
    return [shop.store.path(name, ENDING) for name in names]


def clip_path(segment: SegmentPlan, shop: Workshop) -> Path:
    return shop.build / "clips" / f"{segment.id}{ENDING}"


def make_clip(plan: Plan, segment: SegmentPlan, shop: Workshop) -> bool:
    """Write a segment's draft clip from its chunks; says whether it had to be written."""
    pictures = make_chunks(chunks_for(plan, segment, False, shop), shop)
    sound = encoded(
        [(clip_track(plan, segment, shop), 0)], samples_at(segment.frames, plan.canvas.rate), shop
    )
    path = clip_path(segment, shop)
    name = "+".join(part.stem for part in (*pictures, sound))
    return shop.ledger.make(path, name, lambda: join(pictures, sound, plan.canvas.rate, path))
