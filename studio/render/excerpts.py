"""Excerpts as files of their own."""

from __future__ import annotations

import shutil
from pathlib import Path

from studio.render.soundtrack import Track, excerpt_track
from studio.render.workshop import Workshop
from studio.timeline.plan import Plan, SegmentPlan
from studio.whole_file import whole_file


def excerpt_path(segment: SegmentPlan, shop: Workshop) -> Path:
    """Where a segment's excerpt lies as a WAV file once it is made."""
    return shop.build / "excerpts" / f"{segment.id}.wav"


def make_excerpt(plan: Plan, segment: SegmentPlan, shop: Workshop) -> bool:
    """Write a segment's excerpt, if it has one; says whether it had to be written. Raises like `excerpt_track`."""
    track = excerpt_track(plan, segment, shop)
    if not track:
        return False
    path = excerpt_path(segment, shop)
    return shop.ledger.make(path, track.name, lambda: _copy(track, path))


def _copy(track: Track, path: Path) -> None:
    with whole_file(path) as part:
        shutil.copyfile(track.path, part)
