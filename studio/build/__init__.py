"""What each command does: read the project, plan the episode, have things made, and say what was made."""

from studio.build.commands import build_all, build_excerpts, build_overlays, build_review
from studio.build.level_lines import level_lines
from studio.build.made import Made
from studio.build.opening import Opened, UnknownSegmentError, chosen, open_project, workshop

__all__ = [
    "Made",
    "Opened",
    "UnknownSegmentError",
    "build_all",
    "build_excerpts",
    "build_overlays",
    "build_review",
    "chosen",
    "level_lines",
    "open_project",
    "workshop",
]
