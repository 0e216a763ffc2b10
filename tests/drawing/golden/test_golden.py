"""Each kind of callout, in each theme on each canvas, still looks as somebody last found it right."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from .likeness import LIMIT, unlikeness
from .pictures import ALL, FOLDER, drawn, golden_path


@pytest.mark.parametrize(("kind", "theme", "canvas"), ALL)
@pytest.mark.slow
def test_a_callout_looks_as_it_did(kind: str, theme: str, canvas: str, tmp_path: Path) -> None:
    now = drawn(kind, theme, canvas)
    path = golden_path(kind, theme, canvas)
    assert path.exists(), (
        f"there is no golden {path.relative_to(FOLDER)}: python -m tests.drawing.golden --update"
    )
    golden = Image.open(path).convert("RGB")
    now.save(tmp_path / "now.png")
    remedy = f"{kind} looks otherwise ({tmp_path / 'now.png'}); if it is right: python -m tests.drawing.golden --update"
    assert now.size == golden.size, remedy
    assert unlikeness(now, golden) < LIMIT, remedy


def test_golden_pictures_are_small_and_none_is_left_over() -> None:
    paths = set(FOLDER.rglob("*.png"))
    assert paths == {golden_path(*one) for one in ALL}
    assert max(path.stat().st_size for path in paths) < 30_000
