"""Voices over a segment, how music makes room for them, and what needs an extra."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from studio.project.complaints import MisfitError, ProjectError
from studio.project.extras import read_scratch_voice, read_soundfont
from studio.project.findings import Findings
from studio.project.folder import Folder
from studio.project.lengths import clip_length
from studio.project.marks import Marks
from studio.project.model import DuckingAsked
from studio.project.sound_text import DuckingText
from studio.project.voices import read_ducking
from tests.project.conftest import Load, with_excerpt
from tests.sound.instrument.soundfont_file import write_soundfont


def test_a_narration_is_read(load_text: Load) -> None:
    whole = load_text(with_excerpt("where: 5", segment="    narration: voice/hook.wav\n")).segments[0]
    assert whole.narration is not None and whole.narration.media.path.name == "hook.wav"
    assert (whole.narration.start, whole.narration.end, whole.narration.at) == (0, 3, 0)
    some = "    narration: {file: voice/hook.wav, from: 0:01, to: 0:02.5, at: 2}\n"
    part = load_text(with_excerpt("where: 5", segment=some)).segments[0].narration
    assert part is not None and (part.start, part.end, part.at) == (1, Fraction(5, 2), 2)
    assert part.length == Fraction(3, 2)


def test_a_clip_lasts_as_long_as_its_narration_whatever_the_script(load_text: Load) -> None:
    segment = load_text(with_excerpt("where: 5", segment="    narration: voice/hook.wav\n")).segments[0]
    assert clip_length(segment) == 3


def test_a_narration_alone_makes_a_segment(load_text: Load) -> None:
    text = with_excerpt("").split("  - id: hook")[0] + "  - id: hook\n    narration: voice/hook.wav\n"
    (segment,) = load_text(text).segments
    assert segment.excerpt is None and clip_length(segment) == 3


USUAL = DuckingAsked()


@pytest.mark.parametrize(
    ("episode", "segment", "expected"),
    [
        ("", "", (USUAL, USUAL)),
        ("off", "", (None, None)),
        ("off", "on", (None, USUAL)),
        ("12 dB", "off", (DuckingAsked(12.0), None)),
        ("12 dB", "{release: 1}", (DuckingAsked(12.0), DuckingAsked(12.0, release=Fraction(1)))),
        ("off", "{by: 15 dB, attack: 0.1}", (None, DuckingAsked(attack=Fraction(1, 10)))),
        ("12 dB", "on", (DuckingAsked(12.0), DuckingAsked(12.0))),  # on is as the episode has it
        ("12 dB", "{by: yes, release: 1}", (DuckingAsked(12.0), DuckingAsked(12.0, release=Fraction(1)))),
        ("on", "", (USUAL, USUAL)),
        (
            "{by: 9 dB, attack: 0.2, release: 0.5 s}",
            "6 dB",
            (
                DuckingAsked(9.0, Fraction(1, 5), Fraction(1, 2)),
                DuckingAsked(6.0, Fraction(1, 5), Fraction(1, 2)),
            ),
        ),
    ],
)
def test_ducking(
    load_text: Load, episode: str, segment: str, expected: tuple[DuckingAsked | None, DuckingAsked | None]
) -> None:
    text = with_excerpt(
        "where: 5",
        episode=f"  ducking: {episode}\n" if episode else "",
        segment=f"    ducking: {segment}\n" if segment else "",
    )
    project = load_text(text)
    assert (project.episode.ducking, project.segments[0].ducking) == expected


def test_what_is_not_written_is_as_usual() -> None:
    usual = DuckingAsked(12.0, Fraction(1, 10), Fraction(1))
    findings = Findings(Marks("project.yaml", ""))
    assert read_ducking(DuckingText(), usual, (), findings) == usual
    assert read_ducking(DuckingText(), None, (), findings) is None
    assert not findings.complaints


@pytest.mark.parametrize(
    ("text", "language"),
    [("yes", "en"), ("no", ""), ("off", ""), ("de", "de"), ("EN-GB", "en-gb"), ("nb", "nb")],
)
def test_a_scratch_voice(text: str, language: str) -> None:
    pytest.importorskip("espeakng_loader", reason="espeakng_loader is not installed")
    assert read_scratch_voice(text) == language


def test_a_soundfont_is_told_by_its_head_and_opened(tmp_path: Path) -> None:
    """A RIFF file of the form sfbk (SoundFont technical specification 2.04, section 4.1)."""
    pytest.importorskip("tinysoundfont", reason="tinysoundfont is not installed")
    write_soundfont(tmp_path / "mine.sf2", {0: 1, 11: 2})
    (tmp_path / "head.sf2").write_bytes(b"RIFF\x04\x00\x00\x00sfbk")
    (tmp_path / "wave.sf2").write_bytes(b"RIFF\x04\x00\x00\x00WAVE")
    (tmp_path / "empty.sf2").write_bytes(b"")
    found = read_soundfont("mine.sf2", Folder(tmp_path))
    assert found.path == tmp_path / "mine.sf2" and found.programs == {1: "P0", 12: "P11"}
    for name, said in (
        ("wave.sf2", "is not a SoundFont"),
        ("empty.sf2", "is not a SoundFont"),
        ("head.sf2", "cannot be read as a SoundFont"),
    ):
        with pytest.raises(MisfitError, match=said):
            read_soundfont(name, Folder(tmp_path))


def test_an_episode_with_a_soundfont_may_play_it(load_text: Load, episode_folder: Path) -> None:
    pytest.importorskip("tinysoundfont", reason="tinysoundfont is not installed")
    write_soundfont(episode_folder / "mine.sf2", {0: 1, 11: 2})

    def text(program: int) -> str:
        return with_excerpt(
            f"where: 5, play: {{part: lead, sound: soundfont {program}}}",
            episode="  soundfont: mine.sf2\n  scratch-voice: yes\n",
        )

    project = load_text(text(12))
    assert project.episode.soundfont == episode_folder / "mine.sf2"
    assert project.episode.scratch_voice == "en"
    assert project.segments[0].excerpt.plays[0].sound == "soundfont 12"  # type: ignore[union-attr]
    with pytest.raises(ProjectError, match="The SoundFont has no program 13; it has 1 P0, 12 P11"):
        load_text(text(13))
