"""I, i and v: a numeral or a word, by the company they keep.

The pronoun is a subject: it follows no preposition and no article, a verb in the third person does not follow it,
and no numeral stands in a row with it.
"""

from __future__ import annotations

import re

from studio.music.aloud.signs import ARROWS, DASHES
from studio.music.aloud.symbols import numeral_in_a_chain, symbol
from studio.music.aloud.tokens import Around

LONE_DASH = re.compile(rf"[{DASHES}]|--?")
_ARROW = re.compile(rf"[{ARROWS}]|->")

_LINKS = {"to", "and", "or", "then"}
"""Words that stand between numerals."""
_ARTICLES = {"the", "an"}
_BEFORE_A_NUMERAL = {
    "to", "from", "of", "with", "on", "in", "at", "into", "onto", "over", "under", "through", "toward", "towards",
    "via", "tonic", "chord", "chords", "degree", "degrees", "numeral", "reach", "reaches",
}  # fmt: skip
"""Words after which an I that ends its clause is a numeral."""
_GOING_ON = {"and", "or", "then", "to", "again", "in", "at", "on", "before", "after", "by", "through", "via"}
"""Words before which an I after `to` or `from` is one."""
_VERBS = {
    "is", "has", "does", "goes", "leads", "moves", "comes", "sounds", "becomes", "returns", "resolves", "feels",
    "stays", "gets", "follows", "belongs", "means",
}  # fmt: skip


def numeral_in_company(here: Around) -> bool:
    """Whether a lone I, i or v is a numeral: an I chord, back to I, I – V."""
    if here.next in {"chord", "chords"} | _VERBS or here.last in _ARTICLES:
        return True
    if here.near(0).islower() and here.last in {"a", "minor"}:
        return True
    if here.last in {"to", "from"} and here.next in _GOING_ON:
        return True
    return (here.ends and here.last in _BEFORE_A_NUMERAL) or _before_one(here) or _after_one(here)


def _before_one(here: Around) -> bool:
    """Whether a numeral follows in the row: I V, I, V, I to V, I – V."""
    if set(here.token(0).after) - {","}:
        return False
    return _shows(here.near(1)) or (_links(here.near(1)) and _shows(here.near(2)))


def _after_one(here: Around) -> bool:
    """Whether numerals came before in the row; after one the clause must end here, or it might be the pronoun's."""
    if here.near(-1) == "to" or _leads(here.near(-1)):
        return _shows(here.near(-2))
    if set(here.token(-1).after + here.token(-2).after) - {","}:
        return False
    if _shows(here.near(-1)):
        return here.ends or _shows(here.near(-2))
    return here.ends and _links(here.near(-1)) and _shows(here.near(-2))


def _links(text: str) -> bool:
    return text in _LINKS or _leads(text)


def _leads(text: str) -> bool:
    return bool(LONE_DASH.fullmatch(text) or _ARROW.fullmatch(text))


def _shows(text: str) -> bool:
    """Whether a token is a numeral and nothing else."""
    return symbol(text) is not None and numeral_in_a_chain(text) is not None
