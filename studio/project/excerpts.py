"""Excerpts: which stretch of the recording, or of which stems, a segment plays, and how it is heard."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from studio.music.place import Span
from studio.project.checking import Findings
from studio.project.excerpt_setting import ExcerptSetting
from studio.project.excerpt_times import Stretch, check_fades, count_in_of, fades_of, free_fades, tail_of
from studio.project.instead import read_instead
from studio.project.lengths import excerpt_start
from studio.project.marks import ValuePath
from studio.project.media import Media
from studio.project.model import Excerpt, Play, Segment, Song
from studio.project.plays import check_notes, read_plays
from studio.project.sound_text import ExcerptText
from studio.project.stems_heard import Heard, check_heard_once, read_featured, read_heard, read_levels
from studio.project.times import time_text

_OF_A_PLACE = {
    "where": "in no place of the song",
    "stems": "and no stem can sound with it",
    "mute": "and no stem can sound with it",
    "tail": "and nothing goes on after it",
    "count_in": "and has no beats to count in",
    "click": "and has no beats to click on",
}
"""Keys that need a place in the song, and why they mean nothing for what is played by itself."""


def read_excerpt(
    text: ExcerptText, path: ValuePath, setting: ExcerptSetting, segment: Segment, findings: Findings
) -> Excerpt | None:
    """The excerpt of a segment, whose voice and camera are known, or None after complaints."""
    plays, brought = read_plays(text.play, (*path, "play"), setting, findings)
    heard = read_heard(text, path, plays, setting.song, findings)
    if plays and not plays[0].placed:
        return _free(text, path, plays, setting, segment, findings)
    stretch = _stretch(text, path, plays, brought, setting, findings)
    if heard is None or stretch is None:
        if stretch is not None:
            read_instead(text.instead, (*path, "instead"), plays, stretch.span, setting, findings)
        return None
    _check_bounds(stretch, heard, path, findings)
    check_notes(plays, (*path, "play"), stretch.span, setting, findings)
    check_heard_once(heard[0], plays, (*path, "play"), findings)
    excerpt = _excerpt(text, path, plays, heard, stretch, setting, findings)
    _check_place_in_clip(excerpt, path, segment, findings)
    return excerpt if findings.sound(*path) else None


def _excerpt(
    text: ExcerptText,
    path: ValuePath,
    plays: tuple[Play, ...],
    heard: Heard,
    stretch: Stretch,
    setting: ExcerptSetting,
    findings: Findings,
) -> Excerpt:
    stems, sources = heard
    names = tuple(dict.fromkeys((*stems, *(play.name for play in plays))))
    tail = tail_of(
        text.tail, (*path, "tail"), stretch, _ends(sources, plays, stretch, setting.song), findings
    )
    fade_in, fade_out = fades_of(text, path, tail.seconds, stretch, findings)
    whole = stretch.with_tail(tail.seconds)
    excerpt = Excerpt(
        start=stretch.start,
        end=stretch.end,
        span=stretch.span,
        names=stems,
        sources=sources,
        fade_in=fade_in,
        fade_out=fade_out,
        at=text.at,
        plays=plays,
        levels=read_levels(text, path, names, setting, findings),
        featured=read_featured(text.feature, (*path, "feature"), names, whole, text.speed, setting, findings),
        tail=tail.seconds,
        repeat=text.repeat,
        speed=text.speed,
        cents=text.pitch,
        count_in=count_in_of(text.count_in, stretch),
        click=text.click,
        instead=read_instead(text.instead, (*path, "instead"), plays, whole, setting, findings),
    )
    check_fades(excerpt, path, tail, findings)
    return excerpt


def _ends(
    sources: Sequence[Media], plays: Sequence[Play], stretch: Stretch, song: Song | None
) -> list[Fraction]:
    """Seconds at which each file ends, and the song for what is played."""
    ends = [media.seconds for media in sources]
    return [*ends, stretch.time.seconds(song.end)] if plays and song is not None else ends


def _free(
    text: ExcerptText,
    path: ValuePath,
    plays: tuple[Play, ...],
    setting: ExcerptSetting,
    segment: Segment,
    findings: Findings,
) -> Excerpt | None:
    """What is played by itself, in no place of the song. How long it takes is known when facts are."""
    name = plays[0].name
    for key, why in _OF_A_PLACE.items():
        value = getattr(text, key)
        if value is not None and value is not False and value != []:
            written = key.replace("_", "-")
            sentence = f"'{name}' is played by itself, {why}; leave '{written}' out"
            findings.complain_key((*path, written), sentence)
    nothing = Fraction(0)
    names = tuple(play.name for play in plays)
    fade_in, fade_out = free_fades(text, path, plays[0], findings)
    read_featured(text.feature, (*path, "feature"), names, None, text.speed, setting, findings)
    read_instead(text.instead, (*path, "instead"), plays, None, setting, findings)
    levels = read_levels(text, path, names, setting, findings)
    excerpt = Excerpt(
        start=nothing,
        end=nothing,
        span=None,
        names=(),
        sources=(),
        fade_in=fade_in,
        fade_out=fade_out,
        at=text.at,
        plays=plays,
        levels=levels,
        repeat=text.repeat,
        speed=text.speed,
        cents=text.pitch,
    )
    _check_place_in_clip(excerpt, path, segment, findings)
    return excerpt if findings.sound(*path) else None


def _stretch(
    text: ExcerptText,
    path: ValuePath,
    plays: Sequence[Play],
    brought: Sequence[Span],
    setting: ExcerptSetting,
    findings: Findings,
) -> Stretch | None:
    """Where the excerpt is: as written, or where the facts are that it plays."""
    time = setting.known.time
    if text.where is not None:
        assert time is not None
        return Stretch(time, text.where[0], *text.where[1], text.speed)
    if not (findings.sound(*path, "where") and findings.sound(*path, "play")):
        return None
    if len(set(brought)) > 1:
        findings.complain(
            path, "The facts that are played stand in different places; say 'where' it is heard"
        )
        return None
    if not brought:
        what = f", the bars over which {plays[0].name} is played" if plays else ""
        findings.complain(path, f"'excerpt' needs 'where'{what}")
        findings.broken.add((*path, "where"))
        return None
    if time is None or not setting.known.timed:
        findings.broken.add((*path, "where"))
        return None
    span = brought[0]
    return Stretch(time, span, time.seconds(span.start), time.seconds(span.end), text.speed)


def _check_bounds(stretch: Stretch, heard: Heard, path: ValuePath, findings: Findings) -> None:
    """A recording begins at 0 and ends; what the program plays has no such bounds."""
    names, sources = heard
    if not sources:
        return
    where = (*path, "where")
    shortest = min(sources, key=lambda media: media.seconds)
    if stretch.start < 0:
        sentence = f"This starts {time_text(-stretch.start)} before the recording does; begin later"
        findings.complain(where, sentence)
    elif stretch.end > shortest.seconds:
        sentence = f"This runs to {time_text(stretch.end)}, but '{shortest.path.name}' lasts "
        sentence += f"{time_text(shortest.seconds)}{_beside(shortest, names, sources, stretch)}"
        findings.complain(where, sentence)


def _beside(shortest: Media, names: Sequence[str], sources: Sequence[Media], stretch: Stretch) -> str:
    """The remedy, which is another one where only some stems end too soon."""
    longer = next((media for media in sources if media.seconds >= stretch.end), None)
    if longer is None or not names:
        return "; end it sooner"
    name = names[sources.index(shortest)]
    both = f", less than '{longer.path.name}' with {time_text(longer.seconds)}"
    return f"{both}; end it sooner, or leave {name} out"


def _check_place_in_clip(excerpt: Excerpt, path: ValuePath, segment: Segment, findings: Findings) -> None:
    """A clip lasts as long as its take's stretch, and the excerpt has to fit in; a voice that it waits for has to
    be there."""
    camera, narration = segment.camera, segment.narration
    segment_path = path[:-1]
    judged = all(findings.sound(*segment_path, key) for key in ("script", "camera", "narration"))
    if not judged or not findings.sound(*path):
        return
    if excerpt.at is None and narration is None:
        if camera is not None and camera.sound:
            sentence = "The voice is the take's own sound, which lasts as long as the clip"
            findings.complain((*path, "at"), f"{sentence}; say at what time, as at: 0:12")
            return
        if not segment.script:
            findings.complain(
                (*path, "at"), "There is no voice to wait for; write a script, or a time, as at: 0:03"
            )
            return
    if camera is None or excerpt.span is None:
        return
    end = excerpt_start(segment.script, narration, excerpt) + excerpt.heard
    length = camera.end - camera.start
    if end > length:
        findings.complain(
            (*path, "at") if excerpt.at != 0 else (*path, "where"),
            f"The excerpt would run to {time_text(end)}, but the take makes the clip {time_text(length)}; "
            "use more of the take, or a shorter excerpt",
        )
