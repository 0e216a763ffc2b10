"""Why notes have the name that they have, in one short sentence."""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.chord import Chord, Tone
from studio.music.pitch import NoteName
from studio.theory.plain_english import listed


def reason(chord: Chord, foreign: bool, lacking: Sequence[Tone], others: Sequence[Chord] = ()) -> str:
    """Of a chord that was named. ``foreign``: its bass is no chord tone; ``lacking``: tones that do not sound."""
    plain = Chord(chord.root, chord.quality, chord.changes).text
    if chord.upper is not None:
        return f"{chord.upper.text} sounds over {plain}: two chords at once."
    if foreign:
        return f"{plain} sounds over {chord.bass}, which is not one of its notes."
    if lacking:
        return f"The notes of {plain} without {_left_out(lacking)}{_inverted(chord, ', ')}."
    if others and chord.bass is None:
        return f"With {chord.root} in the bass it is {chord.text}; the same notes make {others[0].text}."
    return f"The notes of {plain}{_inverted(chord, ', ')}."


def no_chord(names: Sequence[NoteName]) -> str:
    """Of notes that have no name as a chord."""
    if not names:
        return "Nothing sounds."
    if len({name.pc for name in names}) == 1:
        return f"{names[0]} alone makes no chord."
    if len({name.pc for name in names}) == 2:
        return f"{names[0]} and {names[1]} alone make no chord."
    return "These notes have no common name as a chord."


def _left_out(lacking: Sequence[Tone]) -> str:
    return listed([f"the {tone.name}" for tone in lacking])


def _inverted(chord: Chord, before: str) -> str:
    tone = chord.bass_tone
    if chord.bass is None or tone is None:
        return ""
    return f"{before}the {tone.name} in the bass"
