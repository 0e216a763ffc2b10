"""Camera takes: which stretch of which video a segment shows."""

from __future__ import annotations

from studio.project.checking import Findings
from studio.project.complaints import MisfitError
from studio.project.file_stretch import read_stretch
from studio.project.folder import Folder
from studio.project.marks import ValuePath
from studio.project.media import Media, probe
from studio.project.model import Camera
from studio.project.schema import CameraText


def read_camera(text: CameraText, path: ValuePath, folder: Folder, findings: Findings) -> Camera | None:
    """The camera of a segment, or None after complaints."""
    media = findings.attempt((*path, "take"), lambda: _take(text.take, folder))
    if media is None:
        return None
    start, end = read_stretch(text.start, text.end, path, media, text.take, "The take", findings)
    if text.sound and not media.has_sound:
        findings.complain((*path, "sound"), f"'{text.take}' has no sound; write sound: no, or leave it out")
    sound = media.has_sound if text.sound is None else text.sound
    return Camera(media, start, end, sound) if findings.sound(*path) else None


def _take(written: str, folder: Folder) -> Media:
    media = probe(folder.file(written))
    if not media.has_picture:
        raise MisfitError(f"'{written}' has no picture; a take is a video file")
    return media
