"""How fast moving overlays are written, as a multiple of real time. Run by hand, on a machine that does nothing else:

    python -m tests.benchmarks.moving

A chord lane at 1920×1080 and 30 frames a second that changes twice a second; the same with the strip that fills and
with a line that moves in every frame; and, to compare with, each frame encoded whole by the same encoder.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import av

from studio.build import open_project
from studio.drawing.themes.theme import Theme
from studio.project.episode_values import read_canvas
from studio.render.alpha_codecs import CODECS, AlphaCodec
from studio.render.alpha_samples import eight_bits, ten_bits
from studio.render.moving import write_moving
from studio.render.overlay_picture import OverlayPicture, runs
from studio.render.workers import cores
from studio.timeline.furniture import MarkPicture
from studio.timeline.motion import strip_layer
from studio.timeline.state import Box, Glide, Layer, State

CANVAS = read_canvas("1920x1080 @ 30")
SECONDS, WHOLE_FRAMES = 20, 20
FRAMES = SECONDS * 30
DEMO = Path(__file__).parents[2] / "demo_project"


def scenes() -> Iterator[tuple[str, tuple[Layer, ...], Theme]]:
    """(what it is, its layers, the theme)."""
    opened = open_project(DEMO)
    (chords,) = [one.layer for one in opened.plan.segments[0].callouts if one.layer.kind == "chords"]
    looks = list(dict.fromkeys(state.look for state in chords.states))
    lane = Layer(
        chords.kind,
        chords.content,
        chords.box,
        tuple(State(at, at + 15, looks[at // 15 % len(looks)]) for at in range(0, FRAMES, 15)),
    )
    strip = strip_layer(0, FRAMES, CANVAS)
    box = lane.box
    glide = Glide(0, FRAMES, (0.0, 0.0), (float(box.width), 0.0))
    line = Layer(
        MarkPicture.kind,
        MarkPicture("line"),
        Box(box.x, box.y, 8, box.height),
        (State(0, FRAMES, None, glide=glide),),
    )
    yield "lane", (lane,), opened.theme
    yield "lane, strip", (lane, strip), opened.theme
    yield "lane, strip, line", (lane, strip, line), opened.theme


def main() -> None:
    with TemporaryDirectory() as folder:
        for name, codec in CODECS.items():
            path, found = Path(folder) / f"overlay{codec.ending}", []
            for words, layers, theme in scenes():
                write_moving(
                    CANVAS, layers, 60, theme, codec, path, cores()
                )  # fonts and pictures are there then
                began = perf_counter()
                write_moving(CANVAS, layers, FRAMES, theme, codec, path, cores())
                seconds = perf_counter() - began
                found.append(
                    f"{words} {SECONDS / seconds:.1f}× ({path.stat().st_size / SECONDS / 1e6:.2f} MB/s)"
                )
                if words == "lane":
                    whole = Fraction(1, 30) / Fraction(_whole(codec, layers, theme))
                    found.insert(0, f"every frame encoded {float(whole):.2f}×")
            print(f"{name}: {'; '.join(found)}")


def _whole(codec: AlphaCodec, layers: tuple[Layer, ...], theme: Theme) -> float:
    """Seconds that one frame takes when each is encoded whole."""
    picture = OverlayPicture(CANVAS, layers, theme)
    picture.show(next(runs(layers, 1))[0])
    with av.open("nothing", "w", format="null") as out:
        encoding = codec.open(out, CANVAS, cores())
        encoding.stream.codec_context.gop_size = 1
        began = perf_counter()
        for number in range(WHOLE_FRAMES):
            samples = {"yuva444p10le": ten_bits, "yuva420p": eight_bits}.get(codec.samples)
            frame = samples(picture.pixels) if samples else av.VideoFrame.from_ndarray(picture.pixels, "rgba")
            frame.pts = number
            encoding.stream.encode(
                frame if samples or codec.samples == "rgba" else frame.reformat(format="argb")
            )
        return (perf_counter() - began) / WHOLE_FRAMES


if __name__ == "__main__":
    main()
