"""Naming a note that is a tone of its chord: which one."""

from __future__ import annotations

from studio.music.chord import Chord
from studio.theory.melody.degree import Degree
from studio.theory.melody.setting import Setting
from studio.theory.melody.suspensions import suspended_fourth
from studio.theory.melody.tone import Tone


def name_chord_tone(setting: Setting, degree: Degree) -> Tone:
    """Which tone of the chord it is; but the fourth of a sus chord that steps down to the third is suspended."""
    if degree.label == "4" and setting.chord.triad == "suspended":
        place = setting.lines.different(setting.place, 1)
        after = setting.lines.notes[place] if place is not None else None
        suspended = suspended_fourth(setting.note, setting.at, after, setting.chord_after)
        if suspended is not None:
            return suspended
    note, chord = setting.pitch.name, setting.chord
    if not degree.chord_tone:
        return Tone("chord tone", f"{note} is the third that {chord.text} leaves open.", (), 0.9)
    name = tone_name(degree, chord) or "bass"
    return Tone("chord tone", f"{note} is the {name} of {chord.text}.", (), 1.0)


def tone_name(degree: Degree, chord: Chord) -> str:
    """ "third", "ninth": a tone of the chord by its name; "" for a bass that is foreign to the chord."""
    tone = next((tone for tone in chord.tones if tone.degree == degree.label), None)
    return tone.name if tone is not None else ""
