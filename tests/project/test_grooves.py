"""Grooves in the project file: patterns, MIDI drums, and what is said of mistakes."""

from __future__ import annotations

import struct
from collections.abc import Callable
from fractions import Fraction as F
from pathlib import Path

import pytest

from studio.music.groove import Drums, Groove
from studio.music.groove_pattern import groove_text
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError
from studio.project.drum_midi import read_drums
from studio.theory.rhythm.playing import put_on_grid
from tests.project.conftest import GOOD, Load

TIME = SongTime(((1, Meter(4, 4)),), ((F(0), F(0)), (F(4), F(2))))
DEMO = Path(__file__).parents[2] / "demo_project"

Event = tuple[int, bytes]  # (tick, message)


def midi_file(path: Path, events: list[Event], division: int = 480) -> Path:
    """A Standard MIDI File of one track (RP-001: MThd, MTrk, delta times as variable-length quantities)."""
    track, before = b"", 0
    for tick, message in sorted(events, key=lambda event: event[0]):
        track += _variable(tick - before) + message
        before = tick
    track += b"\x00\xff\x2f\x00"
    head = b"MThd" + struct.pack(">IHHH", 6, 0, 1, division)
    path.write_bytes(head + b"MTrk" + struct.pack(">I", len(track)) + track)
    return path


def _variable(number: int) -> bytes:
    found = [number & 0x7F]
    while number := number >> 7:
        found.insert(0, 0x80 | number & 0x7F)
    return bytes(found)


def strokes(*hits: tuple[int, int, int], channel: int = 10) -> list[Event]:
    """(tick, key, velocity) as note-ons and the note-offs after them."""
    on, off = 0x90 | (channel - 1), 0x80 | (channel - 1)
    return [(tick, bytes([on, key, velocity])) for tick, key, velocity in hits] + [
        (tick + 60, bytes([off, key, 0])) for tick, key, _ in hits
    ]


def meter(tick: int, count: int) -> Event:
    return tick, bytes([0xFF, 0x58, 4, count, 2, 24, 8])


def tempo(microseconds: int) -> Event:
    return 0, b"\xff\x51\x03" + microseconds.to_bytes(3, "big")


def test_strokes_keep_their_timing_and_loudness(tmp_path: Path) -> None:
    file = midi_file(tmp_path / "a.mid", strokes((0, 36, 127), (7, 42, 64), (480, 38, 100), (480, 40, 20)))
    found = read_drums(file, TIME).strokes
    assert [(s.onset, s.voice) for s in found] == [(F(0), "kick"), (F(7, 480), "hat"), (F(1), "snare")]
    assert [round(s.loudness * 127) for s in found] == [127, 64, 100]


def test_tempo_is_no_matter(tmp_path: Path) -> None:
    hits = strokes((0, 36, 100), (480, 38, 100))
    slow = midi_file(tmp_path / "slow.mid", [tempo(1_000_000), *hits])
    fast = midi_file(tmp_path / "fast.mid", [tempo(250_000), *hits])
    assert read_drums(slow, TIME) == read_drums(fast, TIME)


def test_other_channels_are_no_drums(tmp_path: Path) -> None:
    both = [*strokes((0, 36, 100)), *strokes((0, 60, 100), channel=1)]
    assert len(read_drums(midi_file(tmp_path / "a.mid", both), TIME).strokes) == 1
    with pytest.raises(MisfitError, match=r"nothing on channel 10, .* its notes are on channel 1, 3"):
        wrong = [*strokes((0, 36, 100), channel=3), *strokes((0, 60, 100), channel=1)]
        read_drums(midi_file(tmp_path / "b.mid", wrong), TIME)
    with pytest.raises(MisfitError, match="nor any notes at all"):
        read_drums(midi_file(tmp_path / "c.mid", []), TIME)


@pytest.mark.parametrize(
    ("events", "first"),
    [
        ([meter(0, 1), meter(480, 4), *strokes((480, 36, 100))], 0),  # the file's first meter is the pickup
        (
            [meter(0, 4), *strokes((3 * 480, 38, 100), (4 * 480, 36, 100))],
            -1,
        ),  # a full bar rests until the pickup
        (strokes((0, 38, 100), (480, 36, 100)), -1),  # the file begins with the pickup
    ],
)
def test_where_bar_1_is_in_a_song_with_a_pickup(tmp_path: Path, events: list[Event], first: int) -> None:
    time = SongTime(TIME.meters, TIME.anchors, F(1))
    assert read_drums(midi_file(tmp_path / "a.mid", events), time).strokes[0].onset == first


def test_files_that_are_no_midi(tmp_path: Path) -> None:
    broken = tmp_path / "a.mid"
    broken.write_bytes(b"MThd\x00\x00\x00\x06\x00")
    with pytest.raises(MisfitError, match=r"'a\.mid' cannot be read as MIDI; is it whole"):
        read_drums(broken, TIME)
    film = midi_file(tmp_path / "b.mid", strokes((0, 36, 100)), division=0xE728)
    with pytest.raises(MisfitError, match="counts time in film frames"):
        read_drums(film, TIME)


def test_the_demo_drums_are_the_grid_that_they_were_written_on() -> None:
    """The demo's own drum grid: bars 13 to 15, 29 on, and the half time of the bridge (demo_project/making)."""
    time = SongTime(((1, Meter(4, 4)), (37, Meter(2, 4)), (38, Meter(4, 4))), TIME.anchors, F(1))
    drums = read_drums(DEMO / "scores" / "drums.mid", time)
    chorus = put_on_grid(drums, time, time.bars(14, 14))
    assert groove_text(chorus.groove) == {
        "kick": "X..x ..x. x.x. ....", "snare": ".x.x", "clap": ".x.x",  # loud throughout, so no stroke stands out
        "hat": "Xx Xx Xx X.", "open hat": ".. .. .. .x",
    }  # fmt: skip
    bridge = put_on_grid(drums, time, time.bars(39, 39))
    assert groove_text(bridge.groove)["snare"] == "..x." and bridge.error == 0


WITH = GOOD.replace("  parts:\n", "  grooves: {grooves}\n  parts:\n")


def loaded(load_text: Load, grooves: str) -> dict[str, Groove | Drums]:
    return load_text(WITH.replace("{grooves}", grooves)).song.grooves


def test_patterns_by_the_names_that_people_write(load_text: Load) -> None:
    grooves = loaded(load_text, '{main: {Kick: "x... ..x. x... ....", claps: ".... x... .... x..."}}')
    main = grooves["main"]
    assert isinstance(main, Groove) and groove_text(main) == {"kick": "x. .x x. ..", "clap": ".x.x"}


def test_a_pattern_in_another_of_the_songs_meters(load_text: Load) -> None:
    main = loaded(load_text, '{half: {kick: "x..x"}, breath: {kick: "xxxxxx"}}')["half"]
    assert isinstance(main, Groove) and main.meter == Meter(4, 4)
    breath = loaded(load_text, '{breath: {kick: "xxxxxx"}}')["breath"]
    assert isinstance(breath, Groove) and breath.meter == Meter(2, 4)


def test_drums_of_a_midi_file(load_text: Load, episode_folder: Path) -> None:
    midi_file(episode_folder / "beat.mid", strokes((0, 36, 100), (480, 38, 100)))
    beat = loaded(load_text, "{main: beat.mid}")["main"]
    assert isinstance(beat, Drums) and [stroke.voice for stroke in beat.strokes] == ["kick", "snare"]


@pytest.mark.parametrize(
    ("grooves", "expected"),
    [
        ('{main: {kick: "x-x-"}}', "20:28: '-' is no sign here; write x for a stroke"),
        ('{main: {kick: "x... x"}}', "20:26: 5 steps do not fill a bar of 4/4 evenly"),
        ('{main: {kik: "x..."}}', "20:20: 'kik' is no voice of a drum kit; did you mean 'kick'?"),
        ('{main: {viola: "x..."}}', "20:20: 'viola' is no voice of a drum kit; write kick, snare"),
        ('{main: {kick: "x...", bd: "x..."}}', "20:34: The kick is written twice in this groove"),
        ('{main: {kick: ["x..."]}}', "20:26: A voice has one line of text"),
        (
            '{main: {kick: "x...|x...", hat: "xxxx|xxxx|xxxx"}}',
            "20:19: The kick has 2 bars and another voice 3",
        ),
        ("{main: {}}", "20:19: This groove is empty; write a line for each voice"),
        ("{main: [x]}", "20:19: A groove is a pattern"),
        ('{main: "x... x..."}', "20:19: This line does not say who plays it; write the voice before it"),
        ("{main: drums}", "20:19: 'drums' is neither a part of the song nor a file; write a pattern"),
        ("{main: led}", "20:19: 'led' is neither a part of the song nor a file; did you mean 'lead'?"),
        ("{main: drums.mid}", "20:19: There is no file 'drums.mid'"),
        ("{main: audio/mix.flac}", "20:19: 'audio/mix.flac' is not MIDI (.mid)"),
        ("loud", "20:12: 'grooves' is a group of keys, not 'loud'"),
    ],
)
def test_mistakes(complaints: Callable[..., list[str]], grooves: str, expected: str) -> None:
    (said,) = complaints(WITH.replace("{grooves}", grooves))
    assert said.startswith(expected)
