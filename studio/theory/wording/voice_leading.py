"""Words for voice leading."""

from __future__ import annotations

from collections.abc import Sequence

from studio.theory.parts.voice_leading import Leading, Move
from studio.theory.parts.voice_leading_written import WrittenLeading

_DISTANCES = ("", "a half step", "a whole step", "a minor third", "a major third", "a fourth", "a tritone")
_OUTER = {
    "contrary": "outer voices in contrary motion",
    "similar": "outer voices in similar motion",
    "parallel": "outer voices in parallel",
    "oblique": "one outer voice stays",
    "none": "",
}


def leading_words(leading: Leading | None) -> str:
    """How one chord leads to the next: "C♯ holds, E rises a half step to F, 1 half step in all"."""
    if leading is None or not leading.moves:
        return "no two chords"
    moves = [move for move in leading.moves if move.semitones]
    if not moves:
        return "every note holds"
    still = dict.fromkeys(str(move.start) for move in leading.moves if not move.semitones)
    held = [f"{_listed(list(still))} {'holds' if len(still) == 1 else 'hold'}"] if still else []
    return ", ".join([*held, *map(move_words, moves), f"{_half_steps(leading.total)} in all"])


def move_words(move: Move) -> str:
    """One voice: "E rises a half step to F", "G holds"."""
    if not move.semitones:
        return f"{move.start} holds"
    verb = "rises" if move.semitones > 0 else "falls"
    return f"{move.start} {verb} {_DISTANCES[abs(move.semitones)]} to {move.end}"


def half_step_words(leading: Leading) -> str:
    """The half steps alone: "E–F, B–C"; "no half steps"."""
    return ", ".join(f"{move.start}–{move.end}" for move in leading.half_steps) or "no half steps"


def written_leading_words(leading: WrittenLeading) -> str:
    """A written leading in a line: "outer voices in contrary motion, 2 notes held, 5 half steps in all"."""
    if not leading.voices:
        return "no notes"
    if not leading.total:
        return "every note holds"
    held = f"{len(leading.held)} note{'' if len(leading.held) == 1 else 's'} held" if leading.held else ""
    kept = sorted({parallel.interval for parallel in leading.parallels})
    parallels = f"parallel {_listed(kept)}" if kept else ""
    words = (_OUTER[leading.outer], held, f"{_half_steps(leading.total)} in all", parallels)
    return ", ".join(word for word in words if word)


def _half_steps(count: int) -> str:
    return f"{count} half step{'' if count == 1 else 's'}"


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
