"""Excerpts in their clips: what sounds in each pass, when its clicks come, and what of the song is heard when.

`passes` has the exact times; here they become samples, each rounded once.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from studio.project.complaints import Complaint
from studio.project.lengths import excerpt_start
from studio.project.model import Camera, Excerpt, Project, Segment
from studio.project.times import time_text
from studio.timeline.clicks import bars_of, clicks_of
from studio.timeline.clock import Heard
from studio.timeline.examples import Complain, Examples, is_changed
from studio.timeline.heard import Cut, Laid, Pass, Played, nearest_sample
from studio.timeline.mix import names_of, played_of, stems_of
from studio.timeline.passes import pass_lengths, passes_of, without
from studio.timeline.plan import ExcerptPlan
from studio.timeline.song_facts import SongFacts
from studio.timeline.voices import CLICK_FREE

_SHORTEST = Fraction(1, 10)


@dataclass(frozen=True)
class PlacedExcerpt:
    """An excerpt in its clip, from second `start` (its first click or sound) to `end`.

    `excerpt` is as the project has it, its length known. `passes` say when each pass is heard, and `heard` what of
    them the clip's clock may tell of: nothing where a changed pass sounds otherwise, or no place of the song does.
    """

    excerpt: Excerpt
    plan: ExcerptPlan
    start: Fraction
    end: Fraction
    passes: tuple[Heard, ...]
    heard: tuple[Heard, ...]


class ExcerptPlanner:
    """Plans excerpts and gathers their complaints."""

    def __init__(self, project: Project, facts: SongFacts, complaints: list[Complaint]) -> None:
        self._time, self._marks, self._asked = project.song.time, project.marks, project.facts
        self._soundfont = project.episode.soundfont.as_posix() if project.episode.soundfont else ""
        self._facts, self._complaints = facts, complaints

    def plan(self, index: int, segment: Segment, script: str) -> PlacedExcerpt | None:
        """The excerpt of one clip, whose script has its facts filled in; None where there is none."""
        if segment.excerpt is None:
            return None
        complain = self._complaining(index)
        examples = Examples(segment.excerpt, self._facts, self._asked, complain)
        excerpt = examples.excerpt
        start = excerpt_start(script, segment.narration, excerpt)
        passes = passes_of(excerpt, start)
        laid = Laid(self._cut(examples), nearest_sample(start))
        bars = bars_of(excerpt, self._time) if excerpt.span else ()
        placed = PlacedExcerpt(
            excerpt=excerpt,
            plan=ExcerptPlan(laid, names_of(excerpt), excerpt.span, bars),
            start=start,
            end=start + excerpt.heard,
            passes=passes,
            heard=_told(examples, passes),
        )
        _check(placed, segment.camera, complain)
        return placed

    def _cut(self, examples: Examples) -> Cut:
        excerpt, start = examples.excerpt, nearest_sample(examples.excerpt.start)
        stems = stems_of(excerpt, self._time)
        passes = [
            Pass((*stems, *self._played(examples, number)), start, length)
            for number, length in enumerate(pass_lengths(excerpt))
        ]
        bare = Cut(
            passes=tuple(passes),
            fade_in=0,
            fade_out=0,
            speed=excerpt.speed,
            cents=float(excerpt.cents),
            lead=nearest_sample(excerpt.counted),
            clicks=clicks_of(excerpt, self._time) if excerpt.span else (),
            click_db=excerpt.click or 0.0,
            matched=bool(excerpt.instead),
        )
        fade_in, fade_out = (_fade(one, bare) for one in (excerpt.fade_in, excerpt.fade_out))
        return replace(bare, fade_in=fade_in, fade_out=fade_out)

    def _played(self, examples: Examples, number: int) -> tuple[Played, ...]:
        excerpt = examples.excerpt
        last = number == excerpt.passes - 1
        return tuple(
            played_of(excerpt, play, examples.tones(play, number), self._soundfont, self._time, last)
            for play in excerpt.plays
        )

    def _complaining(self, index: int) -> Complain:
        def complain(key: str, sentence: str) -> None:
            complaint = self._marks.complaint(("segments", index, "excerpt", key), sentence)
            if complaint not in self._complaints:
                self._complaints.append(complaint)

        return complain


def _fade(seconds: Fraction, cut: Cut) -> int:
    """Samples of a fade, as long as the music at most: the two are rounded each by itself."""
    return min(nearest_sample(max(seconds, CLICK_FREE)), cut.music)


def _told(examples: Examples, passes: tuple[Heard, ...]) -> tuple[Heard, ...]:
    """The passes without what no picture may claim to sound."""
    if not examples.excerpt.span:
        return ()
    silent = examples.silent()
    return tuple(
        piece
        for number, one in enumerate(passes)
        for piece in (without(one, silent) if is_changed(examples.excerpt, number) else (one,))
    )


def _check(placed: PlacedExcerpt, camera: Camera | None, complain: Complain) -> None:
    """What the project room cannot judge: it knows neither scripts with their facts, nor how long facts play."""
    excerpt, music = placed.excerpt, placed.excerpt.heard - placed.excerpt.counted
    if excerpt.length < _SHORTEST:
        complain("where", "this is too short to hear: an excerpt lasts a tenth of a second at least")
    if not excerpt.span and excerpt.fade_in + excerpt.fade_out > music:
        sentence = f"the fades take longer than what is played, which lasts {time_text(music)}"
        complain("fade", f"{sentence}; make them shorter")
    if camera is not None and placed.end > camera.end - camera.start:
        end, length = time_text(placed.end), time_text(camera.end - camera.start)
        sentence = f"the excerpt would run to {end}, but the take makes the clip {length}"
        complain("at", f"{sentence}; use more of the take, or a shorter excerpt")
