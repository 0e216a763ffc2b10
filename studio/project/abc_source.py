"""ABC as a person writes it: what cannot be read of it said at its place, the rest made plain for music21."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass

from studio.project.abc_bars import Fitting, misreadings
from studio.project.abc_text import spelled_out
from studio.project.abc_tune import Tune, follow
from studio.project.complaints import MisfitError
from studio.project.score_notes import ARTICULATIONS, GRACE_NOTES, ORNAMENTS
from studio.project.written_part import ClefName

_INLINE_VOICE = re.compile(r"\[V:")
_KEY = re.compile(r"^\s*K:", re.MULTILINE)
_TUNE = re.compile(r"^\s*X:", re.MULTILINE)
_ARTICULATIONS = {".", "L", "!accent!", "!>!", "!emphasis!", "!tenuto!", "!wedge!", "!marcato!"}
_ORNAMENTS = {"~", "H", "M", "P", "T", "!fermata!", "!trill!", "!mordent!", "!turn!", "!roll!"} | {
    "!lowermordent!",
    "!uppermordent!",
    "!pralltriller!",
    "!invertedturn!",
    "!arpeggio!",
}
"""Of the decorations in 4.14 of ABC 2.1 those that change how a note is played."""

_ODD_BAR = re.compile(r"^Bar \d+ of .* (holds .+, and \S+ has [^;]+);")
_FEW = 3
"""Bars of one wrong length that may each be a slip of its own."""

_MOST = 20
"""Complaints about one tune that help; more of them have one cause."""


@dataclass(frozen=True)
class PlainAbc:
    """A tune that music21 reads as it is meant, the clef of each voice, None where it names none, and what of the
    tune is read no further."""

    text: str
    clefs: tuple[ClefName | None, ...]
    left_out: tuple[str, ...]


def read_abc(text: str, fitting: Fitting, file: str = "") -> PlainAbc:
    """The tune of a `file`, or one that stands in the project. Raises MisfitError with all that is wrong with it."""
    called = f"'{file}'" if file else "This ABC"
    if not _KEY.search(text):
        raise MisfitError(f"{called} has no key; write it on a line of its own before the notes, as K:A")
    if found := _INLINE_VOICE.search(text):
        sentence = f"{called} changes voice inside a line; write V:1 and V:2 on lines of their own"
        raise MisfitError(sentence, 0 if file else found.start())
    if (tunes := len(_TUNE.findall(text))) > 1:
        raise MisfitError(f"There are {tunes} tunes in this; a part is one of them alone")
    tune = follow(text)
    wrong = sorted(misreadings(tune, fitting), key=lambda misfit: misfit.offset)
    if wrong := _one_of_a_cause(wrong)[:_MOST]:
        raise _together([_in_file(misfit, text, file) for misfit in wrong] if file else wrong)
    pitched = {sign.voice for sign in tune.signs if sign.token.kind in ("note", "chord")}
    if not pitched:
        raise MisfitError(
            f"{called} has no notes: none are written after its key that are not rests or remarks"
        )
    clefs = tuple(clef for name, clef in tune.clefs.items() if name in pitched)
    return PlainAbc(spelled_out(text, tune), clefs, _left_out(tune))


def _left_out(tune: Tune) -> tuple[str, ...]:
    marks = {sign.token.text for sign in tune.signs if sign.token.kind == "decoration"}
    found = {
        GRACE_NOTES: any(sign.token.kind == "grace" for sign in tune.signs),
        ARTICULATIONS: bool(marks & _ARTICULATIONS),
        ORNAMENTS: bool(marks & _ORNAMENTS),
    }
    return tuple(name for name, there in found.items() if there)


def _in_file(misfit: MisfitError, text: str, file: str) -> MisfitError:
    line = text.count("\n", 0, misfit.offset) + 1
    return MisfitError(f"Line {line} of '{file}': {misfit.sentence}")


def _one_of_a_cause(misfits: list[MisfitError]) -> list[MisfitError]:
    """Bars that are all as long as each other and not as the song's have one cause, its meter; the first stands for
    them."""
    said = [found[1] if (found := _ODD_BAR.search(misfit.sentence)) else None for misfit in misfits]
    many = {words: count for words, count in Counter(said).items() if words and count > _FEW}
    kept, told = [], set()
    for misfit, words in zip(misfits, said, strict=True):
        if words not in many:
            kept.append(misfit)
        elif words not in told:
            told.add(words)
            head, more = misfit.sentence.partition(";")[0], many[words] - 1
            sentence = f"{head}, and so it is in {more} more bars; correct the song's meter, or the tune"
            kept.append(MisfitError(sentence, misfit.offset))
    return kept


def _together(misfits: list[MisfitError]) -> MisfitError:
    first = misfits[0]
    first.every = tuple(misfits)
    return first
