"""The song of a project: its text turned into values, its files opened, its parts read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from math import floor

from studio.music.chart import Chart, ChordAt
from studio.music.key import Key
from studio.music.songtime import SongTime
from studio.project.checking import Findings
from studio.project.complaints import MisfitError
from studio.project.folder import Folder
from studio.project.form import Bars, read_chords, read_keys, read_sections
from studio.project.grooves import read_grooves
from studio.project.marks import ValuePath
from studio.project.media import Media, probe
from studio.project.model import Rights, Section, Song
from studio.project.schema import SongText
from studio.project.scores import ScoreSetting, is_abc, read_score
from studio.project.surroundings import Known
from studio.project.tempo import read_song_time
from studio.project.written_part import WrittenPart

Keys = tuple[tuple[Fraction, Key], ...]


def read_song(
    text: SongText, folder: Folder, rate: Fraction | None, findings: Findings
) -> tuple[Song | None, Known]:
    """The song, or None where its time cannot be told, and what the rest of the file is read against."""
    time, timed = read_song_time(text, findings)
    recording = read_sound(text.recording, ("song", "recording"), folder, findings)
    stems = {
        name: media
        for name, path in text.stems.items()
        if (media := read_sound(path, ("song", "stems", name), folder, findings)) is not None
    }
    sections = read_sections(text, time, findings)
    known = Known(
        rate=rate,
        time=time,
        timed=timed,
        sections=sections if findings.sound("song", "sections") else None,
        parts=_names(text.parts, "parts", findings),
        grooves=_names(text.grooves, "grooves", findings),
        stems=_names(text.stems, "stems", findings),
    )
    if time is None:
        return None, known
    chords, charted = read_chords(text, time, sections, findings)
    form = [*sections.values(), *charted.values()]
    end = _end(time, form, [media for media in (recording, *stems.values()) if media], timed)
    if findings.sound("song", "sections") and _all_charts_placed(text, charted, findings):
        known = replace(known, end=end)
        _check_meters(text, time, end, bool(form), findings)
    keys = read_keys(text, known, findings)
    song = Song(
        title=text.title or "",
        by=text.by,
        rights=Rights(text.rights.recording, text.rights.composition, text.rights.licence),
        time=time,
        end=end,
        sections=tuple(Section(name, time.bars(*bars)) for name, bars in sections.items()),
        keys=keys,
        chart=Chart(chords),
        recording=recording,
        stems=stems,
        parts=_parts(text, time, end, keys, folder, findings),
        grooves=read_grooves(text.grooves, text.parts, time, folder, findings),
    )
    return song, known


def read_sound(written: str | None, path: ValuePath, folder: Folder, findings: Findings) -> Media | None:
    """The sound file that a path names, or None after a complaint."""
    if written is None:
        return None

    def read() -> Media:
        media = probe(folder.file(written))
        if not media.has_sound:
            raise MisfitError(f"'{written}' has no sound in it")
        return media

    return findings.attempt(path, read)


def _names(written: Mapping[str, object], key: str, findings: Findings) -> frozenset[str] | None:
    """The names under a key; None when the whole group is wrong, so that nobody is told of unknown names."""
    whole = ("song", key) in findings.broken or ("song",) in findings.broken
    lost = {str(at[2]) for at in findings.broken if at[:2] == ("song", key) and len(at) > 2}
    return None if whole else frozenset(written) | lost


def _all_charts_placed(text: SongText, charted: Mapping[str, Bars], findings: Findings) -> bool:
    """Whether it is known which bars each chart is for, whatever may be wrong inside it."""
    unread = any(
        at[:2] == ("song", "chords") and (len(at) < 3 or at[2] not in text.chords) for at in findings.broken
    )
    return not unread and charted.keys() == text.chords.keys()


def _end(time: SongTime, form: list[Bars], heard: list[Media], timed: bool) -> Fraction:
    """Where the song ends, in quarters: with its last section or chord, else with its recording."""
    if form:
        return time.bar_start(max(last for _, last in form) + 1)
    if not heard or not timed:
        return Fraction(0)
    last = time.quarters_at(max(media.seconds for media in heard))
    return max(Fraction(floor(last)), Fraction(0))


def _check_meters(text: SongText, time: SongTime, end: Fraction, formed: bool, findings: Findings) -> None:
    for written in text.meter:
        if formed and int(written) > 1 and time.bar_start(int(written)) >= end:
            last = time.bar_at(end) - 1
            findings.complain_key(
                ("song", "meter", written),
                f"The meter changes at bar {written}, past the end of the song, whose last bar is {last}",
            )


def _parts(
    text: SongText, time: SongTime, end: Fraction, keys: Keys, folder: Folder, findings: Findings
) -> dict[str, WrittenPart]:
    setting = ScoreSetting(time, end, _key_at(keys))
    parts: dict[str, WrittenPart] = {}
    for name, written in text.parts.items():
        read = _reader(name, written, setting, folder)
        part = findings.attempt(("song", "parts", name), read)
        if part is not None:
            parts[name] = part
    return parts


def _reader(name: str, written: str, setting: ScoreSetting, folder: Folder) -> Callable[[], WrittenPart]:
    if is_abc(written):
        return lambda: read_score(name, written, setting)
    return lambda: read_score(name, folder.file(written), setting)


def _key_at(keys: Keys) -> Callable[[Fraction], Key | None]:
    def key_at(quarters: Fraction) -> Key | None:
        return next((key for start, key in reversed(keys) if start <= quarters), keys[0][1] if keys else None)

    return key_at


def chords_in(chart: Chart, start: Fraction, end: Fraction) -> list[ChordAt]:
    """The chords that sound between two moments, N.C. left out."""
    return [at for at in chart.chords if at.chord is not None and at.start < end and at.end > start]
