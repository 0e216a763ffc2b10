"""Range and tessitura."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.compass import compass
from tests.theory.charts import line

heights = st.lists(st.tuples(st.integers(48, 84), st.integers(1, 8)), min_size=1, max_size=20)


def written(pairs: list[tuple[int, int]]) -> list[Note]:
    """(MIDI number, eighths) one after the other."""
    found, at = [], F(0)
    for midi, eighths in pairs:
        found.append(Note(at, F(eighths, 2), Pitch.from_midi(midi)))
        at += F(eighths, 2)
    return found


def test_one_line() -> None:
    found = compass(line("A3 C4:2 E4:2 D4:2 E5:1/2 C4 E5:1/2"))
    assert found is not None
    assert (str(found.lowest.pitch), found.lowest.at) == ("A3", (0,))
    assert (str(found.highest.pitch), found.highest.at) == ("E5", (7, F(17, 2)))
    assert [str(pitch) for pitch in found.tessitura] == ["C4", "E4"]
    assert found.semitones == 19
    assert found.reason == "It spans an octave and a fifth; half of the time it lies between C4 and E4."


def test_a_unison_of_two_voices_is_one_moment() -> None:
    found = compass([*line("C4 E4 C4"), *line("C4 E4 C4")])
    assert found is not None
    assert (found.highest.at, found.lowest.at) == ((1,), (0, 2))


def test_only_what_sounds_in_the_span_counts() -> None:
    notes = line("A3:4 C4:4 E5:4")
    found = compass(notes, Span(F(2), F(6)))
    assert found is not None
    assert (str(found.lowest.pitch), str(found.highest.pitch)) == ("A3", "C4")
    assert (found.lowest.at, found.highest.at) == ((2,), (4,))
    assert compass(notes, Span(F(20), F(24))) is None
    assert compass(()) is None


def test_one_note() -> None:
    found = compass(line("A4"))
    assert found is not None
    assert found.reason == "It stays on A4; half of the time it lies around A4."


@given(heights)
def test_range_agrees_with_music21(pairs: list[tuple[int, int]]) -> None:
    """music21's ``analysis.discrete.Ambitus``."""
    from music21 import analysis, note, stream

    theirs = stream.Stream([note.Note(midi) for midi, _ in pairs])
    low, high = analysis.discrete.Ambitus(theirs).getPitchSpan(theirs)
    found = compass(written(pairs))
    assert found is not None
    assert (found.lowest.pitch.midi, found.highest.pitch.midi) == (low.midi, high.midi)


@given(heights)
def test_half_of_the_time_lies_in_the_tessitura(pairs: list[tuple[int, int]]) -> None:
    """At least half lies in the band, at most a quarter below it and at most a quarter above."""
    found = compass(written(pairs))
    assert found is not None
    low, high = (pitch.midi for pitch in found.tessitura)
    total = sum(eighths for _, eighths in pairs)
    assert 2 * sum(eighths for midi, eighths in pairs if low <= midi <= high) >= total
    assert 4 * sum(eighths for midi, eighths in pairs if midi < low) <= total
    assert 4 * sum(eighths for midi, eighths in pairs if midi > high) <= total


@given(heights)
def test_transposing_moves_it_and_nothing_else(pairs: list[tuple[int, int]]) -> None:
    found, higher = compass(written(pairs)), compass(written([(midi + 12, length) for midi, length in pairs]))
    assert found is not None
    assert higher is not None
    assert higher.semitones == found.semitones
    assert higher.highest.at == found.highest.at
    assert [one.midi for one in higher.tessitura] == [one.midi + 12 for one in found.tessitura]
