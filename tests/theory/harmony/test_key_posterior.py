"""The sums over all ways of hearing, against adding them up one by one."""

from itertools import product
from math import exp

import pytest

from studio.theory.harmony.key_changes import BETWEEN, changes
from studio.theory.harmony.key_evidence import KEYS, evidence
from studio.theory.harmony.key_places import key_places
from studio.theory.harmony.key_posterior import posterior, steady_path
from tests.theory.charts import chart


def test_the_sums_are_those_of_all_paths() -> None:
    """Three chords have 24³ ways to be heard; each is weighed by hand here."""
    places = key_places(chart("Am E7 F"), (), (), None)
    points = [evidence(place) for place in places]
    steps = [changes(places[0], places[1]), changes(places[1], places[2])]
    sums = [[0.0] * 24 for _ in places]
    for path in product(range(24), repeat=3):
        weight = exp(sum(here[key] for here, key in zip(points, path, strict=True)))
        for (leaving, entering), old, new in zip(steps, path, path[1:], strict=False):
            weight *= 1.0 if old == new else leaving[old] * BETWEEN[old][new] * entering[new]
        for total, key in zip(sums, path, strict=True):
            total[key] += weight
    for shares, total in zip(posterior(places), sums, strict=True):
        assert sum(shares) == pytest.approx(1)
        assert shares == pytest.approx([value / sum(total) for value in total], rel=1e-9)


def test_the_table_of_changes_is_the_same_from_every_key() -> None:
    for shift in range(1, 12):
        for one in range(24):
            for two in range(24):
                moved = [12 * (key // 12) + (key + shift) % 12 for key in (one, two)]
                assert BETWEEN[one][two] == BETWEEN[moved[0]][moved[1]]
    names = {str(key): place for place, key in enumerate(KEYS)}
    row = BETWEEN[names["C major"]]
    assert row[names["A minor"]] > row[names["G major"]] == row[names["F major"]] > row[names["D major"]]


def test_a_path_does_not_flicker() -> None:
    def share(first: float) -> list[float]:
        return [first, 1 - first] + [0.0] * 22

    assert steady_path([share(0.9), share(0.45), share(0.9)]) == [0, 0, 0]
    assert steady_path([share(0.9), share(0.1), share(0.1), share(0.1)]) == [0, 1, 1, 1]
