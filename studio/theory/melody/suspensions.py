"""Held notes: suspensions, retardations and pedals.

A suspension is a tone of the chord before, held or struck again into a chord that it does not belong to, and
steps down; a retardation steps up; a pedal stays until a chord comes to which it belongs. Suspensions are
named by figures above the bass: 9–8, 7–6, 4–3. One in the bass itself is named against the voice above that
grinds most: 2–3, seldom 4–5 or 5–6 (Open Music Theory, "Composing a fourth-species counterpoint").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.melody.chords_under import is_tone
from studio.theory.melody.degree import Degree
from studio.theory.melody.lines import Lines
from studio.theory.melody.motion import Direction, move
from studio.theory.melody.setting import Around, Setting
from studio.theory.melody.tone import Tone

_FIGURES = (8, 9, 3, 4, 5, 6, 7)
"""The figure of each letter distance above the bass."""
_GRINDS = (1, 3, 4)
"""Letter distances of a voice above a suspended bass, the most dissonant first: 2–3, 4–5, 5–6."""
_LONGEST_DECORATION = 2  # notes between a suspension and its resolution
_FEWEST_OVER_A_PEDAL = 3  # chords that a note struck again must sound over
_FARTHEST_HOME = 8  # chord changes from a pedal's foreign chord to one to which it belongs


def held_tone(setting: Setting, bass: bool) -> Tone:
    """The name of a note that was a tone of the chord before and stays; ``bass`` if it is the lowest voice."""
    if stays(setting):
        return _pedal(setting) if is_pedal(setting) else _repeated(setting)
    down, up = _resolution(setting, "down"), _resolution(setting, "up")
    if down is not None:
        tone = _suspension(setting, down, bass)
        return replace(tone, runner_up="retardation") if up is not None else tone
    if up is not None:
        return _suspension(setting, up, bass)
    note, source = setting.pitch.name, _source(setting)
    return Tone("non-chord tone", f"{note} is held over{source} and does not resolve by step.", (), 0.6)


def _resolution(setting: Setting, direction: Direction) -> Around | None:
    """The chord tone to which a held note steps; down, it may be decorated first, inside the same chord."""
    if not setting.later:
        return None
    inside = [other for other in setting.later[1:] if other.onset < setting.at.end]
    ways = [setting.later[0], *inside[:_LONGEST_DECORATION]] if direction == "down" else setting.later[:1]
    for other in ways:
        goes = move(setting.pitch, other.pitch)
        if goes.kind == "step" and goes.direction == direction and other.is_tone:
            return other
    return None


def _suspension(setting: Setting, resolution: Around, bass: bool) -> Tone:
    goes = move(setting.pitch, resolution.pitch)
    kind, sign = ("suspension", -1) if goes.direction == "down" else ("retardation", 1)
    over = setting.chord.lowest
    in_bass = bass and kind == "suspension" and resolution.pitch.name.pc == over.pc
    first, second = figures_below(setting) if in_bass else figures(setting.pitch, setting.chord, sign)
    decorated = resolution != setting.later[0]
    way = f"steps {goes.direction} to {resolution.pitch.name}"
    if decorated:
        way = f"comes down to {resolution.pitch.name} past other notes"
    how = "is struck again" if setting.struck else "is held over"
    figured = f"{first}–{second}{' in the bass' if in_bass else ''}"
    reason = f"{setting.pitch.name} {how}{_source(setting)} and {way}, {figured}."
    traits = ("bass",) * in_bass + ("decorated",) * decorated + ("rearticulated",) * setting.struck
    sureness = 0.8 if decorated else 0.95 if kind == "suspension" else 0.9
    return Tone(f"{kind} {first}–{second}", reason, traits, sureness)


def figures(pitch: Pitch, chord: Chord, sign: int) -> tuple[int, int]:
    """The figures above the bass of a held note and of the step that resolves it: (4, 3), (9, 8), (7, 6)."""
    letters = chord.lowest.interval_to(pitch.name)[0]
    first = _FIGURES[letters]
    if sign > 0 and first == 9:
        first = 2
    return first, first + sign


def figures_below(setting: Setting) -> tuple[int, int]:
    """The figures of a suspended bass, against the chord tone above that grinds most: (2, 3) as a rule."""
    distances = {setting.pitch.name.interval_to(note)[0] for note in setting.chord.notes()}
    first = next((letters for letters in _GRINDS if letters in distances), 4) + 1
    return first, first + 1


def stays(setting: Setting) -> bool:
    """Whether the pitch sounds on through this chord, from one to which it belongs into another."""
    start, end = setting.lines.run(setting.place)
    if start >= setting.at.start or end <= setting.at.end:
        return False
    return all(_belongs(setting, step, start, end) for step in (-1, 1))


def _belongs(setting: Setting, step: int, start: Fraction, end: Fraction) -> bool:
    """Whether the pitch, as it sounds from ``start`` to ``end``, meets a chord to which it belongs that way."""
    at = setting.at
    for _ in range(_FARTHEST_HOME):
        other = setting.chords.beside(at, step)
        if other is None or other.start >= end or other.end <= start:
            return False
        if is_tone(setting.pitch, other):
            return True
        at = other
    return False


def is_pedal(setting: Setting) -> bool:
    """Whether a pitch that stays is called a pedal: one that is held, or the tonic or dominant, struck again.

    A melody that repeats any other note, or this one over two chords only, just repeats it, as popular ones do.
    """
    if not setting.restruck:
        return True
    if setting.key is not None and setting.pitch.name.pc not in _pedal_points(setting.key):
        return False
    start, end = setting.lines.run(setting.place)
    return setting.chords.count(start, end) >= _FEWEST_OVER_A_PEDAL


def _pedal_points(key: Key) -> set[int]:
    return {key.tonic.pc, (key.tonic.pc + 7) % 12}


def _pedal(setting: Setting) -> Tone:
    reason = f"{setting.pitch.name} stays while the chords change around it."
    if setting.struck:
        return Tone("pedal", reason, ("rearticulated",), 0.75, "non-chord tone")
    return Tone("pedal", reason, (), 0.9)


def _repeated(setting: Setting) -> Tone:
    reason = f"{setting.pitch.name} is repeated while the chords change under it."
    return Tone("non-chord tone", reason, ("repeated",), 0.7, "pedal")


def _source(setting: Setting) -> str:
    before = setting.chord_before
    return f" from the {before.chord.text} chord" if before is not None and before.chord is not None else ""


def suspended_fourth(note: Note, at: ChordAt, after: Note | None, following: ChordAt | None) -> Tone | None:
    """The fourth of a sus chord that steps down to the third of the next chord on that root, 4–3."""
    if at.chord is None or after is None or following is None or following.chord is None:
        return None
    letters, semitones = at.chord.root.interval_to(after.pitch.name)
    to_third = letters == 2 and semitones in (3, 4) and is_tone(after.pitch, following)
    if following.chord.root != at.chord.root or not to_third or not following.span.contains(after.onset):
        return None
    reason = f"{note.pitch.name} is the sus4 of {at.chord.text} and steps to the third."
    return Tone("suspension 4–3", reason)


def as_figured(degree: Degree, kind: str) -> Degree:
    """A suspension is called by its figure, whatever the chord: the 4 of 4–3, the 9 of 9–8."""
    figure = kind.split()[1].split("–")[0]
    label = "".join(sign for sign in degree.label if sign in "♭♯") + figure
    if label == degree.label:
        return degree
    return replace(degree, label=label, alternative=degree.label)


def in_chains(suspended: Sequence[int], lines: Lines) -> set[int]:
    """Which of these suspended notes, by their place, are in a chain: one resolves to what prepares the next."""
    runs = {lines.run_first[place]: place for place in suspended}
    linked: set[int] = set()
    for place in suspended:
        before = lines.before[lines.run_first[place]]
        if before is not None and (other := runs.get(lines.run_first[before])) is not None:
            linked |= {place, other}
    return linked
