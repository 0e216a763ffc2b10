"""Voices over a segment: a recorded narration, and how music makes room for whoever speaks."""

from __future__ import annotations

from studio.project.checking import Findings
from studio.project.complaints import MisfitError
from studio.project.file_stretch import read_stretch
from studio.project.folder import Folder
from studio.project.marks import ValuePath
from studio.project.media import Media, probe
from studio.project.model import Camera, DuckingAsked, Narration
from studio.project.sound_text import DuckingText, NarrationText
from studio.project.times import time_text


def read_narration(
    text: NarrationText, path: ValuePath, camera: Camera | None, folder: Folder, findings: Findings
) -> Narration | None:
    """The narration of a segment, or None after complaints."""
    media = findings.attempt((*path, "file"), lambda: _voice(text.file, folder))
    if media is None:
        return None
    start, end = read_stretch(text.start, text.end, path, media, text.file, "The narration", findings)
    if not findings.sound(*path):
        return None
    narration = Narration(media, start, end, text.at)
    if camera is not None and text.at + narration.length > (length := camera.end - camera.start):
        findings.complain(
            (*path, "at") if text.at else path,
            f"The narration would run to {time_text(text.at + narration.length)}, but the take makes the clip "
            f"{time_text(length)}; use more of the take, or less of the narration",
        )
    return narration if findings.sound(*path) else None


def _voice(written: str, folder: Folder) -> Media:
    media = probe(folder.file(written))
    if not media.has_sound:
        raise MisfitError(f"'{written}' has no sound in it; a narration is a recorded voice")
    return media


def read_ducking(
    text: DuckingText, usual: DuckingAsked | None, path: ValuePath, findings: Findings
) -> DuckingAsked | None:
    """How music makes room, where what is not written is as usual; None where it does not."""
    glides = {"attack": text.attack, "release": text.release}
    written = next((key for key, glide in glides.items() if glide is not None), None)
    if text.by is False:
        if written is not None:
            sentence = (
                f"The music stays as loud as it is here, so '{written}' has nothing to move; leave it out"
            )
            findings.complain_key((*path, written), sentence)
        return None
    if usual is None and text.by is None:
        if written is not None and findings.sound(*path, "by"):
            sentence = (
                "Music stays as loud under a voice in this episode, so say by how much it goes down here"
            )
            findings.complain(
                path, f"{sentence}, as {{by: 15 dB, {written}: {float(glides[written] or 0):g}}}"
            )
        return None
    base = usual or DuckingAsked()
    return DuckingAsked(
        by_db=base.by_db if text.by is None or text.by is True else text.by,
        attack=base.attack if text.attack is None else text.attack,
        release=base.release if text.release is None else text.release,
    )
