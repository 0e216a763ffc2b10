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
from studio.theory.plain_english import listed
from studio.theory.rhythm.grouping import grouping_of, marked_beats
from studio.theory.rhythm.named_patterns import is_train_beat

Time = Literal["full time", "half time", "double time", ""]
_EIGHTH = Fraction(1, 2)  # of a quarter


@dataclass(frozen=True, slots=True)
class Feel:
    """How a groove marks its beats.

    ``time`` is "" where no backbeat tells; ``beats`` are the beats (from 1) that ``voices`` mark in every bar, and
    ``every_beat`` says that they mark all of them alike. ``grouping`` is that of an odd meter: (2, 2, 3) for 7/8.
    ``sureness`` is a judgement: a snare is plain, a clap or side stick alone is a little less so.
    """

    time: Time
    beats: tuple[int, ...]
    voices: tuple[str, ...]
    reason: str
    sureness: float = 1.0
    runner_up: str = ""
    every_beat: bool = False
    grouping: tuple[int, ...] = ()

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
    marked = marked_beats(groove, played)
    voices = tuple(voice for voice in played if marked and marked <= marked_beats(groove, [voice]))
    voices = voices or tuple(played)
    sure = 0.95 if "snare" in voices else 0.85
    if groove.meter.beats == 4:
        return _of_four(groove, played, marked, voices, sure)
    beats = tuple(sorted(marked))
    if groove.meter.beats == 2 and beats == (2,):
        return Feel("full time", beats, voices, "The backbeat falls on 2.", sure)
    grouping = grouping_of(groove)
    if grouping:
        reason = f"The strokes group {groove.meter} as {' + '.join(map(str, grouping))}."
        return Feel("", beats, voices, reason, 0.8, grouping=grouping)
    if beats:
        return Feel("", beats, voices, _marks(voices, beats), 0.7)
    return _none(groove)


def _marks(voices: tuple[str, ...], beats: tuple[int, ...]) -> str:
    return f"The {voices[0]} marks {listed([str(beat) for beat in beats])}."


def _of_four(
    groove: Groove, played: list[str], marked: frozenset[int], voices: tuple[str, ...], sure: float
) -> Feel:
    beats = tuple(sorted(marked))
    if beats == (1, 2, 3, 4):
        reason = f"The {voices[0]} falls on every beat, so no beat stands back."
        return Feel("", beats, voices, reason, sure, every_beat=True)
    if {2, 4} <= marked:
        extra = marked - {2, 4}
        reason = "The backbeat falls on 2 and 4."
        return Feel("full time", (2, 4), voices, reason, sure - 0.2 * bool(extra))
    if marked == {3}:
        reason = "The backbeat falls once a bar, on 3: half as often as on 2 and 4."
        return Feel("half time", (3,), voices, reason, sure - 0.1)
    if not beats and is_train_beat(groove):
        return Feel("", (), ("snare",), "The snare never stops and is accented on the off-beats.", sure)
    if not beats and _on_every_off_beat(groove, played):
        reason = "The backbeat falls on every off-beat eighth: twice as often as on 2 and 4."
        return Feel("double time", (), tuple(played), reason, sure - 0.1)
    if beats:
        return Feel("", beats, voices, _marks(voices, beats), 0.6)
    return _none(groove)


def _none(groove: Groove) -> Feel:
    if not any(voice in BACKBEAT_VOICES for voice in groove.voices):
        return Feel("", (), (), "No snare, clap or side stick plays.", 0.9)
    return Feel("", (), (), "Nothing marks the same beat in every bar.", 0.6)


def _on_every_off_beat(groove: Groove, voices: list[str]) -> bool:
    onsets = set(groove.onsets(*voices, ghosts=False)) if voices else set()
    halves = (
        Fraction(2 * step + 1, 2 * groove.meter.beats) for step in range(groove.meter.beats * groove.bars)
    )
    return bool(onsets) and all(at in onsets for at in halves)


def four_on_the_floor(groove: Groove) -> bool:
    """Whether the kick falls on every beat of every bar of four, with one stroke between them at the most."""
    between = len(groove.onsets("kick", ghosts=False)) - 4 * groove.bars
    return _kick_on_every_beat(groove) and between <= groove.bars


def _kick_on_every_beat(groove: Groove) -> bool:
    return groove.meter.beats == 4 and len(marked_beats(groove, ["kick"])) == 4


def pushes(groove: Groove) -> tuple[Push, ...]:
    """Kicks within an eighth note ahead of beat 1 or (in a bar of four) beat 3, the nearest one to each.

    With a kick on every beat nothing is pushed: the extra kicks are decoration.
    """
    kicks = groove.onsets("kick", ghosts=False)
    if not kicks or _kick_on_every_beat(groove):
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
