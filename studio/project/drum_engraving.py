"""Notation of drums, as MusicXML for an engraver: one staff, hands with stems up, feet with stems down.

Where each voice of the kit stands follows Norman Weinberg, "Guidelines for Drumset Notation" (Percussive Notes,
June 1994), which the Percussive Arts Society took up as its recommendation (from memory): drums have round
heads and lie in the order of their pitch, bass drum in the first space and snare drum in the third; cymbals have
crosses, the hi-hat over the staff, the ride on the top line, the crash on the first ledger line, the hi-hat that
the foot plays under the staff. What that guide leaves open (claps, hand percussion) is common practice or our
own choice, and a callout names the voices beside the staff.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from studio.music.groove import Touch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.engraving import bars_touched
from studio.project.signs import beam, exact, exported, fill_with_rests, writable


@dataclass(frozen=True)
class Struck:
    """One stroke of the kit: when, in quarters from bar 1 beat 1, which voice, how hard."""

    onset: Fraction
    voice: str
    touch: Touch = "plain"


@dataclass(frozen=True)
class KitPlace:
    """Where a voice stands, as the name of the note there in the treble clef, and the shape of its head."""

    step: str
    octave: int
    head: str = "normal"

    @property
    def line(self) -> int:
        """Steps above the lowest line of the staff: 0 is that line, 1 the first space, 8 the top line."""
        return 7 * (self.octave - 4) + "CDEFGAB".index(self.step) - 2


KIT: dict[str, KitPlace] = {
    "kick": KitPlace("F", 4),
    "snare": KitPlace("C", 5),
    "side stick": KitPlace("C", 5, "x"),
    "clap": KitPlace("E", 5, "x"),
    "hat": KitPlace("G", 5, "x"),
    "open hat": KitPlace("G", 5, "circle-x"),
    "pedal hat": KitPlace("D", 4, "x"),
    "ride": KitPlace("F", 5, "x"),
    "ride bell": KitPlace("F", 5, "diamond"),
    "crash": KitPlace("A", 5, "x"),
    "splash": KitPlace("B", 5, "x"),
    "china": KitPlace("B", 5, "circle-x"),
    "high tom": KitPlace("E", 5),
    "mid tom": KitPlace("D", 5),
    "low tom": KitPlace("B", 4),
    "floor tom": KitPlace("A", 4),
    "tambourine": KitPlace("B", 5, "diamond"),
    "cowbell": KitPlace("E", 5, "diamond"),
    "shaker": KitPlace("C", 6, "x"),
    "triangle": KitPlace("C", 6, "diamond"),
}
"""Voices of the kit on a staff of five lines."""

ELSEWHERE = KitPlace("D", 6, "diamond")
"""Hand percussion without a place of its own stands over everything else."""

FEET = ("kick", "pedal hat")
"""Voices that the feet play."""

_Together = tuple[Fraction, Fraction, tuple[tuple[int, Struck], ...]]
"""Strokes at one moment with their numbers: offset in the bar, written length."""


def kit_place(voice: str) -> KitPlace:
    """Where a voice of the kit stands on the staff."""
    return KIT.get(voice, ELSEWHERE)


def engrave_drums(strokes: Sequence[Struck], time: SongTime, span: Span) -> str:
    """MusicXML of the whole bars that a span touches. The <note> of ``strokes[3]`` has the id ``n3``.

    A stroke is written as long as it is until its hand or foot strikes again, and never beyond its beat.
    """
    from music21 import stream

    first, last = bars_touched(time, span)
    staff = stream.Part(id="drums")
    for bar in range(first, last + 1):
        staff.append(_measure(strokes, time, bar, bar == first))
    return exported(stream.Score([staff]))


def _measure(strokes: Sequence[Struck], time: SongTime, bar: int, opening: bool) -> Any:
    from music21 import clef, meter, stream

    span, counted = time.bars(bar, bar), time.meter(bar)
    measure = stream.Measure(number=bar)
    if opening:
        measure.insert(0, clef.PercussionClef())
    if opening or counted != time.meter(bar - 1):
        measure.insert(0, meter.TimeSignature(str(counted)))
    if bar == 0:
        measure.paddingLeft = float(counted.bar - span.length)
    inside = [(n, stroke) for n, stroke in enumerate(strokes) if span.contains(stroke.onset)]
    hands = [item for item in inside if item[1].voice not in FEET]
    feet = [item for item in inside if item[1].voice in FEET]
    lines = [line for line in (hands, feet) if line] or [[]]
    for number, line in enumerate(lines, 1):
        voice = measure if len(lines) < 2 else stream.Voice(id=str(number))
        together = list(_together(line, span, counted.beat))
        for offset, length, struck in together:
            voice.insert(exact(offset), _sign(struck, length, "down" if line is feet else "up"))
        edges = [(offset, offset + length) for offset, length, _ in together]
        fill_with_rests(voice, edges, span.length, hidden=number > 1, whole=bar > 0)
        if voice is not measure:
            measure.insert(0, voice)
    beam(measure, str(counted))
    return measure


def _together(line: Sequence[tuple[int, Struck]], span: Span, beat: Fraction) -> Iterator[_Together]:
    """The strokes of hands or feet, those at one moment together."""
    moments = sorted({stroke.onset - span.start for _, stroke in line})
    for offset, following in zip(moments, (*moments[1:], span.length)[: len(moments)], strict=True):
        into = (offset - span.length) % beat
        length = writable(min(following - offset, beat - into))
        struck = [(n, stroke) for n, stroke in line if stroke.onset - span.start == offset]
        yield offset, length, tuple(sorted(struck, key=lambda item: kit_place(item[1].voice).line))


def _sign(struck: Sequence[tuple[int, Struck]], length: Fraction, stem: str) -> Any:
    from music21 import articulations, note, percussion

    heads = []
    for number, stroke in struck:
        place = kit_place(stroke.voice)
        head = note.Unpitched(displayName=f"{place.step}{place.octave}")
        head.id = f"n{number}"
        head.notehead = place.head
        head.noteheadParenthesis = stroke.touch == "ghost"
        head.stemDirection = stem
        heads.append(head)
    sign = heads[0] if len(heads) == 1 else percussion.PercussionChord(heads)
    sign.quarterLength = exact(length)
    sign.stemDirection = stem
    if any(stroke.touch == "accent" for _, stroke in struck):
        accent = articulations.Accent()
        accent.placement = "below" if stem == "down" else "above"
        sign.articulations.append(accent)
    return sign
