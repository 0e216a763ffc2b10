"""ABC text made plain for music21, which misreads some of what the standard (ABC 2.1) allows.

Every accidental is written out where it holds: for its letter in every octave up to the bar line (11.3). Every note
stands at the octave at which it sounds, whatever clef and octave say (4.6), and with its true length: in the tune's one
unit (L:), without tuplets (4.13), broken rhythm (4.4) or lengths inside a chord (4.17).
"""

from __future__ import annotations

import re
from fractions import Fraction

from studio.project.abc_fields import key_of, without_staff
from studio.project.abc_tokens import IN_CHORD, Token
from studio.project.abc_tune import Sign, Tune, follow
from studio.project.complaints import MisfitError

_OLDER = re.compile(r"^\s*%abc-[01]\b", re.MULTILINE)
_OWN_RULE = re.compile(r"^\s*%%\s*propagate-accidentals", re.MULTILINE)
_VERSION = re.compile(r"^\s*%abc-\d", re.MULTILINE)
_NO_LINE = "%"
_UNWRITTEN = ("tuplet", "broken", "stray", "early")


def spelled_out(text: str, tune: Tune | None = None) -> str:
    """The tune written plainly, as ABC 2.1; in one that names an older version, or its own rule for accidentals, they
    stand as they are."""
    carries = not (_OLDER.search(text) or _OWN_RULE.search(text))
    writer = _Writer(tune or follow(text), carries)
    plain = writer.text().removesuffix("\n").lstrip()
    return f"%abc-2.1\n{plain}" if carries and not _VERSION.search(text) else plain


class _Writer:
    def __init__(self, tune: Tune, carries: bool) -> None:
        self._tune = tune
        self._carries = carries
        self._in_head = True
        self._holding: dict[tuple[str, str], str] = {}

    def text(self) -> str:
        """Every sign as it is plainly written; a line that held nothing but the unit is left out whole."""
        written: list[str] = []
        for sign in self._tune.signs:
            if sign.token.kind == "end of line" and written and written[-1] == _NO_LINE:
                written.pop()
            else:
                written.append(self._written(sign))
        return "".join(written)

    def _written(self, sign: Sign) -> str:
        token = sign.token
        if token.kind in ("field", "line field"):
            return self._field(sign)
        if token.kind in _UNWRITTEN or (token.kind == "room" and not token.text.isspace()):
            return "\\" if token.text == "\\" else ""
        if token.kind == "bar":
            self._let_go(sign.voice)
        if token.kind == "note":
            return self._notes(sign) + self._length(sign)
        if token.kind == "chord":
            inside = self._notes(sign, keep_lengths=False)
            return inside + self._length(sign)
        if token.kind == "rest":
            return token.text + self._length(sign)
        return self._notes(sign) if token.kind == "grace" else token.text

    def _field(self, sign: Sign) -> str:
        token = sign.token
        said = token.text
        if token.letter == "K":
            unit = f"L:{self._tune.unit / 4}\n" if self._in_head else ""
            self._in_head = False
            return unit + _again(token, _plain_key(token.value))
        if token.letter == "V":
            self._let_go(sign.voice)
            return _again(token, without_staff(token.value))
        if token.letter == "L":
            return _NO_LINE if token.kind == "line field" else ""
        return said

    def _let_go(self, voice: str) -> None:
        self._holding = {at: held for at, held in self._holding.items() if at[0] != voice}

    def _length(self, sign: Sign) -> str:
        share = Fraction(sign.quarters / self._tune.unit)
        over = "" if share.numerator == 1 else str(share.numerator)
        return over if share.denominator == 1 else f"{over}/{share.denominator}"

    def _notes(self, sign: Sign, keep_lengths: bool = True) -> str:
        """A note, or all notes of a chord, with accidentals and octaves written out."""

        def written(found: re.Match[str]) -> str:
            if not found["letter"]:
                return found[0]
            letter = found["letter"]
            at = (sign.voice, letter.upper())
            if found["sign"]:
                self._holding[at] = found["sign"]
            held = self._holding.get(at, "") if self._carries else found["sign"]
            length = found["length"] if keep_lengths else ""
            return f"{held}{_moved(letter, found['octave'], sign.octaves)}{length}"

        return IN_CHORD.sub(written, sign.token.text)


def _again(token: Token, value: str) -> str:
    written = f"{token.letter}:{value}"
    return f"[{written}]" if token.kind == "field" else written


def _plain_key(value: str) -> str:
    try:
        return key_of(value)
    except MisfitError:  # complained of where the fields are read
        return value


def _moved(letter: str, octave: str, octaves: int) -> str:
    """A note's letter and octave marks, so many octaves higher."""
    height = letter.islower() + octave.count("'") - octave.count(",") + octaves
    return letter.lower() + "'" * (height - 1) if height > 0 else letter.upper() + "," * -height
