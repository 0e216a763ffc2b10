"""The papers of an episode: captions, chapters, the report and the review page."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from studio.build.made import Made
from studio.build.opening import Opened
from studio.handoff.captions import cues, subrip, webvtt
from studio.handoff.chapters import chapter_text, chapters
from studio.handoff.report import report_text
from studio.render.moving import moving_overlays
from studio.render.wave_pictures import wave_picture_words
from studio.render.workshop import Workshop
from studio.review.html import html
from studio.review.page import page_of
from studio.whole_file import whole_file

_OF_THE_WHOLE = ("rough-cut.mp4", "captions.vtt", "chapters.txt", "report.json")


def write_papers(opened: Opened, about: Mapping[str, Any], shop: Workshop, made: Made) -> None:
    """Captions, chapters and the report, whose data is `about`."""
    plan, shown = opened.plan, cues(opened.plan)
    papers = {
        "captions.srt": subrip(shown),
        "captions.vtt": webvtt(shown),
        "chapters.txt": chapter_text(chapters(plan)),
        "report.json": report_text(about),
    }
    for name, text in papers.items():
        made.add(shop.build / name, _write(shop.build / name, text))


def write_review(opened: Opened, about: Mapping[str, Any], shop: Workshop, made: Made) -> None:
    """The review page, with links to what this run made, and to what stands from others and is kept."""
    waves = {
        one.id: wave_picture_words(opened.project, opened.plan, one, shop) for one in opened.plan.segments
    }
    plan, path = opened.plan, shop.build / "review" / "index.html"
    kept = [path for _, path in moving_overlays(plan, shop)]
    kept += [file for name in _OF_THE_WHOLE if (file := shop.build / name).is_file()]
    standing = {
        file.relative_to(shop.build).as_posix() for file in (*kept, *(file for file, _ in made.results))
    }
    marks = [(mark.start, mark.title) for mark in chapters(plan)]
    made.add(path, _write(path, html(page_of(opened.project, plan, about, marks, standing, waves))))


def _write(path: Path, text: str) -> bool:
    """Write a text unless it stands there already; says whether it was written."""
    data = text.encode("utf-8")
    if path.is_file() and path.read_bytes() == data:
        return False
    with whole_file(path) as part:
        part.write_bytes(data)
    return True
