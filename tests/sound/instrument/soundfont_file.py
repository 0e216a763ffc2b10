"""A minimal SoundFont 2 file, made by code: a looped wave for each program.

Chunks and records follow the SoundFont Technical Specification 2.04 (Creative, 2006), chapters 4 to 7; from memory, and
read back by tinysoundfont.
"""

from __future__ import annotations

import struct
from collections.abc import Mapping
from pathlib import Path

import numpy as np

PERIOD = 100
RATE = 44_000  # so that a period of 100 samples is 440 Hz, the root key A4
_LOOPS = 40
_SILENCE = 46  # zero samples that must follow each sample
_INSTRUMENT, _SAMPLE_MODES, _SAMPLE_ID = 41, 54, 53  # generators


def write_soundfont(path: Path, programs: Mapping[int, int]) -> Path:
    """A SoundFont with programs numbered from 0, each a sine of so many cycles to the period of its key."""
    waves = [_wave(cycles) for _, cycles in sorted(programs.items())]
    samples = np.concatenate([np.pad(wave, (0, _SILENCE)) for wave in waves])
    sound = _listed(b"sdta", _chunk(b"smpl", samples.astype("<i2").tobytes()))
    info = _listed(
        b"INFO",
        _chunk(b"ifil", struct.pack("<HH", 2, 4))
        + _chunk(b"isng", b"EMU8000\0")
        + _chunk(b"INAM", b"Test\0\0"),
    )
    path.write_bytes(_chunk(b"RIFF", b"sfbk" + info + sound + _presets(sorted(programs), len(waves[0]))))
    return path


def _wave(cycles: int) -> np.ndarray:
    turn = 2 * np.pi * cycles * np.arange(PERIOD * _LOOPS) / PERIOD
    return np.rint(20_000 * np.sin(turn))


def _presets(numbers: list[int], length: int) -> bytes:
    count = len(numbers)
    phdr = [
        struct.pack("<20sHHHIII", b"P%d" % number, number, 0, at, 0, 0, 0)
        for at, number in enumerate(numbers)
    ]
    phdr.append(struct.pack("<20sHHHIII", b"EOP", 0, 0, count, 0, 0, 0))
    bags = [struct.pack("<HH", at, 0) for at in range(count + 1)]
    pgen = [struct.pack("<HH", _INSTRUMENT, at) for at in range(count)] + [bytes(4)]
    inst = [struct.pack("<20sH", b"I%d" % at, at) for at in range(count)] + [
        struct.pack("<20sH", b"EOI", count)
    ]
    ibag = [struct.pack("<HH", 2 * at, 0) for at in range(count + 1)]
    igen = [struct.pack("<HHHH", _SAMPLE_MODES, 1, _SAMPLE_ID, at) for at in range(count)] + [bytes(4)]
    shdr = [_sample(at * (length + _SILENCE), length) for at in range(count)]
    shdr.append(struct.pack("<20sIIIIIBbHH", b"EOS", 0, 0, 0, 0, 0, 0, 0, 0, 0))
    chunks = {
        b"phdr": phdr, b"pbag": bags, b"pmod": [bytes(10)], b"pgen": pgen, b"inst": inst, b"ibag": ibag,
        b"imod": [bytes(10)], b"igen": igen, b"shdr": shdr,
    }  # fmt: skip
    return _listed(b"pdta", b"".join(_chunk(name, b"".join(records)) for name, records in chunks.items()))


def _sample(start: int, length: int) -> bytes:
    loop = (start + PERIOD, start + length - PERIOD)
    return struct.pack("<20sIIIIIBbHH", b"sine", start, start + length, *loop, RATE, 69, 0, 0, 1)


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + struct.pack("<I", len(content)) + content + bytes(len(content) % 2)


def _listed(name: bytes, content: bytes) -> bytes:
    return _chunk(b"LIST", name + content)
