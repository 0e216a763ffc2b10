"""Words for voice leading."""

from __future__ import annotations

from studio.theory.parts.voice_leading import Leading, Move
from studio.theory.parts.voice_leading_written import WrittenLeading
from studio.theory.plain_english import counted, half_steps_words, listed, number_word, plural

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
    held = [f"{listed(list(still))} {'holds' if len(still) == 1 else 'hold'}"] if still else []
    return ", ".join([*held, *map(move_words, moves), f"{counted(leading.total, 'half step')} in all"])


def move_words(move: Move) -> str:
    """One voice: "E rises a half step to F", "G holds"."""
    if not move.semitones:
        return f"{move.start} holds"
    verb = "rises" if move.semitones > 0 else "falls"
    return f"{move.start} {verb} {half_steps_words(abs(move.semitones))} to {move.end}"


def half_step_words(leading: Leading) -> str:
    """The half steps alone: "E–F, B–C"; "no half steps"."""
    return ", ".join(f"{move.start}–{move.end}" for move in leading.half_steps) or "no half steps"


def written_leading_words(leading: WrittenLeading) -> str:
    """A written leading in a line: "outer voices in contrary motion, two notes held, the others move five half steps in
    all", which adds up how far each voice goes."""
    if not leading.voices:
        return "no notes"
    if not leading.total:
        return "every note holds"
    count = len(leading.held)
    held = f"{number_word(count)} {plural(count, 'note')} held" if count else ""
    who = "the others move" if count else "the voices move"
    moved = f"{who} {number_word(leading.total)} {plural(leading.total, 'half step')} in all"
    kept = sorted({parallel.interval for parallel in leading.parallels})
    parallels = f"parallel {listed(kept)}" if kept else ""
    words = (_OUTER[leading.outer], held, moved, parallels)
    return ", ".join(word for word in words if word)
