"""Playing tones on the program's own instrument, or on a SoundFont that a person has."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from studio.sound.error import SoundError
from studio.sound.instrument.envelope import begun, ended
from studio.sound.instrument.fingers import fingered, strummed
from studio.sound.instrument.partials import HIGHEST, rung
from studio.sound.instrument.plucked import PLUCKED
from studio.sound.instrument.soundfont import played_by_soundfont, program_of
from studio.sound.instrument.struck import STRUCK
from studio.sound.instrument.sustained import SUSTAINED
from studio.sound.instrument.timbre import MIDDLE, Timbre
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE, Tone

TIMBRES = {"plucked": PLUCKED, "struck": STRUCK, "sustained": SUSTAINED}
"""The program's own timbres, by name."""

_TOUCH = 1.4  # power of its strength with which a blow is loud


def played(tones: Sequence[Tone], sound: str, soundfont: str, length: int, cents: float = 0.0) -> Samples:
    """`length` samples of the tones, shape (length, 2).

    A tone starts on the very sample that it names, and dies away after its end; a key that is struck again comes up a
    little before, and of plucked strings that start together the lowest is on the sample. A4 is 440 Hz (ISO 16) moved
    by `cents`. `sound` is one of `TIMBRES`, or `soundfont N` with the General MIDI program N from 1 to 128 out of the
    file `soundfont`. The same tones always give the same samples. Raises SoundError for a sound that there is not, and
    for a SoundFont that cannot be played.
    """
    program = program_of(sound)
    if program is not None:
        return played_by_soundfont(fingered(tones), soundfont, program, length, cents)
    if sound not in TIMBRES:
        raise SoundError(
            f"'{sound}' is not a sound; choose from {', '.join(TIMBRES)}, or soundfont and a number from 1 to 128."
        )
    timbre, mix = TIMBRES[sound], silence(length)
    for tone in strummed(fingered(tones), round(timbre.strum * RATE)):
        _add(mix, tone, timbre, cents)
    return mix


def hertz_of(midi: int, cents: float = 0.0) -> float:
    """Frequency in equal temperament, f = 440·2^((n − 69)/12) (ISO 16), moved by `cents`."""
    return float(440 * 2 ** ((midi - 69 + cents / 100) / 12))


def _add(mix: Samples, tone: Tone, timbre: Timbre, cents: float) -> None:
    hertz = hertz_of(tone.midi, cents)
    release = round(timbre.release * RATE)
    first, last = max(tone.start, 0), min(tone.start + tone.length + release, len(mix))
    if last <= first or not tone.loud > 0 or hertz >= HIGHEST:
        return
    bank = timbre.partials(hertz, min(tone.loud, 1.0))
    strength = float(np.sqrt(np.sum(bank.middle**2) / 2))
    gain = timbre.level / strength * (min(tone.loud, 1.0) / MIDDLE) ** _TOUCH
    note = rung(bank.times(gain), last - tone.start)
    begun(note, round(timbre.attack * RATE))
    ended(note, tone.length, release)
    mix[first:last] += note[first - tone.start :]
