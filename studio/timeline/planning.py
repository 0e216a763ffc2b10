"""From project to plan: every decision about what is seen and heard when, and none of the doing."""

from __future__ import annotations

import math
from fractions import Fraction

from studio.project.complaints import Complaint, ProjectError
from studio.project.episode_values import Canvas
from studio.project.fact_text import fill
from studio.project.lengths import length_of, reading_time
from studio.project.marks import ValuePath
from studio.project.model import Project, Segment
from studio.timeline.answers.answering import answer
from studio.timeline.burnt import burnt_layers, scratch_layer
from studio.timeline.callouts import CalloutPlanner
from studio.timeline.changes import changes_of, unheard
from studio.timeline.clock import ClipClock
from studio.timeline.excerpts import ExcerptPlanner, PlacedExcerpt
from studio.timeline.grounds import ground_of
from studio.timeline.heard import RATE
from studio.timeline.kind import Kinds
from studio.timeline.listening import Listen, deaf
from studio.timeline.motion import strip_layer
from studio.timeline.plan import CameraPlan, Plan, SegmentPlan, Voice
from studio.timeline.showing import Clip
from studio.timeline.song_facts import SongFacts
from studio.timeline.stage import Stage
from studio.timeline.state import Layer
from studio.timeline.voices import beside_of, ducking_of, voice_of


def plan_episode(project: Project, kinds: Kinds, stage: Stage, listen: Listen = deaf) -> Plan:
    """The plan of a whole episode on the stage that its theme sets.

    `listen` reads recordings for callouts that picture sound. Raises ProjectError with the complaints of
    every excerpt and callout that cannot be played, composed or placed.
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
        self._excerpts = ExcerptPlanner(project, self._facts, self._complaints)
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
        placed = self._excerpts.plan(index, segment, script)
        excerpt = placed.excerpt if placed else None
        length = length_of(script, segment.camera, excerpt, segment.narration)
        clip = self._clip(index, segment, placed, max(1, math.ceil(length * self._canvas.rate)))
        callouts = self._callouts.plan(clip, segment.callouts)
        voice = voice_of(segment, script, self._project.episode.scratch_voice)
        return SegmentPlan(
            id=segment.id,
            number=index + 1,
            title=segment.title,
            start=start,
            frames=clip.frames,
            ground=ground_of(
                segment, self._project.song, script, clip.frames, clip.playing, callouts, self._canvas
            ),
            camera=_camera(segment),
            voice=voice,
            camera_sound=beside_of(segment),
            ducking=ducking_of(segment.ducking, voice),
            excerpt=placed.plan if placed else None,
            callouts=callouts,
            strip=strip_layer(*clip.playing, self._canvas) if clip.playing else None,
            burnt=burnt_layers(index + 1, segment.title or segment.id, clip.frames, self._canvas),
            script=script,
            reading=reading_time(script),
            scratch=_scratch(voice, clip, self._canvas),
        )

    def _clip(self, index: int, segment: Segment, placed: PlacedExcerpt | None, frames: int) -> Clip:
        heard = placed.heard if placed else ()
        changed = unheard(placed.passes, heard) if placed and placed.excerpt.span else ()
        clock = ClipClock(self._canvas.rate, self._project.song.time, heard, changed)
        playing = None
        if placed is not None:
            playing = min(clock.frame(placed.start), frames), min(clock.frame(placed.end), frames)
        return Clip(
            index=index,
            frames=frames,
            clock=clock,
            playing=playing,
            excerpt=placed.excerpt if placed else None,
            passes=placed.passes if placed else (),
            changes=changes_of(placed.excerpt, self._facts) if changed and placed else (),
            titled=not segment.camera,
            presenter=segment.presenter,
        )

    def _fill(self, text: str) -> str:
        return fill(text, lambda name: self._answers[name].words)


def _scratch(voice: Voice | None, clip: Clip, canvas: Canvas) -> Layer | None:
    """The words that mark a scratch voice, while it speaks."""
    if voice is None or voice.kind != "scratch":
        return None
    return scratch_layer(min(clip.clock.frame(Fraction(voice.laid.end, RATE)), clip.frames), canvas)


def _camera(segment: Segment) -> CameraPlan | None:
    camera = segment.camera
    return CameraPlan(camera.media.path.as_posix(), camera.start, camera.end) if camera else None
