"""The form of a song as a whole: a letter for each section, and the name of the form where it has one.

Letters follow names first (verse and verse 2 are one letter), because a verse and a chorus may share their chords;
sections that are only numbered are told apart by their chords, and sections that are named by letters keep those.
Names of forms are common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.bar_chords import bar_chords, first_root
from studio.theory.form.repeats import NamedSpan, Repeat, repeats
from studio.theory.form.section_name import role_of
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import number_word

_FRAME = ("intro", "outro", "coda", "interlude", "tag", "ending", "break", "solo", "instrumental", "vamp")
_ANONYMOUS = ("", "part", "section")
_CHORUS = ("chorus", "refrain", "hook")
_BRIDGE = ("bridge", "middle eight", "middle 8", "middle")


@dataclass(frozen=True, slots=True)
class FormSection:
    """A section in the form: its ``role`` is its name without number ("verse"), ``letter`` "" for an intro and such,
    and for a section that is only numbered where no chords tell it from others.

    ``varied`` says that it does not repeat the first section of its letter exactly (A′); chords tell, and where none
    are written nobody can say so.
    """

    name: str
    role: str
    letter: str
    varied: bool
    bars: int
    span: Span


@dataclass(frozen=True, slots=True)
class Form:
    """``letters`` is the form as a string ("ABABCB"), ``name`` what the trade calls it, "" where it has no name."""

    sections: tuple[FormSection, ...]
    repeats: tuple[Repeat, ...]
    letters: str
    name: str
    reason: str
    sureness: float
    runner_up: str = ""

    @property
    def named_by_letters(self) -> bool:
        """Whether the names of the sections are their letters already."""
        main = [section for section in self.sections if section.letter]
        return bool(main) and all(section.role.upper() == section.letter for section in main)


def form_of(sections: Sequence[NamedSpan], readings: Sequence[Reading], time: SongTime) -> Form:
    """The form of a song from its sections and chords. Total: without sections it is empty."""
    found = repeats(sections, readings, time)
    by_section = {repeat.section: repeat for repeat in found}
    told = [first_root(bar_chords(readings, span, time)) is not None for _, span in sections]
    placed: list[FormSection] = []
    letter_of = _named_by_letters([role_of(name) for name, _ in sections])
    for index, (name, span) in enumerate(sections):
        role = role_of(name)
        letter, varied = "", False
        if role not in _FRAME and (told[index] or role not in _ANONYMOUS):
            repeat = by_section.get(index)
            group = role if role not in _ANONYMOUS else _anonymous(index, repeat, placed)
            letter = letter_of.setdefault(group, _letter(len(letter_of)))
            first = next((number for number, other in enumerate(placed) if other.letter == letter), None)
            varied = first is not None and told[first] and told[index] and _differs(repeat, placed, letter)
        bars = sum(bar > 0 for bar, _ in time.barlines(span))
        placed.append(FormSection(name, role, letter, varied, bars, span))
    letters = "".join(section.letter for section in placed)
    called, reason, sure = _named(placed, letters, readings)
    return Form(tuple(placed), found, letters, called, reason, sure)


def _named_by_letters(roles: Sequence[str]) -> dict[str, str]:
    """The letters of sections whose names are letters; none where any section has another name."""
    named = [role for role in roles if role not in _FRAME]
    plain = all(len(role) == 1 and role.isalpha() for role in named)
    return {role: role.upper() for role in named} if plain else {}


def _letter(number: int) -> str:
    return chr(ord("A") + number) if number < 26 else f"({number + 1})"


def _anonymous(index: int, repeat: Repeat | None, placed: list[FormSection]) -> str:
    """The group of a section that is only numbered: that of the section whose chords it has."""
    if repeat is None:
        return f"#{index}"
    origin = placed[repeat.of]
    return origin.role if origin.role not in _ANONYMOUS else f"#{_first_of(origin.letter, placed)}"


def _first_of(letter: str, placed: list[FormSection]) -> int:
    return next(index for index, section in enumerate(placed) if section.letter == letter)


def _differs(repeat: Repeat | None, placed: list[FormSection], letter: str) -> bool:
    return (
        repeat is None
        or repeat.likeness != "same"
        or placed[repeat.of].letter != letter
        or repeat.semitones != 0
    )


def _named(sections: list[FormSection], letters: str, readings: Sequence[Reading]) -> tuple[str, str, float]:
    """(name, reason, sureness) of the form."""
    main = [section for section in sections if section.letter]
    roles = {section.role for section in main}
    if not main:
        reason = (
            "No section has a name or chords by which it is known."
            if sections
            else "No sections are written."
        )
        return "", reason, 0.0
    if any(not section.letter and section.role in _ANONYMOUS for section in sections):
        return "", "Some sections are only numbered, and no chords tell what they are.", 0.0
    if any(role in _CHORUS for role in roles) and "verse" in roles:
        return _verse_and_chorus(main)
    once = letters[:4]
    if once == "AABA" and all(
        letters[at : at + 4] == once[: len(letters) - at] for at in range(0, len(letters), 4)
    ):
        long = "thirty-two-bar " if all(section.bars == 8 for section in main) else ""
        return f"{long}AABA", "Two alike, a contrasting bridge, and the first again.", 0.95
    if all(_is_blues(section, readings) for section in main):
        return "twelve-bar blues", "Twelve bars: I, then IV in bar 5, then V in bar 9.", 0.9
    if len(main) > 1 and len(set(letters)) == 1:
        return "strophic", "One section comes round again and again.", 0.85
    if len(main) > 2 and len(set(letters)) == len(main):
        return "through-composed", "No section comes back.", 0.7
    if len(main) == 1:
        return "", "There is one section.", 0.95
    return "", "The order of sections is none of the forms that have a name.", 0.6


def _verse_and_chorus(main: Sequence[FormSection]) -> tuple[str, str, float]:
    """(name, reason, sureness) of a form of verses and choruses: the chorus makes it, if it comes back."""
    bridge = " with a bridge" if any(section.role in _BRIDGE for section in main) else ""
    name = f"verse–chorus form{bridge}"
    choruses = sum(section.role in _CHORUS for section in main)
    verses = sum(section.role == "verse" for section in main)
    if choruses > 1 and verses > 1:
        return name, "Verses alternate with a chorus that comes back.", 0.95
    if choruses > 1:
        return name, "The chorus comes back.", 0.8
    if verses > 1:
        return name, f"There are {number_word(verses)} verses, but the chorus comes only once.", 0.6
    return "", "There is one verse and one chorus, and neither comes back.", 0.6


def _is_blues(section: FormSection, readings: Sequence[Reading]) -> bool:
    if section.bars != 12:
        return False
    span = section.span
    bar = span.length / 12
    numerals = [_base_at(readings, span.start + number * bar) for number in (0, 4, 8)]
    return numerals in (["I", "IV", "V"], ["i", "iv", "v"], ["i", "iv", "V"])


def _base_at(readings: Sequence[Reading], moment: Fraction) -> str:
    return next((r.numeral_display.base for r in readings if r.at.start <= moment < r.at.end), "")
