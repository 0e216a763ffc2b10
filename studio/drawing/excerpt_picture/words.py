"""The words of an excerpt's picture: names of passes, levels, and the whole picture for whoever does not see it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.drawing.excerpt_picture.shown import ExcerptShown
from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName, Pitch
from studio.theory.plain_english import counted, listed, number_word, sentence, times_words

COUNTED, RINGS, WRITTEN = "count-in", "tail", "as written"

SECONDS = "seconds of the clip"
"""What the numbers of the axis count."""

MINUS = "−"


def pass_names(count: int, instead: Sequence[str] = ()) -> tuple[tuple[str, ...], ...]:
    """What each of `count` passes is called, in fewer and fewer words; nothing where there is only one.

    With `instead`, the chords, notes or rests that take another's place, every second pass has them.
    """
    if count == 1:
        return ((),)
    if not instead:
        return tuple((f"{ordinal(n)} time", ordinal(n), str(n)) for n in range(1, count + 1))
    changed = listed(sound_words(one) for one in dict.fromkeys(instead))
    pair = (
        (WRITTEN, "written"),
        (f"with {changed} instead", f"with {changed}", "changed"),
    )
    return tuple(pair[n % 2] for n in range(count))


def sound_words(sound: str) -> str:
    """A chord symbol or a note as it is printed, with true accidentals; a rest as "a rest".

    >>> sound_words("Bbmaj7"), sound_words("F#4"), sound_words("rest")
    ('B♭maj7', 'F♯4', 'a rest')
    """
    if sound == "rest":
        return "a rest"
    readers = (Pitch.parse, NoteName.parse, read_chord)
    for read in readers:
        try:
            found: Pitch | NoteName | Chord = read(sound)
        except ValueError:
            continue
        return str(found)
    return sound


def ordinal(number: int) -> str:
    """A place in a row in figures.

    >>> [ordinal(n) for n in (1, 2, 3, 4, 11, 22)]
    ['1st', '2nd', '3rd', '4th', '11th', '22nd']
    """
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{'th' if number % 100 in (11, 12, 13) else ending}"


def under_words(shown: ExcerptShown) -> tuple[str, ...]:
    """What is not in the picture, in fewer and fewer words; none where nothing else sounds."""
    if not shown.spoken_over:
        return ()
    return ("the excerpt alone, without the voice that speaks over it", "without the voice over it")


def level_words(shown: ExcerptShown) -> str:
    """How loud it is: `−14.0 LUFS · −1.2 dBTP`; what was not measured is left out."""
    levels = ((shown.loudness, "LUFS"), (shown.true_peak, "dBTP"))
    return " · ".join(f"{signed(level)} {unit}" for level, unit in levels if level is not None)


def signed(level: float) -> str:
    """A level to a tenth, with a true minus sign; what rounds to nothing has no sign."""
    tenth = round(level, 1)
    return f"{MINUS}{-tenth:.1f}" if tenth < 0 else f"{abs(tenth):.1f}"


def described(shown: ExcerptShown) -> str:
    """The picture in words."""
    return " ".join(sentence(part) for part in _sentences(shown))


def shift_words(cents: float) -> str:
    """Which way a pitch is moved, and how far: in half steps where it is whole ones.

    >>> shift_words(-15.0), shift_words(100.0), shift_words(-200.0)
    ('down by 15 cents', 'up by a half step', 'down by two half steps')
    """
    way, (steps, rest) = "up" if cents > 0 else "down", divmod(abs(cents), 100)
    if rest:
        return f"{way} by {abs(cents):g} {'cent' if abs(cents) == 1 else 'cents'}"
    return f"{way} by {'a half step' if steps == 1 else f'{number_word(int(steps))} half steps'}"


def _sentences(shown: ExcerptShown) -> Iterator[str]:
    of = f" of {shown.where}" if shown.where else ""
    yield f"Wave of the excerpt{of}, {shown.length:.1f} s from {shown.start:.1f} s of the clip"
    if shown.counted > shown.start:
        yield f"A count-in of {shown.counted - shown.start:.1f} s comes first"
    if len(shown.passes) > 1:
        yield f"It is heard {times_words(len(shown.passes))}{_in_turn(shown)}"
    fades = [
        f"{way} over {_length(length)}"
        for way, length in (("in", shown.fade_in), ("out", shown.fade_out))
        if length
    ]
    if fades:
        yield f"It fades {listed(fades)}"
    if shown.end > shown.rings:
        yield f"The last {shown.end - shown.rings:.1f} s are the tail"
    if shown.bars:
        yield f"{counted(len(shown.bars), 'bar line')} in it, the first of bar {shown.bars[0][0]}"
    if shown.spoken_over:
        yield "It is shown alone, without the voice that speaks over it"
    if levels := level_words(shown).replace(" · ", ", true peak "):
        yield f"Its loudness is {levels}" if shown.loudness is not None else f"Its true peak is {levels}"


def _in_turn(shown: ExcerptShown) -> str:
    """How two kinds of passes take turns; "" where each is like the one before."""
    first, second = (one.names[0] for one in shown.passes[:2])
    if first != WRITTEN:
        return ""
    return f", in turn {first} and {second}" if len(shown.passes) > 2 else f", {first} and then {second}"


def _length(seconds: float) -> str:
    return f"{seconds:.1f} s" if seconds >= 0.95 else f"{round(seconds * 1000)} ms"
