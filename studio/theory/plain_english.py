"""Lists, numbers and the starts of sentences in plain English, for reasons and for words on screen alike."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

_NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_STEPS = ("a half step", "a whole step", "a minor third", "a major third", "a fourth", "a tritone")
_LENGTHS = {
    Fraction(1, 4): "a sixteenth", Fraction(1, 3): "a swung eighth", Fraction(1, 2): "an eighth",
    Fraction(3, 4): "a dotted eighth", Fraction(1): "a quarter", Fraction(3, 2): "a dotted quarter",
    Fraction(2): "a half note",
}  # fmt: skip
_INTERVALS = ("unison", "second", "third", "fourth", "fifth", "sixth", "seventh")


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words in a row: "A", "A and B", "A, B and C", with another word than "and" if so asked; "" for none.

    >>> listed(["A"]), listed(["A", "B"], "or"), listed(["A", "B", "C"])
    ('A', 'A or B', 'A, B and C')
    """
    said = list(words)
    return f" {last} ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)


def number_word(number: int) -> str:
    """A number as it is written in running text: "no", "one" … "twelve", "13".

    >>> number_word(0), number_word(12), number_word(13)
    ('no', 'twelve', '13')
    """
    return _NUMBERS[number] if number < len(_NUMBERS) else str(number)


def times_words(times: int) -> str:
    """How often: "once", "twice", "three times".

    >>> times_words(1), times_words(2), times_words(3)
    ('once', 'twice', 'three times')
    """
    return ("once", "twice")[times - 1] if times in (1, 2) else f"{number_word(times)} times"


def plural(count: int, noun: str) -> str:
    """A noun that takes an s where there is not just one of it: "bar", "bars".

    >>> plural(1, "bar"), plural(0, "bar")
    ('bar', 'bars')
    """
    return noun if count == 1 else f"{noun}s"


def counted(count: int, noun: str) -> str:
    """A number of things in figures: "1 bar", "8 bars"."""
    return f"{count} {plural(count, noun)}"


def capital(words: str) -> str:
    """Words with a capital, as at the start of a sentence."""
    return words[:1].upper() + words[1:]


def sentence(words: str) -> str:
    """Words as a sentence, with a capital and one full stop; "" for none."""
    return f"{capital(words).rstrip('.')}." if words else ""


def length_words(quarters: Fraction) -> str:
    """A length of up to a half note, in quarter notes, as a note value: "an eighth"; "" for one without a name."""
    return _LENGTHS.get(quarters, "")


def half_steps_words(half_steps: int) -> str:
    """A distance of one to six half steps by the name of its interval: "a half step", "a minor third"."""
    return _STEPS[half_steps - 1]


def interval_words(letters: int) -> str:
    """An interval by its letters, whichever way: "a unison", "a sixth", "an octave", "two octaves and a third"."""
    octaves, rest = divmod(abs(letters), 7)
    small = f"a {_INTERVALS[rest]}"
    if not octaves:
        return small
    large = "an octave" if octaves == 1 else f"{number_word(octaves)} octaves"
    return f"{large} and {small}" if rest else large
