"""Blue notes: the lowered third, fifth and seventh of the key, sung or played against a chord that has them natural.

When a note is blue and not a chromatic ornament is common practice, and the rule is ours:

- In a blues, where the tonic chord itself is a dominant seventh for half of its time or more, the lowered third
  and fifth of the key are blue whatever the line does, the fifth spelled ♭5 or ♯4. Where textbooks would see an
  ornament (E–E♭–D), we are less sure and name it second. The lowered seventh, and the lowered third of another
  chord (F over D7 in A), are blue only where they are no passing or neighbouring notes. The ♭9 of a
  dominant on another degree than 1, 4 and 5 is that chord's own, not the key's: E♭ over D7 in F.
- Elsewhere the lowered third of a major key is blue over its I and IV if no ornament explains it and it is held,
  comes again, lies among notes of the minor pentatonic scale (1–♭3–4) or bends up to the natural third, spelled on
  the same letter (E♭–E; D♯–E is an ornament). The lowered fifth, spelled so, is blue between notes of that scale.
- A lowered third over a major triad that comes and goes by leap is blue in any key; over a dominant seventh it
  is the ♯9 (``colour_tones``), but over the tonic's own.
- A suspension and an early note keep their names: the C that comes before D7 in A is that chord's seventh.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from studio.music.chart import Chart
from studio.music.chord import Chord
from studio.music.key import Key, key_at
from studio.theory.melody.degree import Degree, is_dominant
from studio.theory.melody.scale_degree import NoteInKey
from studio.theory.melody.setting import Around, Setting
from studio.theory.melody.tone import BLUE_NOTES, ORNAMENTS, Tone

_MINOR_PENTATONIC = {0, 3, 5, 7, 10}  # half steps above the tonic
_ORNAMENT_IN_BLUES, _ON_ITS_OWN, _SEVENTH = 0.7, 0.85, 0.8  # sureness
_OF_ANOTHER_CHORD, _ELSEWHERE, _BY_LEAP = 0.6, 0.65, 0.55


def blues_keys(chart: Chart, keys: Sequence[tuple[Fraction, Key]]) -> frozenset[Key]:
    """The keys in which the tonic chord is a dominant seventh for at least half of the time that it sounds."""
    dominant, whole = dict[Key, Fraction](), dict[Key, Fraction]()
    for at in chart.chords:
        key = key_at(keys, at.start)
        if key is None or at.chord is None or at.chord.root.pc != key.tonic.pc:
            continue
        whole[key] = whole.get(key, Fraction(0)) + at.length
        if is_dominant(at.chord):
            dominant[key] = dominant.get(key, Fraction(0)) + at.length
    return frozenset(key for key, length in dominant.items() if 2 * length >= whole[key])


def blue_note(
    tone: Tone, setting: Setting, degree: Degree, in_key: NoteInKey | None, blues: bool
) -> Tone | None:
    """The blue note that a foreign note is, by the rule above; None for all others and where no key is known.

    ``blues``: whether the song is a blues in this key (``blues_keys``).
    """
    if in_key is None or tone.kind.startswith(("suspension", "anticipation")):
        return None
    return (_in_blues if blues else _elsewhere)(tone, setting, degree, in_key)


def _in_blues(tone: Tone, setting: Setting, degree: Degree, in_key: NoteInKey) -> Tone | None:
    if degree.label == "♭9" and _far_from_home(setting.chord, in_key.key):
        return None
    ornament, lowered = tone.kind in ORNAMENTS, _lowered(in_key)
    if lowered in ("third", "fifth"):
        return _blue(lowered, tone, setting, in_key, _ORNAMENT_IN_BLUES if ornament else _ON_ITS_OWN)
    if lowered == "seventh" and not ornament:
        return _blue(lowered, tone, setting, in_key, _SEVENTH)
    return None if ornament else _third_of_chord(tone, setting, degree, _OF_ANOTHER_CHORD)


def _elsewhere(tone: Tone, setting: Setting, degree: Degree, in_key: NoteInKey) -> Tone | None:
    lowered = _lowered(in_key)
    if lowered == "third" and tone.kind not in ORNAMENTS:
        over_one_or_four = setting.chord.triad == "major" and degree.label in ("♭3", "♭7")
        if over_one_or_four and (_on_its_own(setting) or _in_pentatonic(setting, in_key) or _bends(setting)):
            return _blue(lowered, tone, setting, in_key, _ELSEWHERE)
    if lowered == "fifth" and in_key.degree.number == 5 and _in_pentatonic(setting, in_key):
        return _blue(lowered, tone, setting, in_key, _OF_ANOTHER_CHORD)
    if tone.kind != "non-chord tone" or (
        is_dominant(setting.chord) and not _on_tonic(setting.chord, in_key.key)
    ):
        return None
    return _third_of_chord(tone, setting, degree, _BY_LEAP)


def _far_from_home(chord: Chord, key: Key) -> bool:
    """Whether a chord is a dominant seventh on another degree than 1, 4 and 5."""
    return is_dominant(chord) and (chord.root.pc - key.tonic.pc) % 12 not in (0, 5, 7)


def _on_tonic(chord: Chord, key: Key) -> bool:
    return chord.root.pc == key.tonic.pc


def _lowered(in_key: NoteInKey) -> str:
    """ "third", "fifth" or "seventh" for a note that may be blue in its key; "" for all others."""
    spelled = (in_key.degree.number, in_key.degree.alter)
    if spelled in ((5, -1), (4, 1)):
        return "fifth"
    return {(3, -1): "third", (7, -1): "seventh"}.get(spelled, "") if in_key.key.mode == "major" else ""


def _third_of_chord(tone: Tone, setting: Setting, degree: Degree, sureness: float) -> Tone | None:
    if degree.label != "♭3" or setting.chord.triad != "major":
        return None
    reason = f"{setting.pitch.name} is the lowered third of {setting.chord.text}, a blue note"
    return Tone(BLUE_NOTES["third"], reason + _bending(setting), (), sureness, _second(tone))


def _blue(which: str, tone: Tone, setting: Setting, in_key: NoteInKey, sureness: float) -> Tone:
    note, tonic = setting.pitch.name, in_key.key.tonic
    reason = f"{note} is the lowered {which} of {tonic}, a blue note over {setting.chord.text}"
    if which == "fifth":
        reason = f"{note} lies between the fourth and the fifth of {tonic}, a blue note"
    return Tone(BLUE_NOTES[which], reason + _bending(setting), (), sureness, _second(tone))


def _second(tone: Tone) -> str:
    return "" if tone.kind == "non-chord tone" else tone.kind


def _bending(setting: Setting) -> str:
    return f", and bends up to {setting.later[0].pitch.name}." if _bends(setting) else "."


def _bends(setting: Setting) -> bool:
    """Whether the note goes up a half step on its own letter, from ♭3 to 3."""
    after = setting.later[0].pitch if setting.later else None
    return (
        setting.goes.semitones == 1 and after is not None and after.name.letter == setting.pitch.name.letter
    )


def _on_its_own(setting: Setting) -> bool:
    """Whether the note is longer than the line's usual pace, is struck again, or comes back after the next one."""
    if setting.note.length > setting.lines.pace(setting.place) > 0 or setting.restruck:
        return True
    around = (setting.later[1:2], setting.earlier[1:2])
    return any(other.pitch.midi == setting.pitch.midi for beyond in around for other in beyond)


def _in_pentatonic(setting: Setting, in_key: NoteInKey) -> bool:
    """Whether the notes on both sides belong to the minor pentatonic scale of the key, and differ."""
    beside: tuple[Around, ...] = (*setting.earlier[:1], *setting.later[:1])
    places = [(other.pitch.midi - in_key.key.tonic.pc) % 12 for other in beside]
    return len(set(places)) == 2 and set(places) <= _MINOR_PENTATONIC
