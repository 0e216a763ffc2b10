"""The guitar: a riff in power chords, a picked verse, a chopped chorus, and slow rolled chords in the bridge.

Every shape can be held by four fingers in standard tuning; pitches are as they sound.
"""

from __future__ import annotations

from fractions import Fraction

from making.notation import Event
from making.song import Chord, chart, quarters, section_at

POWER = {"D5": "D3 A3 D4", "C5": "C3 G3 C4", "G5": "G2 D3 G3"}
PICKED = {
    "Dadd9": "D3 F#3 A3 E4",  # x5425x
    "A/C#": "C#3 E3 A3 E4",  # x422x0
    "Bm": "B2 F#3 B3 D4",  # x2443x
    "G": "G2 D3 G3 B3",  # 3x000x
    "F#7/A#": "A#2 F#3 C#4 E4",  # x14x20
    "Em7": "E3 G3 D4 G3",  # xx203x
    "Asus4": "A2 E3 A3 D4",  # x0223x
    "A": "A2 E3 C#4 A3",  # x0222x
}
STRUMMED = {
    "D": "D3 A3 D4 F#4",  # xx0232
    "C": "C3 E3 G3 C4 E4",  # x32010
    "G": "G2 D3 G3 B3 D4",  # 35543x: one finger lifts for Gm
    "Gm": "G2 D3 G3 Bb3 D4",  # 35533x
    "A": "A2 E3 A3 C#4 E4",  # x02220
    "Bm": "B2 F#3 B3 D4 F#4",  # x24432
}
ROLLED = {
    "Bm7": "B2 F#3 A3 D4 F#4",  # x24232
    "E7": "E2 B2 D3 G#3 B3 E4",  # 020100
    "A": "A2 E3 A3 C#4 E4",  # x02220
    "F#m7": "F#2 E3 A3 C#4 F#4",  # 2x2222
    "E7sus4": "E2 B2 D3 A3 B3 E4",  # 020200
    "Aadd9": "A2 E3 B3 C#4 E4",  # x02420
    "A7/C#": "C#3 E3 G3 E4",  # x420x0
    "G": "G2 D3 G3 B3",
    "Gm": "G2 D3 G3 Bb3",
    "Dadd9": "D3 F#3 A3 E4",
}


def _riff(chord: Chord) -> list[Event]:
    """Dotted eighth, dotted eighth, eighth; on D the line then climbs A C into the next bar, the C a little early."""
    pitches = tuple(POWER[chord.symbol].split())
    hits = (("0", "0.75"), ("0.75", "0.75"), ("1.5", "0.5"))
    events = [
        Event(chord.start + Fraction(at), Fraction(length), pitches, 0.8, "crunch") for at, length in hits
    ]
    if chord.length == 4:
        events.append(Event(chord.start + Fraction("2.5"), Fraction("0.5"), pitches, 0.72, "crunch"))
        events.append(Event(chord.start + 3, Fraction("0.5"), ("A2",), 0.75, "crunch"))
        events.append(Event(chord.start + Fraction("3.5"), Fraction("0.5"), ("C3",), 0.8, "crunch"))
    return events


def _picked(chord: Chord) -> list[Event]:
    """Eighths over the shape, the thumb on the bass."""
    strings = PICKED[chord.symbol].split()
    order = (0, 2, 3, 2, 1, 2, 3, 2) if chord.length == 4 else (0, 1, 2, 3)
    half = Fraction(1, 2)
    return [
        Event(chord.start + i * half, half, (strings[string],), 0.66 if string == 0 else 0.52, "picked")
        for i, string in enumerate(order)
    ]


def _chopped(chord: Chord) -> list[Event]:
    """The bare fifth on beat 1, then short chords around the backbeat."""
    strings = tuple(STRUMMED[chord.symbol].split())
    if chord.length == 2:
        return [Event(chord.start, chord.length, strings, 0.74, "strum")]
    # The two lowest strings are root and fifth in every shape but C, whose fifth is the third string.
    fifth = (strings[0], strings[2]) if chord.symbol == "C" else strings[:2]
    upper = strings[-4:]
    hits = [(Fraction(1), "0.5", 0.72), (Fraction("1.75"), "0.25", 0.5), (Fraction("2.5"), "0.5", 0.6)]
    hits += [(Fraction(3), "0.5", 0.72), (Fraction("3.5"), "0.5", 0.5)]
    chops = [Event(chord.start + at, Fraction(length), upper, loud, "chop") for at, length, loud in hits]
    return [Event(chord.start, Fraction(1), fifth, 0.68, "strum"), *chops]


def _rolled(chord: Chord) -> list[Event]:
    return [Event(chord.start, chord.length, tuple(ROLLED[chord.symbol].split()), 0.85, "roll")]


_WAYS = {
    "intro": _riff,
    "verse": _picked,
    "chorus": _chopped,
    "verse 2": _picked,
    "chorus 2": _chopped,
    "bridge": _rolled,
    "chorus 3": _chopped,
}


def guitar() -> list[Event]:
    """The whole guitar part, from the pickup that starts the song to the last ringing chord."""
    events = [
        Event(Fraction(-1), Fraction(1, 2), ("A2",), 0.75, "crunch"),
        Event(Fraction(-1, 2), Fraction(1, 2), ("C3",), 0.8, "crunch"),
    ]
    for chord in chart():
        section = section_at(chord.start)
        if section != "outro":
            events += _WAYS[section](chord)
        elif chord.symbol in POWER:
            events += _riff(chord)
        elif chord.start < quarters(59):
            events += _rolled(chord)
    events += [Event(quarters(59), Fraction(8), tuple(ROLLED["Dadd9"].split()), 0.9, "roll")]
    return events
