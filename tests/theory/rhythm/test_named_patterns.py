"""Names of rhythms against what the literature calls by them."""

from fractions import Fraction as F

import pytest

from studio.music.groove_pattern import read_groove
from studio.music.meter import Meter
from studio.theory.rhythm.named_patterns import named_patterns, rhythm_name


def name(text: str) -> str:
    return rhythm_name(tuple(F(at, len(text)) for at, sign in enumerate(text) if sign == "x"), F(1))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # ``WorldSample16`` of amads 1.4.0 (PyPI), after Gómez, Melvin, Rappaport and Toussaint (BRIDGES 2005)
        ("x..x..x...x.x...", "son clave 3–2"),
        ("x..x...x..x.x...", "rumba clave 3–2"),
        ("x..x..x...x..x..", "bossa clave 3–2"),
        # Toussaint (BRIDGES 2005): E(3,8) is tresillo, E(5,8) cinquillo, as euclidean-rhythm 0.3.0 (PyPI) makes them
        ("x..x..x.", "tresillo"),
        ("x.xx.xx.", "cinquillo"),
        # common practice
        ("x..xx.x.", "habanera"),
        ("..x.x...x..x..x.", "son clave 2–3"),
        ("x..x..x.x..x..x.", "tresillo"),
        ("x...x...x...x...", ""),
        ("..x..x..", ""),
    ],
)
def test_names(text: str, expected: str) -> None:
    assert name(text) == expected


def test_bossa_is_a_euclidean_necklace() -> None:
    """Toussaint (BRIDGES 2005): the bossa-nova clave is E(5,16), x..x..x..x..x..., begun on its third stroke."""
    euclid = "x..x..x..x..x..."
    assert name(euclid[6:] + euclid[:6]) == "bossa clave 3–2"


@pytest.mark.parametrize(
    ("three_two", "clave"),
    [("x..x..x...x.x...", "son"), ("x..x...x..x.x...", "rumba"), ("x..x..x...x..x..", "bossa")],
)
def test_two_three_is_three_two_begun_half_way(three_two: str, clave: str) -> None:
    assert name(three_two[8:] + three_two[:8]) == f"{clave} clave 2–3"


def kit(**lines: str) -> list[tuple[str, tuple[str, ...]]]:
    groove = read_groove({voice.replace("_", " "): line for voice, line in lines.items()}, Meter(4, 4))
    return [(pattern.name, pattern.voices) for pattern in named_patterns(groove)]


def test_a_clave_over_two_bars() -> None:
    assert kit(claves="| x..x..x. | ..x.x... |", kick="x...") == [("son clave 3–2", ("claves",))]


def test_patterns_of_the_whole_kit() -> None:
    """Common practice."""
    assert kit(kick="..x.", side_stick="..x.", hat="xxxxxxxx") == [("one drop", ("kick", "side stick"))]
    assert kit(kick="xxxx", snare="...x ..x. ...x ..x.") == [("dembow", ("kick", "snare"))]
    assert kit(kick="xxxx", snare="xxXx xxXx xxXx xxXx") == [("train beat", ("kick", "snare"))]
    assert kit(kick="xxxx", snare="xxxx xxxx xxxx xxxx") == []
    assert kit(kick="x.x.", snare=".x.x") == []


def test_only_meters_that_pair_up_have_claves() -> None:
    assert not named_patterns(read_groove({"claves": "x.. x.. x.."}, Meter(3, 4)))
