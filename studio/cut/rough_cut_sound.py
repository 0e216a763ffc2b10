"""The sound of the rough cut: the clips' sounds in order, brought to the target as a whole, encoded once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from math import inf
from pathlib import Path

from studio.render.clip_sound import heard_in, samples_at
from studio.render.hashing import name_of
from studio.render.kept_levels import keep_levels, kept_levels
from studio.render.sound_names import sound_code
from studio.render.soundtrack import Track, blocks_of, clip_track
from studio.render.workshop import Workshop
from studio.sound.encode import ROOM, encode_held
from studio.sound.levelling import MOST_LIMITED, levelled, louder
from studio.sound.limiter import Limiter
from studio.sound.loudness import Levels, Loudness, measure
from studio.sound.samples import Samples
from studio.timeline.plan import Plan

LITTLE = 1.0
"""Decibels that may always be taken off the peaks of the whole, so that one clip of hard hits holds no other down."""

CODEC_LOSS = 0.05
"""LU that encoding may change the loudness by; it drops what lies over 20 kHz. More is made up for."""


def rough_cut_sound(plan: Plan, shop: Workshop) -> tuple[Path, Levels]:
    """The encoded sound of the whole episode, and how loud it is as it is decoded again.

    All clips are at the target already; together they may miss it by a little, and one gain makes up for that. What
    limiting took from the peaks of a clip is not taken once more. From the store if it is there. Raises SoundError, in
    words, for what cannot be read, cut or encoded, OSError when the disk refuses.
    """
    rate = plan.canvas.rate
    tracks = [(clip_track(plan, segment, shop), samples_at(segment.start, rate)) for segment in plan.segments]
    length = samples_at(plan.frames, rate)
    about = [[(track.name, at) for track, at in tracks], length, plan.loudness, plan.ceiling]
    name = name_of("rough cut", about, sound_code("cut"))
    path, beside = shop.store.path(name, ".m4a"), shop.store.path(name, ".json")
    whole = shop.store.has(name, ".m4a") and shop.store.has(name, ".json")
    levels = kept_levels(beside) if whole else None
    if levels is None:
        most_lift = _most_lift(plan, [track for track, _ in tracks])
        taken = max((track.levels.limited_by_db for track, _ in tracks), default=0.0)
        most = max(MOST_LIMITED - taken, LITTLE)
        levels = _made(lambda: blocks_of(tracks, length), plan, most, most_lift, path)
        keep_levels(levels, beside)
        shop.encoded += 1
    return path, levels


def _most_lift(plan: Plan, tracks: Sequence[Track]) -> float:
    """The decibels that the whole may be lifted by: none where it has clicks, which are measured with it and would have
    the music made up for them, and none where nothing but quiet cameras is heard."""
    heard = [laid for segment in plan.segments for laid in heard_in(segment)[1]]
    clicks = any(laid.cut.clicks for laid in heard)
    at_target = any(
        track.levels.after.integrated is not None and not track.levels.quiet_camera for track in tracks
    )
    return inf if at_target and not clicks else 0.0


def _made(
    play: Callable[[], Iterator[Samples]], plan: Plan, most: float, most_lift: float, path: Path
) -> Levels:
    """Find the gain, `most_lift` at most, and encode at it. `play` gives the sound from its start, each time it is
    asked; a limiter may take `most` decibels off its peaks."""

    def at(gain_db: float) -> tuple[Loudness, float]:
        limiter = Limiter(under)
        return measure(louder(play(), gain_db, limiter)), limiter.most_db

    def held(ceiling: float) -> Iterator[Samples]:
        limiters.append(Limiter(ceiling))
        return louder(play(), gain, limiters[-1])

    limiters: list[Limiter] = []
    under = plan.ceiling - ROOM  # as it will be held for the encoder
    before = measure(play())
    levels = levelled(before, before.integrated, plan.loudness, under, at, most_lift, most)
    gain = levels.gain_db
    after = encode_held(held, path, plan.ceiling)
    if after.integrated is not None and levels.after.integrated is not None and not levels.held_by_peak:
        lost = levels.after.integrated - after.integrated
        if abs(lost) > CODEC_LOSS:
            gain += lost
            after = encode_held(held, path, plan.ceiling)
    return replace(levels, gain_db=gain, after=after, limited_by_db=limiters[-1].most_db)
