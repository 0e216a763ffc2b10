"""Keys in their order, and how they are related."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.key import Key
from studio.theory.form.key_plan import key_plan, relation
from tests.theory.charts import COMMON_TIME


def test_a_plan_is_as_sure_as_its_least_sure_key() -> None:
    keys = ((F(0), Key.parse("C")), (F(16), Key.parse("G")))
    assert key_plan(keys, (), COMMON_TIME, F(32), 0.4).sureness == 0.4
    assert key_plan(keys, (), COMMON_TIME, F(32)).sureness == 1.0


@pytest.mark.parametrize(
    ("key", "home", "expected"),
    [
        # closely related keys of any harmony textbook (Open Music Theory, "Introduction to Modulation"; from memory)
        ("A minor", "C major", "the relative minor"),
        ("C major", "A minor", "the relative major"),
        ("C minor", "C major", "the parallel minor"),
        ("G major", "C major", "the dominant"),
        ("F major", "C major", "the subdominant"),
        ("E minor", "A minor", "the dominant"),
        ("G minor", "C major", "the dominant minor"),
        ("F minor", "C major", "the subdominant minor"),
        ("E major", "A minor", "the dominant major"),
        # steps, common practice
        ("D major", "C major", "up a whole step"),
        ("Db major", "C major", "up a half step"),
        ("Eb major", "C major", "up a minor third"),
        ("A major", "C major", "down a minor third"),
        ("Bb major", "C major", "down a whole step"),
        ("F# major", "C major", "a tritone away"),
        ("E minor", "C major", "up a major third"),
        ("Gb major", "F# major", ""),
    ],
)
def test_relations(key: str, home: str, expected: str) -> None:
    assert relation(Key.parse(key), Key.parse(home)) == expected


MOVES = st.sampled_from([(1, 1), (1, 2), (2, 3), (2, 4), (3, 5), (4, 7), (5, 9), (6, 10)])


KEYS = st.sampled_from(["C", "G", "D", "A", "E", "F", "Bb", "Eb", "Am", "Em", "Dm"])


@given(KEYS, KEYS, MOVES)
def test_transposing_both_changes_nothing(key: str, home: str, by: tuple[int, int]) -> None:
    one, other = Key.parse(key), Key.parse(home)
    assert relation(one.transposed(*by), other.transposed(*by)) == relation(one, other)


def test_a_plan() -> None:
    d, a = Key.parse("D"), Key.parse("A")
    keys = [(F(0), d), (F(16), d), (F(32), a), (F(48), d)]
    bars = {"verse": (1, 8), "bridge": (9, 14), "outro": (15, 16)}
    sections = [(name, COMMON_TIME.bars(*between)) for name, between in bars.items()]
    plan = key_plan(keys, sections, COMMON_TIME, F(64))
    assert [(stage.key, stage.relation, stage.sections) for stage in plan.stages] == [
        (d, "", ("verse",)), (a, "the dominant", ("bridge",)), (d, "", ("outro",)),
    ]  # fmt: skip
    assert plan.home == d and plan.returns
    assert plan.stages[1].reason == "Bars 9–12: A major is the dominant of D major."
    assert plan.stages[2].step == "the subdominant"


def test_no_keys() -> None:
    assert key_plan([], [], COMMON_TIME, F(0)).home is None
