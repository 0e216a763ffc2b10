"""The callouts of a clip: when each is on screen, what it covers of the song, what it shows, where it stands."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import NoReturn

from studio.music.place import Span
from studio.project.callouts import CalloutOptions
from studio.project.complaints import Complaint
from studio.project.model import Project
from studio.timeline.ask import Ask
from studio.timeline.clock import ClipClock
from studio.timeline.kind import Composed, Kinds
from studio.timeline.layout import NoRoom, Wanted, place
from studio.timeline.motion import Fades, faded, states_of
from studio.timeline.plan import CalloutPlan
from studio.timeline.song_facts import SongFacts
from studio.timeline.state import Box, Layer


@dataclass(frozen=True)
class Clip:
    """What callouts need to know of their clip: its segment's index, its length, its clock, and the frames
    at which its excerpt sounds."""

    index: int
    frames: int
    clock: ClipClock
    playing: tuple[int, int] | None


@dataclass(frozen=True)
class _Shown:
    """A callout that is composed and not yet placed."""

    number: int
    options: CalloutOptions
    start: int
    end: int
    span: Span | None
    composed: Composed


class _RefusedError(Exception):
    """A callout has complained and is left out."""


class CalloutPlanner:
    """Plans callouts and gathers their complaints, so that all of an episode's are shown together."""

    def __init__(
        self,
        project: Project,
        kinds: Kinds,
        facts: SongFacts,
        fill: Callable[[str], str],
        fades: Fades,
        complaints: list[Complaint],
    ) -> None:
        self._canvas, self._marks = project.episode.canvas, project.marks
        self._kinds, self._facts, self._fill = kinds, facts, fill
        self._fades = fades.frames(self._canvas.rate)
        self._complaints = complaints

    def plan(self, clip: Clip, written: Sequence[CalloutOptions]) -> tuple[CalloutPlan, ...]:
        """The callouts of one clip; those that complain are left out."""
        shown = [one for number, options in enumerate(written) if (one := self._shown(clip, number, options))]
        boxes = place([self._wanted(one) for one in shown], self._canvas)
        return tuple(
            self._placed(one, box, clip)
            for one, box in zip(shown, boxes, strict=True)
            if isinstance(box, Box) or self._complain(clip, one.number, "kind", box.sentence)
        )

    def _shown(self, clip: Clip, number: int, options: CalloutOptions) -> _Shown | None:
        def refuse(key: str, sentence: str) -> NoReturn:
            self._complain(clip, number, key, sentence)
            raise _RefusedError

        try:
            start, end = self._on_screen(clip, options, refuse)
            span = options.where or _hull(clip.clock.spans(start, end))
            ask = Ask(span, self._canvas, self._facts, self._fill, refuse)
            composed = self._kinds[options.kind].compose(options, ask)
        except _RefusedError:
            return None
        return _Shown(number, options, start, end, span, composed)

    def _on_screen(
        self, clip: Clip, options: CalloutOptions, refuse: Callable[[str, str], NoReturn]
    ) -> tuple[int, int]:
        """From which frame up to which a callout shows.

        Its own `when`; else while its `where` is heard; else, as what it speaks of is not played here, all
        of the clip. With neither it lasts as long as the excerpt.
        """
        if options.when:
            start, end = (clip.clock.frame(seconds) for seconds in options.when)
            if start >= clip.frames:
                length = float(clip.frames / self._canvas.rate)
                refuse("when", f"this starts after the clip is over; the clip is {length:.2f} s long")
            return start, min(end, clip.frames)
        if options.where:
            heard = list(clip.clock.frames(options.where))
            return (heard[0][0], min(heard[-1][1], clip.frames)) if heard else (0, clip.frames)
        return clip.playing or (0, clip.frames)

    def _wanted(self, one: _Shown) -> Wanted:
        kind = self._kinds[one.options.kind]
        return Wanted(one.start, one.end, kind.height(one.composed.content, self._canvas), kind.slot)

    def _placed(self, one: _Shown, box: Box | NoRoom, clip: Clip) -> CalloutPlan:
        assert isinstance(box, Box)
        kind = one.options.kind
        states = faded(states_of(one.composed, one.start, one.end, clip.clock), *self._fades)
        layer = Layer(kind, one.composed.content, box, states)
        return CalloutPlan(
            f"{one.number + 1:02}-{kind}", layer, one.composed.still, one.composed.alt, one.span
        )

    def _complain(self, clip: Clip, number: int, key: str, sentence: str) -> bool:
        path = ("segments", clip.index, "callouts", number, key)
        self._complaints.append(self._marks.complaint(path, sentence))
        return False


def _hull(spans: Iterable[Span]) -> Span | None:
    """From where the first starts to where the last ends."""
    found = list(spans)
    return Span(min(span.start for span in found), max(span.end for span in found)) if found else None
