"""Plays each part on its instrument, sets it in the room, and writes the stems and the full recording.

All files have the same length and the same start, and the mix is the plain sum of the stems: no compressor or limiter
sits between them, so any choice of stems sounds as it does in the recording.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import numpy as np
import soundfile

from making.bass import bass
from making.drums import drums
from making.guitar import guitar
from making.instruments import RATE, Samples, electric_piano, plucked_string, round_bass, warm_lead
from making.keys import keys
from making.kit import strokes
from making.lead import lead
from making.notation import Event, frequency
from making.room import room, shaped
from making.song import END, seconds, section_at

TAIL = 2.4
"""Seconds that the room rings on after the last bar."""

PEAK = 10 ** (-1.5 / 20)
"""Sample peak of the full recording: -1.5 dBFS, which leaves true peaks under -1 dBTP."""

LENGTH = round((float(seconds(END)) + TAIL) * RATE)

_LEVELS = {"drums": 1.0, "bass": 0.62, "keys": 0.42, "guitar": 1.75, "lead": 0.74}
_ROOM = {"drums": 0.10, "bass": 0.02, "keys": 0.20, "guitar": 0.14, "lead": 0.24}
_QUALITY = {"drums": 0.72, "bass": 0.9, "keys": 0.8, "guitar": 0.68, "lead": 0.8, "mix": 0.5}
"""Vorbis compression, 0 best to 1 smallest, as libsndfile counts it."""

_KIT = {
    "kick": (0.80, 0.0),
    "snare": (0.85, 0.06),
    "stick": (0.75, 0.10),
    "clap": (0.85, -0.12),
    "closed": (0.24, 0.32),
    "pedal": (0.18, 0.32),
    "open": (0.24, 0.32),
    "crash": (0.24, -0.40),
    "ride": (0.22, 0.42),
}
"""Level of each instrument of the kit, and its place from -1 left to 1 right, as the audience sees it."""

_SECTION_LEVEL = {"verse": 0.88, "chorus": 1.0, "chorus 2": 1.0, "chorus 3": 1.05, "bridge": 0.92}


def _span(event: Event) -> tuple[float, float]:
    start = float(seconds(event.onset))
    return start, float(seconds(event.end)) - start


def _add(track: Samples, start: float, sound: Samples) -> None:
    at = round(start * RATE)
    track[at : at + len(sound)] += sound[: max(0, len(track) - at)]


def _panned(track: Samples, position: float) -> Samples:
    """Mono to stereo at equal power; position -1 left to 1 right."""
    angle = (position + 1) * np.pi / 4
    return np.stack([track * np.cos(angle), track * np.sin(angle)], axis=1) * np.sqrt(2)


def _lead() -> Samples:
    track = np.zeros(LENGTH)
    notes = lead()
    for before, event, after in zip([None, *notes], notes, [*notes[1:], None], strict=False):
        start, length = _span(event)
        glide = frequency(before.pitches[0]) if before is not None and before.end == event.onset else None
        tail = 0.04 if after is not None and after.onset == event.end else 0.16
        loudness = event.loudness * _SECTION_LEVEL.get(section_at(event.onset), 0.9)
        _add(track, start, warm_lead(frequency(event.pitches[0]), length, loudness, glide, tail))
    return _panned(shaped(track, 120, 9000), 0.0)


def _keys() -> Samples:
    track = np.zeros((LENGTH, 2))
    right, left = keys()
    for events, lean in ((right, 0.22), (left, -0.05)):
        hand = np.zeros(LENGTH)
        for event in events:
            start, length = _span(event)
            for i, pitch in enumerate(event.pitches):  # fingers fall within a few milliseconds of each other
                sound = electric_piano(frequency(pitch), round(length, 2), event.loudness * 0.8)
                _add(hand, start + 0.003 * i, sound)
        track += _panned(shaped(hand, 70, 9000), lean)
    drift = 0.09 * np.sin(2 * np.pi * 3.1 * np.arange(LENGTH) / RATE)  # the slow sway of a stereo tremolo
    return track * np.stack([1 + drift, 1 - drift], axis=1)


def _guitar() -> Samples:
    crunch, clean = np.zeros(LENGTH), np.zeros(LENGTH)
    rng = np.random.default_rng(11)
    for event in guitar():
        start, length = _span(event)
        spread = {"roll": 0.045, "strum": 0.012, "chop": 0.007, "crunch": 0.004}.get(event.mark, 0.0)
        ring = length + {"picked": 0.5, "roll": 0.3, "chop": -0.06}.get(event.mark, 0.0)
        late = 0 if event.mark in ("crunch", "roll") else max(0.0, rng.normal(0.003, 0.002))
        bright = {"crunch": 0.32, "chop": 0.40, "picked": 0.30}.get(event.mark, 0.36)
        softer = len(event.pitches) ** -0.45
        bus = crunch if event.mark == "crunch" else clean
        for i, pitch in enumerate(event.pitches):
            open_string = 5.0 if event.mark == "roll" else 2.6
            sound = plucked_string(frequency(pitch), round(ring, 2), event.loudness, bright, open_string)
            _add(bus, start + late + spread * i, sound * softer)
    crunch = np.tanh(4.5 * shaped(crunch, 90, 5000)) * 0.26
    crunch = shaped(shaped(crunch, 80, 2600), 20, 4500)
    clean = shaped(shaped(clean, 95, 4200), 20, 6500)
    return _panned(crunch + clean, -0.36)


def _bass() -> Samples:
    track = np.zeros(LENGTH)
    for event in bass():
        start, length = _span(event)
        _add(track, start, round_bass(frequency(event.pitches[0]), round(length, 2), event.loudness))
    return _panned(shaped(track, 32, 3500), 0.0)


def _drums() -> Samples:
    kit = strokes()
    rng = np.random.default_rng(3)
    track = np.zeros((LENGTH, 2))
    for name, events in drums().items():
        level, place = _KIT[name]
        voice = np.zeros(LENGTH)
        for i, event in enumerate(events):
            loose = 0.0 if name in ("kick", "crash") else float(np.clip(rng.normal(0.001, 0.002), 0, 0.005))
            loudness = event.loudness**1.4 * (1 + rng.normal(0, 0.04))
            _add(voice, float(seconds(event.onset)) + loose, kit[name][i % 3] * level * loudness)
        track += _panned(voice, place)
    return np.tanh(1.25 * shaped(track, 28, 15_000)) / 1.25


def play() -> dict[str, Samples]:
    """Every stem as (samples, 2) ``float64``, scaled so that their sum peaks at ``PEAK``."""
    players = {"drums": _drums, "bass": _bass, "keys": _keys, "guitar": _guitar, "lead": _lead}
    stems = {}
    for n, (name, player) in enumerate(players.items()):
        dry = player() * _LEVELS[name]
        stem = shaped(dry + _ROOM[name] * room(dry, seed=n), 22, 18_000)
        stems[name] = stem if name != "bass" else stem.mean(axis=1, keepdims=True).repeat(2, axis=1)
    peak = np.abs(sum(stems.values())).max()
    return {name: stem * (PEAK / peak) for name, stem in stems.items()}


def _blocks(sound: Samples) -> Iterable[Samples]:
    for start in range(0, len(sound), 1 << 15):
        yield sound[start : start + (1 << 15)]


def write(folder: Path) -> list[Path]:
    """Write each stem and ``mix`` as Ogg Vorbis at 48 kHz. The bass sits in the middle and is written in mono."""
    stems = play()
    sounds = {**stems, "mix": np.asarray(sum(stems.values()))}
    sounds["bass"] = sounds["bass"][:, :1]
    written = []
    for name, sound in sounds.items():
        path = folder / f"{name}.ogg"
        with soundfile.SoundFile(
            path, "w", RATE, sound.shape[1], format="OGG", subtype="VORBIS", compression_level=_QUALITY[name]
        ) as file:
            for block in _blocks(sound):  # libsndfile's Vorbis writer overflows its stack on one huge write
                file.write(block)
        written.append(path)
    return written
