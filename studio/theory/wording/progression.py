"""Words for progressions: loops, cadences, sequences, lines, pedals, harmonic rhythm."""

from __future__ import annotations

import re

from studio.music.key import Key
from studio.theory.harmony.reading import Style
from studio.theory.plain_english import listed, number_word, plural, times_words
from studio.theory.progression.cadences import Cadence
from studio.theory.progression.cliches import Line
from studio.theory.progression.pace import Departure, Pace
from studio.theory.progression.pedals import Pedal
from studio.theory.progression.plain_form import PlainForm
from studio.theory.progression.sequences import HarmonicSequence

_MOST_NUMERALS = 8
_HALF = 0.5  # the sureness of a pace is the share of the bars for which it holds
_MINOR_DEGREE = re.compile(r"(?<![IViv♯])(♭?)(III|VII|VI|iii|vii(?!°)|vi(?!i))(?![IViv°])")


def loop_words(found: PlainForm) -> str:
    """What a loop is, in a line: "I–V–vi–IV begun on vi, with iv in place of IV", "twelve-bar blues with a turnaround".

    Its own numerals if no form is near: "I–III–IV–iv", "I–IV–V in F major, then I–IV–V in G major", "I throughout"; of
    chords that do not come again the first eight.
    """
    if not found.in_keys:
        return "no chords"
    if found.form is None or found.reordered:
        return _numerals(found)
    if found.form.bars:
        changes = f" with {listed(found.differences)}" if found.differences else ""
        return f"{found.form.name}{changes}"
    words = found.form.text + (f" of {found.key}" if found.is_relative else "")
    words += f" {times_words(found.times)}" if found.times > 1 else ""
    words += f" begun on {found.begun_on}" if found.begun_on else ""
    words += f", with {listed(found.differences)}" if found.differences else ""
    return words + (f", then {'–'.join(found.then)}" if found.then else "")


def _numerals(found: PlainForm) -> str:
    if len(found.numerals) == 1:
        return f"{found.numerals[0]} throughout"
    if len(found.in_keys) > 1:
        return ", then ".join(f"{_first_of(numerals)} in {key}" for key, numerals in found.in_keys)
    if not found.repeats:
        return _first_of(found.numerals)
    again = f" {times_words(found.times)}" if found.times > 1 else ""
    again += f", with {listed(found.differences)}" if found.differences else ""
    return "–".join(found.numerals) + again + (f", then {'–'.join(found.then)}" if found.then else "")


def _first_of(numerals: tuple[str, ...]) -> str:
    """No more numerals than a viewer can read in passing."""
    return "–".join((*numerals[:_MOST_NUMERALS], "…") if len(numerals) > _MOST_NUMERALS + 1 else numerals)


def in_style(text: str, key: Key | None, style: Style) -> str:
    """The text with its numerals, which count from the major scale, written in the project's style.

    In common practice the III, VI and VII of a minor key are those of its own scale: ♭VI becomes VI, VI becomes ♯VI.
    The leading-note chord is vii° in both.
    """
    if style != "common-practice" or key is None or key.mode != "minor":
        return text
    return _MINOR_DEGREE.sub(lambda found: found[2] if found[1] else f"♯{found[2]}", text)


def loop_name(found: PlainForm) -> str:
    """The trade's name, marked as common practice: "four-chord loop (common name)"; "" if ``loop_words`` say it, or if
    the loop is only near to it.
    """
    form = found.form
    if form is None or form.bars or form.name == form.text or found.differences or found.reordered:
        return ""
    return f"{form.name} (common name)"


def cadence_words(cadence: Cadence | None) -> str:
    """A cadence by name: "deceptive cadence", "authentic cadence on vi", "authentic cadence with a Picardy third"."""
    if cadence is None:
        return "no cadence"
    on = f" on {cadence.of}" if cadence.of else ""
    return f"{cadence.kind} cadence{on}{' with a Picardy third' if cadence.picardy else ''}"


def cadence_with_chords(cadence: Cadence) -> str:
    """A cadence with its chords: "deceptive cadence, V7–vi"."""
    return f"{cadence_words(cadence)}, {'–'.join(cadence.numerals)}"


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
    """A pedal point: "A in the bass under four chords"; "no pedal point"."""
    if pedal is None:
        return "no pedal point"
    return f"{pedal.notes[0]} in the bass under {number_word(pedal.chords)} chords"


def pace_words(pace: Pace) -> str:
    """Harmonic rhythm: "one chord a bar, two in bar 4"; "one chord every two bars".

    What holds for exactly half of the bars, or for fewer, is not called usual.
    """
    if not pace.chords:
        return "no chords"
    chords = f"{number_word(pace.chords)} {plural(pace.chords, 'chord')}"
    usual = f"{chords} a bar" if pace.bars == 1 else f"{chords} every {number_word(pace.bars)} bars"
    if not pace.even:
        usual += " in half of the bars" if pace.sureness == _HALF else " most often"
    return ", ".join([usual, *_departures(pace.quicker)])


def _departures(quicker: tuple[Departure, ...]) -> list[str]:
    """The bars where chords come quicker, said together where their number is the same: "two in bars 4 and 8"."""
    counts = dict.fromkeys(sorted(departure.chords for departure in quicker))
    words = []
    for count in counts:
        same = [departure for departure in quicker if departure.chords == count]
        places = [str(one.first) if one.first == one.last else f"{one.first}–{one.last}" for one in same]
        one_bar = len(same) == 1 and same[0].first == same[0].last
        words.append(f"{number_word(count)} in {'bar' if one_bar else 'bars'} {listed(places)}")
    return words
