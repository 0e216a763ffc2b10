"""Writes the parts as MusicXML and the drums as a Standard MIDI File, through music21."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from typing import Any

from making.bass import bass
from making.drums import GENERAL_MIDI, drums
from making.guitar import guitar
from making.keys import keys
from making.lead import lead
from making.notation import Event
from making.song import (
    ANCHORS,
    BAND,
    END,
    KEYS,
    LAST_BAR,
    METERS,
    PICKUP,
    TITLE,
    bar_length,
    quarters,
    seconds,
)

TICKS = 480


_ONE_SYMBOL = {Fraction(text) for text in ("1/4", "1/2", "3/4", "1", "3/2", "2", "3", "4")}


def _pieces(event: Event, first: Fraction, last: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Start and end of each written symbol of an event inside a bar.

    A note is cut at the bar line, and at the middle of the bar when it starts off the beat or needs more than one
    symbol, so that a reader always sees beat 3.
    """
    start, end, middle = max(event.onset, first), min(event.end, last), first + 2
    off_beat = (start - first).denominator > 1
    if start < middle < end and (off_beat or end - start not in _ONE_SYMBOL):
        return [(start, middle), (middle, end)]
    return [(start, end)]


def _notes(
    events: Iterable[Event], first: Fraction, last: Fraction
) -> Iterable[tuple[Fraction, Fraction, Event, str]]:
    """What is written in a bar: start and length of each symbol, its event, and its tie."""
    for event in events:
        if event.onset >= last or event.end <= first:
            continue
        for start, end in _pieces(event, first, last):
            begins, ends = start == event.onset, end == event.end
            tie = "" if begins and ends else "start" if begins else "stop" if ends else "continue"
            yield start, end - start, event, tie


def _staff(events: list[Event], clef_name: str, staff_class: str = "Part") -> Any:
    from music21 import chord, clef, duration, key, meter, note, stream, tie

    staff = getattr(stream, staff_class)()
    for bar in range(LAST_BAR + 1):
        first = -PICKUP if bar == 0 else quarters(bar)
        last = first + bar_length(bar)
        measure = stream.Measure(number=bar)
        if bar == 0:
            measure.append([getattr(clef, clef_name)(), key.Key("D"), meter.TimeSignature("4/4")])
            measure.paddingLeft = 4 - PICKUP
            measure.showNumber = stream.enums.ShowNumber.NEVER
        if bar in METERS and bar != 1:
            measure.append(meter.TimeSignature(f"{METERS[bar]}/4"))
        if bar in KEYS and bar != 1:
            measure.append(key.Key(KEYS[bar].split()[0]))
        position = first
        for start, length, event, tied in _notes(events, first, last):
            if start > position:
                measure.append(note.Rest(quarterLength=start - position))
            spelled = [pitch.replace("b", "-") for pitch in event.pitches]
            sound = note.Note(spelled[0]) if len(spelled) == 1 else chord.Chord(spelled)
            sound.duration = duration.Duration(length)
            if tied:
                sound.tie = tie.Tie(tied)
            measure.append(sound)
            position = start + length
        if position == first:
            measure.append(note.Rest(quarterLength=last - first, fullMeasure=bar > 0))
        elif position < last:
            measure.append(note.Rest(quarterLength=last - position))
        staff.append(measure)
    staff.makeAccidentals(inPlace=True)
    for measure in staff.getElementsByClass(stream.Measure):
        measure.makeBeams(inPlace=True)
    return staff


def _score(name: str, staves: list[Any]) -> Any:
    from music21 import instrument, layout, metadata, stream

    score = stream.Score()
    score.metadata = metadata.Metadata(title=TITLE, composer=BAND)
    for staff in staves:
        player = instrument.Instrument(partName=name)
        staff.insert(0, player)
        staff.partName = name
        score.insert(0, staff)
    if len(staves) == 2:
        score.insert(0, layout.StaffGroup(staves, symbol="brace", name=name, barTogether=True))
    return score


def _steady(text: str, name: str) -> str:
    """The same file every time: music21 stamps the day and a random part name into each one."""
    text = re.sub(r"\s*<encoding-date>.*?</encoding-date>", "", text)
    for identity in re.findall(r'<score-part id="([^"]+)"', text):
        text = text.replace(f'"{identity}"', f'"{name}"')
    return text


def write_parts(folder: Path) -> list[Path]:
    """Write ``lead``, ``keys``, ``guitar`` and ``bass`` as MusicXML; pitches are sounding, clefs say the octave."""
    right, left = keys()
    scores = {
        "lead": _score("Lead", [_staff(lead(), "TrebleClef")]),
        "keys": _score(
            "Keys", [_staff(right, "TrebleClef", "PartStaff"), _staff(left, "BassClef", "PartStaff")]
        ),
        "guitar": _score("Guitar", [_staff(guitar(), "Treble8vbClef")]),
        "bass": _score("Bass", [_staff(bass(), "Bass8vbClef")]),
    }
    written = []
    for name, score in scores.items():
        path = folder / f"{name}.musicxml"
        score.write("musicxml", fp=str(path), makeNotation=False)
        path.write_text(_steady(path.read_text(encoding="utf-8"), name), encoding="utf-8", newline="\n")
        written.append(path)
    return written


def _tick(position: Any) -> int:
    """MIDI ticks from the start of the pickup, which is where the file begins."""
    return int((position + PICKUP) * TICKS)


def _tempo_map() -> list[tuple[int, bytes, bytes]]:
    changes = []
    for bar in list(ANCHORS)[:-1]:
        start = -PICKUP if bar == 1 else quarters(bar)
        microseconds = round((seconds(quarters(bar) + 1) - seconds(quarters(bar))) * 1_000_000)
        changes.append((_tick(start), b"\x51", microseconds.to_bytes(3, "big")))
    bars = {-PICKUP: PICKUP} | {quarters(bar): beats for bar, beats in METERS.items()}
    changes += [(_tick(at), b"\x58", bytes((int(beats), 2, 24, 8))) for at, beats in bars.items()]
    return sorted(changes)


def write_drums(path: Path) -> Path:
    """Write the drums on the General MIDI percussion channel, with the recording's own tempo map."""
    from music21 import midi

    track = midi.MidiTrack(0)
    messages: list[tuple[int, int, Any]] = []
    for at, kind, data in _tempo_map():
        code = midi.MetaEvents.SET_TEMPO if kind == b"\x51" else midi.MetaEvents.TIME_SIGNATURE
        messages.append((at, 0, midi.MidiEvent(track, type=code)))
        messages[-1][2].data = data
    for name, strokes in drums().items():
        for stroke in strokes:
            for order, kind, at, velocity in (
                (2, midi.ChannelVoiceMessages.NOTE_ON, stroke.onset, round(stroke.loudness * 127)),
                (1, midi.ChannelVoiceMessages.NOTE_OFF, stroke.end, 0),
            ):
                event = midi.MidiEvent(track, type=kind, channel=10)
                event.pitch, event.velocity = GENERAL_MIDI[name], velocity
                messages.append((_tick(at), order, event))
    end = midi.MidiEvent(track, type=midi.MetaEvents.END_OF_TRACK)
    end.data = b""
    messages.append((_tick(END), 3, end))
    now = 0
    for at, _, event in sorted(messages, key=lambda message: message[:2]):
        track.events += [midi.DeltaTime(track, time=at - now), event]
        now = at
    file = midi.MidiFile()
    file.ticksPerQuarterNote = TICKS
    file.tracks = [track]
    file.open(str(path), "wb")
    file.write()
    file.close()
    return path
