"""Written parts from MusicXML, MIDI or ABC, read by music21 and laid on the song's own bars."""

from __future__ import annotations

import warnings
from collections.abc import Callable
from contextlib import redirect_stderr
from dataclasses import dataclass
from fractions import Fraction
from io import StringIO
from pathlib import Path
from typing import Any

from studio.music.key import Key
from studio.music.note import Note, Part
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.abc_bars import Fitting
from studio.project.abc_source import PlainAbc, read_abc
from studio.project.complaints import MisfitError
from studio.project.score_notes import clef_of, heard_signature, left_out, notes_of, signatures_of
from studio.project.written_part import WrittenPart

_NOTATION = (".musicxml", ".xml", ".mxl")
_PLAYED = (".mid", ".midi")
_ABC = (".abc",)
_LARGEST = 20_000_000

_MIDDLE_C = 60
_WIDE = 24  # semitones that one hand on one staff does not cover


@dataclass(frozen=True)
class ScoreSetting:
    """What a score is read against: the song's bars, its end in quarters, its key at a moment if written."""

    time: SongTime
    end: Fraction
    key_at: Callable[[Fraction], Key | None]


def is_abc(written: str) -> bool:
    """Whether the value of a part is ABC text in place rather than a path: a tune has more than one line."""
    return "\n" in written.strip()


def read_score(name: str, source: Path | str, setting: ScoreSetting) -> WrittenPart:
    """The part in a file, or in ABC text. Raises MisfitError with one plain sentence."""
    called = "This ABC" if isinstance(source, str) else f"'{source.name}'"
    played = isinstance(source, Path) and source.suffix.lower() in _PLAYED
    if isinstance(source, Path):
        if source.suffix.lower() not in (*_NOTATION, *_PLAYED, *_ABC):
            raise MisfitError(f"{called} is not a score; use .musicxml, .mxl, .xml, .mid or .abc")
        if source.stat().st_size > _LARGEST:
            raise MisfitError(
                f"{called} is larger than {_LARGEST // 1_000_000} MB, which no score of one part is"
            )
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            return _read(name, called, source, played, setting)
        except MisfitError:
            raise
        except RecursionError:
            raise MisfitError(f"{called} is nested too deep to be a score") from None
        except (
            Exception
        ) as error:  # music21 raises what it likes on broken scores, and none of it is for a user
            raise MisfitError(
                f"{called} cannot be read as {_format(source)}; is it whole? "
                f"(music21 stops with {type(error).__name__})"
            ) from None


def _format(source: Path | str) -> str:
    if isinstance(source, str) or source.suffix.lower() in _ABC:
        return "ABC"
    return "MIDI" if source.suffix.lower() in _PLAYED else "MusicXML"


def _read(name: str, called: str, source: Path | str, played: bool, setting: ScoreSetting) -> WrittenPart:
    abc = _plain_abc(name, source, setting)
    staves = _staves(_parsed(source, abc), called, played)
    if not played:
        staves = [_played_out(staff, called, setting) for staff in staves]
    stated = abc.clefs if abc and len(abc.clefs) == len(staves) else (None,) * len(staves)
    clefs = tuple(clef or clef_of(staff, played) for clef, staff in zip(stated, staves, strict=True))
    staves = [staff.toSoundingPitch() for staff in staves]
    bar_1 = _midi_bar_1(staves, setting.time) if played else _notated_bar_1(staves[0], called, setting.time)
    if not played:
        _check_bars(staves[0], bar_1, called, setting)
    signatures = signatures_of(staves[0], bar_1)
    if played or signatures is None:
        signatures = _song_signatures(setting) or signatures or heard_signature(staves)
    notes = [
        note
        for number, staff in enumerate(staves, 1)
        for note in notes_of(staff, number, bar_1, setting.key_at if played else None, signatures)
    ]
    if len(staves) == 1 and played and _two_hands(notes):
        notes = [Note(n.onset, n.length, n.pitch, 1 if n.pitch.midi >= _MIDDLE_C else 2) for n in notes]
        clefs = ("treble", "bass")
    if not notes:
        raise MisfitError(f"{called} has no pitched notes; a drum part goes under song: grooves")
    notes.sort(key=lambda note: (note.onset, note.staff, note.pitch.midi, note.length))
    besides = abc.left_out if abc else left_out(staves)
    return WrittenPart(Part(name, tuple(notes)), setting.time, clefs, signatures, played, besides)


def _plain_abc(name: str, source: Path | str, setting: ScoreSetting) -> PlainAbc | None:
    """The tune, where the source is ABC."""
    if isinstance(source, str):
        return read_abc(source, Fitting(name, setting.time, setting.end, whole=True))
    if source.suffix.lower() not in _ABC:
        return None
    text = source.read_text(encoding="utf-8", errors="replace")
    return read_abc(text, Fitting(name, setting.time, setting.end, whole=False), source.name)


def _parsed(source: Path | str, abc: PlainAbc | None) -> Any:
    """music21's score, with nothing written to its cache, nor its warnings to the terminal."""
    from music21 import converter, stream

    with redirect_stderr(StringIO()) as warned:
        if abc is not None:
            score = converter.parse(abc.text, format="abc", forceSource=True)
        else:
            score = converter.parse(source, forceSource=True)
    if abc is not None and "assuming" in warned.getvalue():  # it would go on with a note of its own
        raise MisfitError("There is something in this ABC that cannot be read; write it more plainly")
    if isinstance(score, stream.Opus):
        if len(score.scores) != 1:
            raise MisfitError(f"There are {len(score.scores)} tunes in this; a part is one of them alone")
        score = score.scores[0]
    return score


def _staves(score: Any, called: str, played: bool) -> list[Any]:
    """The one or two staves of the only part."""
    from music21 import stream

    parts = list(score.parts) if isinstance(score, stream.Score) else [score]
    parts = [part for part in parts if part.recurse().notes] or parts[:1]
    if not parts:
        raise MisfitError(f"{called} has no notes")
    one_player = (
        all(isinstance(part, stream.PartStaff) for part in parts) or len({p.partName for p in parts}) == 1
    )
    if len(parts) > 2 or (len(parts) == 2 and not played and not one_player):
        names = ", ".join(str(part.partName or "unnamed") for part in parts[:6])
        raise MisfitError(
            f"{called} has {len(parts)} parts ({names}); save the one that is meant as a file of its own"
        )
    if len(parts) == 2 and played:
        parts.sort(key=_mean_height, reverse=True)
    return parts


def _mean_height(staff: Any) -> float:
    heights = [pitch.ps for pitch in staff.pitches]
    return sum(heights) / len(heights) if heights else 0.0


def _played_out(staff: Any, called: str, setting: ScoreSetting) -> Any:
    """With repeats written out, if the song is longer than the score as it stands on paper."""
    from music21 import repeat

    on_paper = Fraction(staff.duration.quarterLength)
    if setting.end <= on_paper or not staff.recurse().getElementsByClass("RepeatMark"):
        return staff
    try:
        return staff.expandRepeats()
    except repeat.ExpanderException:
        raise MisfitError(f"The repeats in {called} do not add up; write them out") from None


def _notated_bar_1(staff: Any, called: str, time: SongTime) -> Fraction:
    """Where bar 1 starts in the score: after a first bar that is shorter than its meter."""
    first = next(iter(staff.getElementsByClass("Measure")), None)
    if first is None:
        return Fraction(0)
    length, full = Fraction(first.duration.quarterLength), Fraction(first.barDuration.quarterLength)
    if not (0 < length < full and (first.number == 0 or first.paddingLeft)):
        return Fraction(0)
    if length > time.pickup:
        beat = time.meter(1).beat
        raise MisfitError(
            f"{called} has a pickup of {length / beat} beats before bar 1, and the song has "
            f"{time.pickup / beat}; write pickup: {length / beat} in song"
        )
    return length


def _midi_bar_1(staves: list[Any], time: SongTime) -> Fraction:
    """Where bar 1 starts in a MIDI file, which knows no pickups.

    With a pickup, files begin either with the pickup itself or with a full bar that rests until it.
    """
    if not time.pickup:
        return Fraction(0)
    full = time.meter(0).bar
    first = min(
        (Fraction(staff.flatten().notes.first().offset) for staff in staves if staff.flatten().notes),
        default=full,
    )
    return full if full - time.pickup <= first < full else time.pickup


def _check_bars(staff: Any, bar_1: Fraction, called: str, setting: ScoreSetting) -> None:
    """The score's bar lines must be the song's, as far as the song goes; a repeat may stand within a bar."""
    time = setting.time
    bar = 1
    for measure in staff.getElementsByClass("Measure"):
        start = Fraction(measure.offset) - bar_1
        if start < 0 or start >= setting.end:
            continue
        written = measure.timeSignature
        if written is not None and written.ratioString != str(time.meter(time.bar_at(start))):
            raise MisfitError(
                f"{called} is in {written.ratioString} at bar {time.bar_at(start)}, and the song in "
                f"{time.meter(time.bar_at(start))}; correct the meter of the song or of the score"
            )
        end = start + Fraction(measure.duration.quarterLength)
        if start != time.bar_start(time.bar_at(start)) and end > time.bar_start(time.bar_at(start) + 1):
            raise MisfitError(
                f"{called} does not have the song's bars: its bar {bar} is not in {time.meter(bar)}, "
                "as the song's is; correct the meter of the song or of the score"
            )
        bar = time.bar_at(start)


def _song_signatures(setting: ScoreSetting) -> tuple[tuple[Fraction, int], ...] | None:
    """The song's written keys as signatures, looked up at each bar line."""
    found: list[tuple[Fraction, int]] = []
    start = -setting.time.pickup
    for bar_start in (start, *(at for _, at in setting.time.barlines(_whole(setting)))):
        key = setting.key_at(bar_start)
        if key is not None and (not found or found[-1][1] != key.signature):
            found.append((bar_start, key.signature))
    return tuple(found) or None


def _whole(setting: ScoreSetting) -> Span:
    return Span(Fraction(0), max(setting.end, Fraction(0)))


def _two_hands(notes: list[Note]) -> bool:
    """Whether notes played on one track need two staves: they lie too far apart for one hand."""
    heights = [note.pitch.midi for note in notes]
    return (
        bool(heights)
        and max(heights) - min(heights) > _WIDE
        and min(heights) < _MIDDLE_C - 5 < max(heights) - 12
    )
