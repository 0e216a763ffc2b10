"""The search for the best path against trying every path, and what it promises about keys."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.candidates import candidates
from studio.theory.harmony.joining import join_cost
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.path import WrittenKeys, best_path
from studio.theory.harmony.standing import Standing, standings
from tests.theory.charts import chart

KEYS = tuple(Key.parse(name) for name in ("C", "A minor", "G"))


class AnyKey:
    """Three keys to choose from, with weights and evidence that differ by place."""

    def keys_at(self, place: int) -> Sequence[Key]:
        return KEYS

    def weight(self, place: int) -> float:
        return 1.0 + place % 2 / 2

    def evidence(self, place: int, key: Key) -> float:
        return 0.1 * KEYS.index(key)

    def change_cost(self, before: Key, after: Key) -> float:
        return 0.6 + 0.1 * (KEYS.index(before) + 2 * KEYS.index(after))

    def change_factor(self, place: int) -> float:
        return 1.0 if place % 2 else 1.5


symbols = st.builds(
    Chord.of,
    st.sampled_from([NoteName.parse(name) for name in ("C", "D", "E", "F", "G", "A", "B", "Ab", "Db", "F#")]),
    st.sampled_from(["", "m", "7", "m7", "m7♭5", "dim7", "sus4"]),
)


def charted(chords: Sequence[Chord | None]) -> Chart:
    return Chart(tuple(ChordAt(Fraction(4 * at), Fraction(4), chord) for at, chord in enumerate(chords)))


def stops(song: Chart) -> list[list[tuple[int, Standing]]]:
    """The sounding chords with their places; one that is struck again is no stop of its own."""
    found: list[list[tuple[int, Standing]]] = []
    for at, standing in enumerate(standings(song.chords)):
        if standing is not None and found and found[-1][-1][1].repeats(standing):
            found[-1].append((at, standing))
        elif standing is not None:
            found.append([(at, standing)])
    return found


def every_path(song: Chart) -> dict[tuple[tuple[Key, int], ...], float]:
    """The cost of each path through keys and candidates, added up by hand."""
    along = stops(song)
    ways = [
        [(key, number) for key in KEYS for number in range(len(candidates(stop[0][1], key)))]
        for stop in along
    ]
    return {path: cost_of(along, path) for path in product(*ways)}


def cost_of(along: list[list[tuple[int, Standing]]], path: tuple[tuple[Key, int], ...]) -> float:
    choice, total = AnyKey(), 0.0
    for count, (stop, (key, number)) in enumerate(zip(along, path, strict=True)):
        weight = max(choice.weight(at) for at, _ in stop)
        here = candidates(stop[0][1], key)[number]
        total += sum(choice.evidence(at, key) for at, _ in stop) + weight * here.cost
        following, right = None, None
        if count + 1 < len(along):
            at, following = along[count + 1][0]
            new, other = path[count + 1]
            if new == key:
                right = candidates(following, key)[other]
            else:
                total += choice.change_factor(at) * choice.change_cost(key, new)
        total += weight * join_cost(here, right, following, key)
    return total


@given(st.lists(symbols | st.none(), min_size=1, max_size=4))
@settings(max_examples=60, deadline=None)
def test_no_path_is_cheaper(chords: list[Chord | None]) -> None:
    song = charted(chords)
    found = best_path(song, AnyKey())
    steps = [step for step in found.steps if step is not None]
    if not steps:
        assert found.cost == 0
        return
    costs = every_path(song)
    assert found.cost == pytest.approx(min(costs.values()))
    numbers = [count for count, stop in enumerate(stops(song)) for _ in stop]
    for count, step in zip(numbers, steps, strict=True):
        for key in KEYS:
            through = min(cost for path, cost in costs.items() if path[count][0] == key)
            assert step.key_costs[key] == pytest.approx(through)
        rivals = [
            cost
            for path, cost in costs.items()
            if path[count][0] == step.key
            and candidates(step.standing, step.key)[path[count][1]].written != step.candidate.written
        ]
        assert step.margin == pytest.approx(min(rivals, default=float("inf")) - found.cost)


def test_a_short_tonicisation_stays_in_the_home_key_and_a_long_one_does_not() -> None:
    short = best_path(chart("C F G C D7 G C F G C"), AnyKey()).steps
    assert {str(step.key) for step in short if step} == {"C major"}
    long = best_path(chart("C F G C D7 G Bm Em A7 D G Bm D7 G D7 G"), AnyKey()).steps
    assert (str(long[0].key), str(long[-1].key)) == ("C major", "G major")  # type: ignore[union-attr]


def test_written_keys_are_kept() -> None:
    song = chart("C F G C | D7 G".replace(" | ", " "))
    written = ((Fraction(0), Key.parse("C")), (Fraction(16), Key.parse("A minor")))
    steps = best_path(song, WrittenKeys(song, written)).steps
    assert [str(step.key) for step in steps if step] == ["C major"] * 4 + ["A minor"] * 2
    assert all(set(step.key_costs) == {step.key} for step in steps if step)


def test_silence_has_no_step() -> None:
    path = best_path(chart("N.C. C N.C."), AnyKey())
    assert [step is None for step in path.steps] == [True, False, True]
    assert best_path(chart("N.C."), AnyKey()).steps == (None,)


@given(st.lists(symbols, min_size=1, max_size=6), st.integers(0, 5), st.sampled_from(KEYS))
@settings(max_examples=150, deadline=None)
def test_a_chord_struck_again_keeps_its_reading(chords: list[Chord], at: int, key: Key) -> None:
    at %= len(chords)
    once = read_chart(charted(chords), ((Fraction(0), key),))
    twice = read_chart(charted([*chords[: at + 1], *chords[at:]]), ((Fraction(0), key),))
    said = [(one.numeral, one.kind, one.function, one.resolved) for one in twice]
    assert said[at] == said[at + 1]
    assert said[: at + 1] + said[at + 2 :] == [(o.numeral, o.kind, o.function, o.resolved) for o in once]


@given(st.lists(symbols, min_size=1, max_size=6), st.sampled_from(KEYS))
@settings(max_examples=100, deadline=None)
def test_length_and_place_do_not_change_a_reading_in_a_written_key(chords: list[Chord], key: Key) -> None:
    slow = Chart(tuple(ChordAt(Fraction(7 * n + 3), Fraction(7), chord) for n, chord in enumerate(chords)))
    ours = read_chart(charted(chords), ((Fraction(0), key),))
    theirs = read_chart(slow, ((Fraction(0), key),))
    assert [one.numeral for one in ours] == [one.numeral for one in theirs]
    assert [one.sureness for one in ours] == [one.sureness for one in theirs]
