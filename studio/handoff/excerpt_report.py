"""What the report says of one excerpt: what sounds, and how it is heard."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from studio.handoff.figures import relative, seconds
from studio.handoff.written_there import written_there
from studio.music.songtime import SongTime
from studio.project.model import Excerpt, Project
from studio.timeline.heard import RATE, Played, Source
from studio.timeline.plan import ExcerptPlan


def excerpt_about(project: Project, excerpt: Excerpt, plan: ExcerptPlan) -> dict[str, Any]:
    """One excerpt. Times with `source` are the recording's own; all others are as heard. `written` is what the song
    has where something else is heard `changed`."""
    cut, time = plan.laid.cut, project.song.time
    first, speed = cut.passes[0], excerpt.speed
    about: dict[str, Any] = {
        "where": time.words(plan.span) if plan.span else None,
        "stems": list(excerpt.names) if excerpt.names or not excerpt.sources else ["full recording"],
        "played": [{"what": play.name, "sound": play.sound} for play in excerpt.plays],
        "files": [relative(project, path) for path in cut.files],
        "levels": _levels(plan),
        "featured": _featured(excerpt, time),
        "source_in_s": seconds(Fraction(first.start, RATE)) if plan.span else None,
        "source_out_s": seconds(Fraction(cut.passes[-1].end, RATE)) if plan.span else None,
        "passes": len(cut.passes),
        "changed": [
            {
                "where": time.words(one.span) if one.span.length else time.moment(one.span.start),
                "to": one.sound,
                "written": list(written_there(project.song, excerpt.plays[0], one)),
            }
            for one in excerpt.instead
        ],
        "speed_ratio": float(speed),
        "pitch_cents": cut.cents,
        "count_in_s": seconds(excerpt.counted),
        "click": excerpt.click is not None,
        "click_dB": excerpt.click,
        "tail_s": seconds(excerpt.tail / speed),
        "fade_in_s": seconds(Fraction(cut.fade_in, RATE)),
        "fade_out_s": seconds(Fraction(cut.fade_out, RATE)),
        "length_s": seconds(Fraction(cut.length, RATE)),
        "starts_in_clip_s": seconds(Fraction(plan.laid.at, RATE)),
    }
    return about


def _levels(plan: ExcerptPlan) -> dict[str, dict[str, float]]:
    """Gain and pan, from -1 (left) to 1 (right), of what has a name, where they are not as recorded."""
    sounding = plan.laid.cut.passes[0].sources if plan.names else ()
    return {
        name: {"gain_dB": one.gain_db, "pan_left_to_right": one.pan}
        for name, one in zip(plan.names, sounding, strict=True)
        if isinstance(one, Source | Played) and (one.gain_db or one.pan)
    }


def _featured(excerpt: Excerpt, time: SongTime) -> dict[str, Any] | None:
    featured = excerpt.featured
    if featured is None:
        return None
    where = time.words(featured.span) if featured.span else None
    return {"stem": featured.name, "others_lower_by_dB": featured.by_db, "where": where}
