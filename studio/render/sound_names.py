"""Names for sound: everything that the samples of a cut depend on, and nothing that they do not."""

from __future__ import annotations

import os
from dataclasses import replace
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from studio.render.hashing import code_digest, name_of
from studio.render.workshop import Workshop
from studio.sound.ffmpeg import run_ffmpeg
from studio.timeline.heard import Cut, Laid, Pass, Played, Sounding, Source, Spoken


def about_cut(cut: Cut, shop: Workshop) -> list[Any]:
    """A cut with its files named by what is in them, wherever they lie, and the libraries that it needs."""
    passes = tuple(_by_content(one, shop) for one in cut.passes)
    return [replace(cut, passes=passes), sorted(_needed(cut))]


def about_laid(laid: Laid | None, shop: Workshop) -> list[Any] | None:
    """The same for a cut in its place."""
    return [about_cut(laid.cut, shop), laid.at] if laid else None


def sound_code(*rooms: str) -> str:
    """A digest of the code that makes samples from a plan: the program's own, with that of further rooms, and the
    ffmpeg that measures them, where it is not the bundled one."""
    return name_of(code_digest("sound", "render", "timeline/heard.py", *rooms), _other_ffmpeg())


def _other_ffmpeg() -> str | None:
    """What an ffmpeg of one's own says of itself, its version and how it was built; None for the bundled one, which has
    the version of its package."""
    return _said_of_itself(path) if (path := os.environ.get("IMAGEIO_FFMPEG_EXE")) else None


@cache
def _said_of_itself(path: str) -> str:
    return run_ffmpeg(["-version"]).out.decode("utf-8", "replace")


def _by_content(one: Pass, shop: Workshop) -> Pass:
    return replace(one, sources=tuple(_named(source, shop) for source in one.sources))


def _named(source: Sounding, shop: Workshop) -> Sounding:
    if isinstance(source, Source):
        return replace(source, path=shop.digest(source.path))
    if isinstance(source, Played) and source.soundfont:
        return replace(source, soundfont=shop.digest(source.soundfont))
    return source


def _needed(cut: Cut) -> set[str]:
    """Names and versions of the libraries that this cut needs beside those that every sound does."""
    found = {"python-stretch"} if cut.speed != 1 or cut.cents else set()
    for one in cut.passes:
        for source in one.sources:
            if isinstance(source, Spoken):
                found |= {"espeakng-loader", "python-stretch"}  # it is hurried where it has to be
            if isinstance(source, Played) and source.soundfont:
                found.add("tinysoundfont")
    return {f"{name} {_version(name)}" for name in found}


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "missing"
