"""The drums, written as a drummer's grid: sixteen steps to a bar, ``x`` a stroke, ``X`` an accent, ``.`` nothing.

Full time everywhere but in the bridge, which drops to half time: the backbeat moves from beats 2 and 4 to beat 3.
"""

from __future__ import annotations

from fractions import Fraction

from making.notation import Event
from making.song import quarters

GENERAL_MIDI = {
    "kick": 36,
    "stick": 37,
    "snare": 38,
    "clap": 39,
    "closed": 42,
    "pedal": 44,
    "open": 46,
    "crash": 49,
    "ride": 51,
}
"""General MIDI percussion key numbers, by the name used here."""

Groove = dict[str, str]

CLAPS_ALONE: Groove = {
    "kick": "X... .... x... ....",
    "clap": ".... X... .... X...",
    "pedal": "x... x... x... x...",
}
RIFF: Groove = {
    "kick": "X..x ..x. X... x...",
    "clap": ".... X... .... X...",
    "snare": ".... x... .... x...",
    "closed": "X.x. X.x. X.x. X.x.",
}
RIFF_LAST: Groove = {**RIFF, "snare": ".... x... .... x.xX", "closed": "X.x. X.x. X.x. ...."}
VERSE: Groove = {
    "kick": "X... ..x. x... ....",
    "stick": ".... X... .... X...",
    "closed": "X.x. X.x. X.x. X.x.",
}
VERSE_FILL: Groove = {**VERSE, "snare": ".... .... .... ..xX", "closed": "X.x. X.x. X.x. X..."}
VERSE_2: Groove = {
    "kick": "X... ..x. x.x. ....",
    "snare": ".... X..x .... X...",
    "clap": ".... .... .... x...",
    "closed": "X.x. X.xx X.x. X.x.",
}
VERSE_2_FILL: Groove = {**VERSE_2, "snare": ".... X... .... X.xX", "closed": "X.x. X.x. X.x. X..."}
CHORUS: Groove = {
    "kick": "X..x ..x. x.x. ....",
    "snare": ".... X... .... X...",
    "clap": ".... X... .... X...",
    "closed": "X.x. X.x. X.x. X...",
    "open": ".... .... .... ..x.",
}
CHORUS_TURN: Groove = {**CHORUS, "clap": ".... X... .... X.x.", "snare": ".... X... .... X..x"}
BREATH: Groove = {"kick": "X... ....", "crash": "X... ....", "clap": ".... X.X."}
BRIDGE: Groove = {
    "kick": "X... .... ..x. ..x.",
    "snare": ".... .... X... ....",
    "ride": "X... x... X... x...",
    "pedal": ".... x... .... x...",
}
BRIDGE_BUILD: Groove = {**BRIDGE, "snare": ".... .... X.x. xxXX", "kick": "X... .... x... x..."}
LAST_CHORUS: Groove = {**CHORUS, "clap": "..x. X... ..x. X.x.", "closed": "X.xx X.xx X.xx X..."}
RUN_OUT: Groove = {
    "kick": "X... ..x. X... ....",
    "ride": "X... x... X... x...",
    "clap": ".... X... .... X...",
}
LAST_STROKE: Groove = {
    "kick": "X... .... .... ....",
    "crash": "X... .... .... ....",
    "clap": "X... .... .... ....",
}

BARS: tuple[Groove, ...] = (
    *(CLAPS_ALONE, CLAPS_ALONE, RIFF, RIFF_LAST),
    *(VERSE,) * 7,
    VERSE_FILL,
    *(CHORUS, CHORUS, CHORUS, CHORUS_TURN) * 2,
    *(VERSE_2,) * 7,
    VERSE_2_FILL,
    *(CHORUS, CHORUS, CHORUS, CHORUS_TURN) * 2,
    BREATH,
    *(BRIDGE,) * 7,
    BRIDGE_BUILD,
    *(LAST_CHORUS, LAST_CHORUS, LAST_CHORUS, CHORUS_TURN) * 2,
    *(RIFF, RIFF, RIFF, RIFF_LAST, RUN_OUT, LAST_STROKE),
)
"""One groove to a bar; the last bar is silent."""

CRASHES = (5, 13, 29, 46, 54)
"""Bars that begin with a crash cymbal besides those that have one written."""


def drums() -> dict[str, list[Event]]:
    """Strokes of each instrument of the kit, by name. Pitches are left empty: the name says what is struck."""
    strokes: dict[str, list[Event]] = {name: [] for name in GENERAL_MIDI}
    step = Fraction(1, 4)
    for bar, groove in enumerate(BARS, start=1):
        for name, grid in groove.items():
            for i, mark in enumerate(grid.replace(" ", "")):
                if mark != ".":
                    loudness = 0.9 if mark == "X" else 0.6
                    strokes[name].append(Event(quarters(bar) + i * step, step, (), loudness))
        if bar in CRASHES:
            strokes["crash"].append(Event(quarters(bar), step, (), 0.7))
    return {name: sorted(events, key=lambda event: event.onset) for name, events in strokes.items()}
