"""The song's time from what is written: meters, pickup, tempo and bar anchors."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from studio.music.meter import Meter
from studio.music.place import Place
from studio.music.songtime import Anchor, SongTime
from studio.project.checking import Findings
from studio.project.complaints import MisfitError
from studio.project.places import read_place
from studio.project.schema import SongText
from studio.project.times import time_text

_ANY_TEMPO: tuple[Anchor, Anchor] = ((Fraction(0), Fraction(0)), (Fraction(1), Fraction(1)))
_FURTHEST_BAR = 9999
_TEMPO_SLIP = Fraction(1, 4)


def read_song_time(song: SongText, findings: Findings) -> tuple[SongTime | None, bool]:
    """(song time, whether its seconds can be relied on). Without meters there is no time at all.

    Where only tempo or anchors are wrong, places can still be told from each other, so the time is given
    with a tempo that means nothing.
    """
    meters = _meters(song, findings)
    if meters is None or not findings.sound("song", "pickup"):
        return None, False
    first = meters[0][1]
    pickup = song.pickup * first.beat
    if pickup >= first.bar:
        findings.complain(
            ("song", "pickup"),
            f"A pickup of {song.pickup} beats fills a bar of {first}; count that bar as bar 1",
        )
        return None, False
    bare = SongTime(meters, _ANY_TEMPO, pickup)
    anchors = _anchors(song, bare, findings)
    if anchors is None:
        return bare, False
    return SongTime(meters, anchors, pickup), True


def _meters(song: SongText, findings: Findings) -> tuple[tuple[int, Meter], ...] | None:
    changes: list[tuple[int, Meter]] = []
    for written, meter in song.meter.items():
        path = ("song", "meter", written)
        if not re.fullmatch(r"[1-9]\d{0,3}", written, re.ASCII):
            findings.complain_key(
                path, f"'{written}' is not a bar; a meter holds from the bar before its ':' on, as 24: 2/4"
            )
        elif changes and int(written) <= changes[-1][0]:
            findings.complain_key(
                path, f"Bar {written} comes after bar {changes[-1][0]} here; write meters in their order"
            )
        elif not changes and int(written) != 1 and findings.sound("song", "meter"):
            findings.complain_key(
                path, f"The first meter is for bar {written}; begin with the meter of bar 1"
            )
        else:
            changes.append((int(written), meter))
    if not song.meter and findings.sound("song", "meter"):
        findings.complain(
            ("song", "meter"),
            "No meter is written here; write one, as 4/4, or each from its bar on, as {1: 4/4, 24: 2/4}",
        )
    return tuple(changes) if findings.sound("song", "meter") else None


def _anchors(song: SongText, bare: SongTime, findings: Findings) -> tuple[Anchor, ...] | None:
    written = [(key, _anchor_place(key, bare, findings), seconds) for key, seconds in song.bars.items()]
    if not (findings.sound("song", "bars") and findings.sound("song", "tempo")):
        return None
    anchors = [(quarters, seconds) for _, quarters, seconds in written if quarters is not None]
    for (key, place, seconds), (before, earlier_place, earlier) in zip(written[1:], written, strict=False):
        assert place is not None and earlier_place is not None
        if place <= earlier_place:
            findings.complain_key(
                ("song", "bars", key),
                f"Bar {key} does not come after bar {before}; write bars in their order",
            )
        elif seconds <= earlier:
            findings.complain(
                ("song", "bars", key),
                f"Bar {key} is at {time_text(seconds)}, but bar {before} is already at {time_text(earlier)}; "
                "later bars have later times",
            )
    if not findings.sound("song", "bars"):
        return None
    if len(anchors) >= 2:
        return tuple(anchors) if _tempo_agrees(song, bare, anchors, findings) else None
    if song.tempo is None:
        given = "one bar" if anchors else "neither tempo nor bars"
        findings.complain(
            ("song", "bars") if anchors else ("song",),
            f"With the time of {given} alone the song has no tempo; add tempo: 96, or the time of a later bar"
            if anchors
            else "The song has no tempo; add tempo: 96, or the times of bars, as bars: {1: 0:00, 17: 0:40}",
        )
        return None
    start, seconds = anchors[0] if anchors else (Fraction(0), Fraction(0))
    beat = bare.meter(bare.bar_at(start)).beat
    return (start, seconds), (start + song.tempo * beat, seconds + 60)


def _anchor_place(key: str, bare: SongTime, findings: Findings) -> Fraction | None:
    def read() -> Fraction:
        place = read_place(key)
        if place.section is not None or place.first is None or place.last is not None:
            raise MisfitError(
                f"'{key}' is not a bar; write bars with their times, as {{1: 0:00.5, 17.3: 0:41.75}}"
            )
        if place.first.bar > _FURTHEST_BAR:
            raise MisfitError(f"No song has {key} bars")
        return bare.quarters(Place(place.first.bar, place.first.beat or Fraction(1)))

    return findings.attempt(("song", "bars", key), read, key=True)


def _tempo_agrees(song: SongText, bare: SongTime, anchors: list[Anchor], findings: Findings) -> bool:
    """A written tempo only describes a song whose bars have times, but it must not contradict them."""
    if song.tempo is None:
        return True
    beats = sum(
        (end - start) / bare.meter(bare.bar_at(start)).beat for (start, _), (end, _) in pairwise(anchors)
    )
    heard = 60 * beats / (anchors[-1][1] - anchors[0][1])
    if abs(heard - song.tempo) <= _TEMPO_SLIP * song.tempo:
        return True
    findings.complain(
        ("song", "tempo"),
        f"The tempo is written as {float(song.tempo):g}, but the times in bars make it {float(heard):.0f}; "
        "correct one of them, or leave the tempo out",
    )
    return False
