"""A song whose times are known by counting: a pickup, meters and tempos that change, also within a bar.

What is expected of it is worked out here step by step, and by no code of the program.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from pathlib import Path

from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note, Part
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.callouts import CalloutOptions
from studio.project.complaints import Complaint
from studio.project.episode_values import read_canvas
from studio.project.marks import Marks
from studio.project.media import Media
from studio.project.model import Camera, CountIn, Episode, Excerpt, Narration, Project, Rights, Segment, Song
from studio.project.written_part import WrittenPart
from studio.timeline.excerpts import ExcerptPlanner, PlacedExcerpt
from studio.timeline.song_facts import SongFacts

# Bar: its first quarter, the length of its counted beat, how many of them. A pickup of one beat is bar 0.
BARS = {
    0: (F(-1), F(1), 1),
    1: (F(0), F(1), 4),  # 4/4
    2: (F(4), F(1), 4),
    3: (F(8), F(1), 2),  # 2/4
    4: (F(10), F(3, 2), 2),  # 6/8
    5: (F(13), F(3, 2), 2),
    6: (F(16), F(1), 3),  # 3/4
    7: (F(19), F(1), 3),
    8: (F(22), F(1), 3),
    9: (F(25), F(1), 3),
}
# Quarters a minute from a quarter on; the first change is in the middle of bar 2. At 61 and 149 no beat is a whole
# number of samples.
TEMPOS = ((F(0), 120), (F(6), 96), (F(10), 61), (F(16), 149))
FIRST = F(1)  # second of the recording at which bar 1 begins

TIME = SongTime(
    ((1, Meter(4, 4)), (3, Meter(2, 4)), (4, Meter(6, 8)), (6, Meter(3, 4))),
    (
        (F(0), F(1)),
        (F(6), F(4)),
        (F(10), F(13, 2)),
        (F(16), F(13, 2) + F(360, 61)),
        (F(40), F(13, 2) + F(360, 61) + F(1440, 149)),
    ),
    F(1),
)
CHART = "| C | F . G . | Am . | F . | C . | Dm | G | C | C |"
_TICK = F(1, 12)


def tempo_at(quarters: F) -> int:
    """Quarters a minute."""
    return [tempo for start, tempo in TEMPOS if start <= max(quarters, F(0))][-1]


@cache
def second_of(quarters: F) -> F:
    """When a moment sounds in the recording: counted up, or back, a twelfth of a quarter at a time."""
    second, at = FIRST, F(0)
    while at < quarters:
        second += _TICK * 60 / tempo_at(at)
        at += _TICK
    while at > quarters:
        at -= _TICK
        second -= _TICK * 60 / tempo_at(at)
    assert at == quarters, "the test asks for a moment between the ticks"
    return second


def beats(start: F, end: F) -> list[tuple[int, int, F]]:
    """(bar, beat from 1, quarters) of the counted beats from `start` up to `end`."""
    found = [
        (bar, n + 1, first + n * beat) for bar, (first, beat, count) in BARS.items() for n in range(count)
    ]
    return [one for one in found if start <= one[2] < end]


def sound(name: str, seconds: F = F(30)) -> Media:
    return Media(Path("/song/audio") / name, seconds, True, False)


LEAD = tuple(
    Note(start, beat, Pitch.parse(name))
    for (start, beat, _), name in zip(
        list(BARS.values())[1:], ("C5", "A4", "E5", "F5", "G5", "D5", "B4", "C5", "E5"), strict=True
    )
)
"""A note on the first beat of each bar, as long as that beat."""


SONG = Song(
    title="Nine Uneven Steps",
    by="The Paper Kites of Ostrow",
    rights=Rights(),
    time=TIME,
    end=F(28),
    sections=(),
    keys=((F(-1), Key.parse("C major")),),
    chart=Chart(read_bars(CHART, 1, TIME)),
    recording=sound("mix.wav"),
    stems={name: sound(f"{name}.wav") for name in ("drums", "bass", "keys")},
    parts={"lead": WrittenPart(Part("lead", LEAD), TIME)},
)


def excerpt_of(start: F, end: F, counted: F | None = None, tail: F = F(0), **more: object) -> Excerpt:
    """An excerpt from one quarter to another, counted in from the quarter `counted` on; `tail` is in quarters too."""
    speed = more.get("speed", F(1))
    assert isinstance(speed, F)
    count_in = None
    if counted is not None:
        count_in = CountIn(counted, (start - counted) * 60 / tempo_at(start) / speed)
    whole = Excerpt(
        start=second_of(start),
        end=second_of(end),
        span=Span(start, end),
        names=(),
        sources=(sound("mix.wav"),),
        fade_in=F(0),
        fade_out=F(0),
        tail=second_of(end + tail) - second_of(end),
        count_in=count_in,
    )
    return replace(whole, **more)  # type: ignore[arg-type]


def project_of(
    excerpt: Excerpt | None,
    callouts: tuple[CalloutOptions, ...] = (),
    script: str = "",
    narration: Narration | None = None,
    camera: Camera | None = None,
    canvas: str = "1920x1080 @ 30",
    **episode: object,
) -> Project:
    """A project of one segment."""
    segment = Segment("one", "One", None, script, camera, excerpt, callouts, narration=narration)
    about = Episode("Steps", read_canvas(canvas), "slate", "relative-to-major", -14.0, **episode)  # type: ignore[arg-type]
    folder = Path("/song")
    return Project(
        folder, folder / "project.yaml", about, SONG, (), (segment,), Marks("project.yaml", "segments: []\n")
    )


def tried(excerpt: Excerpt, **more: object) -> tuple[PlacedExcerpt, list[str]]:
    """An excerpt in a clip of its own, and what is complained of; `more` is of the segment and the episode."""
    project = project_of(excerpt, **more)  # type: ignore[arg-type]
    complaints: list[Complaint] = []
    planner = ExcerptPlanner(project, SongFacts(SONG, "relative-to-major"), complaints)
    (segment,) = project.segments
    found = planner.plan(0, segment, segment.script)
    assert found is not None
    return found, [complaint.sentence for complaint in complaints]


def placed(excerpt: Excerpt, **more: object) -> PlacedExcerpt:
    """An excerpt of which nobody complains."""
    found, complaints = tried(excerpt, **more)
    assert not complaints
    return found
