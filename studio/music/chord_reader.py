"""Reading chord symbols as fake books write them.

The reader goes through the symbol once, from left to right, so that a mistake can be pointed at: the root,
a word for the quality (m, maj, dim, ø, +, …), a number (6, 7, 9, …), sus or alt, then any changes (♭9, add11,
no3, bracketed or not), and a bass after a slash.
"""

from __future__ import annotations

import re
from functools import lru_cache

from studio.music import chord_grammar as grammar
from studio.music.chord import Chord
from studio.music.chord_qualities import ADDED, ALTERATIONS
from studio.music.pitch import LETTERS, NoteName, accidental_value


class ChordError(ValueError):
    """Text that is not a chord symbol. ``position`` is the 0-based first character that makes no sense;
    it equals the length of the text when the symbol stops too early."""

    def __init__(self, sentence: str, position: int) -> None:
        super().__init__(sentence)
        self.position = position


def is_no_chord(text: str) -> bool:
    """Whether the text is one of the ways to write that no chord sounds: N.C., NC, n.c."""
    return grammar.NO_CHORD.fullmatch(text.strip()) is not None


@lru_cache(maxsize=2048)
def read_chord(text: str) -> Chord:
    """The chord that a symbol names.

    >>> read_chord("C-7b5").text, read_chord("Bbmaj7/D").text, read_chord("E7sus").text
    ('Cm7♭5', 'B♭maj7/D', 'E7sus4')

    Where a symbol has two meanings in use, this is the one that is read: "C2" is Cadd2 (not Csus2), "Cb5" is
    a power chord on C♭ and "C(b5)" a triad with a flat fifth, "Csus" is Csus4, "CΔ" is Cmaj7, "Cø" is
    Cm7♭5, "C+9" is C9♯5 and "C7+9" is C7♯9.

    Raises ChordError, with a plain sentence and the position of the first character that makes no sense.
    """
    return _Reader(text).read()


class _Reader:
    """One pass over one symbol; ``at`` is the next character to make sense of."""

    def __init__(self, text: str) -> None:
        self.text = text.rstrip()
        self.at = len(self.text) - len(self.text.lstrip())
        self.start = self.at
        self.may_follow: tuple[str, ...] = grammar.AFTER_ROOT

    def read(self) -> Chord:
        root = self._root()
        quality, changes = self._quality()
        changes += self._changes(seventh=any(number in quality for number in ("7", "9", "11", "13")))
        bass = self._bass()
        if self.at < len(self.text):
            raise self._nonsense()
        return Chord.of(root, quality, changes, bass)

    # The root

    def _root(self) -> NoteName:
        rest = self.text[self.at :]
        if not rest:
            raise ChordError("There is no chord here: write one as A, F♯m7 or E/G♯, or N.C.", self.at)
        if is_no_chord(rest):
            raise ChordError("N.C. says that no chord sounds, so it is not a chord itself.", self.at)
        if rest[0] not in LETTERS:
            raise ChordError(_root_sentence(rest), self.at)
        return self._note()

    def _note(self) -> NoteName:
        letter = self.text[self.at]
        accidentals = grammar.ROOT_ACCIDENTALS.match(self.text, self.at + 1)
        assert accidentals is not None  # the pattern may match nothing, but it always matches
        self.at = accidentals.end()
        return NoteName(letter, accidental_value(accidentals[0]))

    # The quality

    def _quality(self) -> tuple[str, list[str]]:
        found = self._match(grammar.WORDS)
        word = (found.lastgroup or "") if found else ""
        triangle = found is not None and found[0] in grammar.TRIANGLES
        changes = list(grammar.IMPLIED_CHANGES.get(word, ()))
        if found:
            self.may_follow = grammar.AFTER_WORD if f"{word} major" in grammar.STACKS else ()
        if f"{word} major" in grammar.STACKS and (seventh := grammar.MAJOR_SEVENTH.match(self.text, self.at)):
            return self._with_major_seventh(word, seventh), changes
        number = self._number(word) or ("7" if triangle else "")
        stack = grammar.STACKS[word][number]
        if word == "" and number in ("2", "4"):
            return stack, [f"add{number}"]
        if word in ("", "major", "minor", "dominant"):
            stack = self._suspended(stack)
        if word in ("", "dominant") and stack in ("", "7") and self._match(grammar.ALTERED):
            stack = "7alt"
        if number and not changes and self._match(grammar.RAISED_FIFTH):
            changes.append("♯5")
        return stack, changes

    def _with_major_seventh(self, word: str, found: re.Match[str]) -> str:
        number = found["bare"] or found["inside"] or "7"
        stack = grammar.STACKS[f"{word} major"].get(number)
        if stack is None:
            raise self._nonsense(found.start("bare" if found["bare"] else "inside"))
        self.at = found.end()
        return stack

    def _number(self, word: str) -> str:
        found = grammar.NUMBER.match(self.text, self.at)
        if found is None:
            return ""
        number = "6/9" if found[0] == "69" else found[0]
        if number not in grammar.STACKS[word]:
            raise self._nonsense()
        self.at = found.end()
        self.may_follow = ()
        return number

    def _suspended(self, stack: str) -> str:
        start = self.at
        found = self._match(grammar.SUSPENDED)
        if found is None:
            return stack
        base = grammar.WITHOUT_THIRD.get(stack, stack)
        if (base, found[1] or "4") not in grammar.SUSPENDED_STACKS:
            raise self._nonsense(start)
        return grammar.SUSPENDED_STACKS[base, found[1] or "4"]

    # Changes

    def _changes(self, seventh: bool) -> list[str]:
        found: list[str] = []
        while self.at < len(self.text) and self.text[self.at] != "/":
            if self.text[self.at] == "(":
                found += self._bracket(seventh)
            else:
                found.append(self._change(seventh, bracketed=False))
        return found

    def _bracket(self, seventh: bool) -> list[str]:
        opened = self.at
        self.at += 1
        found: list[str] = []
        while (character := self._skip_separators()) != ")":
            if character == "":
                raise ChordError(f"The bracket in “{self.text.strip()}” is never closed.", self.at)
            found.append(self._change(seventh, bracketed=True))
        if not found:
            raise ChordError(f"The bracket after “{self.text[self.start : opened]}” is empty.", self.at)
        self.at += 1
        return found

    def _skip_separators(self) -> str:
        while self.text[self.at : self.at + 1] in (",", " "):
            self.at += 1
        return self.text[self.at : self.at + 1]

    def _change(self, seventh: bool, bracketed: bool) -> str:
        start = self.at
        if found := self._match(grammar.ADD):
            change = f"add{grammar.sign(found[1])}{found[2]}"
            if change[3:] not in ADDED:
                raise ChordError(f"“{change}” is not a tone that chords add.", found.start(2))
            return change
        if found := self._match(grammar.NO):
            return f"no{found[1]}"
        if found := self._match(grammar.ALTERATION):
            return _alteration(grammar.sign(found[1]) + found[2], seventh, start)
        if bracketed and (found := self._match(grammar.BARE_NUMBER)):
            return f"add{found[1]}"
        if bracketed and self._match(grammar.ADDED_MAJOR_SEVENTH):
            return "add7"
        raise self._nonsense()

    # The bass

    def _bass(self) -> NoteName | None:
        if self.text[self.at : self.at + 1] != "/":
            return None
        self.at += 1
        bass = self.text[self.at : self.at + 1]
        if bass == "":
            raise ChordError(f"“{self.text.strip()}” stops at the slash: a bass follows, as in C/E.", self.at)
        if bass not in LETTERS:
            capital = f" Write it as a capital: {bass.upper()}." if bass.upper() in LETTERS else ""
            raise ChordError(f"“{bass}” is not a bass note: A to G follow a slash.{capital}", self.at)
        return self._note()

    # Reading on, and giving up

    def _match(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        found = pattern.match(self.text, self.at)
        if found is not None:
            self.at = found.end()
        return found

    def _nonsense(self, at: int | None = None) -> ChordError:
        at = self.at if at is None else at
        at += grammar.sense(self.text[at:], self.may_follow + grammar.ANYWHERE)
        read, rest = self.text[self.start : at], self.text[at:]
        if not rest:
            return ChordError(f"“{read}” stops too early to be a chord symbol.", at)
        return ChordError(f"“{rest}” makes no sense after “{read}” in a chord symbol.", at)


def _alteration(name: str, seventh: bool, start: int) -> str:
    if not seventh and name in ("♭6", "♯4", "♭2"):
        return f"add{name}"
    name = grammar.OTHER_NAMES.get(name, name)
    if name not in ALTERATIONS:
        raise ChordError(f"“{name}” is no alteration: chords carry ♭5, ♯5, ♭9, ♯9, ♯11 and ♭13.", start + 1)
    return name


def _root_sentence(text: str) -> str:
    capital, rest = text[0].upper(), text[1:]
    if capital in LETTERS:
        minor = "" if rest[:1] in ("m", "-", "d", "°") else f", or {capital}m if minor was meant"
        return f"“{text}” starts with a small letter: roots are capitals, so write {capital}{rest}{minor}."
    if capital == "H":
        return f"“{text}” starts with H: write B for the German H, and Bb for the German B."
    return f"“{text}” does not start with a note: a chord begins with its root, A to G."
