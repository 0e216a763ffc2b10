"""Colour tones: the ninth, eleventh, thirteenth of a chord that its symbol does not spell.

A foreign note is a colour of its chord, and no ornament, where it does not move on by step as ornaments do:

- in a chord that is struck and held (it is struck with two other notes of its staff or more, and they sound
  through it together) unless it steps on while the same chord sounds;
- in a line, where it is held or left by leap: over a seventh chord, and a 9 or 6 over a triad, with less sureness.
  What is reached by step, off the beat and no longer than the line's usual pace, stays an escape tone.

Which notes colour which chords is what jazz teaching calls available tensions (common practice): the 9 and 13
over all but diminished chords, the 11 over minor ones, the ♯11 over major ones, altered ninths and ♭13 over
dominant sevenths only, their ♯9 also where it is written as a lowered third. The 11 over a major third, the ♭9
elsewhere and their like stay foreign notes.
"""

from __future__ import annotations

from studio.music.chord import Chord
from studio.music.songtime import SongTime
from studio.theory.melody.beats import beat_at
from studio.theory.melody.degree import Degree, as_colour, is_dominant
from studio.theory.melody.setting import Setting
from studio.theory.melody.tone import Tone

_NINTHS_AND_SIXTHS = ("9", "2", "13", "6")
_ALTERED = ("♭9", "♯9", "♭13")
_LEFT_BY_LEAP = ("escape", "incomplete neighbour")
_IN_A_CHORD, _OVER_A_SEVENTH, _OVER_A_TRIAD = 0.85, 0.65, 0.55  # sureness
_OTHERS = 2  # notes struck with it that make a chord


def colour_tone(tone: Tone, setting: Setting, degree: Degree, time: SongTime | None) -> Tone | None:
    """The colour of its chord that a foreign note is; None for all others."""
    label = as_colour(degree, setting.chord).label
    if tone.kind in ("anticipation", "pedal") or not colours(label, setting.chord):
        return None
    if _sounds_in_a_chord(setting) and not _steps_on(setting):
        reason = f"{setting.pitch.name} is held in the chord, the {label} of {setting.chord.text}."
        return Tone("colour tone", reason, (), _IN_A_CHORD, _second(tone))
    still = "" if setting.goes.kind == "step" else " and does not move on by step"
    reason = f"{setting.pitch.name} is the {label} of {setting.chord.text}{still}."
    if tone.kind == "non-chord tone":
        over_seventh = setting.chord.seventh or label.startswith(("11", "13"))
        if over_seventh or label in _NINTHS_AND_SIXTHS:
            sureness = _OVER_A_SEVENTH if over_seventh else _OVER_A_TRIAD
            return Tone("colour tone", reason, tone.traits, sureness, tone.runner_up)
    leaps_off = tone.kind in _LEFT_BY_LEAP and setting.goes.kind == "leap" and label == degree.label
    if leaps_off and setting.chord.seventh and _weighs(setting, time):
        return Tone("colour tone", reason, (), _OVER_A_TRIAD, tone.kind)
    return None


def colours(label: str, chord: Chord) -> bool:
    """Whether musicians hear the degree as a colour of such a chord."""
    if label in _NINTHS_AND_SIXTHS:
        return chord.triad != "diminished" or label in ("9", "2")
    if label in ("♯11", "♯4"):
        return chord.triad == "major"
    if label in ("11", "4"):
        return chord.triad in ("minor", "diminished")
    return label in _ALTERED and is_dominant(chord)


def _second(tone: Tone) -> str:
    return "" if tone.kind == "non-chord tone" else tone.kind


def _sounds_in_a_chord(setting: Setting) -> bool:
    """Whether two or more notes of its staff are struck with the note and sound on with it under this chord."""
    together = [
        other
        for other in setting.lines.struck_with(setting.place)
        if other.staff == setting.note.staff and other.end > setting.at.start
    ]
    return len(together) >= _OTHERS


def _steps_on(setting: Setting) -> bool:
    """Whether the line goes on by step while this chord still sounds."""
    return setting.goes.kind == "step" and setting.later[0].onset < setting.at.end


def _weighs(setting: Setting, time: SongTime | None) -> bool:
    """Whether the note is on a beat, or longer than the notes of its line usually are."""
    if setting.note.length > setting.lines.pace(setting.place) > 0:
        return True
    if time is None:
        return setting.note.onset == setting.at.start
    return beat_at(setting.span.start, time).name != "offbeat"
