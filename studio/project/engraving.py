"""Notation of some bars of a part, as MusicXML for an engraver.

music21 knows beams, tuplets, ties and accidentals; here it is told where the bars and the voices are.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.signs import beam, exact, exported, fill_with_rests, writable

if TYPE_CHECKING:
    from studio.project.written_part import WrittenPart

_PLAYED_SHORT = Fraction(1, 4)
"""A played note that stops up to this many quarters before the next one is written as reaching it."""


@dataclass(frozen=True)
class _Lasting:
    """A note with its number in the part, and where it ends as it is written."""

    number: int
    note: Note
    end: Fraction


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

    time = written.time
    first, last = bars_touched(time, span)
    staves = []
    for number in range(1, len(written.clefs) + 1):
        staff = stream.PartStaff(id=f"staff{number}")
        within = _within_bars(written, number, first, last)
        for bar in range(first, last + 1):
            edges = (bar == first, bar == last)
            staff.append(_measure(written, number, bar, within.get(bar, ()), edges, labels))
        staff.makeAccidentals(inPlace=True)
        staves.append(staff)
    score = stream.Score(staves)
    if len(staves) > 1:
        score.insert(0, layout.StaffGroup(staves, symbol="brace"))
    return exported(score)


def bars_touched(time: SongTime, span: Span) -> tuple[int, int]:
    """The first and the last bar that a span touches."""
    first = max(time.bar_at(span.start), 0 if time.pickup else 1)
    last = first
    while time.bar_start(last + 1) < span.end:
        last += 1
    return first, last


def _measure(
    written: WrittenPart,
    staff: int,
    bar: int,
    within: Sequence[_Lasting],
    edge: tuple[bool, bool],
    labels: Mapping[Note, str],
) -> Any:
    """One bar of a staff with the notes `within`; `edge`: whether it is the first and the last that is engraved."""
    from music21 import key, meter, stream

    time = written.time
    (opening, closing), span = edge, time.bars(bar, bar)
    measure = stream.Measure(number=bar)
    if opening:
        measure.insert(0, _clef(written.clef(staff)))
    sharps = written.signature(span.start)
    if opening or sharps != written.signature(span.start - Fraction(1, 64)):
        measure.insert(0, key.KeySignature(sharps))
    if opening or time.meter(bar) != time.meter(bar - 1):
        measure.insert(0, meter.TimeSignature(str(time.meter(bar))))
    if bar == 0:
        measure.paddingLeft = float(time.meter(0).bar - span.length)
    voices = _voices(_pieces(within, span, time))
    for number, pieces in enumerate(voices or [[]], 1):
        voice = measure if len(voices) < 2 else stream.Voice(id=str(number))
        for piece in pieces:
            voice.insert(
                exact(piece.offset),
                _sign(piece, labels, closing and piece.offset + piece.length >= span.length),
            )
        edges = [(piece.offset, piece.offset + piece.length) for piece in pieces]
        fill_with_rests(voice, edges, span.length, hidden=number > 1, whole=bar > 0)
        if voice is not measure:
            measure.insert(0, voice)
    beam(measure, str(time.meter(bar)))
    return measure


def _within_bars(written: WrittenPart, staff: int, first: int, last: int) -> dict[int, list[_Lasting]]:
    """By bar, the notes of a staff that sound in it."""
    time, found = written.time, dict[int, list[_Lasting]]()
    mine = [(number, note) for number, note in enumerate(written.part.notes) if note.staff == staff]
    onsets = sorted({note.onset for _, note in mine})
    over = time.bars(first, last)
    for number, note in mine:
        end = _written_end(note, onsets) if written.played else note.end
        if note.onset >= over.end or end <= over.start:
            continue
        bar = max(first, time.bar_at(note.onset))
        while bar <= last and time.bars(bar, bar).start < end:
            found.setdefault(bar, []).append(_Lasting(number, note, end))
            bar += 1
    return found


def _pieces(within: Sequence[_Lasting], span: Span, time: SongTime) -> list[_Piece]:
    """Notes of a bar, those with one onset and one length together, cut at the bar lines."""
    together: dict[tuple[Fraction, Fraction], list[tuple[int, Note]]] = {}
    for one in within:
        together.setdefault((one.note.onset, one.end), []).append((one.number, one.note))
    pieces = []
    for (onset, end), notes in together.items():
        start, stop = max(onset, span.start), min(end, span.end)
        ordered = tuple(sorted(notes, key=lambda item: item[1].pitch.midi))
        for begin, finish in _cut(start, stop, span, time):
            length = writable(finish - begin)
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


def _written_end(note: Note, onsets: Sequence[Fraction]) -> Fraction:
    """Where a played note ends as it is written: at the next of its staff's onsets, where that is near."""
    after = bisect_right(onsets, note.onset)
    following = onsets[after] if after < len(onsets) else None
    if following is None or not note.end - _PLAYED_SHORT <= following <= note.end + _PLAYED_SHORT:
        return note.end
    return following


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


def _sign(piece: _Piece, labels: Mapping[Note, str], closing: bool) -> Any:
    """A music21 note or chord, with ids, ties and labels (the highest note's label uppermost).

    What is held beyond the last bar (`closing`: it ends with it) has a tie that leads out of it.
    """
    from music21 import chord, note, tie

    signs = []
    for index, written in piece.notes:
        sign = note.Note(_pitch_text(written.pitch))
        sign.id = f"n{index}"
        if piece.tied_before or piece.tied_after:
            sign.tie = tie.Tie(_tie(piece, closing))
        signs.append(sign)
    whole = signs[0] if len(signs) == 1 else chord.Chord(signs)
    whole.quarterLength = exact(piece.length)
    if not piece.tied_before:
        shown = [labels[written] for _, written in reversed(piece.notes) if labels.get(written)]
        for line, label in enumerate(shown, 1):
            lyric = note.Lyric(number=line)
            lyric.setTextAndSyllabic(label, applyRaw=True)
            whole.lyrics.append(lyric)
    return whole


def _tie(piece: _Piece, closing: bool) -> str:
    if piece.tied_before:
        return "continue" if piece.tied_after and not closing else "stop"
    return "let-ring" if closing and piece.tied_after else "start"


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
