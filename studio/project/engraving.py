"""Notation of some bars of a part, as MusicXML for an engraver.

music21 knows beams, tuplets, ties and accidentals; here it is told where the bars and the voices are.
"""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime

if TYPE_CHECKING:
    from studio.project.written_part import WrittenPart

_PLAYED_SHORT = Fraction(1, 4)
"""A played note that stops up to this many quarters before the next one is written as reaching it."""


@dataclass(frozen=True)
class _Piece:
    """What lies in one bar of a note or of a chord, and whether it is tied to the bars around."""

    offset: Fraction
    length: Fraction
    notes: tuple[tuple[int, Note], ...]
    tied_before: bool
    tied_after: bool


def engrave(written: WrittenPart, span: Span, labels: Mapping[Note, str]) -> str:
    """See `WrittenPart.musicxml`."""
    from music21 import layout, stream
    from music21.musicxml.m21ToXml import GeneralObjectExporter

    time = written.time
    first = max(time.bar_at(span.start), 0 if time.pickup else 1)
    last = first
    while time.bar_start(last + 1) < span.end:
        last += 1
    staves = []
    for number in range(1, len(written.clefs) + 1):
        staff = stream.PartStaff(id=f"staff{number}")
        for bar in range(first, last + 1):
            staff.append(_measure(written, number, bar, bar == first, labels))
        staff.makeAccidentals(inPlace=True)
        staves.append(staff)
    score = stream.Score(staves)
    if len(staves) > 1:
        score.insert(0, layout.StaffGroup(staves, symbol="brace"))
    exporter = GeneralObjectExporter(score)
    exporter.makeNotation = False
    return _tidy(exporter.parse().decode("utf-8"))


def _measure(written: WrittenPart, staff: int, bar: int, opening: bool, labels: Mapping[Note, str]) -> Any:
    from music21 import key, meter, stream

    time = written.time
    span = time.bars(bar, bar)
    measure = stream.Measure(number=bar)
    if opening:
        measure.insert(0, _clef(written.clefs[staff - 1]))
    sharps = written.signature(span.start)
    if opening or sharps != written.signature(span.start - Fraction(1, 64)):
        measure.insert(0, key.KeySignature(sharps))
    if opening or time.meter(bar) != time.meter(bar - 1):
        measure.insert(0, meter.TimeSignature(str(time.meter(bar))))
    if bar == 0:
        measure.paddingLeft = float(time.meter(0).bar - span.length)
    voices = _voices(_pieces(written, staff, span))
    for number, pieces in enumerate(voices or [[]], 1):
        voice = measure if len(voices) < 2 else stream.Voice(id=str(number))
        for piece in pieces:
            voice.insert(_exact(piece.offset), _sign(piece, labels))
        _fill_with_rests(voice, pieces, span.length, hidden=number > 1, whole=bar > 0)
        if voice is not measure:
            measure.insert(0, voice)
    _beam(measure, str(time.meter(bar)))
    return measure


def _pieces(written: WrittenPart, staff: int, span: Span) -> list[_Piece]:
    """Notes of a bar, those with one onset and one length together, cut at the bar lines."""
    together: dict[tuple[Fraction, Fraction], list[tuple[int, Note]]] = {}
    mine = [(n, note) for n, note in enumerate(written.part.notes) if note.staff == staff]
    for place, (n, note) in enumerate(mine):
        end = _written_end(note, [other for _, other in mine[place + 1 :]]) if written.played else note.end
        if note.onset < span.end and end > span.start:
            together.setdefault((note.onset, end), []).append((n, note))
    pieces = []
    for (onset, end), notes in together.items():
        start, stop = max(onset, span.start), min(end, span.end)
        ordered = tuple(sorted(notes, key=lambda item: item[1].pitch.midi))
        for begin, finish in _cut(start, stop, span, written.time):
            length = _writable(finish - begin)
            pieces.append(_Piece(begin - span.start, length, ordered, begin > onset, finish < end))
    return sorted(pieces, key=lambda piece: (piece.offset, -piece.notes[-1][1].pitch.midi))


def _cut(start: Fraction, stop: Fraction, span: Span, time: SongTime) -> list[tuple[Fraction, Fraction]]:
    """A length in one piece, or, in a compound meter, cut so that no sign hides a beat.

    There a sign stays inside its beat, or begins on one and lasts for whole beats: five eighths are a dotted
    quarter and a quarter, never a half and an eighth.
    """
    meter = time.meter(time.bar_at(span.start))
    into, length = (start - span.end) % meter.beat, stop - start
    if not meter.compound or into + length <= meter.beat or (into == 0 and length % meter.beat == 0):
        return [(start, stop)]
    first = start + (meter.beat - into if into else length // meter.beat * meter.beat)
    return [(start, first), *_cut(first, stop, span, time)]


def _written_end(note: Note, later: Sequence[Note]) -> Fraction:
    following = next((other.onset for other in later if other.onset > note.onset), None)
    if following is None or not note.end - _PLAYED_SHORT <= following <= note.end + _PLAYED_SHORT:
        return note.end
    return following


def _writable(length: Fraction) -> Fraction:
    """The length itself where notation can write it, else the nearest on a grid of 1/8, 1/6 or 1/4."""
    from music21 import duration

    if duration.Duration(_exact(length)).type != "inexpressible":
        return length
    grids = [max(Fraction(round(length * part), part), Fraction(1, part)) for part in (8, 6, 4)]
    return min(grids, key=lambda grid: abs(grid - length))


def _voices(pieces: list[_Piece]) -> list[list[_Piece]]:
    """Pieces in as few voices as do not overlap, the higher ones first."""
    voices: list[list[_Piece]] = []
    for piece in pieces:
        for voice in voices:
            if voice[-1].offset + voice[-1].length <= piece.offset:
                voice.append(piece)
                break
        else:
            voices.append([piece])
    return voices


def _fill_with_rests(voice: Any, pieces: list[_Piece], length: Fraction, hidden: bool, whole: bool) -> None:
    from music21 import note

    at = Fraction(0)
    edges = [(piece.offset, piece.offset + piece.length) for piece in pieces]
    for start, end in [*edges, (length, length)]:
        if start > at:
            rest = note.Rest(quarterLength=_exact(_writable(start - at)))
            if whole and not pieces:
                rest.fullMeasure = True
            if hidden:
                rest.style.hideObjectOnPrint = True
            voice.insert(_exact(at), rest)
        at = max(at, end)


def _sign(piece: _Piece, labels: Mapping[Note, str]) -> Any:
    """A music21 note or chord, with ids, ties and labels (the highest note's label uppermost)."""
    from music21 import chord, note, tie

    signs = []
    for index, written in piece.notes:
        sign = note.Note(_pitch_text(written.pitch))
        sign.id = f"n{index}"
        if piece.tied_before or piece.tied_after:
            both = piece.tied_before and piece.tied_after
            sign.tie = tie.Tie("continue" if both else "stop" if piece.tied_before else "start")
        signs.append(sign)
    whole = signs[0] if len(signs) == 1 else chord.Chord(signs)
    whole.quarterLength = _exact(piece.length)
    if not piece.tied_before:
        shown = [labels[written] for _, written in reversed(piece.notes) if labels.get(written)]
        for line, label in enumerate(shown, 1):
            lyric = note.Lyric(number=line)
            lyric.setTextAndSyllabic(label, applyRaw=True)
            whole.lyrics.append(lyric)
    return whole


def _beam(measure: Any, meter_text: str) -> None:
    """Cut lengths that one sign cannot show (tied on), then beam what is short and bracket tuplets."""
    from music21 import exceptions21, meter
    from music21.stream import makeNotation

    signature = meter.TimeSignature(meter_text)
    for voice in measure.voices or [measure]:
        voice.splitAtDurations()
        signs = list(voice.notesAndRests)
        try:
            beams = signature.getBeams(signs, measureStartOffset=measure.paddingLeft)
        except exceptions21.Music21Exception:  # a rhythm with no usual beaming is left with flags
            continue
        for sign, beam in zip(signs, beams, strict=False):
            if beam is not None and not sign.isRest:
                sign.beams = beam
        makeNotation.makeTupletBrackets(voice, inPlace=True)


def _clef(name: str) -> Any:
    from music21 import clef

    kinds = {
        "treble": clef.TrebleClef,
        "treble 8vb": clef.Treble8vbClef,
        "alto": clef.AltoClef,
        "tenor": clef.TenorClef,
        "bass": clef.BassClef,
        "bass 8vb": clef.Bass8vbClef,
    }
    return kinds[name]()


def _pitch_text(pitch: Pitch) -> str:
    alter = pitch.name.alter
    return pitch.name.letter + ("#" * alter if alter >= 0 else "-" * -alter) + str(pitch.octave)


def _exact(quarters: Fraction) -> Any:
    from music21.common.numberTools import opFrac

    return opFrac(quarters)


def _tidy(text: str) -> str:
    """Without what changes from run to run (dates, random ids); each note head gets an id of its own."""
    root = ElementTree.fromstring(text)
    for name in ("movement-title", "identification", "defaults"):
        for element in root.findall(name):
            root.remove(element)
    for number, part in enumerate(root.iter("score-part"), 1):
        part.set("id", f"P{number}")
    for number, part in enumerate(root.findall("part"), 1):
        part.set("id", f"P{number}")
    seen: dict[str, int] = {}
    for element in root.iter("note"):
        head = element.get("id")
        if head is not None:
            seen[head] = seen.get(head, -1) + 1
            element.set("id", f"{head}-t{seen[head]}" if seen[head] else head)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root, encoding="unicode")
