"""The sound of excerpts, clips and the rough cut: mixed once, kept as PCM, encoded once."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from pathlib import Path

from studio.render.hashing import code_digest, name_of
from studio.render.workshop import Workshop
from studio.sound import wav
from studio.sound.bed import lay
from studio.sound.encode import encode_aac
from studio.sound.excerpt import render
from studio.sound.loudness import Levels, Loudness, to_target
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE, Cut, Laid
from studio.timeline.plan import Plan, SegmentPlan
from studio.whole_file import whole_file

_BLOCK = RATE * 4


@dataclass(frozen=True)
class Track:
    """A finished piece of sound: its name by content, its PCM file, and how loud it is."""

    name: str
    path: Path
    levels: Levels


def excerpt_track(plan: Plan, segment: SegmentPlan, shop: Workshop) -> Track | None:
    """A segment's excerpt alone, cut, mixed, faded and at the programme's loudness."""
    if not segment.excerpt:
        return None
    cut = segment.excerpt.laid.cut
    name = name_of(
        "excerpt", _sources(cut, shop), plan.loudness, plan.ceiling, code_digest("sound", "render")
    )
    return _kept(name, shop, lambda: to_target(render(cut), plan.loudness, plan.ceiling))


def clip_track(plan: Plan, segment: SegmentPlan, shop: Workshop) -> Track:
    """All that is heard in a clip, as long as its pictures to the sample."""
    laid = [(_sources(piece.cut, shop), piece.at) for piece in _pieces(segment)]
    length = samples_at(segment.frames, plan.canvas.rate)
    name = name_of("clip", laid, length, plan.loudness, plan.ceiling, code_digest("sound", "render"))
    return _kept(name, shop, lambda: clip_samples(plan, segment))


def clip_samples(plan: Plan, segment: SegmentPlan) -> tuple[Samples, Levels]:
    """Mix what is heard in a clip: samples of shape (length, 2), and how loud they are.

    Each piece is brought to the target by itself first, so that a quiet take is not lost under an excerpt.
    """
    pieces = [
        (to_target(render(piece.cut), plan.loudness, plan.ceiling)[0], piece.at) for piece in _pieces(segment)
    ]
    length = samples_at(segment.frames, plan.canvas.rate)
    return to_target(lay(length, pieces), plan.loudness, plan.ceiling)


def encoded(tracks: Sequence[tuple[Track, int]], length: int, shop: Workshop) -> Path:
    """The tracks one after the other as AAC, each at its sample, encoded in one go over `length` samples."""
    name = name_of("aac", [(track.name, at) for track, at in tracks], length, code_digest("sound", "render"))
    path = shop.store.path(name, ".m4a")
    if not shop.store.has(name, ".m4a"):
        encode_aac(_blocks(tracks, length), path)
        shop.encoded += 1
    return path


def samples_at(frame: int, rate: Fraction) -> int:
    """The sample nearest to the start of a frame."""
    return round(frame * RATE / rate)


def _blocks(tracks: Sequence[tuple[Track, int]], length: int) -> Iterator[Samples]:
    """PCM of the whole, block by block, so that a long episode needs no more memory than a short one."""
    at = 0
    for number, (track, start) in enumerate(tracks):
        end = tracks[number + 1][1] if number + 1 < len(tracks) else length
        while at < start:
            yield silence(min(_BLOCK, start - at))
            at += min(_BLOCK, start - at)
        samples = wav.read_back(track.path)[: end - at]
        yield samples
        at += len(samples)
    while at < length:
        yield silence(min(_BLOCK, length - at))
        at += min(_BLOCK, length - at)


def _pieces(segment: SegmentPlan) -> list[Laid]:
    return [
        piece for piece in (segment.camera_sound, segment.excerpt.laid if segment.excerpt else None) if piece
    ]


def _sources(cut: Cut, shop: Workshop) -> list[object]:
    """A cut with its files named by content instead of by path."""
    files = [(shop.digest(source.path), source.gain_db) for source in cut.sources]
    return [files, cut.start, cut.length, cut.fade_in, cut.fade_out]


def _kept(name: str, shop: Workshop, make: Callable[[], tuple[Samples, Levels]]) -> Track:
    """The track of that name from the store, or made and put there."""
    path, about = shop.store.path(name, ".wav"), shop.store.path(name, ".json")
    if not shop.store.has(name, ".wav") or (known := _levels(about)) is None:
        samples, levels = make()
        wav.write(path, samples)
        with whole_file(about) as part:
            part.write_text(json.dumps(asdict(levels)), "utf-8")
        shop.encoded += 1
        known = levels
    return Track(name, path, known)


def _levels(about: Path) -> Levels | None:
    """Levels as `asdict` wrote them, or None where there are none that can be read."""
    try:
        known = json.loads(about.read_text("utf-8"))
        before, after = Loudness(**known.pop("before")), Loudness(**known.pop("after"))
        return Levels(before=before, after=after, **known)
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None
