"""Reads a project: everything checked, every complaint in one go, or values that the rest can rely on."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from studio.project.callouts import CalloutOptions
from studio.project.checking import Findings, check, unknown_key
from studio.project.complaints import Complaint, ProjectError
from studio.project.excerpt_setting import ExcerptSetting
from studio.project.extras import read_soundfont
from studio.project.facts import InWords, read_facts
from studio.project.folder import Folder
from studio.project.model import DuckingAsked, Episode, Project, Song
from studio.project.schema import EpisodeText, SongText
from studio.project.segments import read_segments
from studio.project.song import read_song
from studio.project.surroundings import Known
from studio.project.voices import read_ducking
from studio.project.written import PROJECT_KEYS, Written, read

PROJECT_FILE = "project.yaml"

Programs = Mapping[int, str]
"""Names of a SoundFont's programs by their numbers."""

ThemeJudge = Callable[[str, Path], Sequence[str]]
"""What is wrong with a theme, by its name or path and the project's folder: one sentence for each thing."""


def load(
    path: Path | str,
    kinds: Mapping[str, type[CalloutOptions]],
    allow_outside: bool = False,
    judge_theme: ThemeJudge = lambda name, beside: (),
) -> Project:
    """The project in a folder, or in its YAML file.

    `kinds` are the options of each kind of callout. `allow_outside` lets files lie outside the project's
    folder. Raises ProjectError with all complaints together, in file order.
    """
    file = project_file(Path(path))
    written = read(file)
    findings = Findings(written.marks, list(written.complaints))
    folder = Folder(file.parent, allow_outside)
    _check_groups(written, findings)
    episode, programs = _episode(written, folder, judge_theme, findings)
    song, known = _song(written, folder, episode, findings)
    known = replace(known, facts=_fact_names(written.data.get("facts", ""), findings))
    facts = read_facts(written.data.get("facts", ""), known, song, findings)
    in_words = InWords(known, song, findings)
    known = replace(known, ask=in_words.ask)
    setting = ExcerptSetting(known, song, facts, programs)
    ducking = episode.ducking if episode is not None else DuckingAsked()
    segments = read_segments(written.data.get("segments", ""), kinds, setting, ducking, folder, findings)
    if findings.complaints or episode is None or song is None:
        raise ProjectError(findings.complaints)
    asked = (*facts, *in_words.facts.values())
    return Project(file.parent, file, episode, song, asked, segments, written.marks)


def project_file(path: Path) -> Path:
    """The YAML file that a folder or a path names. Raises ProjectError when there is none."""
    try:
        if not path.is_dir():
            return path
        file = path / PROJECT_FILE
        if file.exists():
            return file
    except (OSError, ValueError):
        return path
    raise ProjectError(
        [Complaint(path.name or str(path), 1, 1, f"There is no {PROJECT_FILE} in this folder.")]
    )


def _check_groups(written: Written, findings: Findings) -> None:
    for key in written.data:
        if key not in PROJECT_KEYS:
            unknown_key("a key of the project", (key,), PROJECT_KEYS, findings)
    for key in ("episode", "song", "segments"):
        if written.data.get(key, "") == "" and (key,) not in findings.broken:
            findings.complain((key,), f"The project needs '{key}'")


def _episode(
    written: Written, folder: Folder, judge_theme: ThemeJudge, findings: Findings
) -> tuple[Episode | None, Programs | None]:
    """The episode, and the programs of its SoundFont: none without one, None where that cannot be judged."""
    data = written.data.get("episode", "")
    text = check(EpisodeText, data, ("episode",), findings) if data != "" else None
    if text is None:
        return None, None
    if text.title is None and findings.sound("episode", "title"):
        findings.lacks(("episode",), "The episode needs a 'title'")
    if "/" in text.theme or text.theme.endswith((".yaml", ".yml")):
        findings.attempt(("episode", "theme"), lambda: folder.file(text.theme))
    if findings.sound("episode", "theme"):
        for sentence in judge_theme(text.theme, folder.root):
            findings.complain(("episode", "theme"), sentence)
    soundfont = None
    if text.soundfont is not None:
        soundfont = findings.attempt(
            ("episode", "soundfont"), lambda: read_soundfont(text.soundfont or "", folder)
        )
    episode = Episode(
        title=text.title or "",
        canvas=text.canvas,
        theme=text.theme,
        numerals=text.numerals,
        loudness=text.loudness,
        figured=text.inversions == "figured",
        ducking=read_ducking(text.ducking, DuckingAsked(), ("episode", "ducking"), findings),
        scratch_voice=text.scratch_voice,
        soundfont=soundfont.path if soundfont is not None else None,
    )
    if soundfont is not None:
        return episode, soundfont.programs
    return episode, {} if findings.sound("episode", "soundfont") else None


def _song(
    written: Written, folder: Folder, episode: Episode | None, findings: Findings
) -> tuple[Song | None, Known]:
    rate = episode.canvas.rate if episode is not None and findings.sound("episode", "canvas") else None
    data = written.data.get("song", "")
    text = check(SongText, data, ("song",), findings, Known(rate=rate)) if data != "" else None
    if text is None:
        return None, Known(rate=rate)
    if text.title is None and findings.sound("song", "title"):
        findings.lacks(("song",), "The song needs a 'title'")
    return read_song(text, folder, rate, findings)


def _fact_names(written: Any, findings: Findings) -> frozenset[str] | None:
    if ("facts",) in findings.broken:
        return None
    if written == "":
        return frozenset()
    return frozenset(written) if isinstance(written, dict) else None
