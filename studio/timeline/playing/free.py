"""What is played in no place of the song: a chord, a scale, or the answer of a fact, at a tempo of its own.

A chord is struck once and held for four beats. A scale goes up an octave from near middle C and down again, a note a
beat, and rests on its last note for two; melodic minor comes down as natural minor, jazz minor as it went up. The last
keys come up a little before the end, so that they have died away by then, and what is repeated stays in time.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from studio.music.chord import Chord
from studio.music.chord_reader import ChordError, read_chord
from studio.music.pitch import Pitch
from studio.project.model import FactAsked, Play
from studio.theory.parts.close_voicing import close_voicings
from studio.timeline.heard import Tone, nearest_sample
from studio.timeline.playing.accents import BEAT, FIRST
from studio.timeline.playing.fact_played import Pitches, fact_played
from studio.timeline.playing.on_tonic import OnTonic
from studio.timeline.playing.written_scale import read_scale
from studio.timeline.song_facts import SongFacts

CHORD_BEATS = 4
"""Beats that a chord is held."""

LAST_BEATS = 2
"""Beats that a scale rests on its last note."""

LIFT = Fraction(1, 5)
"""Seconds before the end at which the last keys come up; half a beat before it, where that is less."""

LOWEST_TONIC = 55
"""MIDI number of G3: a scale starts in the octave from it up, in which middle C lies."""


def free_tones(play: Play, facts: SongFacts, asked: Sequence[FactAsked]) -> tuple[tuple[Tone, ...], Fraction]:
    """The tones of a `play` in no place of the song, from sample 0 on, and the seconds that they take.

    `asked` are the project's facts, among which `play.name` is looked for. Raises ValueError, in one plain sentence,
    for what cannot be played.
    """
    beat = 60 / play.tempo
    match _what(play, facts, asked):
        case Chord() as chord:
            (voicing,) = close_voicings([chord])
            return _together((voicing.bass, *voicing.upper), beat)
        case Pitches(pitches):
            return _together(pitches, beat)
        case OnTonic() as scale:
            return _up_and_down(scale_heights(scale), beat)


def _what(play: Play, facts: SongFacts, asked: Sequence[FactAsked]) -> Chord | Pitches | OnTonic:
    match play.what:
        case "chord":
            try:
                return read_chord(play.name)
            except ChordError as error:
                raise ValueError(str(error)) from None
        case "scale":
            return read_scale(play.name)
        case "fact":
            fact = next((one for one in asked if one.name == play.name), None)
            if fact is None:
                raise ValueError(f"'{play.name}' is not a fact; name one of those under facts")
            return fact_played(fact, facts)
    raise ValueError(f"'{play.name}' is played over a stretch of the song; say where")


def scale_heights(scale: OnTonic) -> tuple[int, ...]:
    """MIDI numbers of a scale up an octave from near middle C and down again, its top note once."""
    start = LOWEST_TONIC + (scale.tonic.pc - LOWEST_TONIC) % 12
    up, down = ([start + semitones for semitones in way] for way in (scale.rising, scale.falling))
    return (*up, start + 12, *reversed(down))


def _together(pitches: Sequence[Pitch], beat: Fraction) -> tuple[tuple[Tone, ...], Fraction]:
    lasts = CHORD_BEATS * beat
    held = nearest_sample(lasts - _lift(beat))
    return tuple(Tone(0, held, pitch.midi, BEAT) for pitch in pitches), lasts


def _up_and_down(heights: Sequence[int], beat: Fraction) -> tuple[tuple[Tone, ...], Fraction]:
    """One note a beat; the ends and the top lean a little."""
    starts = [number * beat for number in range(len(heights))]
    lasts = starts[-1] + LAST_BEATS * beat
    edges = [nearest_sample(seconds) for seconds in (*starts, lasts - _lift(beat))]
    leaning = {0, len(heights) // 2, len(heights) - 1}
    found = tuple(
        Tone(edges[number], edges[number + 1] - edges[number], midi, FIRST if number in leaning else BEAT)
        for number, midi in enumerate(heights)
    )
    return found, lasts


def _lift(beat: Fraction) -> Fraction:
    return min(LIFT, beat / 2)
