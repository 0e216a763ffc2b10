"""From project to plan: every decision about what is seen and heard when, and none of the doing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from studio.music.place import Span
from studio.project.complaints import Complaint, ProjectError
from studio.project.episode_values import Canvas
from studio.project.fact_text import fill
from studio.project.lengths import length_of, reading_time
from studio.project.marks import ValuePath
from studio.project.model import Excerpt, Project, Segment
from studio.timeline.answers.answering import answer
from studio.timeline.burnt import burnt_layers
from studio.timeline.callouts import CalloutPlanner, Clip
from studio.timeline.clock import ClipClock, Heard
from studio.timeline.furniture import Backdrop, Slate
from studio.timeline.heard import RATE, Cut, Laid, Source
from studio.timeline.kind import Kinds
from studio.timeline.listening import Listen, deaf
from studio.timeline.motion import strip_layer
from studio.timeline.plan import CalloutPlan, CameraPlan, ExcerptPlan, Plan, SegmentPlan
from studio.timeline.song_facts import SongFacts
from studio.timeline.stage import Stage
from studio.timeline.state import Box, Layer, State
from studio.timeline.talk import page_states, pages

_CLICK_FREE = Fraction(5, 1000)  # the least fade at any cut (common practice)
_SHORTEST = Fraction(1, 10)
_WORDS_END = Fraction(58, 100)  # of the height of a slate: where a full page of script ends


def plan_episode(project: Project, kinds: Kinds, stage: Stage, listen: Listen = deaf) -> Plan:
    """The plan of a whole episode on the stage that its theme sets.

    `listen` reads recordings for callouts that picture sound. Raises ProjectError with the complaints of
    every callout that cannot be composed or placed.
    """
    return _Planner(project, kinds, stage, listen).plan()


class _Planner:
    def __init__(self, project: Project, kinds: Kinds, stage: Stage, listen: Listen) -> None:
        self._project = project
        self._canvas = project.episode.canvas
        self._facts = SongFacts(project.song, project.episode.numerals, project.episode.figured)
        self._answers = {fact.name: answer(fact, self._facts) for fact in project.facts}
        self._complaints: list[Complaint] = []
        self._lacking = stage.lacking
        self._callouts = CalloutPlanner(
            project, kinds, self._facts, self._fill, stage, listen, self._complaints
        )

    def plan(self) -> Plan:
        self._check_letters(("song", "title"), self._project.song.title)
        self._check_letters(("song", "by"), self._project.song.by)
        segments: list[SegmentPlan] = []
        for index, segment in enumerate(self._project.segments):
            start = segments[-1].end if segments else 0
            if segment.at is not None:
                start = self._written_start(index, segment.at, start)
            segments.append(self._segment(index, segment, start))
        if self._complaints:
            raise ProjectError(self._complaints)
        episode = self._project.episode
        return Plan(
            title=episode.title,
            canvas=self._canvas,
            loudness=episode.loudness,
            ceiling=episode.ceiling,
            segments=tuple(segments),
            answers=tuple(self._answers.values()),
            keys=self._facts.keys,
        )

    def _written_start(self, index: int, at: Fraction, free: int) -> int:
        """The frame that a segment's `at` names, or a complaint where the clip before it still runs.

        The project room judges by scripts as written; here their facts are filled in, and take time to say.
        """
        if (wanted := round(at * self._canvas.rate)) < free:
            ends = float(free / self._canvas.rate)
            sentence = f"this cannot start before {ends:.2f} s: the segment before lasts until then"
            self._complaints.append(self._project.marks.complaint(("segments", index, "at"), sentence))
        return max(free, wanted)

    def _check_letters(self, where: ValuePath, text: str) -> None:
        """Complain of letters that would be drawn as empty boxes."""
        if sentence := self._lacking(text):
            self._complaints.append(self._project.marks.complaint(where, sentence))

    def _segment(self, index: int, segment: Segment, start: int) -> SegmentPlan:
        script = self._fill(segment.script)
        self._check_letters(("segments", index, "title"), segment.title)
        self._check_letters(("segments", index, "script"), script)
        length = length_of(script, segment.camera, segment.excerpt)
        frames = max(1, math.ceil(length * self._canvas.rate))
        clock = self._clock(segment)
        playing = _playing(segment.excerpt, clock, frames)
        if segment.excerpt and segment.excerpt.length < _SHORTEST:
            sentence = "this is too short to hear: an excerpt lasts a tenth of a second at least"
            where = ("segments", index, "excerpt", "where")
            self._complaints.append(self._project.marks.complaint(where, sentence))
        clip = Clip(
            index,
            frames,
            clock,
            playing,
            segment.excerpt,
            titled=not segment.camera,
            presenter=segment.presenter,
        )
        callouts = self._callouts.plan(clip, segment.callouts)
        return SegmentPlan(
            id=segment.id,
            number=index + 1,
            title=segment.title,
            start=start,
            frames=frames,
            ground=self._ground(segment, script, frames, playing, callouts),
            camera=_camera(segment),
            camera_sound=_camera_sound(segment),
            excerpt=self._excerpt(segment.excerpt) if segment.excerpt else None,
            callouts=callouts,
            strip=strip_layer(*playing, self._canvas) if playing else None,
            burnt=burnt_layers(index + 1, segment.title or segment.id, frames, self._canvas),
            script=script,
            reading=reading_time(script),
        )

    def _clock(self, segment: Segment) -> ClipClock:
        excerpt = segment.excerpt
        heard = (Heard(excerpt.at, excerpt.start, excerpt.length),) if excerpt else ()
        return ClipClock(self._canvas.rate, self._project.song.time, heard)

    def _ground(
        self,
        segment: Segment,
        script: str,
        frames: int,
        playing: tuple[int, int] | None,
        callouts: Sequence[CalloutPlan],
    ) -> Layer:
        """Under a camera a bare ground; else a slate, whose script shows while nothing stands or sounds over it."""
        whole = Box(0, 0, self._canvas.width, self._canvas.height)
        song = self._project.song
        line = " · ".join(text for text in (song.title, song.by) if text)
        if segment.camera:
            return Layer(Backdrop.kind, Backdrop("", ""), whole, (State(0, frames, None),))
        turned = pages(script)
        if turned and not segment.excerpt:
            line = f"{math.ceil(reading_time(script))} s to read aloud"
        states = page_states(turned, frames, _covered(playing, callouts, self._canvas))
        return Layer(Slate.kind, Slate(segment.title, turned, line), whole, states)

    def _excerpt(self, excerpt: Excerpt) -> ExcerptPlan:
        start, end = (round(seconds * RATE) for seconds in (excerpt.start, excerpt.end))
        fades = [round(max(fade, _CLICK_FREE) * RATE) for fade in (excerpt.fade_in, excerpt.fade_out)]
        sources = tuple(Source(media.path.as_posix()) for media in excerpt.sources)
        laid = Laid(Cut(sources, start, end - start, fades[0], fades[1]), round(excerpt.at * RATE))
        time = self._project.song.time
        span = excerpt.span or Span(time.quarters_at(excerpt.start), time.quarters_at(excerpt.end))
        return ExcerptPlan(laid, excerpt.names, span)

    def _fill(self, text: str) -> str:
        return fill(text, lambda name: self._answers[name].words)


def _playing(excerpt: Excerpt | None, clock: ClipClock, frames: int) -> tuple[int, int] | None:
    """The clip frames at which an excerpt sounds."""
    if not excerpt:
        return None
    return clock.frame(excerpt.at), min(clock.frame(excerpt.at + excerpt.length), frames)


def _camera(segment: Segment) -> CameraPlan | None:
    camera = segment.camera
    return CameraPlan(camera.media.path.as_posix(), camera.start, camera.end) if camera else None


def _camera_sound(segment: Segment) -> Laid | None:
    camera = segment.camera
    if not camera or not camera.sound or not camera.media.has_sound:
        return None
    start, end = (round(seconds * RATE) for seconds in (camera.start, camera.end))
    fade = round(_CLICK_FREE * RATE)
    return Laid(Cut((Source(camera.media.path.as_posix()),), start, end - start, fade, fade), 0)


def _covered(
    playing: tuple[int, int] | None, callouts: Sequence[CalloutPlan], canvas: Canvas
) -> list[tuple[int, int]]:
    """The frames at which a slate's script would be in the way: of the excerpt, and of callouts that reach up
    to where the words of a full page stand."""
    words_end = canvas.height * _WORDS_END
    tall = [callout.layer for callout in callouts if callout.layer.box.y < words_end]
    return [*([playing] if playing else []), *((layer.start, layer.end) for layer in tall)]
