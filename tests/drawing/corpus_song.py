"""Pieces of music21's corpus as songs, and what sounds in them by music21's own MIDI."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.music.chart import Chart
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.model import Rights, Song
from studio.project.scores import ScoreSetting, read_score
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed
from studio.timeline.song_facts import SongFacts

from .small_song import WIDE, RefusedError, room

F = Fraction


@dataclass(frozen=True)
class Piece:
    """A work of the corpus in one meter, with its pickup in quarters and how many bars of it are looked at."""

    work: str
    meter: str
    pickup: Fraction
    bars: int


MAPLE_LEAF = Piece("joplin/maple_leaf_rag", "2/4", F(1, 2), 84)
"""Scott Joplin, Maple Leaf Rag: two hands, sixteenths, syncopations over bar lines."""

POLONAISE = Piece("schumann_clara/polonaise_op1n1", "3/4", F(0), 40)
"""Clara Wieck, Polonaise op. 1 no. 1: two hands, triplets, ornaments."""


def source(piece: Piece) -> Path:
    from music21 import corpus

    return Path(str(corpus.getWork(piece.work)))


def facts(piece: Piece) -> SongFacts:
    time = SongTime(((1, Meter.parse(piece.meter)),), ((F(0), F(0)), (F(4), F(2))), piece.pickup)
    end = time.bar_start(piece.bars + 1)
    part = read_score("keys", source(piece), ScoreSetting(time, F(0), lambda _: None))
    song = Song(
        title=piece.work,
        by="",
        rights=Rights(),
        time=time,
        end=end,
        sections=(),
        keys=(),
        chart=Chart(()),
        recording=None,
        stems={},
        parts={"keys": part},
    )
    return SongFacts(song, "relative-to-major")


def composed(kind: str, found: SongFacts, span: Span, **options: Any) -> Composed:
    def refuse(key: str, sentence: str) -> Any:
        raise RefusedError(key, sentence)

    ask = Ask(
        span=span,
        canvas=WIDE,
        room=room(),
        theme=default_theme(),
        facts=found,
        fill=str,
        complain=refuse,
    )
    return KINDS[kind].compose(KINDS[kind].Options(kind=kind, **options), ask)


def midi_sounding(piece: Piece) -> list[tuple[Fraction, frozenset[int]]]:
    """(from quarters on, MIDI notes that sound) as music21 writes the piece as MIDI, bar 1 at 0, pickup before it.

    Repeats are taken as on paper: once.
    """
    from music21 import converter
    from music21.midi import translate

    score = converter.parse(source(piece), forceSource=True)
    for mark in list(score.recurse().getElementsByClass("RepeatMark")):
        score.remove(mark, recurse=True)
    for bar in score.recurse().getElementsByClass("Measure"):
        bar.leftBarline = bar.rightBarline = None
    file = translate.streamToMidiFile(score, addStartDelay=False)
    changes: dict[Fraction, Counter[int]] = {}
    for track in file.tracks:
        tick = 0
        for event in track.events:
            if not hasattr(event, "pitch") or event.isDeltaTime():
                tick += event.time if event.isDeltaTime() else 0
                continue
            on, off = event.isNoteOn() and event.velocity > 0, event.isNoteOff() or event.isNoteOn()
            if on or off:
                at = F(tick, file.ticksPerQuarterNote) - piece.pickup
                changes.setdefault(at, Counter())[event.pitch] += 1 if on else -1
    held: Counter[int] = Counter()
    found = []
    for at in sorted(changes):
        held.update(changes[at])
        found.append((at, frozenset(midi for midi, count in held.items() if count > 0)))
    return found
