"""Sections and chords of the song, and where it ends."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import partial

from studio.music.chart import ChartError, ChordAt, read_bars
from studio.music.key import Key
from studio.music.songtime import SongTime
from studio.project.checking import Findings
from studio.project.complaints import MisfitError, UnknowableError, unknown_name
from studio.project.places import read_bars as read_bar_range
from studio.project.places import read_place
from studio.project.schema import SongText
from studio.project.surroundings import WHOLE, Known

Bars = tuple[int, int]
_FURTHEST_BAR = 9999


def read_sections(song: SongText, time: SongTime | None, findings: Findings) -> dict[str, Bars]:
    """(first bar, last bar) of each section that can be read, in song order."""
    sections: dict[str, Bars] = {}
    for name, written in song.sections.items():
        path = ("song", "sections", name)
        findings.attempt(path, partial(_section_name, name), key=True)
        bars = findings.attempt(path, partial(_bars, written, time))
        if bars is None:
            continue
        over = _overlapped(bars, sections)
        if over is not None:
            both = max(bars[0], sections[over][0])
            findings.complain(
                path, f"'{name}' overlaps '{over}': both have bar {both}; a bar belongs to one section"
            )
        sections[name] = bars
    return dict(sorted(sections.items(), key=lambda item: item[1]))


def _section_name(name: str) -> None:
    if name == WHOLE:
        raise MisfitError(f"'{WHOLE}' stands for the whole song, so it cannot be the name of a section")
    place = read_place(name)
    if place.first is not None:
        raise MisfitError(f"'{name}' reads as bars of the song, so it cannot be the name of a section")


def _bars(written: str, time: SongTime | None) -> Bars:
    first, last = read_bar_range(written)
    if last > _FURTHEST_BAR:
        raise MisfitError(f"'{written}' goes further than any song; the most is bar {_FURTHEST_BAR}")
    if first == 0 and time is not None and not time.pickup:
        raise MisfitError("There is no bar 0 without a pickup; bars count from 1")
    return first, last


def read_chords(
    song: SongText, time: SongTime, sections: Mapping[str, Bars], findings: Findings
) -> tuple[tuple[ChordAt, ...], dict[str, Bars]]:
    """All chords in song order, and the bars that each chart was written for."""
    written_for: dict[str, Bars] = {}
    chords: list[ChordAt] = []
    for name, text in song.chords.items():
        path = ("song", "chords", name)
        bars = findings.attempt(path, partial(_chart_bars, name, time, sections, findings), key=True)
        found = _read_chart(text, bars[0] if bars else 1, time, path, findings)
        if bars is None or not findings.sound("song", "sections", name):
            continue
        over = _overlapped(bars, written_for)
        if over is not None:
            both = max(bars[0], written_for[over][0])
            sentence = f"'{name}' and '{over}' both have chords for bar {both}; write them once"
            findings.complain_key(path, sentence)
        written_for[name] = bars
        if found and _fills(found, name, bars, text, time, findings):
            chords += found
    return tuple(sorted(chords, key=lambda chord: chord.start)), written_for


def _overlapped(bars: Bars, others: Mapping[str, Bars]) -> str | None:
    return next((name for name, (low, high) in others.items() if bars[0] <= high and low <= bars[1]), None)


def _chart_bars(name: str, time: SongTime, sections: Mapping[str, Bars], findings: Findings) -> Bars:
    if name in sections:
        return sections[name]
    place = read_place(name)
    if place.section is None:
        return _bars(name, time)
    if not findings.sound("song", "sections"):
        raise UnknowableError
    raise MisfitError(unknown_name("a section of the song, nor a range of bars", name, sections))


def _read_chart(
    text: str, start: int, time: SongTime, path: tuple[str, ...], findings: Findings
) -> tuple[ChordAt, ...]:
    try:
        return read_bars(text, start, time)
    except ChartError as error:
        for mistake in error.every:
            findings.complain(path, str(mistake), mistake.offset)
        return ()


def _fills(
    chords: tuple[ChordAt, ...],
    name: str,
    bars: Bars,
    text: str,
    time: SongTime,
    findings: Findings,
) -> bool:
    end = chords[-1].end
    if end == time.bar_start(bars[1] + 1):
        return True
    count, wanted = time.bar_at(end) - bars[0], bars[1] - bars[0] + 1
    what = f"{count} bar{'s' * (count != 1)}, but {name} has {wanted}"
    remedy = "write more bars" if count < wanted else "take bars away"
    sentence = f"These chords fill {what}; {remedy}, or change the section"
    findings.complain(("song", "chords", name), sentence, max(len(text.rstrip()) - 1, 0))
    return False


def read_keys(song: SongText, known: Known, findings: Findings) -> tuple[tuple[Fraction, Key], ...]:
    """(from, key) in song order; the first holds from the very start, pickup and all."""
    keys: list[tuple[Fraction, Key]] = []
    pickup = known.time.pickup if known.time is not None else Fraction(0)
    for written, key in song.key.items():
        path = ("song", "key", written)
        start = findings.attempt(path, partial(_key_start, written, known), key=True)
        if start is None:
            continue
        if not keys and start > 0 and findings.sound("song", "key"):
            findings.complain_key(path, f"The first key holds from {written} on; begin with the key of bar 1")
        elif keys and start <= keys[-1][0]:
            findings.complain_key(
                path, f"'{written}' does not come after the key before it; write keys in their order"
            )
        keys.append((start if keys else min(start, -pickup), key))
    return tuple(keys)


def _key_start(written: str, known: Known) -> Fraction:
    return Fraction(0) if written == "1" else known.resolved(read_place(written)).start
