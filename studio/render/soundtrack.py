"""The sound of excerpts and clips: mixed once, kept as PCM, encoded once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from studio.render.clip_sound import clip_samples, heard_in, samples_at
from studio.render.hashing import name_of
from studio.render.kept_levels import keep_levels, kept_levels
from studio.render.sound_names import about_cut, about_laid, sound_code
from studio.render.workshop import Workshop
from studio.sound import wav
from studio.sound.encode import encode_held
from studio.sound.excerpt import clicks_of, music
from studio.sound.levelling import to_target
from studio.sound.limiter import Limiter
from studio.sound.loudness import Levels
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE, Cut
from studio.timeline.plan import Plan, SegmentPlan

_BLOCK = RATE * 4


@dataclass(frozen=True)
class Track:
    """A finished piece of sound: its name by content, its PCM file, how loud it is, and the ceiling that its true
    peaks keep to, in dBTP."""

    name: str
    path: Path
    levels: Levels
    ceiling: float


def excerpt_track(plan: Plan, segment: SegmentPlan, shop: Workshop) -> Track | None:
    """A segment's excerpt alone, cut, mixed, faded and at the programme's loudness, without its clicks; the clicks lie
    over it. None for a segment without an excerpt.

    From the store if it is there. Raises SoundError, in words, for what cannot be read or cut, OSError when the disk
    refuses.
    """
    if not segment.excerpt:
        return None
    cut = segment.excerpt.laid.cut
    return _kept(excerpt_name(plan, cut, shop), plan, shop, lambda: excerpt_samples(plan, cut))


def clip_track(plan: Plan, segment: SegmentPlan, shop: Workshop) -> Track:
    """All that is heard in a clip, as long as its pictures to the sample. Raises like `excerpt_track`."""
    return _kept(clip_name(plan, segment, shop), plan, shop, lambda: clip_samples(plan, segment))


def excerpt_samples(plan: Plan, cut: Cut) -> tuple[Samples, Levels]:
    """An excerpt as it is heard: samples of shape (cut.length, 2) at 48 kHz, and how loud they are. Raises SoundError,
    in words, for what cannot be read or cut."""
    samples = music(cut)
    return samples, to_target(samples, plan.loudness, plan.ceiling, partial(clicks_of, cut), cut.lead)


def excerpt_name(plan: Plan, cut: Cut, shop: Workshop) -> str:
    """The name of an excerpt's sound, from all that it depends on."""
    return name_of("excerpt", about_cut(cut, shop), plan.loudness, plan.ceiling, sound_code())


def clip_name(plan: Plan, segment: SegmentPlan, shop: Workshop) -> str:
    """The name of a clip's sound, from all that it depends on."""
    voice, music = heard_in(segment)
    laid = [about_laid(voice, shop), *(about_laid(piece, shop) for piece in music)]
    length = samples_at(segment.frames, plan.canvas.rate)
    ducking = segment.ducking if voice and music else None
    return name_of("clip", laid, ducking, length, plan.loudness, plan.ceiling, sound_code())


def encoded(tracks: Sequence[tuple[Track, int]], length: int, shop: Workshop) -> Path:
    """The tracks one after the other as AAC, each at its sample, encoded in one go over `length` samples.

    As it is decoded again, no true peak is over the lowest ceiling of the tracks. Raises SoundError when it cannot be
    held there or the encoder fails, OSError when the disk refuses.
    """
    name = name_of("aac", [(track.name, at) for track, at in tracks], length, sound_code())
    path = shop.store.path(name, ".m4a")
    if not shop.store.has(name, ".m4a"):
        ceiling = min((track.ceiling for track, _ in tracks), default=0.0)
        encode_held(lambda held: Limiter(held).over(blocks_of(tracks, length)), path, ceiling)
        shop.encoded += 1
    return path


def blocks_of(tracks: Sequence[tuple[Track, int]], length: int) -> Iterator[Samples]:
    """PCM of tracks in order, each at its sample, block by block: a long episode needs no more memory than a short
    one."""
    at = 0
    for number, (track, start) in enumerate(tracks):
        end = tracks[number + 1][1] if number + 1 < len(tracks) else length
        yield from _silent(start - at)
        at = max(at, start)
        for block in wav.blocks(track.path, _BLOCK):
            if at < end:
                yield block[: end - at]
                at += min(len(block), end - at)
    yield from _silent(length - at)


def _silent(length: int) -> Iterator[Samples]:
    for at in range(0, length, _BLOCK):
        yield silence(min(_BLOCK, length - at))


def _kept(name: str, plan: Plan, shop: Workshop, make: Callable[[], tuple[Samples, Levels]]) -> Track:
    """The track of that name from the store, or made and put there."""
    path, about = shop.store.path(name, ".wav"), shop.store.path(name, ".json")
    whole = shop.store.has(name, ".wav") and shop.store.has(name, ".json")
    levels = kept_levels(about) if whole else None
    if levels is None:
        samples, levels = make()
        wav.write(path, samples)
        keep_levels(levels, about)
        shop.encoded += 1
    return Track(name, path, levels, plan.ceiling)
