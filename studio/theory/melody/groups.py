"""Figures of several notes around one tone: double neighbours, enclosures, the cambiata.

As Open Music Theory has them ("Embellishing tones"; "Composing a third-species counterpoint"): the double
neighbour leaves a tone by step, leaps over it by a third and steps back to it (C–D–B–C); where the first of
the four is another tone, textbooks say incomplete neighbour group and players say enclosure; the nota
cambiata is step, third in the same direction, two steps back (C–B–G–A–B). It is a figure of strict counterpoint,
so that its first four notes must be alike in length and over one chord, and its last a tone of its chord.
"""

from __future__ import annotations

from itertools import pairwise

from studio.theory.melody.motion import move
from studio.theory.melody.setting import Around, Setting
from studio.theory.melody.tone import Tone


def group_tone(setting: Setting) -> Tone | None:
    """The name of a note in a figure of several, or None if it stands alone."""
    return _surrounding(setting) or _cambiata(setting)


def _surrounding(setting: Setting) -> Tone | None:
    """Two notes that are no chord tones, a step above and a step below the tone that follows them."""
    before, after = setting.earlier[:2], setting.later[:2]
    if after and not after[0].is_tone and len(after) == 2:
        first, second, target, start = setting.pitch, after[0].pitch, after[1], before[:1]
    elif before and not before[0].is_tone and after:
        first, second, target, start = before[0].pitch, setting.pitch, after[0], before[1:2]
    else:
        return None
    from_first, from_second = move(first, target.pitch), move(second, target.pitch)
    both_steps = from_first.kind == from_second.kind == "step"
    if not target.is_tone or not both_steps or from_first.direction == from_second.direction:
        return None
    name = f"{first.name} and {second.name}"
    trait = "upper" if move(setting.pitch, target.pitch).direction == "down" else "lower"
    if start and start[0].pitch.midi == target.pitch.midi:
        reason = f"{name} are the notes on both sides of {target.pitch.name}."
        return Tone("double neighbour", reason, (trait,), 0.95)
    reason = f"{name} enclose {target.pitch.name} from both sides."
    return Tone("enclosure", reason, (trait,), 0.8, "double neighbour")


def _cambiata(setting: Setting) -> Tone | None:
    """Step, third on, two steps back: five notes, of which the second, no chord tone, comes again at the end."""
    came, goes = setting.came, setting.goes
    if came.kind != "step" or goes.kind != "leap" or came.direction != goes.direction:
        return None
    if abs(goes.letters) != 2 or len(setting.later) < 3 or not setting.resolves:
        return None
    skipped, back, last = setting.later
    returns = move(skipped.pitch, back.pitch).kind == "step" and last.pitch.midi == setting.pitch.midi
    if not returns or not last.is_tone or not _in_strict_time(setting, back):
        return None
    note, source = setting.pitch.name, setting.earlier[0].pitch.name
    reason = f"{note} steps on from {source} and skips a third, as a cambiata does."
    return Tone("cambiata", reason, (), 0.75, "incomplete neighbour")


def _in_strict_time(setting: Setting, fourth: Around) -> bool:
    """Whether the four notes of the figure up to ``fourth`` are struck at one pace over one chord."""
    onsets = [setting.earlier[0].onset, setting.note.onset, setting.later[0].onset, fourth.onset]
    paces = {late - early for early, late in pairwise(onsets)}
    return len(paces) == 1 and setting.at.start <= onsets[0] and onsets[-1] < setting.at.end
