"""Words for modes and scales."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from studio.music.pitch import NoteName
from studio.theory.melody.mode_deciding import Deciding
from studio.theory.melody.mode_fits import is_natural_seventh, is_raised_seventh
from studio.theory.melody.mode_reasons import raised_seventh_words
from studio.theory.melody.modes import ModeReading
from studio.theory.melody.scales import Scale
from studio.theory.plain_english import listed

NOTHING_SOUNDS = "nothing sounds here"
_FEWEST = 3  # notes of a scale without which it is not worth naming
_MOST_NAMES, _LONGEST = 3, 42  # as many names and characters as can be read in two seconds


def scale_words(tonic: NoteName, scale: Scale) -> str:
    """A scale by name: "A Aeolian", "E Phrygian dominant"."""
    return f"{tonic} {scale}"


def mode_words(reading: ModeReading, in_full: bool = False) -> str:
    """The mode by name, or the set that is left: "A Aeolian", "A Aeolian or Dorian", "A, mode left open".

    "mostly D Mixolydian" where some notes lie outside every scale. `in_full`: "composite blues", not "blues".
    """
    names = [_name(candidate.scale, in_full) for candidate in reading.candidates]
    if not names:
        return NOTHING_SOUNDS
    said = f"{'' if reading.holds else 'mostly '}{reading.tonic} {listed(names, 'or')}"
    return f"{reading.tonic}, mode left open" if _is_open(reading) or len(said) > _LONGEST else said


def _is_open(reading: ModeReading) -> bool:
    """Whether the set is too large to name, or too little is heard of its first scale."""
    first = reading.candidates[0]
    few = len(first.notes) - len(first.missing) < _FEWEST
    return len(reading.candidates) > 1 and (few or len(reading.candidates) > _MOST_NAMES)


def _name(scale: Scale, in_full: bool) -> str:
    return scale.name if in_full else str(scale)


def decides_words(reading: ModeReading, in_full: bool = False) -> str:
    """What decides: "F makes it Aeolian", or what would: "F would make it Aeolian, F♯ Dorian".

    Where both forms of a degree sound it says so: "both G and G♯ sound". Empty only where nothing sounds, or a
    pentatonic scale is whole.
    """
    if len(reading.candidates) > 1:
        return ", ".join(words for words in (_both_sound(reading), _would_decide(reading)) if words)
    deciding = reading.from_chords or reading.decided_by
    if not deciding:
        return ""
    verb = "makes" if len(deciding) == 1 else "make"
    notes = listed([str(note) for note in deciding]) + (" in the chords" if reading.from_chords else "")
    return f"{notes} {verb} it {_name(reading.candidates[0].scale, in_full)}"


def _both_sound(reading: ModeReading) -> str:
    """The notes of which one would decide if the other did not sound: "both G and G♯ sound", or ""."""
    notes = listed([str(note) for note in reading.both])
    return f"{'both ' if len(reading.both) == 2 else ''}{notes} sound" if notes else ""


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
    pairs = [listed(names, "or") for names in letters.values()]
    return f"{', '.join(pairs)} would decide" if pairs else ""


def missing_words(reading: ModeReading) -> str:
    """The notes that the answer is certain to hold and that never sound: "without F", or ""."""
    missing = _shared(candidate.missing for candidate in reading.candidates)
    return f"without {listed(missing)}" if missing else ""


def foreign_words(reading: ModeReading) -> str:
    """The notes that are of none of the scales of the answer: "C♯ is outside it", or "".

    Minor keys have two sevenths; the one that is not the scale's own is said so: "G♯ is the raised seventh of minor".
    """
    scales = [candidate.scale for candidate in reading.candidates]
    foreign = _shared(candidate.foreign for candidate in reading.candidates)
    sevenths = {
        name: words
        for name in foreign
        if (words := _seventh_words(scales, (NoteName.parse(name).pc - reading.tonic.pc) % 12))
    }
    outside = [name for name in foreign if name not in sevenths]
    said = [f"{listed(outside)} {'is' if len(outside) == 1 else 'are'} outside it"] if outside else []
    return "; ".join([*said, *(f"{name} is the {words}" for name, words in sevenths.items())])


def _seventh_words(scales: Sequence[Scale], place: int) -> str:
    """What the other seventh of minor keys is called where all of the scales are minor; "" for any other note."""
    if all(is_raised_seventh(scale, place) for scale in scales):
        return raised_seventh_words(scales[0])
    return "natural seventh of minor" if all(is_natural_seventh(scale, place) for scale in scales) else ""


def _shared(sets: Iterable[Sequence[NoteName]]) -> list[str]:
    """The notes that all sets hold, in the order of the first."""
    first, *others = [*sets] or [()]
    return [str(note) for note in first if all(note in other for other in others)]
