"""What is heard in a clip, in words, from what the report says of the segment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from studio.drawing.excerpt_picture.words import shift_words, signed, sound_words
from studio.review.voice_sentences import voice_sentences
from studio.theory.plain_english import listed, sentence, times_words

_MOST_WRITTEN = 4
"""Chords or notes that are named where something else is heard instead."""


def sound_sentences(about: Mapping[str, Any]) -> tuple[str, ...]:
    """Sentences about a clip's sound. `about` is what the report says of the segment."""
    said = list(voice_sentences(about))
    if excerpt := about.get("excerpt"):
        said += _excerpt(excerpt)
    return tuple(sentence(words) for words in said)


def _excerpt(excerpt: Mapping[str, Any]) -> Iterator[str]:
    yield from _what(excerpt)
    passes = excerpt.get("passes") or 1
    if how := ", ".join(_how(excerpt, passes)):
        yield f"it is {how}"
    for one in excerpt.get("changed") or ():
        yield _changed(one, passes)
    if featured := excerpt.get("featured"):
        where = f" in {featured['where']}" if featured.get("where") else ""
        yield f"{featured['stem']} is in front{where}, the others {featured['others_lower_by_dB']:g} dB lower"
    if levels := excerpt.get("levels"):
        yield "levels: " + "; ".join(f"{name} {_standing(level)}" for name, level in levels.items())


def _what(excerpt: Mapping[str, Any]) -> Iterator[str]:
    """What sounds: stems or the recording, and what the program plays."""
    names, where = listed(excerpt.get("stems") or ()), excerpt.get("where")
    played = listed(f"{_name(one, where)} ({one['sound']})" for one in excerpt.get("played") or ())
    if names:
        yield "the excerpt is " + ": ".join(part for part in (where, names) if part)
        if played:
            yield f"beside it the program plays {played}"
    elif played:
        yield (
            f"the excerpt is {where}, played by the program: {played}"
            if where
            else f"the program plays {played}"
        )


def _name(played: Mapping[str, Any], where: str | None) -> str:
    """What is played: by itself, in no place of the song, it may be a chord."""
    return str(played["what"]) if where else sound_words(played["what"])


def _how(excerpt: Mapping[str, Any], passes: int) -> Iterator[str]:
    """How an excerpt is heard, where that is not just as it is."""
    if passes > 1:
        yield f"heard {times_words(passes)}"
    if (speed := excerpt.get("speed_ratio") or 1) != 1:
        yield f"played at {100 * speed:g} % of its speed"
    if cents := excerpt.get("pitch_cents"):
        yield f"moved {shift_words(cents)}"
    if counted := excerpt.get("count_in_s"):
        yield f"counted in over {counted:.1f} s"
    if excerpt.get("click"):
        yield "with clicks under it"
    if tail := excerpt.get("tail_s"):
        yield f"left to ring for {tail:.1f} s"


def _changed(one: Mapping[str, Any], passes: int) -> str:
    """What is heard otherwise, and when: the changed passes are every second one."""
    when = "the second time" if passes == 2 else "every second time"
    written = [sound_words(name) for name in one.get("written") or ()]
    instead = f" instead of {listed(written)}" if 0 < len(written) <= _MOST_WRITTEN else " instead"
    return f"{when}, {one['where']} is {sound_words(one['to'])}{instead}"


def _standing(level: Mapping[str, Any]) -> str:
    gain, pan = level.get("gain_dB") or 0.0, level.get("pan_left_to_right") or 0.0
    side = f"{abs(100 * pan):.0f} % {'right' if pan > 0 else 'left'}" if pan else ""
    return ", ".join(part for part in (f"{'+' * (gain > 0)}{signed(gain)} dB" if gain else "", side) if part)
