"""What the program plays in an excerpt: parts, chords and facts, read against the song."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from studio.music.chord_reader import ChordError, is_chord, read_chord
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.project.amounts import OFF, ON, SOUNDS, read_played_sound
from studio.project.checking import Findings, check
from studio.project.complaints import MisfitError, UnknowableError, nearest, unknown_name
from studio.project.entry import key_names
from studio.project.excerpt_setting import ExcerptSetting, item
from studio.project.marks import ValuePath
from studio.project.model import FactAsked, Play
from studio.project.questions import QUESTIONS, OfPlace
from studio.project.song import chords_in
from studio.project.sound_text import PlayText
from studio.project.surroundings import Known

CHORDS = "chords"
"""The word for the chords of the chart, unless a part of the song has that name."""

_BY_THEMSELVES = ("chord", "function", "key", "mode", "numeral", "sounding", "voicing")
_OF_CHORDS = tuple(
    kind
    for kind, question in QUESTIONS.items()
    if issubclass(question, OfPlace) and question.chords and kind not in _BY_THEMSELVES
)
_MOST_PROGRAMS = 6
_LONGEST_NOTE = 3  # D, F# or Bbb
_KEYS = ("part", "chord", "scale", "fact")


def read_plays(
    written: Sequence[Any], path: ValuePath, setting: ExcerptSetting, findings: Findings
) -> tuple[tuple[Play, ...], tuple[Span, ...]]:
    """What is played, and the stretches of song that facts among it bring; what cannot be played is complained of."""
    plays: list[Play] = []
    spans: list[Span] = []
    for number, one in enumerate(written):
        at = item(path, number, findings)
        if (turned := _turned(one)) is not None:
            findings.complain(at, turned)
            continue
        text = check(PlayText, {"part": one} if isinstance(one, str) else one, at, findings, setting.known)
        read = _play(text, at, setting, findings) if text is not None else None
        if read is None:
            continue
        play, span = read
        if any(play.name == other.name for other in plays):
            findings.complain(at, f"'{play.name}' is played twice at once; once is enough")
        plays.append(play)
        spans += [span] if span else []
    _check_together(plays, path, findings)
    return tuple(plays), tuple(spans)


def check_notes(
    plays: Sequence[Play], path: ValuePath, span: Span, setting: ExcerptSetting, findings: Findings
) -> None:
    """Complain of what has nothing to play in the stretch of an excerpt."""
    song = setting.song
    if song is None:
        return
    for number, play in enumerate(plays):
        part = song.parts.get(play.name) if play.what == "part" else None
        if part is not None and not any(note.sounds_in(span) for note in part.part.notes):
            sentence = f"'{play.name}' has no notes in this excerpt; choose bars in which it plays"
            findings.complain(item(path, number, findings), sentence)
        silent = play.what == "chords" and not chords_in(song.chart, span.start, span.end)
        if silent and findings.sound("song", "chords"):
            sentence = "There are no chords in this excerpt to play; write them in song: chords"
            findings.complain(item(path, number, findings), sentence)


def _play(
    text: PlayText, path: ValuePath, setting: ExcerptSetting, findings: Findings
) -> tuple[Play, Span | None] | None:
    written = [key for key in _KEYS if getattr(text, key) is not None]
    if len(written) != 1:
        if written:
            sentence = f"This plays two things, {written[0]} and {written[1]}; make each a group of its own"
            findings.complain((*path, written[1]), sentence)
        elif findings.sound(*path):
            findings.complain(
                path, "Say what is played: chords, a part, {chord: F#m7}, {scale: D Dorian} or {fact: loop}"
            )
        return None
    (key,) = written
    at = (*path, key)
    readers = {"part": _part, "chord": _chord, "scale": _scale, "fact": _fact}
    found = findings.attempt(at, lambda: readers[key](getattr(text, key), setting))
    if found is None:
        return None
    what, span = found
    _check_program(text.sound, path, setting, findings)
    named = "sound" in text.model_fields_set
    play = Play(what.what, what.name, text.sound, text.tempo or what.tempo, named)
    if text.tempo is not None and play.placed:
        sentence = f"'{play.name}' keeps the tempo of the song; leave tempo out, or write speed: 80 %"
        findings.complain((*path, "tempo"), sentence)
    return play, span


def _turned(one: Any) -> str | None:
    """What is said of {lead: plucked}, which names a part and its sound without saying which is which."""
    if not isinstance(one, dict) or len(one) != 1:
        return None
    ((name, sound),) = one.items()
    if name in key_names(PlayText) or not isinstance(sound, str):
        return None
    try:
        return f"Say which of these is the part, as {{part: {name}, sound: {read_played_sound(sound)}}}"
    except MisfitError:
        return None


def _check_program(sound: str, path: ValuePath, setting: ExcerptSetting, findings: Findings) -> None:
    """A program that is played has to be in the episode's SoundFont."""
    programs = setting.programs
    if not sound.startswith("soundfont") or programs is None:
        return
    if not programs:
        sentence = f"'{sound}' needs a SoundFont; name its file in episode, as soundfont: sounds/mine.sf2"
        findings.complain((*path, "sound"), sentence)
        return
    number = int(sound.split()[1])
    if number not in programs:
        near = sorted(sorted(programs, key=lambda one: abs(one - number))[:_MOST_PROGRAMS])
        some = ", ".join(f"{one} {programs[one].strip()}" for one in near)
        sentence = (
            f"The SoundFont has no program {number}; {'near it' if len(programs) > len(near) else 'it has'}"
        )
        findings.complain((*path, "sound"), f"{sentence} {some}")


def _part(name: str, setting: ExcerptSetting) -> tuple[Play, None]:
    parts = setting.known.parts
    if parts is None:
        raise UnknowableError
    if name in parts:
        return Play("part", name), None
    if name == CHORDS:
        return Play("chords", name), None
    raise MisfitError(_no_part(name, parts, setting.known))


def _no_part(name: str, parts: Collection[str], known: Known) -> str:
    """What is said of a name in `play` that is no part: what it is, where it is something else."""
    if name in (known.stems or ()):
        return f"'{name}' is a stem, which is heard with stems: [{name}]; 'play' is for parts and chords"
    if nearest(name, (*parts, CHORDS)) is None:
        if name in (known.facts or ()):
            return f"'{name}' is a fact, and is played as {{fact: {name}}}"
        if is_chord(name):
            return f"'{name}' is no part of the song; as a chord it is played as {{chord: {name}}}"
        if name.lower() in (*ON, *OFF):
            return f"'{name}' does not say what is played; write play: chords, or a part, or leave it out"
        sentence = unknown_name("a part of the song", name, (*parts, CHORDS)).rstrip(".")
        sound = name.lower() if name.lower() in SOUNDS else SOUNDS[0]
        return f"{sentence}; a sound is written beside it, as {{part: {CHORDS}, sound: {sound}}}"
    return unknown_name("a part of the song", name, (*parts, CHORDS))


def _chord(symbol: str, setting: ExcerptSetting) -> tuple[Play, None]:
    try:
        read_chord(symbol)
    except ChordError as error:
        raise MisfitError(str(error), error.position) from None
    return Play("chord", symbol), None


def _scale(name: str, setting: ExcerptSetting) -> tuple[Play, None]:
    """Only the tonic is judged here; which scales there are is for theory to say."""
    tonic, _, rest = " ".join(name.split()).partition(" ")
    if not rest and len(tonic) > _LONGEST_NOTE:
        raise MisfitError(f"'{name}' has no tonic; write it before the scale, as D {name}")
    NoteName.parse(tonic)
    if not rest:
        raise MisfitError(f"'{name}' is a note without its scale; write both, as {tonic} Mixolydian")
    return Play("scale", f"{tonic} {rest}"), None


def _fact(name: str, setting: ExcerptSetting) -> tuple[Play, Span | None]:
    asked = next((fact for fact in setting.facts if fact.name == name), None)
    if asked is None:
        names = setting.known.facts
        if names is None or name in names:
            raise UnknowableError
        raise MisfitError(unknown_name("a fact", name, names))
    if asked.kind in _OF_CHORDS:
        return Play("chords", name), asked.span
    if asked.kind in _BY_THEMSELVES:
        return Play("fact", name), None
    raise MisfitError(_unplayable(asked, setting.facts))


def _unplayable(asked: FactAsked, facts: Sequence[FactAsked]) -> str:
    sentence = f"'{asked.name}' asks for the {asked.kind}, which is nothing to play; "
    kinds = {*_OF_CHORDS, *_BY_THEMSELVES}
    others = [fact.name for fact in facts if fact.kind in kinds and ":" not in fact.name]
    if others:
        return f"{sentence}of the facts here, {', '.join(others)} can be played"
    return f"{sentence}facts that can be played ask for {', '.join(sorted(kinds))}"


def _check_together(plays: Sequence[Play], path: ValuePath, findings: Findings) -> None:
    """What stands in no place of the song has no time in common with anything else."""
    alone = next((play for play in plays if not play.placed), None)
    if alone is not None and len(plays) > 1:
        sentence = (
            f"'{alone.name}' is played by itself, in no place of the song, so nothing else can sound with it"
        )
        findings.complain(path, f"{sentence}; give it a segment of its own")
