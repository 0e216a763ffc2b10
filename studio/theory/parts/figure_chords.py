"""Recognising what notes that are struck together make: octaves, power chords, block chords, parallel lines."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.parts.chord_naming import name_chord
from studio.theory.parts.figure import Figure
from studio.theory.parts.spelled_chords import degrees_in_order
from studio.theory.parts.under_chart import SURE_OF_THE_CHART, chord_under
from studio.theory.plain_english import listed, number_word

_PARALLEL = {2: "thirds", 3: "fourths", 4: "fifths", 5: "sixths"}
_FEWEST_PARALLEL = 3  # strikes that make two voices parallel
_MOST_PAIRS = 3  # pairs of notes that can be read in two seconds
_COMPLETE = 3  # different notes in a block chord
_FIFTH, _SIXTH = 7, 9  # half steps
_MOST_LEADING = 1 / 3  # the share of single notes among power chords

Strike = tuple[Note, ...]


def chordal_figure(
    struck: Sequence[Strike], span: Span, key: Key | None, chord: Chord | None, alone: bool
) -> Figure | None:
    """The figure of notes of which some are struck together; None if they make no plain one.

    ``chord`` and ``alone`` are as for ``figures.figure_over``.
    """
    has_third = chord is not None and chord.triad != "power"
    together = all(len(_heights(strike)) > 1 for strike in struck)
    return (
        (_octaves(struck, span) if together else None)
        or (None if has_third and not alone else _power_chords(struck, span))
        or _shuffle(struck, span)
        or (_parallel(struck, span) if together else None)
        or _of_one_chord(struck, span, chord, alone)
        or (_block_chords(struck, span, key, chord, alone) if together else None)
        or _bass_and_chords(struck, span, key, chord)
    )


def _octaves(struck: Sequence[Strike], span: Span) -> Figure | None:
    if any(len(_pcs(strike)) > 1 for strike in struck):
        return None
    return Figure(span, "octaves", "Every note is doubled at the octave.", 0.98)


def _power_chords(struck: Sequence[Strike], span: Span) -> Figure | None:
    """Roots with their fifths, whichever is lowest; single notes may lead from one to the next."""
    whole = [strike for strike in struck if len(_heights(strike)) > 1]
    roots = [(root, strike) for strike in whole if (root := _root_of_fifth(strike)) is not None]
    if len(roots) < len(whole) or _MOST_LEADING * len(struck) < len(struck) - len(whole):
        return None
    chords = _without_repeats([Chord.of(root, "5", (), strike[0].pitch.name) for root, strike in roots])
    named = ", ".join(chord.text for chord in chords)
    sureness = round(0.98 * len(whole) / len(struck), 2)
    return Figure(span, "power chords", f"Roots and fifths without thirds: {named}.", sureness, chords=chords)


def _shuffle(struck: Sequence[Strike], span: Span) -> Figure | None:
    """A root with its fifth and its sixth by turns, the seventh above them perhaps, as in blues and rock."""
    if any(len(strike) != 2 for strike in struck) or len({strike[0].pitch.midi for strike in struck}) > 1:
        return None
    intervals = {strike[1].pitch.midi - strike[0].pitch.midi for strike in struck}
    if not {_FIFTH, _SIXTH} <= intervals <= {_FIFTH, _SIXTH, _SIXTH + 1}:
        return None
    root = struck[0][0].pitch.name
    chords = (Chord.of(root, "5"),)
    return Figure(
        span, "power chords", f"Over {root}, fifth and sixth by turns.", 0.95, chords=chords, name="shuffle"
    )


def _root_of_fifth(strike: Strike) -> NoteName | None:
    """The root, if a strike is a root and its fifth in any octaves."""
    names = {note.pitch.name.pc: note.pitch.name for note in strike}
    if len(names) != 2:
        return None
    return next((name for pc, name in names.items() if (pc + _FIFTH) % 12 in names), None)


def _of_one_chord(struck: Sequence[Strike], span: Span, chord: Chord | None, alone: bool) -> Figure | None:
    """Notes of a chord that is known, struck together; ``order`` says which, from low to high, if they are two."""
    whole = [strike for strike in struck if len(_heights(strike)) > 1]
    if (
        chord is None
        or 2 * len(whole) <= len(struck)
        or not all(_pcs(strike) <= chord.pcs for strike in struck)
    ):
        return None
    two = all(len(strike) < _COMPLETE for strike in struck)
    pairs = _pairs(whole, chord) if two else []
    sureness = round(0.95 * len(whole) / len(struck), 2)
    return Figure(
        *(span, "block chords", _struck_together(struck), sureness),
        chords=(chord,),
        order=pairs[0] if len(pairs) == 1 else (),
        times=len(struck),
        name=_in_turn(pairs) if len(pairs) > 1 else _rootless(whole, (chord,), alone),
    )


def _pairs(whole: Sequence[Strike], chord: Chord) -> list[tuple[str, ...]]:
    """The degrees of the pairs of notes that are struck, each pair once, as they first come."""
    played = (tuple(degrees_in_order([note.pitch for note in strike], chord)) for strike in whole)
    return list(dict.fromkeys(played))


def _in_turn(pairs: Sequence[tuple[str, ...]]) -> str:
    """Pairs of notes that change: "octave roots and ♭3–5 in turn"."""
    if len(pairs) > _MOST_PAIRS:
        return "two notes at a time"
    return f"{listed([_pair(pair) for pair in pairs])} in turn"


def _pair(degrees: tuple[str, ...]) -> str:
    if len(set(degrees)) > 1:
        return "–".join(degrees)
    return "octave roots" if degrees[0] == "1" else f"{degrees[0]} in octaves"


def _block_chords(
    struck: Sequence[Strike], span: Span, key: Key | None, chord: Chord | None, alone: bool
) -> Figure | None:
    """Whole chords struck together; now and then two of their notes may be struck alone."""
    whole = [strike for strike in struck if len(_pcs(strike)) >= _COMPLETE]
    if 2 * len(whole) <= len(struck):
        return None
    named = [_named(strike, key, chord) for strike in whole]
    chords = _without_repeats([found for found, _ in named if found is not None])
    sureness = round(min(sureness for _, sureness in named) * len(whole) / len(struck), 2)
    reason, name = _struck_together(struck), _rootless(whole, chords, alone)
    return Figure(span, "block chords", reason, sureness, chords=chords, times=len(struck), name=name)


def _named(strike: Strike, key: Key | None, chord: Chord | None) -> tuple[Chord | None, float]:
    """What a struck chord is called, and how sure that is: after the chart's chord if it stands for it."""
    pitches = [note.pitch for note in strike]
    found, under = name_chord(pitches, key), chord_under(pitches, chord, key)
    if under is None or (found.chord is not None and found.chord.root.pc == under.root.pc):
        return found.chord, found.sureness
    return under, SURE_OF_THE_CHART


def _rootless(whole: Sequence[Strike], chords: Sequence[Chord], alone: bool) -> str:
    """ "rootless", for one chord of three notes or more whose root nobody else in the part plays."""
    pcs = {pc for strike in whole for pc in _pcs(strike)}
    left_out = alone and len(chords) == 1 and chords[0].root.pc not in pcs and len(pcs) >= _COMPLETE
    return "rootless" if left_out else ""


def _struck_together(struck: Sequence[Strike]) -> str:
    count = len(struck)
    times = "" if count == 1 else ", twice" if count == 2 else f", {number_word(count)} times"
    return f"All notes are struck together{times}."


def _parallel(struck: Sequence[Strike], span: Span) -> Figure | None:
    """Two voices that move together at one interval, counted by letters."""
    sizes = {
        (strike[-1].pitch.height - strike[0].pitch.height) % 7 if len(strike) == 2 else -1
        for strike in struck
    }
    if len(struck) < _FEWEST_PARALLEL or len(sizes) > 1 or not sizes <= set(_PARALLEL):
        return None
    name = _PARALLEL[sizes.pop()]
    wide = struck[0][-1].pitch.midi - struck[0][0].pitch.midi > 12
    if name == "thirds" and wide:
        name = "tenths"
    return Figure(span, "parallel lines", f"Two voices move together in {name}.", 0.95, name=name)


def _bass_and_chords(
    struck: Sequence[Strike], span: Span, key: Key | None, chord: Chord | None
) -> Figure | None:
    """Low single notes and higher chords by turns, as in a waltz, a march or stride piano."""
    single = [strike[0] for strike in struck if len(_heights(strike)) == 1]
    upper = [strike for strike in struck if len(_heights(strike)) > 1]
    if len(struck) < 2 or len(_heights(struck[0])) > 1 or not single or not upper:
        return None
    top, lowest = max(note.pitch.midi for note in single), min(strike[0].pitch.midi for strike in upper)
    if top >= lowest or any(len(_heights(one)) == len(_heights(two)) == 1 for one, two in pairwise(struck)):
        return None
    notes = (struck[0][0], *(note for strike in upper for note in strike))
    found, sureness = _named(notes, key, chord)
    found = chord if chord is not None and _pcs(notes) <= chord.pcs else found
    reason = "The bass is struck alone and the chord above it after the beat."
    chords, name = (found,) if found is not None else (), _oom_pah(struck)
    return Figure(span, "bass and chords", reason, sureness, chords=chords, times=len(single), name=name)


def _oom_pah(struck: Sequence[Strike]) -> str:
    """ "oom-pah" for bass and chord twice or more, "oom-pah-pah" for a waltz, "" for anything else."""
    played = ["pah" if len(_heights(strike)) > 1 else "oom" for strike in struck]
    for unit in (["oom", "pah"], ["oom", "pah", "pah"]):
        times = len(played) // len(unit)
        if times and times * unit == played and len(played) > 2:
            return "-".join(unit)
    return ""


def _without_repeats(chords: Sequence[Chord]) -> tuple[Chord, ...]:
    return tuple(chord for place, chord in enumerate(chords) if place == 0 or chord != chords[place - 1])


def _heights(strike: Strike) -> set[int]:
    return {note.pitch.midi for note in strike}


def _pcs(strike: Strike) -> set[int]:
    return {note.pitch.name.pc for note in strike}
