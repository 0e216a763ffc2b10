"""How what is played ends: its last keys come up in time to die away, or ring on through a tail."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from studio.timeline.heard import Tone

RELEASES = {"plucked": Fraction(9, 100), "struck": Fraction(16, 100), "sustained": Fraction(14, 100)}
"""Seconds that a sound takes to fall silent when its key comes up."""

USUAL_RELEASE = Fraction(1, 5)
"""Seconds of it for a sound out of a SoundFont, whose own are not known here."""


def lifted(tones: Iterable[Tone], end: int, release: int) -> tuple[Tone, ...]:
    """The tones with every key up `release` samples before sample `end`, so that nothing is cut there; what starts
    late is held for half of the time that is left."""
    return tuple(
        replace(tone, length=max(min(tone.length, left - min(release, left // 2)), 1))
        for tone in tones
        for left in (end - tone.start,)
    )


def rung_on(tones: Iterable[Tone], end: int, until: int) -> tuple[Tone, ...]:
    """The tones up to sample `end`; what is down there is held to sample `until`, and nothing new is struck."""
    return tuple(
        replace(tone, length=until - tone.start) if tone.start + tone.length >= end else tone
        for tone in tones
        if tone.start < end
    )
