"""Which line of a grid each voice of the kit stands on, and by what shape its strokes are known.

Cymbals stand over drums and the kick at the bottom, as drum notation has them (common practice; Percussive Arts
Society's guide to standardized drumset notation by N. Weinberg, from memory, has the same order). Closed and open
strokes of the hi-hat share a line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from studio.drawing.grid.grid import Shape, Struck, VoiceLine
from studio.music.groove import Groove, Hit
from studio.music.kit import CYMBAL_MARKS, HATS, VOICES
from studio.theory.rhythm.stroke_changes import Strokes, line_of

_CYMBALS = (*CYMBAL_MARKS, "ride", "hat", "pedal hat")
_DRUMS = (
    *("high tom", "mid tom", "low tom", "floor tom", "bongo", "conga", "timbale"),
    *("snare", "kick"),
)
_TOP_DOWN = (
    *(*CYMBAL_MARKS, "ride bell", "ride", "hats"),
    *("high tom", "mid tom", "low tom", "floor tom", "clap", "side stick", "snare", "kick", "pedal hat"),
)


def lines_of(grooves: Iterable[Groove]) -> tuple[str, ...]:
    """The lines that grooves need, from the top down; hand percussion stands between cymbals and drums."""
    found = {line_of(voice) for groove in grooves for voice in groove.voices}
    hands = [voice for voice in VOICES if voice not in _TOP_DOWN and voice not in HATS]
    middle = _TOP_DOWN.index("hats") + 1
    order = (*_TOP_DOWN[:middle], *hands, *_TOP_DOWN[middle:])
    return tuple(line for line in order if line in found)


def shape_of(voice: str) -> Shape:
    """The shape of a voice's strokes."""
    if voice == "open hat":
        return "open"
    return "cymbal" if voice in _CYMBALS else "drum" if voice in _DRUMS else "hand"


def voice_lines(
    groove: Groove, lines: Sequence[str], bars: int, changes: Mapping[str, Strokes] | None = None
) -> tuple[VoiceLine, ...]:
    """The strokes of a groove on their lines, gone round until it fills the bars.

    `changes` are those from the groove before it: by them a stroke differs and others are missing, ghost notes and
    accents among them, so that all is marked that `studio.theory.rhythm.difference` puts into words.
    """
    found = []
    for line in lines:
        strokes = sorted(
            ((hit, voice) for voice, hit in _hits(groove, bars) if line_of(voice) == line),
            key=lambda struck: struck[0].at,
        )
        change = changes.get(line) if changes else None
        marked, gone = (change.marked, change.gone) if change else (frozenset(), frozenset())
        struck = tuple(Struck(hit.at, shape_of(voice), hit.touch, hit.at in marked) for hit, voice in strokes)
        found.append(VoiceLine(struck, tuple(sorted(gone))))
    return tuple(found)


def _hits(groove: Groove, bars: int) -> list[tuple[str, Hit]]:
    return [
        (voice, Hit(hit.at + start, hit.touch))
        for voice, hits in groove.lines
        for hit in hits
        for start in range(0, bars, groove.bars)
    ]
