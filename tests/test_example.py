from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme, read_theme, theme_names, theme_path
from studio.example import plan_examples
from studio.example_stems import RATE, STEMS, write_stems
from studio.timeline.kind import Composed

CANVASES = ("1920x1080 @ 30", "1080x1920 @ 30", "1080x1080 @ 30")


@pytest.mark.parametrize("canvas", CANVASES)
@pytest.mark.parametrize("theme", theme_names())
@pytest.mark.slow
def test_each_kind_has_an_example_that_plans_on_every_canvas_in_every_theme(theme: str, canvas: str) -> None:
    examples = plan_examples(read_theme(theme_path(theme)), canvas)
    assert examples.refused == {}
    assert [name for name, _ in examples] == list(KINDS)
    assert all(callout.alt.strip() for _, callout in examples)


def test_an_example_that_cannot_be_planned_is_told_of_and_hides_no_other() -> None:
    class Wrong(type(KINDS["text"])):  # type: ignore[misc]
        example = "{kind: text, say: 'The answer is {nothing}'}"

    class Broken(type(KINDS["keyboard"])):  # type: ignore[misc]
        def compose(self, options: object, ask: object) -> Composed:
            raise LookupError("no bells here")

    kinds = {"text": Wrong(), "keyboard": Broken(), "staff": KINDS["staff"]}
    examples = plan_examples(default_theme(), kinds=kinds)
    assert [name for name, _ in examples] == ["staff"]
    assert "nothing" in examples.refused["text"]
    assert examples.refused["keyboard"] == "it fails with LookupError: no bells here"


def test_stems_are_soft_and_as_long_as_the_song(tmp_path: Path) -> None:
    write_stems(tmp_path)
    stems = [soundfile.read(tmp_path / f"{stem}.wav", always_2d=False) for stem in STEMS]
    assert {rate for _, rate in stems} == {RATE}
    together = np.sum([sound for sound, _ in stems], axis=0)
    assert len(together) / RATE >= 0.25 + 32 * 60 / 96
    assert 0.05 < float(np.abs(together).max()) < 0.4  # soft, whoever listens
