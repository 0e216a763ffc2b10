"""What a project that has been read knows, so that a test can ask it one more question."""

from __future__ import annotations

from studio.project.checking import Findings
from studio.project.model import Project
from studio.project.surroundings import Known


def known_of(project: Project) -> tuple[Known, Findings]:
    """The surroundings of a project's own words, and an empty list of complaints."""
    song = project.song
    time = song.time
    sections = {
        section.name: (time.bar_at(section.span.start), time.bar_at(section.span.end) - 1)
        for section in song.sections
    }
    known = Known(
        rate=project.episode.canvas.rate,
        time=time,
        end=song.end,
        sections=sections,
        parts=frozenset(song.parts),
        stems=frozenset(song.stems),
        grooves=frozenset(song.grooves),
        facts=frozenset(fact.name for fact in project.facts),
    )
    return known, Findings(project.marks)
