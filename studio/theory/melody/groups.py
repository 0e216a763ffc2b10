"""Figures of several notes around one tone: double neighbours, enclosures, the cambiata.

As Open Music Theory has them ("Embellishing tones"; "Composing a third-species counterpoint"): the double
neighbour leaves a tone by step, leaps over it by a third and steps back to it (C–D–B–C); where the first of
the four is another tone, textbooks say incomplete neighbour group and players say enclosure; the nota
cambiata is step, third in the same direction, two steps back (C–B–G–A–B).
"""

from __future__ import annotations

from studio.theory.melody.motion import move
from studio.theory.melody.setting import Setting
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
    back = move(setting.later[0].pitch, setting.later[1].pitch)
    if back.kind != "step" or setting.later[2].pitch.midi != setting.pitch.midi:
        return None
    note, source = setting.pitch.name, setting.earlier[0].pitch.name
    reason = f"{note} steps on from {source} and skips a third, as a cambiata does."
    return Tone("cambiata", reason, (), 0.75, "incomplete neighbour")
