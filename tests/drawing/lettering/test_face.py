from __future__ import annotations

from dataclasses import replace

from studio.drawing.lettering.face import Face, face_of
from studio.drawing.themes.theme import default_theme


def test_a_theme_s_weights_know_its_fonts() -> None:
    theme = replace(default_theme(), fonts=("heebo",))
    assert theme.weights.strong == Face(600, ("heebo",))
    assert replace(theme, fonts=()).weights == default_theme().weights


def test_a_number_is_a_weight_of_the_text_family_alone() -> None:
    assert face_of(400) == Face(400.0) and face_of(Face(400, ("heebo",))).fonts == ("heebo",)
