"""Words for modes and scales."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from studio.music.pitch import NoteName
from studio.theory.melody.modes import Deciding, ModeReading
from studio.theory.melody.scales import Scale

NOTHING_SOUNDS = "nothing sounds here"
_FEWEST = 3  # notes of a scale without which it is not worth naming
_MOST_NAMES, _LONGEST = 3, 42  # as many names and characters as can be read in two seconds


def scale_words(tonic: NoteName, scale: Scale) -> str:
    """A scale by name: "A Aeolian", "E Phrygian dominant"."""
    return f"{tonic} {scale}"


def mode_words(reading: ModeReading) -> str:
    """The mode by name, or the set that is left: "A Aeolian", "A Aeolian or Dorian", "A, mode left open".

    "mostly D Mixolydian" where some notes lie outside every scale.
    """
    names = [str(candidate.scale) for candidate in reading.candidates]
    if not names:
        return NOTHING_SOUNDS
    said = f"{'' if reading.holds else 'mostly '}{reading.tonic} {_joined(names, 'or')}"
    return f"{reading.tonic}, mode left open" if _is_open(reading) or len(said) > _LONGEST else said


def _is_open(reading: ModeReading) -> bool:
    """Whether the set is too large to name, or too little is heard of its first scale."""
    first = reading.candidates[0]
    few = len(first.notes) - len(first.missing) < _FEWEST
    return len(reading.candidates) > 1 and (few or len(reading.candidates) > _MOST_NAMES)


def decides_words(reading: ModeReading) -> str:
    """What decides: "F makes it Aeolian", or what would: "F would make it Aeolian, F♯ Dorian". May be empty."""
    if len(reading.candidates) > 1:
        return _would_decide(reading)
    if not reading.decided_by:
        return ""
    verb = "makes" if len(reading.decided_by) == 1 else "make"
    notes = _joined([str(note) for note in reading.decided_by], "and")
    return f"{notes} {verb} it {reading.candidates[0].scale}"


def _would_decide(reading: ModeReading) -> str:
    """For each scale the first note that would leave it alone; if there are none, the notes to choose between."""
    single: dict[Scale, NoteName] = {}
    for deciding in reading.would_decide:
        if len(deciding.leaves) == 1:
            single.setdefault(deciding.leaves[0], deciding.note)
    if single and not _is_open(reading):
        (scale, note), *others = single.items()
        said = f"{note} would make it {scale}"
        return ", ".join([said, *(f"{note} {scale}" for scale, note in others)])
    return _pairs(reading.would_decide)


def _pairs(deciding: Sequence[Deciding]) -> str:
    """The notes by letter: "C or C♯, F or F♯ would decide"."""
    letters: dict[str, list[str]] = {}
    for one in deciding:
        letters.setdefault(one.note.letter, []).append(str(one.note))
    pairs = [_joined(names, "or") for names in letters.values()]
    return f"{', '.join(pairs)} would decide" if pairs else ""


def missing_words(reading: ModeReading) -> str:
    """The notes that the answer is certain to hold and that never sound: "without F", or ""."""
    missing = _shared(candidate.missing for candidate in reading.candidates)
    return f"without {_joined(missing, 'and')}" if missing else ""


def foreign_words(reading: ModeReading) -> str:
    """The notes that are of none of the scales of the answer: "C♯ is foreign to it", or ""."""
    foreign = _shared(candidate.foreign for candidate in reading.candidates)
    return (
        f"{_joined(foreign, 'and')} {'is' if len(foreign) == 1 else 'are'} foreign to it" if foreign else ""
    )


def _shared(sets: Iterable[Sequence[NoteName]]) -> list[str]:
    """The notes that all sets hold, in the order of the first."""
    first, *others = [*sets] or [()]
    return [str(note) for note in first if all(note in other for other in others)]


def _joined(names: Sequence[str], word: str) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {word} {names[-1]}"
