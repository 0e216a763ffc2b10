"""The kind that DEVELOPERS.md adds, step by step, is one that works as it stands there."""

from __future__ import annotations

import importlib.util
import re
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from studio.drawing.themes.theme import default_theme
from studio.music.place import Span
from studio.timeline.kind import Kind

from .small_song import RefusedError, ask, bars

GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"


@pytest.fixture(scope="module")
def kind(tmp_path_factory: pytest.TempPathFactory) -> Kind:
    (code,) = re.findall(r"```python\n(\"\"\"The pulse callout.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)
    file = tmp_path_factory.mktemp("callouts") / "pulse.py"
    file.write_text(code, "utf-8")
    spec = importlib.util.spec_from_file_location("pulse", file)
    assert spec and spec.loader
    module = sys.modules["pulse"] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.KIND  # type: ignore[no-any-return]


def shown(kind: Kind, span: Span, **options: Any) -> str:
    return kind.compose(kind.Options(kind="pulse", **options), ask(span)).alt


def test_it_says_how_fast_the_small_song_goes(kind: Kind) -> None:
    # A quarter lasts half a second there, and a bar has four.
    assert shown(kind, bars(1, 2)) == "The music goes at 120 beats a minute."
    assert shown(kind, bars(1, 2), per="bar") == "The music goes at 30 bars a minute."


def test_it_refuses_what_is_too_short_with_a_remedy(kind: Kind) -> None:
    with pytest.raises(RefusedError, match="choose a bar at least"):
        shown(kind, Span(Fraction(0), Fraction(1, 2)))


def test_it_draws_a_panel_with_ink_of_the_size_that_it_is_given(kind: Kind) -> None:
    content = kind.compose(kind.Options(kind="pulse"), ask(bars(1, 2))).content
    extent, theme = kind.extent(content, 1728, default_theme()), default_theme()
    picture = kind.draw(content, None, (1728, round(extent.least * 8)), theme)
    assert picture.size == (1728, 80)
    assert np.asarray(picture)[..., :3].max() > 200
