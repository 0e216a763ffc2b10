"""Pictures of excerpts: what each is like as it is heard, read from its finished sound and drawn on one page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL.PngImagePlugin import PngInfo

from studio.drawing.excerpt_picture.picture import draw_excerpt
from studio.drawing.excerpt_picture.setting import columns
from studio.drawing.excerpt_picture.shown import ExcerptShown, PassShown
from studio.drawing.excerpt_picture.words import described, pass_names
from studio.project.model import Excerpt, Project
from studio.render.hashing import code_digest, name_of
from studio.render.soundtrack import Track, excerpt_track
from studio.render.workshop import Workshop
from studio.sound import wav
from studio.sound.samples import Samples
from studio.timeline.heard import RATE
from studio.timeline.plan import ExcerptPlan, Plan, SegmentPlan, Voice
from studio.whole_file import whole_file

_BLOCK = RATE * 4


def wave_picture_path(segment: SegmentPlan, shop: Workshop) -> Path:
    return shop.build / "waves" / f"{segment.id}.png"


def make_wave_picture(project: Project, plan: Plan, segment: SegmentPlan, shop: Workshop) -> bool:
    """Write the picture of a segment's excerpt, if it has one; says whether it had to be written."""
    track = excerpt_track(plan, segment, shop)
    if not segment.excerpt or not track:
        return False
    length = segment.excerpt.laid.cut.length
    shown = _shown(project, segment, track)
    path = wave_picture_path(segment, shop)
    name = name_of("wave", track.name, shown, shop.theme_name, code_digest("drawing", "render"))
    return shop.ledger.make(path, name, lambda: _write(shown, track, length, shop, path))


def wave_picture_words(project: Project, plan: Plan, segment: SegmentPlan, shop: Workshop) -> str:
    """What the picture of a segment's excerpt shows, for whoever does not see it; "" where there is no excerpt."""
    track = excerpt_track(plan, segment, shop)
    return described(_shown(project, segment, track)) if track else ""


def excerpt_shown(title: str, where: str, asked: Excerpt, plan: ExcerptPlan) -> ExcerptShown:
    """An excerpt as its picture shows it, before its sound is looked at. `where` says in words what it is of."""
    laid, cut = plan.laid, plan.laid.cut

    def clip(sample: int) -> float:
        return (laid.at + sample) / RATE

    ends, passed = [], 0
    for one in cut.passes:
        passed += one.length
        ends.append(cut.at(passed))
    tail = min(round(asked.tail * RATE), cut.passes[-1].length)
    names = pass_names(len(cut.passes), [one.sound for one in asked.instead])
    return ExcerptShown(
        title=title,
        where=where,
        start=clip(0),
        counted=clip(cut.lead),
        rings=clip(cut.at(passed - tail)),
        end=clip(cut.length),
        fade_in=cut.fade_in / RATE,
        fade_out=cut.fade_out / RATE,
        passes=tuple(
            PassShown(words, clip(start), clip(end))
            for words, start, end in zip(names, [cut.lead, *ends], ends, strict=False)
        ),
        bars=tuple((number, clip(sample)) for number, sample in plan.bars),
        clicks=tuple((clip(click.at), click.strong) for click in cut.clicks),
    )


def peaks(blocks: Iterable[Samples], length: int, count: int) -> tuple[tuple[int, int], ...]:
    """(lowest, highest) sample of either side in each of `count` equal stretches of a sound of `length` samples, in
    thousandths of full scale; (0, 0) in a stretch shorter than a sample. The sound comes block by block."""
    lowest, highest = np.full(count, np.inf), np.full(count, -np.inf)
    at = 0
    for block in blocks:
        stretch = np.arange(at, at + len(block)) * count // length
        begins = np.flatnonzero(np.diff(stretch, prepend=-1))
        touched = stretch[begins]
        lows = np.minimum.reduceat(block.min(axis=1), begins)
        highs = np.maximum.reduceat(block.max(axis=1), begins)
        lowest[touched] = np.minimum(lowest[touched], lows)
        highest[touched] = np.maximum(highest[touched], highs)
        at += len(block)
    lowest[lowest > highest] = highest[lowest > highest] = 0
    pairs = np.rint(np.column_stack([lowest, highest]) * 1000).astype(int)
    return tuple((low, high) for low, high in pairs.tolist())


def _shown(project: Project, segment: SegmentPlan, track: Track) -> ExcerptShown:
    excerpt, asked = segment.excerpt, _asked(project, segment)
    assert excerpt and asked
    where = project.song.time.words(excerpt.span) if excerpt.span else ""
    after = track.levels.after
    shown = excerpt_shown(segment.title or segment.id, where, asked, excerpt)
    return replace(
        shown,
        loudness=after.integrated,
        true_peak=after.true_peak,
        spoken_over=_spoken_over(segment.voice, excerpt),
    )


def _spoken_over(voice: Voice | None, excerpt: ExcerptPlan) -> bool:
    """Whether a voice and an excerpt sound at the same time."""
    return voice is not None and voice.laid.at < excerpt.laid.end and excerpt.laid.at < voice.laid.end


def _asked(project: Project, segment: SegmentPlan) -> Excerpt | None:
    """The excerpt as the project has it, which knows its tail and what is played instead."""
    return next(written.excerpt for written in project.segments if written.id == segment.id)


def _write(shown: ExcerptShown, track: Track, length: int, shop: Workshop, path: Path) -> None:
    wave = peaks(wav.blocks(track.path, _BLOCK), length, columns())
    about = PngInfo()  # W3C PNG, third edition, 11.3.3: "Description"
    about.add_itxt("Description", described(shown), "en")
    with whole_file(path) as part:
        draw_excerpt(replace(shown, wave=wave), shop.theme).save(part, "PNG", pnginfo=about)
