"""Fields that are read from their own text, whatever surrounds it."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any

from pydantic import PlainValidator

from studio.project.complaints import MisfitError
from studio.project.times import needs_rewriting


def from_text(read: Callable[[str], Any]) -> PlainValidator:
    """A field that is converted from its text by its own reader."""

    def validate(written: Any) -> Any:
        if not isinstance(written, str):
            raise MisfitError("This must be a single value, not a list or a group of keys")
        return read(written)

    return PlainValidator(validate)


def read_text(text: str) -> str:
    if not text.strip():
        raise MisfitError("This is empty; write the words, or leave the key out")
    return text.strip()


def read_number(text: str) -> Fraction:
    if not re.fullmatch(r"\d{1,4}(\.\d{1,6})?", text.strip(), re.ASCII):
        raise MisfitError(f"'{text}' is not a number")
    return Fraction(text.strip())


def read_tempo(text: str) -> Fraction:
    number = re.match(r"(\d{1,3}(?:\.\d{1,6})?)\s*bpm$", text.strip(), re.ASCII | re.IGNORECASE)
    if number is not None:
        raise MisfitError(f"'{text}' is written {number[1]} here; a tempo is always beats a minute")
    try:
        tempo = read_number(text.strip()) if not text.strip().isdecimal() else Fraction(text.strip())
    except MisfitError:
        remedy = needs_rewriting(text) or f"'{text}' is no tempo; write beats a minute, as 96"
        raise MisfitError(remedy) from None
    if not 20 <= tempo <= 400:
        raise MisfitError(f"'{text}' is no tempo; beats a minute go from 20 to 400")
    return tempo


def one_or_more(written: Any) -> Any:
    """One name stands for a list of one."""
    return [written] if isinstance(written, str | dict) else written


Text = Annotated[str, from_text(read_text)]
