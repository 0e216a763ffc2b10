"""Naming a note that is no chord tone, by how it is approached and how it is left.

As harmony textbooks have them (Open Music Theory, "Embellishing tones"; Robert Hutchinson, Music Theory for
the 21st-Century Classroom, chapter 10; Sean Butterfield, Integrated Musicianship: Theory, units 9a and 9b):

- passing: step, step on; neighbour: step, step back to the same note;
- double neighbour, enclosure, cambiata: figures of several notes (``groups``);
- suspension: held, steps down; retardation: held, steps up; pedal: held, stays (``suspensions``);
- anticipation: sounds before its chord and is struck again; held on into it, most of it in its own chord, it
  is pushed, as singers and bass players say;
- appoggiatura: leap, step to a chord tone; escape: step, leap the other way, not as the chord comes;
- incomplete neighbour: leap and step in one direction off the strong beats (Butterfield, 9b), step and leap in one
  direction, or a step away and a step back to another note.

Where the books differ we say so in ``runner_up``: Open Music Theory calls an appoggiatura only what is
accented, Hutchinson and Butterfield whatever leaps and steps back. A seventh over a plain triad may always be
heard as part of the chord.
"""

from __future__ import annotations

from itertools import pairwise

from studio.theory.melody.groups import group_tone
from studio.theory.melody.motion import move
from studio.theory.melody.setting import Around, Setting
from studio.theory.melody.suspensions import held_tone, stays
from studio.theory.melody.tone import Tone
from studio.theory.plain_english import length_words


def name_non_chord_tone(setting: Setting, bass: bool = False) -> Tone:
    """The kind of a note that is no tone of its chord, and one sentence that says why.

    ``bass``: whether the note lies in the lowest voice, where a suspension has other figures.
    """
    if setting.prepared or stays(setting):
        return held_tone(setting, bass)
    if setting.goes_on:
        return _early(setting)
    return group_tone(setting) or _by_motion(setting)


def _by_motion(setting: Setting) -> Tone:
    came, goes, note = setting.came, setting.goes, setting.pitch.name
    if came.kind == goes.kind == "step":
        return _passing(setting) if came.direction == goes.direction else _neighbour(setting)
    if goes.kind == "step" and setting.resolves:
        return _leaning(setting)
    if came.kind == "step" and goes.kind == "leap":
        source = setting.earlier[0].pitch.name
        if came.direction == goes.direction:
            reason = f"{note} is reached by step from {source} and left by leap the same way."
            return Tone("incomplete neighbour", reason, (), 0.6, "escape")
        if setting.note.onset == setting.at.start:  # too strong: textbooks want an escape between the beats
            reason = f"{note} sounds as {setting.chord.text} comes and is left by leap."
            return Tone("non-chord tone", reason, (), 0.6, "escape")
        return Tone("escape", f"{note} is reached by step from {source} and left by leap.", (), 0.85)
    return Tone("non-chord tone", f"{note} is not a tone of {setting.chord.text}.", (), 0.7)


def _passing(setting: Setting) -> Tone:
    left, right = _same_way(setting.earlier, setting), _same_way(setting.later, setting)
    count = 1 + left + right
    start = setting.earlier[min(left, len(setting.earlier) - 1)].pitch.name
    end = setting.later[min(right, len(setting.later) - 1)].pitch.name
    reason = f"{setting.pitch.name} passes by step between {start} and {end}."
    return Tone("passing", reason, ("double",) * (count == 2) + ("triple",) * (count > 2))


def _same_way(around: tuple[Around, ...], setting: Setting) -> int:
    """How many notes beside this one pass with it: by step in its direction, neither chord tones nor early ones."""
    count, came = 0, move(setting.pitch, around[0].pitch)
    for here, beyond in pairwise(around):
        goes = move(here.pitch, beyond.pitch)
        if here.is_tone or here.early or goes.kind != "step" or goes.direction != came.direction:
            break
        count += 1
    return count


def _neighbour(setting: Setting) -> Tone:
    note, source, target = setting.pitch.name, setting.earlier[0].pitch, setting.later[0].pitch
    side = "upper" if setting.came.direction == "up" else "lower"
    if source.midi == target.midi:
        return Tone("neighbour", f"{note} steps away from {source.name} and back.", (side,))
    reason = f"{note} is a step from {source.name} before it and from {target.name} after it."
    return Tone("incomplete neighbour", reason, (side,), 0.7, "neighbour")


def _leaning(setting: Setting) -> Tone:
    """Reached by leap or from nowhere, left by step to a tone of the chord."""
    came, note, target = setting.came, setting.pitch.name, setting.later[0].pitch.name
    if came.kind != "leap":
        return Tone("appoggiatura", f"{note} is struck without preparation and steps to {target}.", (), 0.75)
    leap = f"{note} is reached by leap from {setting.earlier[0].pitch.name} and steps"
    if came.direction == setting.goes.direction:
        return Tone("incomplete neighbour", f"{leap} on to {target}.", (), 0.6, "appoggiatura")
    return Tone("appoggiatura", f"{leap} to {target}.", (), 0.9)


def _early(setting: Setting) -> Tone:
    following = setting.chord_after
    assert following is not None
    assert following.chord is not None
    note, chord = setting.pitch.name, following.chord.text
    held = setting.note.end - following.start
    if held >= setting.early:
        early = length_words(setting.early)
        how = f"comes {early} early" if early else "comes early"
        reason = f"{note} is pushed: it {how} and is held into {chord}, to which it belongs."
        return Tone("anticipation", reason, ("pushed",), 0.95)
    traits = ("tied over",) if held > 0 else ()
    return Tone("anticipation", f"{note} sounds before its chord, {chord}, has come.", traits, 0.95)
