"""Writes the demo song and its camera take: scores, stems, the full recording, and the desk.

    python demo_project/compose.py               everything, in about a minute
    python demo_project/compose.py scores audio  only these

The notes are in ``making/lead.py``, ``keys.py``, ``guitar.py``, ``bass.py`` and ``drums.py``. The form, the chords and
the tempo are in ``making/song.py`` and again, for the reader of the episode, in ``project.yaml``. The same notes always
give the same samples; the Ogg files differ in the serial number that libsndfile draws for each stream.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
KINDS = ("scores", "audio", "footage")


def compose(kinds: tuple[str, ...], folder: Path = HERE) -> list[Path]:
    """Write the kinds of file asked for under ``folder`` and return their paths."""
    written: list[Path] = []
    for kind in kinds:
        (folder / kind).mkdir(parents=True, exist_ok=True)
    if "scores" in kinds:
        from making import engrave

        written += engrave.write_parts(folder / "scores")
        written.append(engrave.write_drums(folder / "scores" / "drums.mid"))
    if "audio" in kinds:
        from making import stems

        written += stems.write(folder / "audio")
    if "footage" in kinds:
        from making import camera

        written.append(camera.write(folder / "footage" / "desk.mp4"))
    return written


def main() -> None:
    parser = argparse.ArgumentParser(description="Write the demo song's scores, audio and camera take.")
    parser.add_argument("kinds", nargs="*", metavar="KIND", help="scores, audio or footage (default: all)")
    kinds = tuple(parser.parse_args().kinds) or KINDS
    if unknown := sorted(set(kinds) - set(KINDS)):
        parser.error(f"no such kind: {', '.join(unknown)}; there are {', '.join(KINDS)}")
    for path in compose(kinds):
        print(f"{path.relative_to(HERE)}  {path.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    sys.path.insert(0, str(HERE))
    main()
