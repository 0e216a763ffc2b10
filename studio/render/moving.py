"""Moving overlays: all that lies over a clip's ground, with alpha, in sync with the clip, on request."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import av

from studio.drawing.themes.theme import Theme
from studio.project.episode_values import Canvas
from studio.render.alpha_codecs import CODECS, AlphaCodec
from studio.render.hashing import code_digest, name_of
from studio.render.overlay_picture import OverlayPicture, runs
from studio.render.workshop import Workshop
from studio.timeline.plan import Plan, SegmentPlan
from studio.timeline.state import Layer
from studio.whole_file import whole_file

MOVING = tuple(CODECS)
"""The names of the codecs that a moving overlay can have."""


def moving_path(segment: SegmentPlan, codec: str, shop: Workshop) -> Path:
    return shop.build / "overlays" / f"{segment.id}{CODECS[codec].ending}"


def make_moving(plan: Plan, segment: SegmentPlan, codec: str, shop: Workshop) -> bool:
    """Write a segment's moving overlay in the codec named; says whether it had to be written."""
    path, chosen = moving_path(segment, codec, shop), CODECS[codec]

    def write() -> None:
        with shop.progress.stage(f"overlay of {segment.id}", segment.frames) as step:
            write_moving(
                plan.canvas, segment.layers, segment.frames, shop.theme, chosen, path, shop.workers, step
            )
        shop.encoded += 1

    return shop.ledger.make(path, moving_name(plan, segment, codec, shop), write)


def moving_name(plan: Plan, segment: SegmentPlan, codec: str, shop: Workshop) -> str:
    """The name, by content, of a segment's moving overlay."""
    chosen = CODECS[codec]
    how = (chosen.encoder, chosen.samples, dict(chosen.options))
    code = code_digest("drawing", "render", "timeline")
    return name_of("moving", plan.canvas, segment.layers, segment.frames, shop.theme_name, how, code)


def moving_overlays(plan: Plan, shop: Workshop) -> Iterator[tuple[SegmentPlan, Path]]:
    """The moving overlays that were asked for at some time and stand there, of segments that the plan has."""
    places = set(shop.ledger.places)
    for segment in plan.segments:
        for path in dict.fromkeys(moving_path(segment, codec, shop) for codec in CODECS):
            if path.relative_to(shop.build).as_posix() in places and path.is_file():
                yield segment, path


def stale_overlays(plan: Plan, shop: Workshop) -> Iterator[str]:
    """A sentence for each moving overlay that shows what the plan was and no longer is."""
    for segment, path in moving_overlays(plan, shop):
        codecs = [codec for codec in CODECS if moving_path(segment, codec, shop) == path]
        if not any(shop.ledger.stands(path, moving_name(plan, segment, codec, shop)) for codec in codecs):
            yield (
                f"{path.relative_to(shop.build).as_posix()} shows an earlier version of {segment.id}; make it again "
                f"with 'studio overlays', the project, {segment.id} and --moving {' or '.join(codecs)}."
            )


def write_moving(
    canvas: Canvas,
    layers: Sequence[Layer],
    frames: int,
    theme: Theme,
    codec: AlphaCodec,
    path: Path,
    threads: int = 1,
    step: Callable[[int], None] = lambda done: None,
) -> None:
    """Write layers over nothing as a movie of exactly `frames` frames. It appears whole or not at all.

    The same arguments give the same bytes. What is kept in memory does not grow with its length. `step` is told of
    frames that are done.
    """
    picture, number = OverlayPicture(canvas, layers, theme), 0
    exact = {"fflags": "+bitexact"}  # else Matroska draws lots for the ids of a file and its tracks
    with (
        whole_file(path) as part,
        av.open(part.as_posix(), "w", format=codec.container, options=exact) as out,
    ):
        encoding = codec.open(out, canvas, threads)
        for shown, count in runs(layers, frames):
            for packet in encoding.packets(picture, shown, count):
                packet.stream, packet.time_base = encoding.stream, 1 / canvas.rate
                packet.pts = packet.dts = number
                packet.duration = 1
                out.mux(packet)
                number += 1
            step(count)
