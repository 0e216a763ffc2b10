"""Where the notes of a part lie on a neck, for tablature."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby
from typing import NoReturn

from studio.music.note import Note
from studio.project.tablature import Tablature
from studio.theory.fretboard.position_path import play_line
from studio.theory.fretboard.tuning import Tuning
from studio.theory.fretboard.written_clef import usual_clef


def tablature(
    notes: Sequence[tuple[int, Note]], tuning: Tuning, refuse: Callable[[str], NoReturn]
) -> Tablature:
    """Strings and frets for the notes (with their numbers in the part), with the hand moved as little as can be.

    Refuses notes that the instrument cannot play, with the first of them named.
    """
    in_time = sorted(notes, key=lambda one: one[1].onset)
    together = [list(struck) for _, struck in groupby(in_time, key=lambda one: one[1].onset)]
    places: dict[int, tuple[int, int]] = {}
    for struck, played in zip(
        together, play_line([[note.pitch for _, note in each] for each in together], tuning), strict=True
    ):
        if played.complaint:
            refuse(f"{played.complaint.rstrip('.')}; choose another tuning, or another part")
        for (number, _), place in zip(struck, played.places, strict=True):
            assert place is not None  # without a complaint every note has its place
            places[number] = (place.string, place.fret)
    return Tablature(tuning.strings, tuning.capo, places, usual_clef(tuning))
