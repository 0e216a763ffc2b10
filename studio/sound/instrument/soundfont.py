"""Playing on a SoundFont 2 file that a person has, through tinysoundfont (the extra `soundfont`)."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from studio.sound.error import SoundError, SourceError
from studio.sound.samples import Samples, silence
from studio.timeline.heard import RATE, Tone

if TYPE_CHECKING:
    from tinysoundfont import Synth

_WRITTEN = re.compile(r"soundfont\s+(\d+)")
_PROGRAMS = 128
_VOICES = 512
_QUIETER = -9.0  # dB: SoundFonts are made to be played one key at a time, at full level


def program_of(sound: str) -> int | None:
    """The General MIDI program of `soundfont 12`, from 1 to 128 as musicians count; None for any other sound.

    Raises SoundError for a number that General MIDI does not have.
    """
    found = _WRITTEN.fullmatch(sound.strip())
    if found is None:
        return None
    program = int(found[1])
    if not 1 <= program <= _PROGRAMS:
        raise SoundError(
            f"'{sound}' is not a sound of General MIDI; its programs have the numbers 1 to {_PROGRAMS}."
        )
    return program


def played_by_soundfont(tones: Sequence[Tone], path: str, program: int, length: int, cents: float) -> Samples:
    """`length` samples of the tones, shape (length, 2), on a program (1 to 128) of the SoundFont at `path`.

    Keys go down and come up on exact samples. Raises SoundError, in one plain sentence.
    """
    synth = _opened(path, program)
    synth.set_tuning(0, cents / 100)
    mix = silence(length)
    keys = _keys(tones, length)
    for (at, pressed, released), (until, *_) in pairwise([*keys, (length, (), ())]):
        for midi in released:
            synth.noteoff(0, midi)
        for midi, velocity in pressed:
            synth.noteon(0, midi, velocity)
        if until > at:
            mix[at:until] = np.frombuffer(synth.generate_simple(until - at), np.float32).reshape(-1, 2)
    return mix


def _opened(path: str, program: int) -> Synth:
    """A synthesizer with the program under its keys."""
    name = Path(path).name
    if not path:
        raise SoundError("No SoundFont is named; write the path of one in episode: soundfont.")
    try:
        from tinysoundfont import SoundFontException, Synth
    except ImportError:
        raise SoundError(
            "A SoundFont needs the package tinysoundfont, which is not installed; run pip install --no-deps "
            "tinysoundfont (its PyAudio is not needed here), or choose plucked, struck or sustained."
        ) from None
    if not Path(path).is_file():
        raise SourceError(f"The SoundFont '{name}' is not there; check the path in episode: soundfont.")
    synth = Synth(gain=_QUIETER, samplerate=RATE)
    try:
        loaded = synth.sfload(path, max_voices=_VOICES)
    except (RuntimeError, SoundFontException, OSError, ValueError):
        raise SourceError(f"'{name}' cannot be read as a SoundFont (.sf2); choose another file.") from None
    if synth.sfpreset_name(loaded, 0, program - 1) is None:
        raise SourceError(f"The SoundFont '{name}' has no program {program}; choose one that it has.")
    synth.program_select(0, loaded, 0, program - 1)
    return synth


def _keys(tones: Sequence[Tone], length: int) -> list[tuple[int, list[tuple[int, int]], list[int]]]:
    """(sample, keys that go down with their velocities, keys that come up), in order, from sample 0 on.

    A key that is struck again while it is down comes up first: a keyboard has each key only once.
    """
    down: dict[int, dict[int, int]] = defaultdict(dict)
    up: dict[int, list[int]] = defaultdict(list)
    struck: dict[int, list[Tone]] = defaultdict(list)
    for tone in tones:
        if max(tone.start, 0) < length and tone.start + tone.length > 0 and tone.loud > 0:
            struck[tone.midi].append(tone)
    for midi, of_key in struck.items():
        ordered = sorted(of_key, key=lambda tone: tone.start)
        starts = [tone.start for tone in ordered[1:]]
        for tone, again in zip(ordered, [*starts, length], strict=True):
            start = max(tone.start, 0)
            down[start][midi] = max(1, min(round(tone.loud * 127), 127))
            up[min(tone.start + tone.length, max(again, start))].append(midi)
    moments = sorted({0, *down, *(at for at in up if at < length)})
    return [(at, sorted(down[at].items()), sorted(up[at])) for at in moments]
