"""Words for keys that were found, not written."""

from __future__ import annotations

from studio.theory.harmony.keys import InferredKey

_SURE, _FAIR = 0.75, 0.5


def found_key_words(found: InferredKey) -> str:
    """A key with as much doubt as it deserves: "A major", "A minor, or C major", "perhaps A minor, or C major"."""
    if found.sureness >= _SURE:
        return str(found.key)
    doubt = "" if found.sureness >= _FAIR else "perhaps "
    other = "" if found.runner_up is None else f", or {found.runner_up}"
    return f"{doubt}{found.key}{other}"


def sureness_words(found: InferredKey) -> str:
    """How sure a key is, in a word or two: "clear", "likely", "open"."""
    if found.sureness >= _SURE:
        return "clear"
    return "likely" if found.sureness >= _FAIR else "open"
