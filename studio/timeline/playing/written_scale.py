"""Scales as people write them: `D Mixolydian`, `E minor pentatonic`, `Bb Lydian b7`, `F# chromatic`."""

from __future__ import annotations

from studio.music.pitch import NoteName
from studio.project.complaints import unknown_name
from studio.theory.melody.scales import SCALES, scale_named
from studio.timeline.playing.on_tonic import OnTonic

_MINOR = "natural minor"
"""What `A minor` is, as a scale to play."""

_CHROMATIC = "chromatic"
"""All twelve notes: a way to play, and no scale that music could be in, so that theory does not name it."""

_OF_JAZZ = ("jazz minor", "ionian ♭3", "ionian b3")
"""Names of the rising melodic minor scale as a scale of its own, which comes down as it went up (common practice)."""


def read_scale(text: str) -> OnTonic:
    """The scale that a text names. Raises ValueError with one plain sentence."""
    first, _, rest = text.strip().partition(" ")
    tonic = NoteName.parse(first)
    name = " ".join(rest.split())
    plain = name.casefold()
    if not name:
        raise ValueError(f"'{text}' does not say which scale; write its name after the note, as D Mixolydian")
    if plain == _CHROMATIC:
        return OnTonic(tonic, tuple(range(12)), tuple(range(12)))
    try:
        scale = scale_named(_MINOR if plain == "minor" else name)
    except KeyError:
        known = {name for scale in SCALES for name in (scale.name, *scale.other_names)}
        raise ValueError(unknown_name("a mode or scale", name, {*known, _CHROMATIC})) from None
    return OnTonic.of(tonic, scale, both_ways=plain.replace("-", " ") in _OF_JAZZ)
