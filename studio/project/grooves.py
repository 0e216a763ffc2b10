"""The song's grooves: each a pattern with a line for each voice of the kit, or drums played in a MIDI file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from pathlib import PurePosixPath
from typing import Any

from studio.music.groove import Drums, Groove
from studio.music.groove_pattern import PatternError, read_groove, read_line
from studio.music.kit import VOICES, read_voice
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.checking import Findings
from studio.project.complaints import MisfitError, nearest
from studio.project.drum_midi import MIDI_ENDINGS, read_drums
from studio.project.folder import Folder
from studio.project.marks import ValuePath

_LOOKS_LIKE_A_LINE = re.compile(r"[xXo.|%\s-]+")
_AS = '{kick: "x... x...", snare: ".... x..."}'


def read_grooves(
    written: Mapping[str, Any], parts: Mapping[str, str], time: SongTime, folder: Folder, findings: Findings
) -> dict[str, Groove | Drums]:
    """Every groove that can be read, by name; the others are complained of.

    `parts` are the paths of the song's parts: a groove may be one of them by name. A pattern is in the song's
    first meter, or in the first of its meters that its lines fit.
    """
    grooves: dict[str, Groove | Drums] = {}
    for name, groove in written.items():
        path: ValuePath = ("song", "grooves", name)
        read: Groove | Drums | None
        if isinstance(groove, dict):
            read = _pattern(groove, path, time, findings)
        elif isinstance(groove, str):
            read = findings.attempt(path, partial(_played, groove, parts, time, folder))
        else:
            read = None
            findings.complain(path, f"A groove is a pattern, as {_AS}, or a MIDI file of drums, not a list")
        if read is not None:
            grooves[name] = read
    return grooves


def _played(written: str, parts: Mapping[str, str], time: SongTime, folder: Folder) -> Drums:
    if _LOOKS_LIKE_A_LINE.fullmatch(written):
        raise MisfitError(f"This line does not say who plays it; write the voice before it, as {_AS}")
    source = parts.get(written, written)
    ending = PurePosixPath(source).suffix.lower()
    if source == written and not ending:
        raise MisfitError(_unknown(written, parts))
    if ending not in MIDI_ENDINGS:
        raise MisfitError(
            f"'{source}' is not MIDI (.mid); a groove is a pattern, as {_AS}, or a MIDI file of drums"
        )
    return read_drums(folder.file(source), time)


def _unknown(written: str, parts: Mapping[str, str]) -> str:
    guess = nearest(written, parts)
    remedy = f"did you mean '{guess}'?" if guess else f"write a pattern, as {_AS}, or the path of a MIDI file"
    return f"'{written}' is neither a part of the song nor a file; {remedy}"


def _pattern(
    written: Mapping[str, Any], path: ValuePath, time: SongTime, findings: Findings
) -> Groove | None:
    lines: dict[str, str] = {}
    sound = True
    for key, line in written.items():
        at = (*path, key)
        voice = findings.attempt(at, partial(_voice, key), key=True)
        text = findings.attempt(at, partial(_line, line))
        if voice is None or text is None:
            sound = False
        elif voice in lines:
            findings.complain_key(at, f"The {voice} is written twice in this groove; write it in one line")
            sound = False
        else:
            lines[voice] = text
    if not written:
        findings.complain(path, f"This groove is empty; write a line for each voice, as {_AS}")
        return None
    meter = _meter(lines, time)
    for key, line in written.items():
        if isinstance(line, str) and findings.attempt((*path, key), partial(_checked, line, meter)) is None:
            sound = False
    if not sound:
        return None
    return findings.attempt(path, partial(_whole, lines, meter))


def _voice(key: str) -> str:
    try:
        return read_voice(key)
    except ValueError as error:
        guess = nearest(key, VOICES)
        raise MisfitError(
            f"'{key}' is no voice of a drum kit; did you mean '{guess}'?" if guess else str(error)
        ) from None


def _line(written: Any) -> str:
    if not isinstance(written, str):
        raise MisfitError(
            'A voice has one line of text, as "x... ..x. x... ....", not a list or a group of keys'
        )
    return written


def _meter(lines: Mapping[str, str], time: SongTime) -> Meter:
    """The first of the song's meters that every line fits, else the first of them."""
    meters = [meter for _, meter in time.meters]
    return next((meter for meter in meters if all(_fits(line, meter) for line in lines.values())), meters[0])


def _fits(line: str, meter: Meter) -> bool:
    try:
        read_line(line, meter)
    except PatternError:
        return False
    return True


def _checked(line: str, meter: Meter) -> int:
    try:
        return read_line(line, meter)[0]
    except PatternError as error:
        raise MisfitError(str(error), error.offset) from None


def _whole(lines: Mapping[str, str], meter: Meter) -> Groove:
    try:
        return read_groove(lines, meter)
    except PatternError as error:
        raise MisfitError(str(error)) from None
