"""Words for what holds from chord to chord and what moves by half steps: the two things that ears follow."""

from __future__ import annotations

from studio.theory.parts.voice_leading import Leading
from studio.theory.parts.voice_leading_written import WrittenLeading
from studio.theory.plain_english import listed, number_word, plural


def common_tones_words(leading: Leading | WrittenLeading) -> str:
    """Such as "two common tones; C♯ rises a half step to D"; of played voices "two notes held", for a tone that chords
    share may jump from one voice to another, and the motion of the outer voices.

    Every voice that holds counts; a half step that several voices make in octaves is said once.
    """
    if isinstance(leading, Leading):
        held = [str(note) for note in leading.held]
        steps = [(str(move.start), str(move.end), move.semitones) for move in leading.half_steps]
    else:
        held = [str(pitch.name) for pitch in leading.held]
        steps = [(str(move.start.name), str(move.end.name), move.semitones) for move in leading.half_steps]
    if not leading.total:
        return "every note holds"
    count = len(dict.fromkeys(held))
    common = (
        f"common {plural(count, 'tone')}" if isinstance(leading, Leading) else f"{plural(count, 'note')} held"
    )
    said = [f"{number_word(count)} {common}", _steps_words(list(dict.fromkeys(steps)))]
    if isinstance(leading, WrittenLeading) and (motion := outer_motion(leading)):
        said.append(f"outer voices in {motion}")
    return "; ".join(said)


def outer_motion(leading: WrittenLeading) -> str:
    """The motion of the outer voices that teachers point at: "contrary motion", "parallel fifths", "parallel octaves";
    "" for any other. Fifths between inner voices are common in many styles and are not told.
    """
    if leading.outer == "contrary":
        return "contrary motion"
    outer = (0, len(leading.voices) - 1)
    kept = [one.interval for one in leading.parallels if (one.lower, one.upper) == outer]
    return f"parallel {kept[0]}" if kept and kept[0] != "unisons" else ""


def _steps_words(steps: list[tuple[str, str, int]]) -> str:
    if not steps:
        return "no half steps"
    if len(steps) == 1:
        ((start, end, semitones),) = steps
        return f"{start} {_verb(semitones)} a half step to {end}"
    moves = [f"{start} {_verb(semitones)} to {end}" for start, end, semitones in steps]
    return f"half steps: {listed(moves)}"


def _verb(semitones: int) -> str:
    return "rises" if semitones > 0 else "falls"
