"""The rough cut: all clips in order, with name and timecode burnt in, joined without encoding pictures again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from studio.cut.rough_cut_sound import rough_cut_sound
from studio.render.chunks import Chunk, chunks_of
from studio.render.clips import chunks_for, make_chunks
from studio.render.mux import join
from studio.render.workshop import Workshop
from studio.sound.loudness import Levels
from studio.timeline.furniture import Backdrop
from studio.timeline.plan import Plan
from studio.timeline.state import Box, Layer, State


def rough_cut_chunks(plan: Plan, burnt: bool, shop: Workshop) -> tuple[Chunk, ...]:
    """The pictures of the whole episode; where nothing is planned yet, a bare ground."""
    return tuple(_chunks(plan, burnt, shop))


def _chunks(plan: Plan, burnt: bool, shop: Workshop) -> Iterator[Chunk]:
    at = 0
    for segment in plan.segments:
        if segment.start > at:
            yield from _gap(plan, segment.start - at)
        yield from chunks_for(plan, segment, burnt, shop)
        at = segment.end


def _gap(plan: Plan, frames: int) -> tuple[Chunk, ...]:
    whole = Box(0, 0, plan.canvas.width, plan.canvas.height)
    ground = Layer(Backdrop.kind, Backdrop("", ""), whole, (State(0, frames, None),))
    return chunks_of(plan.canvas, frames, ground, None, ())


def make_rough_cut(plan: Plan, burnt: bool, shop: Workshop) -> bool:
    """Write `rough-cut.mp4`; says whether it had to be written. Raises SoundError and TakeError, in words, for what
    cannot be read or encoded, OSError when the disk refuses."""
    pictures = make_chunks(rough_cut_chunks(plan, burnt, shop), shop)
    sound, _ = rough_cut_sound(plan, shop)
    path = rough_cut_path(shop)
    name = "+".join(part.stem for part in (*pictures, sound))
    return shop.ledger.make(path, name, lambda: join(pictures, sound, plan.canvas.rate, path))


def rough_cut_levels(plan: Plan, shop: Workshop) -> Levels:
    """How loud the rough cut is, and what brought it there; its sound is made if it is not there yet."""
    return rough_cut_sound(plan, shop)[1]


def rough_cut_path(shop: Workshop) -> Path:
    """Where the rough cut lies once it is made."""
    return shop.build / "rough-cut.mp4"
