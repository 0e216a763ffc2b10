"""Reading chord symbols as fake books write them.

The reader goes through the symbol once, from left to right, so that a mistake can be pointed at: the root,
a word for the quality (m, maj, dim, ø, +, …), a number (6, 7, 9, …), sus or alt, then any changes (♭9, add11,
no3, sus4, bracketed or not), and a bass after a slash. A polychord has two of these, the upper one first.
"""

from __future__ import annotations

import re
from functools import lru_cache

from studio.music import chord_complaints as complaints
from studio.music import chord_grammar as grammar
from studio.music.chord import Chord
from studio.music.chord_complaints import ChordError
from studio.music.chord_qualities import ADDED, ALTERATIONS
from studio.music.chord_scan import Scan
from studio.music.pitch import LETTERS, NoteName

__all__ = ["ChordError", "is_no_chord", "read_chord"]


def is_no_chord(text: str) -> bool:
    """Whether the text is one of the ways to write that no chord sounds: N.C., NC, N/C, n.c., tacet."""
    return grammar.NO_CHORD.fullmatch(text.strip()) is not None


@lru_cache(maxsize=2048)
def read_chord(text: str) -> Chord:
    """The chord that a symbol names.

    >>> read_chord("C-7b5").text, read_chord("Bbmaj7/D").text, read_chord("E7sus").text, read_chord("D|C").text
    ('Cm7♭5', 'B♭maj7/D', 'E7sus4', 'D|C')

    Where a symbol has two meanings in use, this is the one that is read: "C2" is Cadd2 (not Csus2), "Cb5" is
    a power chord on C♭ and "C(b5)" a triad with a flat fifth, "Csus" is Csus4, "CΔ" is Cmaj7, "Cø" is
    Cm7♭5, "C+9" is C9♯5 and "C7+9" is C7♯9, "C7+" is C7♯5 and "Cm+7" is Cm(maj7), "C7/9" is C9 and "C7/13" is
    C7(add13), "Csus♭9" is a plain Csus4 with a ♭9.

    Raises ChordError, with a plain sentence and the position of the first character that makes no sense.
    """
    return _Reader(text).read()


class _Reader(Scan):
    """Reads a symbol; ``word``, ``quality`` and ``changes`` are what was found of the chord at hand."""

    word = ""
    quality = ""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.changes: list[str] = []

    def read(self) -> Chord:
        bracket = self.here == "(" and grammar.OVER in self.text
        self.at += bracket
        chord = self._chord()
        if self.here == grammar.OVER:
            if chord.bass is not None:
                raise ChordError("The upper of two chords has no bass of its own: write D|C/E.", self.at)
            self.at += 1
            lower = self._chord()
            chord = Chord.of(lower.root, lower.quality, lower.changes, lower.bass, chord)
        if bracket:
            if self.at == len(self.text):
                raise self.never_closed()
            self.at += self.here == ")"
        if self.at < len(self.text):
            raise self.nonsense()
        return chord

    def _chord(self) -> Chord:
        self.start, self.changes = self.at, []
        self.may_follow = grammar.AFTER_ROOT
        root = self._root()
        self._read_quality()
        self._read_changes()
        return Chord.of(root, self.quality, self.changes, self._bass())

    # The root

    def _root(self) -> NoteName:
        rest = self.written[self.at :]
        if not rest:
            raise ChordError("There is no chord here: write one as A, F♯m7 or E/G♯, or N.C.", self.at)
        if is_no_chord(rest):
            raise ChordError("N.C. says that no chord sounds, so it is not a chord itself.", self.at)
        if rest[0] not in LETTERS:
            raise ChordError(complaints.no_root(rest), self.at)
        return self.note()

    # The quality

    def _read_quality(self) -> None:
        found = self.match(grammar.WORDS)
        self.word = word = (found.lastgroup or "") if found else ""
        triangle = found is not None and found[0] in grammar.TRIANGLES
        self.changes += grammar.IMPLIED_CHANGES.get(word, ())
        if found:
            self.may_follow = grammar.AFTER_WORD if f"{word} major" in grammar.STACKS else ()
        if self._read_major_seventh():
            return
        number = self._number() or ("7" if triangle else "")
        self._take(grammar.STACKS[word][number])
        if word in ("", "major", "minor", "dominant") and (sus := self.match(grammar.SUSPENDED)):
            self._suspend(sus)
        if word in ("", "dominant") and self.quality in ("", "7") and self.match(grammar.ALTERED):
            self.quality = "7alt"
        if (number or word == "minor") and not self.changes and self.match(grammar.RAISED_FIFTH):
            self.changes.append("♯5")

    def _take(self, stack: str) -> None:
        """Take over a quality, and the changes that stand after it in the tables of the grammar."""
        self.quality, *changes = stack.split(" ")
        self.changes += changes

    def _read_major_seventh(self) -> bool:
        stacks = grammar.STACKS.get(f"{self.word} major" if self.word else "major")
        found = grammar.MAJOR_SEVENTH.match(self.text, self.at) if stacks else None
        if stacks is None or found is None or (not self.word and found["bare"]):
            if self.word == "minor" and self.match(grammar.RAISED_SEVENTH):
                self.quality = "mMaj7"
                return True
            return False
        group = next((name for name in ("bare", "inside", "figure") if found[name]), "triangle")
        number = "7" if group == "triangle" else found[group]
        if number not in stacks:
            raise self.nonsense(found.start(group))
        self.at = found.end()
        self._take(stacks[number])
        return True

    def _number(self) -> str:
        found = grammar.NUMBER.match(self.text, self.at)
        if found is None:
            return ""
        number = "6/9" if found[0] in ("69", "6+9") else found[0]
        if number not in grammar.STACKS[self.word]:
            raise self.nonsense()
        self.at = found.end()
        self.may_follow = ()
        return number

    def _suspend(self, found: re.Match[str]) -> None:
        base = grammar.WITHOUT_THIRD.get(self.quality, self.quality)
        if found["stack"]:
            base = found["stack"] if base == "" else "?"
        stack = grammar.SUSPENDED_STACKS.get((base, found["tone"] or "4"))
        if stack is None:
            raise self.nonsense(found.start())
        self._take(f"{stack} add2" if found["both"] else stack)

    # Changes

    def _read_changes(self) -> None:
        while self.at < len(self.text) and self.here not in "|)":
            if self.here == "(":
                self._read_bracket()
            elif self.match(grammar.BETWEEN_CHANGES):
                self._read_change(bare=True)
            elif self.here == "/":
                return
            else:
                self._read_change(bare=False)

    def _read_bracket(self) -> None:
        opened = self.at
        self.at += 1
        empty = True
        while (character := self._skip_separators()) != ")":
            if character == "":
                raise self.never_closed()
            self._read_change(bare=True)
            empty = False
        if empty:
            raise ChordError(f"The bracket after “{self.written[self.start : opened]}” is empty.", self.at)
        self.at += 1

    def _skip_separators(self) -> str:
        self.match(grammar.SEPARATOR)
        return self.here

    def _read_change(self, bare: bool) -> None:
        """Read one change; ``bare`` numbers, as in C7(13), count only where nothing else could be meant."""
        start = self.at
        if sus := self.match(grammar.SUSPENDED):
            self._suspend(sus)
        elif found := self.match(grammar.ADD):
            self.changes.append(f"add{grammar.sign(found[1])}{found[2]}")
            if self.changes[-1][3:] not in ADDED:
                raise ChordError(f"“{self.changes[-1]}” is not a tone that chords add.", found.start(2))
        elif found := self.match(grammar.NO):
            self.changes.append(f"no{found[1]}")
        elif found := self.match(grammar.NATURAL):
            self.changes.append(f"add{found[1]}")
        elif found := self.match(grammar.ALTERATION):
            self.changes.append(self._alteration(grammar.sign(found[1]) + found[2], start))
        elif bare and (found := self.match(grammar.BARE_NUMBER)):
            self.changes.append("add♭7" if found[0] == "7" else f"add{found[0]}")
        elif bare and self.match(grammar.ADDED_MAJOR_SEVENTH):
            self.changes += [] if self.quality in grammar.MAJOR_STACKS else ["add7"]
            self.quality = grammar.MAJOR_STACKS.get(self.quality, self.quality)
        elif bare and self.match(grammar.RAISED_FIFTH):
            self.changes.append("♯5")
        else:
            raise self.nonsense()

    def _alteration(self, name: str, start: int) -> str:
        seventh = any(number in self.quality for number in ("7", "9", "11", "13"))
        if not seventh and name in ("♭6", "♯4", "♭2"):
            return f"add{name}"
        name = grammar.OTHER_NAMES.get(name, name)
        if name not in ALTERATIONS:
            sentence = f"“{name}” is no alteration: chords carry ♭5, ♯5, ♭9, ♯9, ♯11 and ♭13."
            raise ChordError(sentence, start + 1)
        return name

    # The bass

    def _bass(self) -> NoteName | None:
        if self.here != "/":
            return None
        slash, self.at = self.at, self.at + 1
        rest = self.text[self.at :]
        if rest == "":
            sentence = f"“{self.written.strip()}” stops at the slash: a bass follows, as in C/E."
            raise ChordError(sentence, self.at)
        if rest[0] not in LETTERS:
            raise ChordError(complaints.no_bass(rest), self.at)
        bass = self.note()
        if self.at < len(self.text) and not set("/|") & set(rest) and is_chord(rest):
            sentence = complaints.chord_for_bass(self.written[self.start : slash], rest)
            raise ChordError(sentence, self.at)
        return bass


def is_chord(text: str) -> bool:
    try:
        read_chord(text)
    except ChordError:
        return False
    return True
