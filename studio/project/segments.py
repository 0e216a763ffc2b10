"""Segments: each read against the song and the files, then all against each other."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from studio.project.callouts import CalloutOptions
from studio.project.checking import Findings, check
from studio.project.complaints import MisfitError, unknown_name
from studio.project.folder import Folder
from studio.project.lengths import clip_length
from studio.project.marks import ValuePath
from studio.project.media import Media, probe
from studio.project.model import Camera, Excerpt, Segment, Song
from studio.project.schema import CameraText, ExcerptText, SegmentText
from studio.project.surroundings import Known
from studio.project.times import time_text

Kinds = Mapping[str, type[CalloutOptions]]


def read_segments(
    written: Any, kinds: Kinds, known: Known, song: Song | None, folder: Folder, findings: Findings
) -> tuple[Segment, ...]:
    """All segments in their order; what is wrong with them is complained of."""
    if written == "":
        return ()
    if not isinstance(written, list):
        findings.complain(
            ("segments",), "segments is a list: each begins with '- id: ' and a name for its files"
        )
        return ()
    if not written:
        findings.complain(("segments",), "There are no segments; begin one with '- id: hook'")
    reader = _Reader(kinds, known, song, folder, findings)
    segments = [reader.segment(data, ("segments", n)) for n, data in enumerate(written)]
    _check_ids(segments, findings)
    _check_order(segments, findings)
    return tuple(segment for segment in segments if segment is not None)


class _Reader:
    def __init__(
        self, kinds: Kinds, known: Known, song: Song | None, folder: Folder, findings: Findings
    ) -> None:
        self._kinds = kinds
        self._known = known
        self._song = song
        self._folder = folder
        self._findings = findings

    def segment(self, data: Any, path: ValuePath) -> Segment | None:
        findings = self._findings
        text = check(SegmentText, data, path, findings, self._known)
        if text is None:
            return None
        if text.id is None and findings.sound(*path, "id"):
            findings.complain(path, "This segment needs an 'id', which names its files, as id: hook")
        camera = self._camera(text.camera, (*path, "camera")) if text.camera else None
        excerpt = self._excerpt(text.excerpt, (*path, "excerpt"), camera) if text.excerpt else None
        if not (text.script.strip() or text.camera or text.excerpt) and all(
            findings.sound(*path, key) for key in ("script", "camera", "excerpt")
        ):
            findings.complain(path, "This segment is empty: it needs a script, a camera take or an excerpt")
        segment = Segment(
            id=text.id or "",
            title=text.title or text.id or "",
            at=text.at,
            script=text.script.strip(),
            camera=camera,
            excerpt=excerpt,
            callouts=(),
        )
        whole = all(findings.sound(*path, key) for key in ("script", "camera", "excerpt"))
        length = clip_length(segment) if whole else None
        read = [
            self._callout(callout, (*path, "callouts", n), excerpt, length)
            for n, callout in enumerate(text.callouts)
        ]
        callouts = tuple(callout for callout in read if callout is not None)
        return Segment(**{**vars(segment), "callouts": callouts})

    def _camera(self, text: CameraText, path: ValuePath) -> Camera | None:
        findings = self._findings
        media = findings.attempt((*path, "take"), lambda: self._take(text.take))
        if media is None:
            return None
        start = text.start or Fraction(0)
        end = media.seconds if text.end is None else text.end
        if text.end is not None and end > media.seconds:
            findings.complain(
                (*path, "to"),
                f"{time_text(end)} is past the end of '{text.take}', which lasts {time_text(media.seconds)}",
            )
        elif start >= media.seconds:
            findings.complain(
                (*path, "from"),
                f"{time_text(start)} is past the end of '{text.take}', which lasts {time_text(media.seconds)}",
            )
        elif end <= start:
            findings.complain(
                (*path, "to"),
                f"The take would end at {time_text(end)}, before it starts at {time_text(start)}",
            )
        if text.sound and not media.has_sound:
            findings.complain(
                (*path, "sound"), f"'{text.take}' has no sound; write sound: no, or leave it out"
            )
        sound = media.has_sound if text.sound is None else text.sound
        return Camera(media, start, end, sound) if findings.sound(*path) else None

    def _take(self, written: str) -> Media:
        media = probe(self._folder.file(written))
        if not media.has_picture:
            raise MisfitError(f"'{written}' has no picture; a take is a video file")
        return media

    def _excerpt(self, text: ExcerptText, path: ValuePath, camera: Camera | None) -> Excerpt | None:
        findings, song = self._findings, self._song
        names, sources = self._sources(text, path)
        if song is None or not sources:
            return None
        span, (start, end) = text.where
        lasts, heard = min((media.seconds, media.path.name) for media in sources)
        if start < 0:
            findings.complain(
                (*path, "where"), f"This starts {time_text(-start)} before the recording does; begin later"
            )
        elif end > lasts:
            findings.complain(
                (*path, "where"),
                f"This runs to {time_text(end)}, but '{heard}' lasts {time_text(lasts)}; end it sooner",
            )
        fade_in, fade_out = self._fades(text, path, end - start)
        excerpt = Excerpt(start, end, span, names, sources, fade_in, fade_out, text.at)
        if camera is not None and findings.sound(*path):
            length = camera.end - camera.start
            if text.at + excerpt.length > length:
                where = (*path, "at") if text.at else (*path, "where")
                findings.complain(
                    where,
                    f"The excerpt would run to {time_text(text.at + excerpt.length)} of a clip that its take makes "
                    f"{time_text(length)} long; use more of the take, or a shorter excerpt",
                )
        return excerpt if findings.sound(*path) else None

    def _sources(self, text: ExcerptText, path: ValuePath) -> tuple[tuple[str, ...], tuple[Media, ...]]:
        """Names of the stems heard and their files; the full recording has no name. Nothing after a complaint."""
        song, findings = self._song, self._findings
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

    def _fades(self, text: ExcerptText, path: ValuePath, length: Fraction) -> tuple[Fraction, Fraction]:
        fade_in, fade_out = text.fade.start or Fraction(0), text.fade.end or Fraction(0)
        if fade_in + fade_out > length:
            self._findings.complain(
                (*path, "fade"),
                f"The fades take {float(fade_in + fade_out):g} s together, but the excerpt lasts only "
                f"{float(round(length, 3)):g} s; make them shorter",
            )
        return fade_in, fade_out

    def _callout(
        self, data: Any, path: ValuePath, excerpt: Excerpt | None, length: Fraction | None
    ) -> CalloutOptions | None:
        findings = self._findings
        if isinstance(data, str):
            data = {"kind": data}
        if not isinstance(data, dict):
            findings.complain(
                path, "A callout is a kind, as chords, or a group such as {kind: staff, part: lead}"
            )
            return None
        kind = data.get("kind")
        if not isinstance(kind, str) or kind not in self._kinds:
            names = ", ".join(sorted(self._kinds))
            sentence = f"A callout needs a kind: one of {names}"
            if isinstance(kind, str) and kind:
                sentence = unknown_name("a kind of callout", kind, self._kinds)
            findings.complain((*path, "kind"), sentence)
            return None
        options = check(self._kinds[kind], data, path, findings, self._known)
        if options is None:
            return None
        if options.when is not None and length is not None and options.when[1] > length:
            findings.complain(
                (*path, "when"),
                f"This runs to {time_text(options.when[1])} of a clip that lasts {time_text(length)}",
            )
        apart = excerpt is not None and excerpt.span is not None and options.where is not None
        if apart and options.when is None and not excerpt.span.overlaps(options.where):  # type: ignore[union-attr, arg-type]
            findings.complain(
                (*path, "where"),
                f"'{data['where']}' is not in the excerpt, so it would never show; choose a place inside it, or say when",
            )
        return options


def _check_ids(segments: list[Segment | None], findings: Findings) -> None:
    seen: dict[str, str] = {}
    for n, segment in enumerate(segments):
        if segment is None or not segment.id:
            continue
        before = seen.setdefault(segment.id.casefold(), segment.id)
        if n and before is not segment.id:
            same = (
                "is used twice"
                if before == segment.id
                else f"and '{before}' are one file name on some systems"
            )
            findings.complain(
                ("segments", n, "id"), f"'{segment.id}' {same}; give each segment an id of its own"
            )


def _check_order(segments: list[Segment | None], findings: Findings) -> None:
    """A segment may not start before the one before it has ended; unknown lengths are not judged."""
    free: Fraction | None = Fraction(0)
    before: Segment | None = None
    for n, segment in enumerate(segments):
        path: ValuePath = ("segments", n)
        if segment is None or not findings.sound(*path, "at"):
            free, before = None, None
            continue
        start = segment.at if segment.at is not None else free
        if segment.at is not None and free is not None and before is not None and segment.at < free:
            findings.complain(
                (*path, "at"),
                f"'{segment.id}' cannot start at {time_text(segment.at)}: '{before.id}' lasts until {time_text(free)}",
            )
        whole = all(findings.sound(*path, key) for key in ("script", "camera", "excerpt"))
        free = start + clip_length(segment) if start is not None and whole else None
        if free is None and segment.at is not None:
            free = segment.at
        before = segment
