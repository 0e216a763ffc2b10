"""The callouts of a clip: when each is on screen, what it covers of the song, what it shows, where it stands."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any, NoReturn

from studio.music.place import Span
from studio.project.callouts import CalloutOptions
from studio.project.complaints import Complaint
from studio.project.model import Project
from studio.timeline.ask import Ask, Room
from studio.timeline.kind import Composed, Extent, Kinds
from studio.timeline.layout import NoRoom, Times, Wanted, meet, place, region, unit
from studio.timeline.listening import Listen
from studio.timeline.marks import mark_at, mark_layer
from studio.timeline.motion import faded, faded_with, states_of
from studio.timeline.plan import CalloutPlan
from studio.timeline.showing import Clip, changed_while, heard_while, on_screen
from studio.timeline.slots import SIDES, SlotName
from studio.timeline.song_facts import SongFacts
from studio.timeline.stage import Stage
from studio.timeline.state import Box, Layer


@dataclass(frozen=True)
class _Timed:
    """A callout of which it is known when it shows, and in which slot."""

    number: int
    options: CalloutOptions
    times: Times
    slot: SlotName


@dataclass(frozen=True)
class _Shown:
    """A callout that is composed and not yet placed."""

    timed: _Timed
    region: Box
    span: Span | None
    composed: Composed
    extent: Extent


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
        stage: Stage,
        listen: Listen,
        complaints: list[Complaint],
    ) -> None:
        self._canvas, self._marks = project.episode.canvas, project.marks
        self._kinds, self._facts, self._fill = kinds, facts, fill
        self._stage, self._listen = stage, listen
        self._complaints = complaints

    def plan(self, clip: Clip, written: Sequence[CalloutOptions]) -> tuple[CalloutPlan, ...]:
        """The callouts of one clip; those that complain are left out."""
        timed = [one for number, options in enumerate(written) if (one := self._timed(clip, number, options))]
        shown = [made for one in timed if (made := self._shown(clip, one, timed))]
        boxes = place([self._wanted(one) for one in shown], self._canvas)
        return tuple(
            self._placed(one, box, clip)
            for one, box in zip(shown, boxes, strict=True)
            if isinstance(box, Box) or self._complain(clip, one.timed.number, "kind", box.sentence)
        )

    def _timed(self, clip: Clip, number: int, options: CalloutOptions) -> _Timed | None:
        try:
            times = on_screen(clip, options, self._refusal(clip, number))
            self._check_length(clip, number, options, max(end - start for start, end in times))
            slot = self._slot(options, self._refusal(clip, number))
        except _RefusedError:
            return None
        return _Timed(number, options, times, slot)

    def _check_length(self, clip: Clip, number: int, options: CalloutOptions, frames: int) -> None:
        """Refuse what would be gone before it is there."""
        if frames < sum(self._stage.fades.frames(self._canvas.rate)):
            said = {"when": options.when, "where": options.where, "pass": options.pass_}
            key = next((key for key, value in said.items() if value), "kind")
            lasts = float(frames / self._canvas.rate)
            self._refusal(clip, number)(
                key, f"this shows for {lasts:.2f} s, too short to be read; make it longer"
            )

    def _slot(self, options: CalloutOptions, refuse: Callable[[str, str], NoReturn]) -> SlotName:
        kind = self._kinds[options.kind]
        if options.slot is None:
            return kind.slot(self._canvas)
        if options.slot not in kind.slots:
            refuse(
                "slot",
                f"{kind.name} does not fit the slot '{options.slot}'; choose from {', '.join(kind.slots)}",
            )
        return options.slot

    def _shown(self, clip: Clip, one: _Timed, timed: Sequence[_Timed]) -> _Shown | None:
        refuse = self._refusal(clip, one.number)
        try:
            room = self._region(clip, one, timed)
            if isinstance(room, NoRoom):
                refuse("slot" if one.options.slot else "kind", room.sentence)
            span = one.options.where or heard_while(clip, *one.times[0])
            ask = Ask(
                span=span,
                canvas=self._canvas,
                room=Room(room.width, room.height),
                theme=self._stage.theme,
                facts=self._facts,
                fill=self._fill,
                complain=refuse,
                excerpt=clip.excerpt,
                listen=self._listen,
                changed=changed_while(clip, span, one.times),
            )
            kind = self._kinds[one.options.kind]
            composed = kind.compose(one.options, ask)
            extent = kind.extent(composed.content, room.width, self._stage.theme)
            if extent.least * unit(self._canvas) > room.height + 1:
                key = "slot" if one.options.slot else "kind"
                refuse(key, _too_tall(kind.slots, one.slot))
        except _RefusedError:
            return None
        return _Shown(one, room, span, composed, extent)

    def _region(self, clip: Clip, one: _Timed, timed: Sequence[_Timed]) -> Box | NoRoom:
        beside = {other.slot for other in timed if other.slot in SIDES and meet(one.times, other.times)}
        return region(
            one.slot,
            self._canvas,
            self._stage.slots,
            titled=clip.titled,
            presenter=clip.presenter,
            beside=beside,
        )

    def _refusal(self, clip: Clip, number: int) -> Callable[[str, str], NoReturn]:
        def refuse(key: str, sentence: str) -> NoReturn:
            self._complain(clip, number, key, sentence)
            raise _RefusedError

        return refuse

    def _wanted(self, one: _Shown) -> Wanted:
        timed = one.timed
        return Wanted(timed.options.kind, timed.times, timed.slot, one.region, one.extent)

    def _placed(self, one: _Shown, box: Box | NoRoom, clip: Clip) -> CalloutPlan:
        assert isinstance(box, Box)
        name, composed, times = one.timed.options.kind, one.composed, one.timed.times
        fades = self._stage.fades.frames(self._canvas.rate)
        kind = self._kinds[name]
        states = tuple(
            state
            for start, end in times
            for state in faded(states_of(composed, start, end, clip.clock, kind), *fades)
        )
        marks = kind.marks(composed.content, (box.width, box.height), self._stage.theme)
        moving = [mark_layer(mark, box, times[0][0], times[-1][1], clip.clock) for mark in marks]
        at = composed.still_at
        return CalloutPlan(
            name=f"{one.timed.number + 1:02}-{name}",
            layer=Layer(name, composed.content, box, states),
            marks=tuple(replace(layer, states=faded_with(layer.states, states)) for layer in moving),
            still=_still(composed, one.timed.options),
            still_marks=tuple(None if at is None else mark_at(mark, box, at) for mark in marks),
            alt=composed.alt,
            span=one.span,
        )

    def _complain(self, clip: Clip, number: int, key: str, sentence: str) -> bool:
        path = ("segments", clip.index, "callouts", number, key)
        self._complaints.append(self._marks.complaint(path, sentence))
        return False


def _still(composed: Composed, options: CalloutOptions) -> Any:
    """The look of the PNG; of a callout that shows in a changed pass alone, that of the first change."""
    in_changed = options.pass_ is not None and options.pass_ % 2 == 0 and composed.still_at is None
    return composed.changed[0][2] if in_changed and composed.changed else composed.still


def _too_tall(slots: Sequence[SlotName], slot: SlotName) -> str:
    others = [other for other in slots if other != slot]
    instead = f"choose the slot {' or '.join(others)}, or " if others else ""
    return f"it is taller than the slot '{slot}'; {instead}a shorter stretch of song"
