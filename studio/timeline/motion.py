"""States on the frames of a clip: what is composed in song time is laid out, filled and faded here."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.timeline.clock import ClipClock
from studio.timeline.furniture import Strip
from studio.timeline.kind import Composed, Looks
from studio.timeline.layout import strip_box, unit
from studio.timeline.state import Layer, State

_STRIP_BAR_UNITS = 4


def states_of(
    composed: Composed, start: int, end: int, clock: ClipClock, looks: Looks | None = None
) -> tuple[State, ...]:
    """The looks of a callout that is on screen from frame `start` up to `end`, without gaps."""
    looks, breaks = looks or Looks(), clock.breaks() - _carried_on(composed, clock)
    laid = [(composed.states, clock.frames), (composed.changed, clock.changes)]
    timed = [
        (max(first, start), min(last, end), look)
        for written, times in laid
        for begin, stop, look in written
        for first, last in times(Span(begin, stop))
    ]
    states: list[State] = []
    at, between = start, composed.default
    for first, last, look in sorted(timed, key=lambda state: state[:2]):
        first = max(first, at)
        if first >= last:
            continue
        if first > at:
            _append(states, State(at, first, between))
        _append(states, State(first, last, looks.last(look) if last in breaks else look))
        at, between = last, looks.quiet(look, composed.default)
    if at < end:
        _append(states, State(at, end, between))
    return tuple(states)


def _carried_on(composed: Composed, clock: ClipClock) -> frozenset[int]:
    """The frames at which a pass begins to sound otherwise, and the callout goes on as it is written."""
    return frozenset(
        first
        for begin, stop, look in composed.changed
        if any(start <= begin < end and look == written for start, end, written in composed.states)
        for first, _ in clock.changes(Span(begin, stop))
    )


def _append(states: list[State], state: State) -> None:
    """Add a state; one that looks like the last is the last, longer."""
    if states and states[-1].look == state.look:
        states[-1] = replace(states[-1], end=state.end)
    else:
        states.append(state)


def faded(states: tuple[State, ...], appear: int, leave: int) -> tuple[State, ...]:
    """The same states, appearing over their first `appear` frames and leaving over their last `leave`."""
    if not states:
        return states
    start, end = states[0].start, states[-1].end
    longest = (end - start) // 3
    appear, leave = min(appear, longest), min(leave, longest)
    moving = {start + n: (n + 1) / (appear + 1) for n in range(appear)}
    moving |= {end - 1 - n: (n + 1) / (leave + 1) for n in range(leave)}
    return tuple(piece for state in states for piece in _pieces(state, moving))


def faded_with(marks: tuple[State, ...], states: tuple[State, ...]) -> tuple[State, ...]:
    """The states of a mark, as opaque at each frame as the callout that it moves over."""
    return tuple(
        replace(mark.part(state.start, state.end), opacity=state.opacity)
        for mark in marks
        for state in _runs(states)
        if state.start < mark.end and mark.start < state.end
    )


def _runs(states: tuple[State, ...]) -> list[State]:
    """Neighbouring states of one opacity as one."""
    runs: list[State] = []
    for state in states:
        if runs and runs[-1].opacity == state.opacity and runs[-1].end == state.start:
            runs[-1] = replace(runs[-1], end=state.end)
        else:
            runs.append(state)
    return runs


def _pieces(state: State, moving: dict[int, float]) -> list[State]:
    pieces: list[State] = []
    for frame in range(state.start, state.end):
        opacity = moving.get(frame, 1.0)
        if pieces and pieces[-1].opacity == opacity:
            pieces[-1] = replace(pieces[-1], end=frame + 1)
        else:
            pieces.append(replace(state, start=frame, end=frame + 1, opacity=opacity))
    return pieces


def strip_layer(start: int, end: int, canvas: Canvas) -> Layer:
    """The strip that fills while an excerpt plays from frame `start` up to `end`."""
    box = strip_box(canvas)
    bars = max(8, int(box.width / unit(canvas) / _STRIP_BAR_UNITS))
    edges = [start + (end - start) * n // bars for n in range(bars + 1)]
    states = tuple(State(a, b, n + 1) for n, (a, b) in enumerate(pairwise(edges)) if a < b)
    return Layer(Strip.kind, Strip(bars), box, states)
