"""Sections that repeat others."""

from studio.music.place import Span
from studio.theory.form.repeats import Repeat, repeats
from studio.theory.harmony.reading import Reading
from tests.theory.charts import COMMON_TIME, readings


def song(*sections: tuple[str, str], key: str = "C") -> tuple[list[tuple[str, Span]], tuple[Reading, ...]]:
    """Sections with their chords, a bar to a word."""
    spans, bar = [], 1
    for name, chords in sections:
        length = len(chords.split())
        spans.append((name, COMMON_TIME.bars(bar, bar + length - 1)))
        bar += length
    return spans, readings(" ".join(chords for _, chords in sections), key)


def only(*sections: tuple[str, str]) -> Repeat | None:
    found = repeats(*song(*sections), COMMON_TIME)
    return found[0] if found else None


VERSE = "C G Am F C G F C"


def test_the_same_chords() -> None:
    found = only(("verse", VERSE), ("verse 2", VERSE))
    assert found is not None and (found.likeness, found.alike, found.semitones) == ("same", 8, 0)
    assert found.reason == "Verse 2 has the chords of the verse."


def test_another_ending() -> None:
    found = only(("verse", VERSE), ("verse 2", "C G Am F C G F G"))
    assert found is not None and (found.likeness, found.alike) == ("changed ending", 7)
    longer = only(("verse", VERSE), ("verse 2", "C G Am F C G G Dm G"))
    assert longer is not None and longer.likeness == "changed ending" and longer.bars - longer.of_bars == 1
    assert longer.reason.endswith("then another ending, and has 1 bar more.")


def test_longer_and_shorter() -> None:
    longer, shorter = only(("a", VERSE), ("b", f"{VERSE} F C")), only(("a", VERSE), ("b", "C G Am F"))
    assert longer is not None and longer.likeness == "longer"
    assert shorter is not None and shorter.likeness == "shorter"


def test_in_another_key() -> None:
    found = only(("chorus", "C G Am F"), ("chorus 2", "D A Bm G"))
    assert found is not None and (found.likeness, found.semitones) == ("same", 2)
    assert found.reason == "Chorus 2 has the chords of the chorus, 2 half steps up."
    assert found.sureness < 0.95


def test_what_is_no_repeat() -> None:
    assert only(("verse", VERSE), ("bridge", "Dm G Em Am Dm G C C7")) is None
    assert only(("intro", "N.C. N.C."), ("verse", VERSE)) is None
    assert repeats([], (), COMMON_TIME) == () == repeats([("verse", COMMON_TIME.bars(1, 8))], (), COMMON_TIME)


def test_the_nearest_of_several() -> None:
    spans, chords = song(("verse", VERSE), ("verse 2", "C G Am F C G F G"), ("verse 3", "C G Am F C G F G"))
    assert [(repeat.section, repeat.of) for repeat in repeats(spans, chords, COMMON_TIME)] == [(1, 0), (2, 1)]


def test_where_a_chord_is_struck_again_does_not_matter() -> None:
    spans = [("a", COMMON_TIME.bars(1, 2)), ("b", COMMON_TIME.bars(3, 4))]
    found = repeats(spans, readings("| C | G C | C C | G . C C |", "C"), COMMON_TIME)
    assert [repeat.likeness for repeat in found] == ["same"]
