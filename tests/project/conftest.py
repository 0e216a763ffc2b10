"""A small episode about a song of our own, made by code: two bars of tune, a click of sound, a take of a grey card."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import pytest

from studio.project.callouts import CalloutOptions, FactText, PartName
from studio.project.complaints import ProjectError
from studio.project.loader import load
from studio.project.model import Project
from tests.project.small_media import write_sound, write_take


class StaffOptions(CalloutOptions):
    part: PartName
    labels: Literal["degrees", "chords", "none"] = "degrees"


class TextOptions(CalloutOptions):
    say: FactText


class KeyboardOptions(CalloutOptions):
    part: PartName
    octaves: int = 4


KINDS = {"chords": CalloutOptions, "staff": StaffOptions, "text": TextOptions, "keyboard": KeyboardOptions}

GOOD = """\
episode:
  title: Why the lamp stays lit
  canvas: 1920x1080 @ 30
  loudness: -14 LUFS

song:
  title: Lamp
  by: Nobody
  rights: {licence: CC0}
  key: {1: A major, bridge: F# minor}
  meter: {1: 4/4, 14: 2/4, 15: 4/4}
  tempo: 120
  sections: {intro: 1-4, verse: 5-12, bridge: 13-16}
  chords:
    intro: "| A | % | D | E |"
    verse: "| A | F#m . D . | Bm7 | E/G# | A | F#m | Dadd9 | E7sus4 E7 |"
    bridge: "| F#m | C#7 | D | A |"
  recording: audio/mix.flac
  stems: {keys: audio/keys.flac, bass: audio/bass.flac}
  parts:
    lead: |
      X:1
      M:4/4
      L:1/4
      K:A
      A B c d | e4 | z4 | z4 | A c e c | f2 d2 | f4 | e4 |

facts:
  loop: {numerals: verse}
  catch: {degree: lead, at: 6.1}

segments:
  - id: hook
    title: Four chords, one line
    at: 0:00
    script: |
      Listen to the keyboard alone.
      Under it sits {loop}, and the tune lands on {catch}.
    excerpt: {where: verse bars 1-2, stems: [keys, bass], fade: 0.05}
    callouts:
      - chords
      - {kind: staff, part: lead, where: 5-6, labels: degrees}
      - {kind: text, say: "The tune lands on {catch}", when: 0:01-0:03}
  - id: desk
    at: 0:20
    camera: {take: footage/take.mp4, from: 0:00.5, to: 0:02}
    excerpt: {where: 0:02-0:03.2}
    callouts:
      - {kind: keyboard, part: lead}
"""


@pytest.fixture(scope="session")
def episode_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with every file that GOOD names: 32 s of sound, a 2 s take; and 3 s of a voice."""
    folder = tmp_path_factory.mktemp("lamp")
    for name in ("mix", "keys", "bass"):
        write_sound(folder / "audio" / f"{name}.flac", seconds=32)
    write_sound(folder / "audio" / "short.flac", seconds=4)
    write_sound(folder / "voice" / "hook.wav", seconds=3)
    write_take(folder / "footage" / "take.mp4", frames=60, rate=30)
    write_take(folder / "footage" / "loud.mp4", frames=60, rate=30, sound=True)
    (folder / "audio" / "notes.txt").write_text("not a sound\n", encoding="utf-8")
    return folder


HOOK = "    excerpt: {where: verse bars 1-2, stems: [keys, bass], fade: 0.05}\n"


def with_excerpt(excerpt: str, *, callouts: str = "", segment: str = "", episode: str = "") -> str:
    """GOOD with another excerpt in its first segment, whose callouts are left out, and with lines added."""
    own = GOOD[GOOD.index(HOOK) + len(HOOK) : GOOD.index("  - id: desk")]
    text = GOOD.replace(own, callouts).replace(
        HOOK, f"    excerpt: {{{excerpt}}}\n{segment}" if excerpt else segment
    )
    return text.replace("    at: 0:20\n", "").replace(
        "  loudness: -14 LUFS\n", f"  loudness: -14 LUFS\n{episode}"
    )


Load = Callable[..., Project]


@pytest.fixture
def load_text(episode_folder: Path, request: pytest.FixtureRequest) -> Load:
    """Loads the text of a project file, standing in the folder of the episode."""
    numbers = itertools.count()
    stem = "".join(letter if letter.isalnum() else "-" for letter in request.node.name)[:80]

    def load_it(text: str, **options: bool) -> Project:
        file = episode_folder / f"{stem}-{next(numbers)}.yaml"
        file.write_text(text, encoding="utf-8")
        try:
            return load(file, KINDS, **options)
        finally:
            file.unlink()

    return load_it


@pytest.fixture
def complaints(load_text: Load) -> Callable[..., list[str]]:
    """The complaints about a project file, as `line:column: sentence`."""

    def of(text: str, **options: bool) -> list[str]:
        try:
            load_text(text, **options)
        except ProjectError as error:
            return [f"{at.line}:{at.column}: {at.sentence}" for at in error.complaints]
        return []

    return of
