"""Where the beat falls: the backbeat, full, half and double time, four on the floor, pushed kicks.

Common practice throughout: in a bar of four beats a backbeat on 2 and 4 is full time, one on 3 alone is half time
(the same bar, half the backbeats), one on every off-beat eighth is double time.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from studio.music.groove import Groove
from studio.music.kit import BACKBEAT_VOICES

Time = Literal["full time", "half time", "double time", ""]
_EIGHTH = Fraction(1, 2)  # of a quarter


@dataclass(frozen=True, slots=True)
class Feel:
    """How a groove marks its beats.

    ``time`` is "" where no backbeat tells; ``beats`` are the beats (from 1) that ``voices`` mark in every bar, and
    ``every_beat`` says that they mark all of them alike. ``sureness`` is a judgement: a snare is plain, a clap or
    side stick alone is a little less so.
    """

    time: Time
    beats: tuple[int, ...]
    voices: tuple[str, ...]
    reason: str
    sureness: float = 1.0
    runner_up: str = ""
    every_beat: bool = False

    @property
    def backbeat(self) -> bool:
        """Whether there is a backbeat at all."""
        return self.time != ""


@dataclass(frozen=True, slots=True)
class Push:
    """A kick that comes just ahead of a strong beat.

    ``before`` is the beat that it leads to and ``at`` the moment of the kick in bars from the start of the groove.
    ``replaces`` says that the beat itself has no kick, so that the kick has moved ahead of it.
    """

    before: int
    at: Fraction
    replaces: bool


def feel_of(groove: Groove) -> Feel:
    """The backbeat of a groove and the feel that it makes; ghost notes do not count."""
    played = [voice for voice in BACKBEAT_VOICES if voice in groove.voices]
    marked = _marked(groove, played)
    voices = tuple(voice for voice in played if marked and marked <= _marked(groove, [voice]))
    voices = voices or tuple(played)
    sure = 0.95 if "snare" in voices else 0.85
    if groove.meter.beats == 4:
        return _of_four(groove, played, marked, voices, sure)
    beats = tuple(sorted(marked))
    if groove.meter.beats == 2 and beats == (2,):
        return Feel("full time", beats, voices, "The backbeat falls on 2.", sure)
    if beats:
        return Feel("", beats, voices, f"No backbeat: {groove.meter} has no 2 and 4 to set it on.", 0.7)
    return _none(groove)


def _of_four(
    groove: Groove, played: list[str], marked: frozenset[int], voices: tuple[str, ...], sure: float
) -> Feel:
    beats = tuple(sorted(marked))
    if beats == (1, 2, 3, 4):
        reason = "The snare falls on every beat, so no beat stands back."
        return Feel("", beats, voices, reason, sure, every_beat=True)
    if {2, 4} <= marked:
        extra = marked - {2, 4}
        reason = "The backbeat falls on 2 and 4."
        return Feel("full time", (2, 4), voices, reason, sure - 0.2 * bool(extra))
    if marked == {3}:
        reason = "The backbeat falls once a bar, on 3: half as often as on 2 and 4."
        return Feel("half time", (3,), voices, reason, sure - 0.1)
    if not beats and _on_every_off_beat(groove, played):
        reason = "The backbeat falls on every off-beat eighth: twice as often as on 2 and 4."
        return Feel("double time", (), tuple(played), reason, sure - 0.1)
    if beats:
        return Feel(
            "", beats, voices, "What the snare marks is no backbeat on 2 and 4, nor half time on 3.", 0.6
        )
    return _none(groove)


def _none(groove: Groove) -> Feel:
    if not any(voice in BACKBEAT_VOICES for voice in groove.voices):
        return Feel("", (), (), "No snare, clap or side stick plays.", 0.9)
    return Feel("", (), (), "Nothing marks the same beat in every bar.", 0.6)


def _marked(groove: Groove, voices: list[str]) -> frozenset[int]:
    """The beats that these voices strike in every bar."""
    onsets = set(groove.onsets(*voices, ghosts=False)) if voices else set()
    beats = groove.meter.beats
    return frozenset(
        beat + 1
        for beat in range(beats)
        if all(bar + Fraction(beat, beats) in onsets for bar in range(groove.bars))
    )


def _on_every_off_beat(groove: Groove, voices: list[str]) -> bool:
    onsets = set(groove.onsets(*voices, ghosts=False)) if voices else set()
    halves = (
        Fraction(2 * step + 1, 2 * groove.meter.beats) for step in range(groove.meter.beats * groove.bars)
    )
    return bool(onsets) and all(at in onsets for at in halves)


def four_on_the_floor(groove: Groove) -> bool:
    """Whether the kick falls on every beat of every bar of four."""
    return groove.meter.beats == 4 and len(_marked(groove, ["kick"])) == 4


def pushes(groove: Groove) -> tuple[Push, ...]:
    """Kicks within an eighth note ahead of beat 1 or (in a bar of four) beat 3, the nearest one to each.

    With four on the floor nothing is pushed: the extra kicks are decoration.
    """
    kicks = groove.onsets("kick", ghosts=False)
    if not kicks or four_on_the_floor(groove):
        return ()
    beats, bars = groove.meter.beats, Fraction(groove.bars)
    reach = _EIGHTH / groove.meter.bar
    found = []
    for bar in range(groove.bars):
        for beat in (1, 3) if beats == 4 else (1,):
            target = bar + Fraction(beat - 1, beats)
            ahead = [(target - at) % bars for at in kicks if 0 < (target - at) % bars <= reach]
            if ahead:
                found.append(Push(beat, (target - min(ahead)) % bars, target not in kicks))
    return tuple(dict.fromkeys(sorted(found, key=lambda push: push.at)))
