from __future__ import annotations

import json
import pickle
from dataclasses import asdict

import numpy as np
import pytest
import yaml

from studio.drawing.draw import draw
from studio.drawing.frame import CanvasSize
from studio.drawing.kinds import KINDS
from studio.drawing.lettering import type as setting
from studio.drawing.themes.contrast import contrast
from studio.drawing.themes.theme import default_theme
from studio.timeline.furniture import Backdrop, Burnt, Slate, Strip

from .samples import SMALL, SQUARE, TALL, WIDE, Sample, samples

THEME = default_theme()
ALL = [(canvas, sample) for canvas in (WIDE, TALL, SQUARE, SMALL) for sample in samples(canvas)]
NAMES = [f"{canvas.width}x{canvas.height} {sample.name}" for canvas, sample in ALL]


def size_of(canvas: CanvasSize, sample: Sample, least: bool = False) -> tuple[int, int]:
    """Pixels of a sample's picture: as tall as it wants to be, or as it must be."""
    width = round(canvas.lane)
    extent = KINDS[sample.kind].extent(sample.content, width, THEME)
    return width, round((extent.least if least else extent.wanted) * canvas.unit)


def test_every_kind_is_found_and_says_what_it_is() -> None:
    assert {"chords", "keyboard", "progression", "staff", "text"} <= set(KINDS)
    for name, kind in KINDS.items():
        assert name == kind.name and kind.says and kind.slots
        assert yaml.safe_load(kind.example)["kind"] == name


@pytest.mark.parametrize(("canvas", "sample"), ALL, ids=NAMES)
def test_a_picture_fills_its_size_with_a_panel_and_readable_ink(canvas: CanvasSize, sample: Sample) -> None:
    size = size_of(canvas, sample)
    picture = draw(sample.kind, sample.content, sample.look, size, THEME)
    assert picture.size == size and picture.mode == "RGBA"
    pixels = np.asarray(picture)
    assert pixels[size[1] // 2, 2, 3] == round(255 * THEME.panel_opacity)
    ink = tuple(int(channel) for channel in pixels[pixels[..., 3] == 255][:, :3].max(0))
    assert contrast(ink, THEME.colours.panel) >= 4.5  # type: ignore[arg-type]


@pytest.mark.parametrize(("canvas", "sample"), ALL[:6], ids=NAMES[:6])
def test_the_same_arguments_give_the_same_bytes(canvas: CanvasSize, sample: Sample) -> None:
    size = size_of(canvas, sample)
    first = draw(sample.kind, sample.content, sample.look, size, THEME).tobytes()
    setting.mask.cache_clear()
    assert draw(sample.kind, sample.content, sample.look, size, THEME).tobytes() == first


@pytest.mark.parametrize(("canvas", "sample"), ALL, ids=NAMES)
def test_a_box_as_tall_as_it_must_be_is_still_filled(canvas: CanvasSize, sample: Sample) -> None:
    size = size_of(canvas, sample, least=True)
    assert size[1] <= size_of(canvas, sample)[1]
    assert draw(sample.kind, sample.content, sample.look, size, THEME).size == size


@pytest.mark.parametrize(("canvas", "sample"), ALL[:6], ids=NAMES[:6])
def test_contents_and_looks_can_be_kept_sent_and_printed(canvas: CanvasSize, sample: Sample) -> None:
    assert pickle.loads(pickle.dumps(sample.content)) == sample.content
    assert hash(sample.content) == hash(pickle.loads(pickle.dumps(sample.content)))
    assert json.dumps(asdict(sample.content))
    assert hash(sample.look) is not None


@pytest.mark.parametrize("size", [(1920, 1080), (1080, 1920), (1280, 720)])
def test_grounds_are_opaque_and_of_the_canvas_s_size(size: tuple[int, int]) -> None:
    slate = Slate("A title", ("One page.\n\nTwo paragraphs, ♭6.", "Another."), "14 s to read")
    for content, look in ((Backdrop("A title", "A song"), None), (slate, 0), (slate, 1)):
        picture = draw(content.kind, content, look, size, THEME)
        assert picture.size == size
        assert picture.getchannel("A").getextrema() == (255, 255)
        assert picture.getpixel((1, 1))[:3] == THEME.colours.ground
    assert draw("slate", slate, 0, size, THEME).tobytes() != draw("slate", slate, 1, size, THEME).tobytes()


def test_the_strip_fills_from_the_left() -> None:
    ink = [
        int((np.asarray(draw("strip", Strip(20), look, (1728, 16), THEME))[..., 0] > 200).sum())
        for look in (0, 1, 7, 20)
    ]
    assert ink[0] == 0 and ink[1] < ink[2] < ink[3]
    half = np.asarray(draw("strip", Strip(20), 10, (1728, 16), THEME))[..., 0] > 200
    assert np.flatnonzero(half.any(0)).max() < 1728 * 0.53


def test_digits_of_a_timecode_do_not_move() -> None:
    field = Burnt("00:00:00:", "right")
    colon = [
        np.asarray(draw("burnt", field, f"00:00:0{digit}:", (182, 48), THEME))[:, -9:] for digit in range(10)
    ]
    assert all((other == colon[0]).all() for other in colon)


def test_the_frame_count_joins_the_seconds() -> None:
    seconds = draw("burnt", Burnt("00:00:00:", "right"), "00:00:03:", (182, 48), THEME)
    frames = draw("burnt", Burnt("00"), "12", (48, 48), THEME)
    assert np.asarray(seconds)[24, -1, 3] > 0 and np.asarray(frames)[24, 0, 3] > 0


def test_a_long_name_is_cut_with_an_ellipsis() -> None:
    words = "03 " + "a very long name of a segment " * 6
    picture = draw("burnt", Burnt(words), words, (600, 48), THEME)
    assert picture.size == (600, 48)
