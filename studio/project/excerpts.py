"""Excerpts: which stretch of the recording, or of which stems, a segment plays."""

from __future__ import annotations

from fractions import Fraction

from studio.project.checking import Findings
from studio.project.marks import ValuePath
from studio.project.media import Media
from studio.project.model import Camera, Excerpt, Song
from studio.project.schema import ExcerptText
from studio.project.times import time_text


def read_excerpt(
    text: ExcerptText, path: ValuePath, song: Song | None, camera: Camera | None, findings: Findings
) -> Excerpt | None:
    """The excerpt of a segment, or None after complaints (here, or about what it plays)."""
    names, sources = _sources(text, path, song, findings)
    if not sources:
        return None
    span, (start, end) = text.where
    lasts, heard = min((media.seconds, media.path.name) for media in sources)
    if start < 0:
        sentence = f"This starts {time_text(-start)} before the recording does; begin later"
        findings.complain((*path, "where"), sentence)
    elif end > lasts:
        sentence = f"This runs to {time_text(end)}, but '{heard}' lasts {time_text(lasts)}; end it sooner"
        findings.complain((*path, "where"), sentence)
    fade_in, fade_out = _fades(text, path, end - start, findings)
    excerpt = Excerpt(start, end, span, names, sources, fade_in, fade_out, text.at)
    if camera is not None and findings.sound(*path):
        _check_room(excerpt, camera, path, findings)
    return excerpt if findings.sound(*path) else None


def _sources(
    text: ExcerptText, path: ValuePath, song: Song | None, findings: Findings
) -> tuple[tuple[str, ...], tuple[Media, ...]]:
    """Names of the stems heard and their files; the full recording has no name.

    A song without a recording is heard as all its stems. No files after a complaint.
    """
    if song is None or not findings.sound(*path, "stems"):
        return (), ()
    if text.stems:
        twice = next((name for n, name in enumerate(text.stems) if name in text.stems[:n]), None)
        if twice is not None:
            findings.complain((*path, "stems"), f"'{twice}' is named twice; once is enough")
        sources = tuple(song.stems[name] for name in text.stems if name in song.stems)
        return tuple(text.stems), sources if len(sources) == len(text.stems) else ()
    if song.recording is not None:
        return (), (song.recording,)
    if not (findings.sound("song", "recording") and findings.sound("song", "stems")):
        return (), ()
    if not song.stems:
        findings.complain(path, "There is nothing to hear: the song has neither a recording nor stems")
    return tuple(song.stems), tuple(song.stems.values())


def _fades(
    text: ExcerptText, path: ValuePath, length: Fraction, findings: Findings
) -> tuple[Fraction, Fraction]:
    fade_in, fade_out = text.fade.start or Fraction(0), text.fade.end or Fraction(0)
    if fade_in + fade_out > length:
        both, whole = float(fade_in + fade_out), float(round(length, 3))
        sentence = f"The fades take {both:g} s together, but the excerpt lasts only {whole:g} s"
        findings.complain((*path, "fade"), f"{sentence}; make them shorter")
    return fade_in, fade_out


def _check_room(excerpt: Excerpt, camera: Camera, path: ValuePath, findings: Findings) -> None:
    """A clip lasts as long as its take's stretch, and the excerpt has to fit in."""
    end, length = excerpt.at + excerpt.length, camera.end - camera.start
    if end > length:
        findings.complain(
            (*path, "at") if excerpt.at else (*path, "where"),
            f"The excerpt would run to {time_text(end)}, but the take makes the clip {time_text(length)}; "
            "use more of the take, or a shorter excerpt",
        )
