"""The scratch voice's own process: espeak-ng behind a pipe, so that whatever befalls it stays in there.

Run as a file by itself, with nothing of the program or of site-packages imported: the library keeps one voice and
one callback for a whole process, is not safe between threads, and its noise runs on from one utterance to the
next, so that only a new process says the same words in the same bytes.

One JSON object comes in: `library`, `data` (paths), `language`, `words`, `seconds`, `slowest` and `fastest` (words
a minute). Out goes a line of JSON and, unless it names a `problem`, the sound: 16-bit mono, of the slowest rate
that takes no longer than `seconds`, else of the fastest.
"""

from __future__ import annotations

import ctypes
import json
import sys
from collections.abc import Iterator
from typing import Any

# From speak_lib.h of espeak-ng 1.52, where these names are espeak's.
AUDIO_OUTPUT_SYNCHRONOUS = 2
INITIALIZE_DONT_EXIT = 0x8000
CHARS_UTF8 = 1
RATE = 1
POS_CHARACTER = 1
EE_OK = 0

_SILENT = 64
"""Whole numbers of 16 bits under which the end of an utterance is its pause and no longer its sound (-54 dB)."""

_Heard = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_int, ctypes.c_void_p)


class _Voice(ctypes.Structure):
    """The first fields of espeak_VOICE."""

    _fields_ = (
        ("name", ctypes.c_char_p),
        ("languages", ctypes.c_void_p),
        ("identifier", ctypes.c_char_p),
    )


class Speaker:
    """espeak-ng, loaded and ready to speak."""

    def __init__(self, library: str, data: str) -> None:
        self._library = ctypes.CDLL(library)
        self._said: list[bytes] = []
        self.rate = self._library.espeak_Initialize(
            AUDIO_OUTPUT_SYNCHRONOUS, 0, data.encode(), INITIALIZE_DONT_EXIT
        )
        if self.rate <= 0:
            raise OSError(f"espeak-ng finds no voices in {data}")
        self._callback = _Heard(self._heard)  # kept, because the library only borrows it
        self._library.espeak_SetSynthCallback(self._callback)

    def _heard(self, samples: int | None, count: int, events: int | None) -> int:
        if samples and count > 0:
            self._said.append(ctypes.string_at(samples, count * 2))
        return 0

    def languages(self) -> dict[str, str]:
        """The languages that it speaks, in small letters, and for each the voice that speaks it best."""
        self._library.espeak_ListVoices.restype = ctypes.POINTER(ctypes.POINTER(_Voice))
        found: dict[str, tuple[int, str]] = {}
        for voice in self._library.espeak_ListVoices(None):
            if not voice:
                break
            identifier = voice.contents.identifier.decode()
            for rank, name in _ranked(voice.contents.languages):
                found[name] = min(found.get(name, (rank, identifier)), (rank, identifier))
        return {name: identifier for name, (_, identifier) in sorted(found.items())}

    def take(self, language: str) -> bool:
        """Speak a language from now on, which may have a variant of the voice after a plus sign, `en+f3`; says
        whether there is a voice for it. Left to itself espeak-ng would take one that is near."""
        name, plus, variant = language.partition("+")
        voice = self.languages().get(name.lower())
        if voice is None:
            return False
        return bool(self._library.espeak_SetVoiceByName(f"{voice}{plus}{variant}".encode()) == EE_OK)

    def say(self, words: str, rate: int) -> bytes:
        """The words at so many a minute, without the pause after the last."""
        self._said.clear()
        self._library.espeak_SetParameter(RATE, rate, 0)
        text = words.encode() + b"\0"
        if self._library.espeak_Synth(text, len(text), 0, POS_CHARACTER, 0, CHARS_UTF8, None, None) != EE_OK:
            raise OSError("espeak-ng could not say it")
        return _without_pause(b"".join(self._said))

    def say_within(self, words: str, seconds: float, slowest: int, fastest: int) -> bytes:
        """The words at the slowest rate at which they take no longer than that; else at the fastest."""
        room = int(seconds * self.rate) * 2
        said = self.say(words, fastest)
        if len(said) > room:
            return said
        low, high = slowest, fastest  # `high` fits
        while low < high:
            middle = (low + high) // 2
            tried = self.say(words, middle)
            if len(tried) <= room:
                high, said = middle, tried
            else:
                low = middle + 1
        return said


def _ranked(at: int | None) -> Iterator[tuple[int, str]]:
    """What a voice says of its languages: a byte for the rank, a name that ends with 0, and so on until a rank of 0."""
    while at and (rank := ctypes.string_at(at, 1)[0]):
        name = ctypes.string_at(at + 1)
        yield rank, name.decode().lower()
        at += len(name) + 2


def _without_pause(said: bytes) -> bytes:
    samples = memoryview(said).cast("h")
    end = len(samples)
    while end and -_SILENT < samples[end - 1] < _SILENT:
        end -= 1
    return said[: end * 2]


def _answer(asked: dict[str, Any]) -> tuple[dict[str, Any], bytes]:
    speaker = Speaker(asked["library"], asked["data"])
    if not speaker.take(asked["language"]):
        return {"problem": "language", "known": list(speaker.languages())}, b""
    said = speaker.say_within(asked["words"], asked["seconds"], asked["slowest"], asked["fastest"])
    return {"rate": speaker.rate}, said


def main() -> None:
    about, said = _answer(json.loads(sys.stdin.buffer.read()))
    sys.stdout.buffer.write(json.dumps(about).encode() + b"\n" + said)


if __name__ == "__main__":
    main()
