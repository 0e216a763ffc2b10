"""Who is heard in an excerpt: stems alone or all but some, how loud, from which side, and who is in front."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from fractions import Fraction

from studio.music.place import Span
from studio.project.checking import Findings
from studio.project.complaints import unknown_name
from studio.project.counting import Counting
from studio.project.excerpt_setting import ExcerptSetting, item
from studio.project.marks import ValuePath
from studio.project.media import Media
from studio.project.model import Featured, Play, Song, StemLevel
from studio.project.sound_text import ExcerptText, FeatureText

Heard = tuple[tuple[str, ...], tuple[Media, ...]]
"""Names of the stems heard and their files. The full recording has no name."""

USUAL_GLIDE = Fraction(1, 4)
"""Seconds over which the others make room for a stem, and come back."""

_OF_STEMS = ("gain", "pan", "feature")


def read_heard(
    text: ExcerptText, path: ValuePath, plays: Sequence[Play], song: Song | None, findings: Findings
) -> Heard | None:
    """Who is heard, or None after complaints."""
    if song is None or not (findings.sound(*path, "stems") and findings.sound(*path, "mute")):
        return None
    if text.stems and text.mute:
        sentence = "'stems' names all that is heard and 'mute' all that is not; write one of them"
        findings.complain_key((*path, "mute"), sentence)
        return None
    if text.stems:
        _check_once(text.stems, (*path, "stems"), findings)
        return _files(text.stems, song)
    if text.mute:
        _check_once(text.mute, (*path, "mute"), findings)
        return _all_but(text.mute, (*path, "mute"), song, findings)
    return ((), ()) if plays or text.play else _unless_named(text, path, song, findings)


def _unless_named(text: ExcerptText, path: ValuePath, song: Song, findings: Findings) -> Heard | None:
    """Who is heard where no stems are named: the recording, unless something is said of stems, and else all stems."""
    said = next((key for key in _OF_STEMS if getattr(text, key)), None)
    if song.recording is not None and said is None:
        return (), (song.recording,)
    if not (findings.sound("song", "recording") and findings.sound("song", "stems")):
        return None
    if song.stems:
        return tuple(song.stems), tuple(song.stems.values())
    if song.recording is None:
        findings.complain(path, "There is nothing to hear: the song has neither a recording nor stems")
    else:
        sentence = f"'{said}' is about stems, and the song has none; name their files in song: stems"
        findings.complain_key((*path, str(said)), sentence)
    return None


def _all_but(muted: Sequence[str], path: ValuePath, song: Song, findings: Findings) -> Heard | None:
    if not findings.sound("song", "stems"):
        return None
    left = [name for name in song.stems if name not in muted]
    if not left:
        findings.complain(path, "This mutes every stem, so that nothing is left to hear; name fewer")
        return None
    return _files(left, song)


def _check_once(names: Sequence[str], path: ValuePath, findings: Findings) -> None:
    twice = next((name for n, name in enumerate(names) if name in names[:n]), None)
    if twice is not None:
        findings.complain(path, f"'{twice}' is named twice; once is enough")


def check_heard_once(
    stems: Collection[str], plays: Sequence[Play], path: ValuePath, findings: Findings
) -> None:
    """A stem under what is played of the same name doubles it, and hides what is changed in it."""
    for number, play in enumerate(plays):
        if play.name in stems:
            sentence = f"'{play.name}' is heard twice, as a stem and played; leave one of them out"
            findings.complain(item(path, number, findings), sentence)


def _files(names: Sequence[str], song: Song) -> Heard | None:
    sources = tuple(song.stems[name] for name in names if name in song.stems)
    return (tuple(names), sources) if len(sources) == len(names) else None


def read_levels(
    text: ExcerptText, path: ValuePath, heard: Collection[str], setting: ExcerptSetting, findings: Findings
) -> dict[str, StemLevel]:
    """How each stem or each thing played stands in the mix, where something is said of it."""
    for key, named in (("gain", text.gain), ("pan", text.pan)):
        for name in named:
            if name not in heard:
                sentence = _unheard(name, f"'{key}' of it changes nothing", heard, setting)
                if sentence:
                    findings.complain_key((*path, key, name), sentence)
    names = [name for name in heard if name in text.gain or name in text.pan]
    return {name: StemLevel(text.gain.get(name, 0.0), text.pan.get(name, 0.0)) for name in names}


def _unheard(name: str, so: str, heard: Collection[str], setting: ExcerptSetting) -> str | None:
    """What is said of a name that is not heard; None where that cannot be judged."""
    known = setting.known
    if known.stems is None or known.parts is None:
        return None
    if name in known.stems:
        return f"'{name}' is not heard in this excerpt, so {so}; name it in stems, or leave it out"
    return unknown_name("heard in this excerpt" if heard else "a stem", name, heard or known.stems)


def read_featured(
    text: FeatureText | None,
    path: ValuePath,
    heard: Collection[str],
    span: Span | None,
    speed: Fraction,
    setting: ExcerptSetting,
    findings: Findings,
) -> Featured | None:
    """Who is in front, or None."""
    if text is None:
        return None
    if text.stem not in heard:
        sentence = _unheard(text.stem, "it cannot be in front", heard, setting)
        if sentence:
            findings.complain((*path, "stem"), sentence)
        return None
    if len(heard) < 2:
        findings.complain(
            (*path, "stem"), f"'{text.stem}' is heard alone, so nothing makes room for it; name more stems"
        )
        return None
    time = setting.known.time
    if span is None or time is None:
        return None
    if text.where is not None and not span.overlaps(text.where):
        findings.complain(
            (*path, "where"), f"Nothing of this is in the excerpt, so '{text.stem}' would never be in front"
        )
        return None
    place = span if text.where is None else text.where.intersection(span) or span
    start = place.start
    written = USUAL_GLIDE if text.over is None else text.over
    if isinstance(written, Fraction):
        over = written * speed
    else:
        over = time.seconds(Counting(time).moved(start, written)) - time.seconds(start)
    room = (time.seconds(place.end) - time.seconds(start)) / 2
    if over > room:
        if text.over is not None:
            sentence = "The others would still be on their way down when they have to come back"
            findings.complain((*path, "over"), f"{sentence}; make 'over' shorter, or the stretch longer")
        over = room
    return Featured(text.stem, text.by, text.where, over)
