"""With and without: what is played otherwise in every second pass of an excerpt."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial

from studio.music.chord_reader import ChordError, is_chord, is_no_chord, read_chord
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.project.checking import Findings
from studio.project.complaints import MisfitError, UnknowableError
from studio.project.excerpt_setting import ExcerptSetting
from studio.project.marks import ValuePath
from studio.project.model import Instead, Play, Song
from studio.project.places import read_place

REST = "rest"
LOWEST, HIGHEST = 21, 108
"""MIDI numbers of A0 and C8, the lowest and the highest of the 88 keys of a piano."""
_MOST_ACCIDENTALS = 2


def read_instead(
    written: Mapping[str, str],
    path: ValuePath,
    plays: Sequence[Play],
    span: Span | None,
    setting: ExcerptSetting,
    findings: Findings,
) -> tuple[Instead, ...]:
    """What is played instead, in song order; complaints where that has no meaning.

    `span` is all that is heard, the tail too. Where several things are played, a change is of the first that it fits.
    """
    if not written:
        return ()
    placed = [play for play in plays if play.placed]
    if not placed:
        if findings.sound(*path[:-1], "play"):
            findings.complain_key(path, _nothing_to_change(plays))
        return ()
    found: list[Instead] = []
    for place, sound in written.items():
        at = (*path, place)
        play = _of_which(place, sound, placed, span, setting)
        where = findings.attempt(at, partial(_where, place, play, span, setting), key=True)
        read = findings.attempt(at, partial(_sound, sound, play))
        if where is None or read is None:
            continue
        if any(_shared(where, other.span) for other in found if other.play == play.name):
            findings.complain_key(at, f"'{place}' is replaced already, by a line above; write it once")
        found.append(Instead(where, read, play.name))
    return tuple(sorted(found, key=lambda one: one.span))


def _nothing_to_change(plays: Sequence[Play]) -> str:
    if plays:
        return f"'{plays[0].name}' stands in no place of the song, so nothing in it can be replaced"
    return (
        "'instead' changes what the program plays, so it needs something in 'play'; write play: chords, "
        "or a part, as play: lead"
    )


def _of_which(
    place: str, sound: str, plays: Sequence[Play], heard: Span | None, setting: ExcerptSetting
) -> Play:
    """What is meant to change: the first that plays there and can sound so; else the first that can, or the first."""
    can = [play for play in plays if _takes(play, place, sound, setting)]
    # Among the notes of a tune D5 is one of them; far above them G7 is a chord.
    if _reads(Pitch.parse, sound):
        parts = [play for play in can if play.what == "part"]
        near = [play for play in parts if _in_reach(play, Pitch.parse(sound), setting)]
        can = near or [play for play in can if play not in parts] or can
    for play in can:
        try:
            _where(place, play, heard, setting)
        except ValueError:
            continue
        return play
    return next(iter(can), plays[0])


def _takes(play: Play, place: str, sound: str, setting: ExcerptSetting) -> bool:
    """Whether something that is played could sound so: chords as chords, single notes as notes, anything as a rest."""
    if _is_rest(sound):
        return True
    if play.what == "chords" or _several_at_once(play, place, setting):
        return is_chord(sound)
    return _is_note(sound)


def _in_reach(play: Play, pitch: Pitch, setting: ExcerptSetting) -> bool:
    """Whether a pitch lies no further than an octave from what a part plays."""
    part = setting.song.parts.get(play.name) if setting.song is not None else None
    keys = [note.pitch.midi for note in part.part.notes] if part is not None else []
    return bool(keys) and min(keys) - 12 <= pitch.midi <= max(keys) + 12


def _several_at_once(play: Play, place: str, setting: ExcerptSetting) -> bool:
    """Whether a part plays more than one note at a time there."""
    part = setting.song.parts.get(play.name) if setting.song is not None else None
    if part is None:
        return False
    try:
        span = _span(place, setting)
    except ValueError:
        return False
    there = [note for note in part.part.notes if note.sounds_at(span.start) or note.sounds_in(span)]
    return len({note.onset for note in there}) < len(there)


def _span(text: str, setting: ExcerptSetting) -> Span:
    place = read_place(text)
    return setting.known.resolved(place) if place.instant else setting.known.span(text)


def _where(text: str, play: Play, heard: Span | None, setting: ExcerptSetting) -> Span:
    """A stretch of song, or a moment, in which something is played that can be replaced."""
    span = _span(text, setting)
    instant = not span.length
    if heard is None or setting.song is None:
        raise UnknowableError
    inside = heard.contains(span.start) and span.end <= heard.end if instant else heard.overlaps(span)
    if not inside:
        raise MisfitError(f"'{text}' is not in the excerpt; replace something that is heard in it")
    if play.what == "part" and (part := setting.song.parts.get(play.name)):
        notes = part.part.notes
        if not any(note.sounds_at(span.start) if instant else note.sounds_in(span) for note in notes):
            raise MisfitError(f"'{play.name}' plays nothing at '{text}', so there is nothing to replace")
    if play.what == "chords" and not _chord_sounds(span, setting.song):
        raise MisfitError(f"No chord stands at '{text}', so there is nothing to replace")
    return span


def _chord_sounds(span: Span, song: Song) -> bool:
    if span.length:
        return any(at.chord is not None for at in song.chart.within(span))
    here = song.chart.at(span.start)
    return here is not None and here.chord is not None


def _shared(one: Span, other: Span) -> bool:
    return (
        one.overlaps(other)
        or one.start == other.start
        or other.contains(one.start)
        or one.contains(other.start)
    )


def _sound(text: str, play: Play) -> str:
    """A chord symbol, a note with or without its octave, or `rest`, as written.

    A part may hold chords, so that either may stand in it.
    """
    if _is_rest(text):
        return REST
    if play.what == "part" and _is_note(text):
        _check_note(text)
        return text
    try:
        read_chord(text)
    except ChordError as error:
        if play.what == "part":
            raise MisfitError(f"'{text}' is neither a note nor a chord; write D5, D, F#m7 or rest") from None
        raise MisfitError(f"{str(error).rstrip('.')}; write a chord, or rest", error.position) from None
    return text


def _is_rest(text: str) -> bool:
    return text.lower() == REST or is_no_chord(text)


def _check_note(text: str) -> None:
    """Raises MisfitError for a note that no piano has, or that nobody writes."""
    pitch = Pitch.parse(text) if _reads(Pitch.parse, text) else None
    name = pitch.name if pitch is not None else NoteName.parse(text)
    if abs(name.alter) > _MOST_ACCIDENTALS:
        raise MisfitError(f"'{text}' has more than two accidentals; write the note that sounds the same")
    if pitch is not None and not LOWEST <= pitch.midi <= HIGHEST:
        raise MisfitError(f"'{text}' is out of range; notes go from A0 to C8, the keys of a piano")


def _is_note(text: str) -> bool:
    return _reads(Pitch.parse, text) or _reads(NoteName.parse, text)


def _reads(read: Callable[[str], object], text: str) -> bool:
    try:
        read(text)
    except ValueError:
        return False
    return True
