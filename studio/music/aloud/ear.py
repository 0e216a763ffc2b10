"""A script as words for the ear: symbols of music said as musicians say them, everything else as it is written."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from studio.music.aloud.company import LONE_DASH, numeral_in_company
from studio.music.aloud.signs import ARROWS, DASHES, LETTERS, RAISED, SIGNS, number
from studio.music.aloud.symbols import chord, degree, fraction, numeral_in_a_chain, plain_numeral, symbol
from studio.music.aloud.tokens import BAR_LINE, Around, Token, tokens

_PARTS = re.compile(rf"([-{DASHES}{ARROWS}])")
_FIGURES = re.compile(r"\d{1,3}")
_LETTER = re.compile(r"[A-G]")
_NOTE_A = re.compile(r"\bA\b")
_TAILED = re.compile(r"(..+?)(['’]s|-\w+)|([Iiv])(-chords?)")
_BEATS = re.compile(r"/+")

_STRETCHES = {
    "bar", "bars", "beat", "beats", "measure", "measures", "page", "pages", "fret", "frets", "from",
}  # fmt: skip
"""Words after which two numbers with a dash between are a stretch."""
_COUNTED = {
    "part", "chapter", "act", "verse", "section", "movement", "volume", "book", "number", "episode", "take", "war",
    "track", "scene", "side", "disc", "lesson", "level", "phase", "appendix", "example", "figure", "opus",
}  # fmt: skip
"""Things that Roman numbers count."""
_SHORTENED = {"vol", "pt", "ch", "no", "op", "bk", "ex", "fig", "mvt"}
"""The same, with a full stop."""
_POINTING = {"the", "a", "its", "their", "this", "that"}
"""Words after which 3/4 is a meter also before `of`."""

_SIGN = re.compile("|".join(sorted(map(re.escape, SIGNS), key=len, reverse=True)))
_SIGN_AND_LETTER = re.compile(rf"(?<![^\W\d_])[{''.join(LETTERS)}](?![^\W\d_])")
_DEGREES = re.compile(r"(?<=\d)°")
_SIGNED_NUMBER = re.compile(r"[-−+]\d")


def for_the_ear(script: str, note_a: str = "A") -> str:
    """The script with every symbol of music as words, for a voice that knows none.

    >>> for_the_ear("Under it sits I–♭VII–IV–iv, and A/C♯ leads to Bm7.")
    'Under it sits one, flat seven, four, minor four, and A over C sharp leads to B minor seven.'

    Ordinary words stay as they are, also "I", "a" and "A"; no sign of music is left over. The words are English,
    whatever the script's language. `note_a` is how a voice has to be told the name of the note in A/C♯.
    """
    paragraphs = (_paragraph(tokens(text), note_a) for text in re.split(r"\n\s*\n", script))
    return "\n\n".join(filter(None, paragraphs))


def _paragraph(written: Sequence[Token], note_a: str) -> str:
    said: list[str] = []
    pause = False
    for at, token in enumerate(written):
        if LONE_DASH.fullmatch(token.core) or BAR_LINE.fullmatch(token.core):
            pause = True
        elif not _BEATS.fullmatch(token.core):
            if pause and said and said[-1][-1:].isalnum():
                said[-1] += ","
            pause = False
            said.append(_token(token, Around(written, at), note_a))
    return re.sub(r"\s+", " ", " ".join(word for word in said if word)).strip()


def _token(token: Token, around: Around, note_a: str) -> str:
    """One token of a script as words, its punctuation around it."""
    core = token.core
    found = _said(core, around)
    if found is None and (tailed := _TAILED.fullmatch(core)):
        head = numeral_in_a_chain(tailed[3]) if tailed[3] else _said(tailed[1], around)
        found = head + _plain((tailed[2] or tailed[4]).replace("-", " ")) if head else None
    words = _plain(core) if found is None else _NOTE_A.sub(note_a, found)
    return _plain(token.before).lstrip() + words + _plain(token.after).rstrip()


def _said(core: str, around: Around) -> str | None:
    """The words for a symbol or a chain of them; None for anything else."""
    core = core.translate(RAISED)
    if core == "A" and around.begins() and degree(around.near(1)):
        return "a"  # the article: the note's chord is written as one
    if core == "Am" and _is_a_word(around):
        return None
    if core in ("an", "An") and numeral_in_a_chain(_PARTS.split(around.near(1))[0]):
        return core[0]  # an I chord is a one chord
    if (counted := _counted(core, around)) is not None:
        return counted
    if core in ("I", "i", "v"):
        found = numeral_in_a_chain(core) if numeral_in_company(around) else None
        return _said_once(found, around)
    if around.next == "of" and around.last not in _POINTING and (share := fraction(core)):
        return share
    if (found := symbol(core)) is not None:
        return found if chord(core) else _said_once(found, around)
    parts = _PARTS.split(core)
    return _chain(parts[::2], parts[1::2], around) if len(parts) > 1 else None


def _is_a_word(around: Around) -> bool:
    """Whether Am is a word: before the pronoun, or before a name, as in German."""
    follows = around.near(1)
    return follows == "I" or (
        around.begins() and follows[:1].isupper() and follows[1:].isalpha() and not symbol(follows)
    )


def _counted(core: str, around: Around) -> str | None:
    """A number of things that are counted: Part II, Vol. II, take #4."""
    before = around.token(-1)
    shortened = before.core.lower() in _SHORTENED and before.after == "."
    counts = shortened or around.last in _COUNTED
    if core.startswith("#") and core[1:].isdigit():
        alone = core == "#1" and not any(_FIGURES.fullmatch(near) or degree(near) for near in _sides(around))
        return f"number {number(core[1:])}" if counts or alone else None
    if core == "I" and not (shortened or around.ends or around.next in ("of", "is")):
        counts = counts and before.core.istitle() and not around.begins(-1)
    return plain_numeral(core) if counts else None


def _sides(around: Around) -> tuple[str, str]:
    return around.near(-1), around.near(1)


def _said_once(found: str | None, around: Around) -> str | None:
    """A numeral without the "minor" or "major" that the script has just said: the minor iv."""
    quality, of = around.last, around.near(-2)
    if found is None or quality not in ("minor", "major"):
        return found
    if symbol(of) or (_LETTER.fullmatch(of) and (of != "A" or not around.begins(-2))):
        return found  # it is said of a key: in A minor iv
    if quality == "minor":
        return re.sub(r"\bminor ?", "", found, count=1).strip()
    return found.removeprefix("major ")


def _chain(links: Sequence[str], marks: Sequence[str], around: Around) -> str | None:
    """Symbols with dashes or arrows between: "one, five", "nine eight", "five to eight"."""
    if all(_FIGURES.fullmatch(link) for link in links) and not set(marks) & set(ARROWS):
        return None if "-" in marks and len(links) == 2 else _figures([int(link) for link in links], around)
    said = [_link(link) for link in links]
    if any(words is None for words in said):
        return None
    joined = said[0] or ""
    for mark, words in zip(marks, said[1:], strict=True):
        joined += f" to {words}" if mark in ARROWS else f", {words}"
    return joined


def _link(text: str) -> str | None:
    """One of a chain; here a lone letter, a lone I and a plain number are symbols too."""
    if _LETTER.fullmatch(text):
        return text
    if _FIGURES.fullmatch(text):
        return number(text)
    return symbol(text) or numeral_in_a_chain(text)


def _figures(numbers: Sequence[int], around: Around) -> str:
    """Numbers with dashes between: a stretch of bars, the figures of a suspension, degrees in a row."""
    said = [number(str(each)) for each in numbers]
    if len(said) > 2:
        return ", ".join(said)
    (first, second), *_ = pairwise(numbers)
    stretch = around.near(-1).lower() in _STRETCHES
    figured = abs(first - second) == 1 and max(numbers) < 10 and not stretch
    return f"{said[0]} {said[1]}" if figured else f"{said[0]} to {said[1]}"


def _plain(text: str) -> str:
    """Text that is no symbol, its signs by their names and its long dashes as pauses."""
    if _SIGNED_NUMBER.match(text):
        text = text.replace("−", "-")
    text = _DEGREES.sub(" degrees ", text.replace("\u0302", ""))
    named = _SIGN.sub(lambda sign: f" {SIGNS[sign[0]]} ", text)
    named = _SIGN_AND_LETTER.sub(lambda sign: f" {LETTERS[sign[0]]} ", named)
    return re.sub(r"\s+", " ", re.sub(rf"[{DASHES}]", ", ", named))
