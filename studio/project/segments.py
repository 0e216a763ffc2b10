"""Segments: each read against the song and the files, then all against each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from studio.project.callouts import CalloutOptions
from studio.project.checking import Findings, check
from studio.project.complaints import unknown_name
from studio.project.excerpts import read_excerpt
from studio.project.folder import Folder
from studio.project.lengths import clip_length
from studio.project.marks import ValuePath
from studio.project.model import Excerpt, Segment, Song
from studio.project.schema import SegmentText
from studio.project.surroundings import Known
from studio.project.takes import read_camera
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
        camera = excerpt = None
        if text.camera is not None:
            camera = read_camera(text.camera, (*path, "camera"), self._folder, findings)
        if text.excerpt is not None:
            excerpt = read_excerpt(text.excerpt, (*path, "excerpt"), self._song, camera, findings)
            if excerpt is None:
                findings.broken.add((*path, "excerpt"))
        if not (text.script.strip() or text.camera or text.excerpt) and _measurable(path, findings):
            findings.complain(path, "This segment is empty: it needs a script, a camera take or an excerpt")
        segment = Segment(
            id=text.id or "",
            title=text.title or text.id or "",
            at=text.at,
            script=text.script.strip(),
            camera=camera,
            presenter=text.presenter,
            excerpt=excerpt,
            callouts=(),
        )
        length = clip_length(segment) if _measurable(path, findings) else None
        read = [
            self._callout(callout, (*path, "callouts", n), excerpt, length)
            for n, callout in enumerate(text.callouts)
        ]
        callouts = tuple(callout for callout in read if callout is not None)
        return replace(segment, callouts=callouts)

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
                f"The {kind} callout runs to {time_text(options.when[1])} of a clip that lasts {time_text(length)}",
            )
        heard = excerpt.span if excerpt is not None else None
        if heard and options.where and options.when is None and not heard.overlaps(options.where):
            sentence = f"'{data['where']}' is not in the excerpt, so it would never show"
            findings.complain((*path, "where"), f"{sentence}; choose a place inside it, or say when")
        return options


def _measurable(path: ValuePath, findings: Findings) -> bool:
    """Whether nothing is wrong with what decides how long a segment lasts."""
    return all(findings.sound(*path, key) for key in ("script", "camera", "excerpt"))


def _check_ids(segments: list[Segment | None], findings: Findings) -> None:
    seen: dict[str, str] = {}
    for n, segment in enumerate(segments):
        if segment is None or not segment.id:
            continue
        before = seen.get(segment.id.casefold())
        if before is None:
            seen[segment.id.casefold()] = segment.id
            continue
        same = "is used twice"
        if before != segment.id:
            same = f"and '{before}' are one file name on some systems"
        findings.complain(("segments", n, "id"), f"'{segment.id}' {same}; give each segment an id of its own")


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
            sentence = f"'{segment.id}' cannot start at {time_text(segment.at)}"
            findings.complain((*path, "at"), f"{sentence}: '{before.id}' lasts until {time_text(free)}")
        measurable = _measurable(path, findings)
        free = start + clip_length(segment) if start is not None and measurable else None
        if free is None and segment.at is not None:
            free = segment.at
        before = segment
