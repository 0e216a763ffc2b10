"""Segments: each read against the song and the files, then all against each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from studio.music.place import Span
from studio.project.callouts import CalloutOptions
from studio.project.checking import Findings, check
from studio.project.complaints import unknown_name
from studio.project.excerpt_setting import ExcerptSetting
from studio.project.excerpts import read_excerpt
from studio.project.folder import Folder
from studio.project.lengths import clip_length
from studio.project.marks import ValuePath
from studio.project.model import DuckingAsked, Excerpt, Segment
from studio.project.number_words import times_in_words
from studio.project.schema import SegmentText
from studio.project.takes import read_camera
from studio.project.times import time_text
from studio.project.voices import read_ducking, read_narration

Kinds = Mapping[str, type[CalloutOptions]]


def read_segments(
    written: Any,
    kinds: Kinds,
    setting: ExcerptSetting,
    ducking: DuckingAsked | None,
    folder: Folder,
    findings: Findings,
) -> tuple[Segment, ...]:
    """All segments in their order; what is wrong with them is complained of. `ducking` is the episode's."""
    if written == "":
        return ()
    if not isinstance(written, list):
        findings.complain(
            ("segments",), "segments is a list: each begins with '- id: ' and a name for its files"
        )
        return ()
    if not written:
        findings.complain(("segments",), "There are no segments; begin one with '- id: hook'")
    reader = _Reader(kinds, setting, ducking, folder, findings)
    segments = [reader.segment(data, ("segments", n)) for n, data in enumerate(written)]
    _check_ids(segments, findings)
    _check_order(segments, findings)
    return tuple(segment for segment in segments if segment is not None)


class _Reader:
    def __init__(
        self,
        kinds: Kinds,
        setting: ExcerptSetting,
        ducking: DuckingAsked | None,
        folder: Folder,
        findings: Findings,
    ) -> None:
        self._kinds = kinds
        self._setting = setting
        self._ducking = ducking
        self._folder = folder
        self._findings = findings

    def segment(self, data: Any, path: ValuePath) -> Segment | None:
        findings = self._findings
        text = check(SegmentText, data, path, findings, self._setting.known)
        if text is None:
            return None
        if text.id is None and findings.sound(*path, "id"):
            findings.complain(path, "This segment needs an 'id', which names its files, as id: hook")
        if not (text.script.strip() or text.camera or text.narration or text.excerpt) and _measurable(
            path, findings
        ):
            findings.complain(
                path, "This segment is empty: it needs a script, a camera take, a narration or an excerpt"
            )
        segment = self._with_excerpt(self._with_voice(text, path), text, path)
        length = clip_length(segment) if _measurable(path, findings) and _timed(segment) else None
        read = [
            self._callout(callout, (*path, "callouts", n), segment.excerpt, length)
            for n, callout in enumerate(text.callouts)
        ]
        callouts = tuple(callout for callout in read if callout is not None)
        return replace(segment, callouts=callouts)

    def _with_voice(self, text: SegmentText, path: ValuePath) -> Segment:
        """A segment with its camera and whoever speaks in it."""
        camera = narration = None
        if text.camera is not None:
            camera = read_camera(text.camera, (*path, "camera"), self._folder, self._findings)
        if text.narration is not None:
            narration = read_narration(
                text.narration, (*path, "narration"), camera, self._folder, self._findings
            )
            if narration is None:
                self._findings.broken.add((*path, "narration"))
        return Segment(
            id=text.id or "",
            title=text.title or text.id or "",
            at=text.at,
            script=text.script.strip(),
            camera=camera,
            presenter=text.presenter,
            excerpt=None,
            callouts=(),
            narration=narration,
            ducking=read_ducking(text.ducking, self._ducking, (*path, "ducking"), self._findings),
        )

    def _with_excerpt(self, segment: Segment, text: SegmentText, path: ValuePath) -> Segment:
        if text.excerpt is None:
            return segment
        at = (*path, "excerpt")
        excerpt = read_excerpt(text.excerpt, at, self._setting, segment, self._findings)
        if excerpt is None:
            self._findings.broken.add(at)
        return replace(segment, excerpt=excerpt)

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
        options = check(self._kinds[kind], data, path, findings, self._setting.known)
        if options is None:
            return None
        if options.when is not None and length is not None and options.when[1] > length:
            findings.complain(
                (*path, "when"),
                f"The {kind} callout runs to {time_text(options.when[1])} of a clip that lasts {time_text(length)}",
            )
        self._check_pass(kind, options, excerpt, path)
        heard = self._heard(excerpt)
        if heard and options.where and options.when is None and not heard.overlaps(options.where):
            sentence = f"'{data['where']}' is not in the excerpt, so it would never show"
            findings.complain((*path, "where"), f"{sentence}; choose a place inside it, or say when")
        return options

    def _check_pass(
        self, kind: str, options: CalloutOptions, excerpt: Excerpt | None, path: ValuePath
    ) -> None:
        """A callout that shows in one pass of the excerpt needs an excerpt that has it."""
        findings, at = self._findings, (*path, "pass")
        if options.pass_ is None or not findings.sound(*path[:-2], "excerpt"):
            return
        if excerpt is None:
            findings.complain(
                at, f"There is no excerpt here whose pass {options.pass_} could be heard; add one"
            )
        elif options.pass_ > excerpt.passes:
            often = times_in_words(excerpt.passes)
            findings.complain(at, f"The excerpt is heard {often}, so it has no pass {options.pass_}")
        elif options.when is not None:
            findings.complain(
                at, f"'when' says already at what time the {kind} callout shows; write one of them"
            )

    def _heard(self, excerpt: Excerpt | None) -> Span | None:
        """What of the song an excerpt plays, its tail with it."""
        time = self._setting.known.time
        if excerpt is None or excerpt.span is None or time is None:
            return None
        return Span(excerpt.span.start, max(excerpt.span.end, time.quarters_at(excerpt.end + excerpt.tail)))


def _timed(segment: Segment) -> bool:
    """Whether it is known how long the excerpt is; what stands in no place of the song, theory has to say."""
    return segment.excerpt is None or segment.excerpt.span is not None or segment.camera is not None


def _measurable(path: ValuePath, findings: Findings) -> bool:
    """Whether nothing is wrong with what decides how long a segment lasts."""
    return all(findings.sound(*path, key) for key in ("script", "camera", "narration", "excerpt"))


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
        measurable = _measurable(path, findings) and _timed(segment)
        free = start + clip_length(segment) if start is not None and measurable else None
        if free is None and segment.at is not None:
            free = segment.at
        before = segment
