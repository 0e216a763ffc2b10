"""The scratch voice: a script that nobody has recorded yet, spoken by a machine so that a cut can be judged.

espeak-ng speaks (optional extra `scratch`, by way of espeakng-loader, which brings the library and its voices). It
is under the GNU General Public License, version 3, so it is no part of the program: who wants it installs it, and
it runs in a process of its own. It sounds like a machine, and is meant to: nobody takes it for the final voice.
"""

from __future__ import annotations

import json
import math
import subprocess
import sys
from difflib import get_close_matches
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np

from studio.sound import rate
from studio.sound.error import SoundError
from studio.sound.fading import SHORTEST, faded
from studio.sound.samples import Samples, silence
from studio.sound.speech import speaker
from studio.sound.speech.machine import for_a_machine
from studio.sound.talking import frame_levels, gated_level
from studio.theory.plain_english import listed
from studio.timeline.heard import RATE, Spoken

LEVEL = -18.4
"""Decibels of full scale at which it speaks (see `talking.frame_levels`), which a loudness meter reads as about
-20 LUFS."""

PEAK = 0.89
"""Highest sample, in shares of full scale: -1 dB."""

SLOWEST, FASTEST = 110, 450
"""Words a minute that espeak-ng is asked for; a script that is said sooner leaves silence at the end."""

_PATIENCE = 60.0  # seconds for a script of any length, and as long again as it takes to say
_NAMED = ("en-gb", "en-us", "de", "es", "fr", "it", "pt-br")


def spoken(one: Spoken) -> Samples:
    """The words, spoken from sample 0 on, shape (length, 2); silence after them if they are done sooner.

    No word is cut: the voice is as fast as the words need, even where nobody could follow it (that a script is too
    dense to be said is told when the project is checked). The same words are the same samples. Raises SoundError when
    the extra is not installed, or when there is no voice for the language.
    """
    words = for_a_machine(one.words, one.language)
    if not one.length or not any(letter.isalnum() for letter in words):
        return silence(one.length)
    said = _levelled(_said(words, one))
    if len(said) > one.length:
        said = _hurried(said, one.length)
    fade = min(SHORTEST, len(said) // 2)
    return np.concatenate([faded(said, fade, fade), silence(one.length - len(said))])


def _said(words: str, one: Spoken) -> Samples:
    """The words at the slowest rate that fits, or at the fastest there is."""
    about, sound = _asked(words, one.language, one.length / RATE)
    if about.get("problem") == "language":
        raise SoundError(_no_voice(one.language, about["known"]))
    mono = np.frombuffer(sound, "<i2").astype(np.float32) / 2**15
    if len(mono) < about["rate"] // 20:
        raise SoundError(
            f"The scratch voice has no sounds for '{one.words.strip()[:40]}' in '{one.language}'; record it."
        )
    return rate.convert_whole(np.stack([mono, mono], axis=1), about["rate"])


def _asked(
    words: str, language: str, seconds: float, slowest: int = SLOWEST, fastest: int = FASTEST
) -> tuple[dict[str, Any], bytes]:
    """What the speaker's process answers: its line of JSON, and the sound."""
    library, data = _installed()
    asked = {
        "library": library,
        "data": data,
        "words": words,
        "language": language,
        "seconds": seconds,
        "slowest": slowest,
        "fastest": fastest,
    }
    line, _, sound = _answer(json.dumps(asked).encode(), _PATIENCE + seconds).partition(b"\n")
    try:
        return json.loads(line), sound
    except ValueError:
        raise SoundError("The scratch voice gave no answer; install the extra 'scratch' again.") from None


def _answer(asked: bytes, patience: float) -> bytes:
    """What the speaker's process writes, within `patience` seconds."""
    command = [sys.executable, "-I", "-S", speaker.__file__]
    try:
        return subprocess.run(command, input=asked, capture_output=True, timeout=patience, check=True).stdout
    except subprocess.TimeoutExpired:
        problem = f"has not spoken within {patience:.0f} s; record the script"
    except subprocess.CalledProcessError as failed:
        said = failed.stderr.decode("utf-8", "replace").strip().splitlines()
        reason = said[-1] if said else f"exit {failed.returncode}"
        problem = f"failed ({reason}); install the extra 'scratch' again"
    except OSError as failed:
        problem = f"cannot be started ({failed.strerror}); record the script"
    raise SoundError(f"The scratch voice {problem}.")


def _installed() -> tuple[str, str]:
    """Paths of the library and of its voices."""
    try:
        import espeakng_loader
    except ImportError:
        raise SoundError(
            "The scratch voice is not installed; install the program with its extra 'scratch', "
            "or leave 'scratch-voice' out of the episode."
        ) from None
    return str(Path(espeakng_loader.get_library_path())), str(Path(espeakng_loader.get_data_path()))


def _no_voice(language: str, known: list[str]) -> str:
    near = get_close_matches(language.lower(), known, n=3, cutoff=0.6)
    some = list(dict.fromkeys([*near, *(name for name in _NAMED if name in known)]))[:6]
    return f"The scratch voice does not speak '{language}'; among what it speaks are {listed(some)}."


def _levelled(samples: Samples) -> Samples:
    """The samples at `LEVEL`, and lower where a peak would reach beyond `PEAK`."""
    levels = frame_levels(samples)
    gain = min(10 ** ((LEVEL - gated_level(levels)) / 20), PEAK / max(float(np.abs(samples).max()), 1e-9))
    return samples * np.float32(gain)


def _hurried(said: Samples, length: int) -> Samples:
    """What is too long, faster at the same pitch, to its length."""
    from studio.sound.stretch import FASTEST as AT_ONCE
    from studio.sound.stretch import stretched

    while len(said) > length:
        shorter = max(length, math.ceil(len(said) / AT_ONCE))
        said = stretched(said, Fraction(len(said), shorter), 0.0, shorter)
    return said
