"""Words for progressions: loops, cadences, sequences, lines, pedals, harmonic rhythm."""

from __future__ import annotations

from studio.music.songtime import SongTime
from studio.theory.progression.cadences import Cadence
from studio.theory.progression.cliches import Line
from studio.theory.progression.pace import Departure, Pace
from studio.theory.progression.pedals import Pedal
from studio.theory.progression.plain_form import PlainForm
from studio.theory.progression.sequences import HarmonicSequence

_COUNTS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def loop_words(found: PlainForm) -> str:
    """What a loop is, in a line: "I–V–vi–IV begun on vi, with iv in place of IV"; its numerals if nothing is near."""
    if found.form is None:
        return "–".join(found.numerals) or "no chords"
    return found.reason.removesuffix(".")


def loop_name(found: PlainForm) -> str:
    """The trade's name, marked as common practice: "four-chord loop (common name)"; "" if it has none as it stands."""
    return "" if found.form is None or found.differences else f"{found.form.name} (common name)"


def cadence_words(cadence: Cadence | None) -> str:
    """A cadence by name: "deceptive cadence", "authentic cadence on vi"; "no cadence"."""
    if cadence is None:
        return "no cadence"
    on = f" on {cadence.of}" if cadence.of else ""
    return f"{cadence.kind} cadence{on}"


def cadence_with_chords(cadence: Cadence | None, time: SongTime) -> str:
    """A cadence with its chords and bar: "deceptive cadence, V7–vi, bar 8"."""
    if cadence is None:
        return "no cadence"
    return f"{cadence_words(cadence)}, {'–'.join(cadence.numerals)}, bar {time.bar_at(cadence.at)}"


def sequence_words(sequence: HarmonicSequence | None) -> str:
    """A sequence: "falling fifths, 4 chords"; "ii–V chain falling by whole step, 3 times"; "no sequence"."""
    if sequence is None:
        return "no sequence"
    size = f"{len(sequence.numerals)} chords" if sequence.pattern == 1 else f"{sequence.times} times"
    return f"{sequence.name}, {size}"


def cliche_words(line: Line | None) -> str:
    """A line: "line A–G♯–G–F♯ inside Am"; "lament bass A–G–F–E"; "no line cliché"."""
    if line is None:
        return "no line cliché"
    notes = "–".join(map(str, line.notes))
    if line.kind == "line cliché":
        return f"line {notes} inside {line.inside}"
    return f"{line.kind} {notes}" + (f" under {line.inside}" if line.inside else "")


def pedal_words(pedal: Pedal | None) -> str:
    """A pedal point: "A in the bass under four chords"; "G and D held through four chords"; "no pedal point"."""
    if pedal is None:
        return "no pedal point"
    chords = f"{_count(pedal.chords)} chords"
    if pedal.kind == "held above":
        return f"{' and '.join(map(str, pedal.notes))} held through {chords}"
    return f"{pedal.notes[0]} in the bass under {chords}"


def pace_words(pace: Pace) -> str:
    """Harmonic rhythm: "one chord a bar, two in bar 4"; "one chord every two bars"."""
    if not pace.chords:
        return "no chords"
    chords = f"{_count(pace.chords)} chord{'' if pace.chords == 1 else 's'}"
    usual = f"{chords} a bar" if pace.bars == 1 else f"{chords} every {_count(pace.bars)} bars"
    if not pace.even:
        usual = f"mostly {usual}"
    return ", ".join([usual, *_departures(pace.quicker)])


def _departures(quicker: tuple[Departure, ...]) -> list[str]:
    """The bars where chords come quicker, said together where their number is the same: "two in bars 4 and 8"."""
    counts = dict.fromkeys(sorted(departure.chords for departure in quicker))
    words = []
    for count in counts:
        same = [departure for departure in quicker if departure.chords == count]
        places = [str(one.first) if one.first == one.last else f"{one.first}–{one.last}" for one in same]
        one_bar = len(same) == 1 and same[0].first == same[0].last
        words.append(f"{_count(count)} in bar{'' if one_bar else 's'} {_listed(places)}")
    return words


def _listed(places: list[str]) -> str:
    return places[0] if len(places) == 1 else f"{', '.join(places[:-1])} and {places[-1]}"


def _count(number: int) -> str:
    return _COUNTS[number] if number < len(_COUNTS) else str(number)
