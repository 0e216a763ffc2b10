"""Forms by their letters and names; names are common practice."""

import pytest

from studio.theory.form.plan import Form, form_of
from tests.theory.charts import COMMON_TIME
from tests.theory.form.test_repeats import VERSE, song

CHORUS, BRIDGE = "F G C Am F G C C", "Dm G Em Am Dm G C C7"


def form(*sections: tuple[str, str]) -> Form:
    return form_of(*song(*sections), COMMON_TIME)


@pytest.mark.parametrize(
    ("sections", "letters", "name"),
    [
        ("intro verse chorus verse_2 chorus_2 outro", "ABAB", "verse–chorus form"),
        ("verse chorus verse_2 chorus_2 bridge chorus_3", "ABABCB", "verse–chorus form with a bridge"),
        ("A A2 B A3", "AABA", "thirty-two-bar AABA"),
        ("verse verse_2 bridge verse_3", "AABA", "thirty-two-bar AABA"),
        ("verse verse_2 verse_3", "AAA", "strophic"),
        ("part_1 part_2 part_3", "ABA", ""),
        ("verse bridge chant", "ABC", "through-composed"),
        ("intro outro", "", ""),
    ],
)
def test_letters_and_names(sections: str, letters: str, name: str) -> None:
    chords = {
        "verse": VERSE, "a": VERSE, "chorus": CHORUS, "bridge": BRIDGE, "b": BRIDGE, "part_2": BRIDGE,
    }  # fmt: skip
    named = [
        (
            section.replace("_", " "),
            chords.get(section.lower(), chords.get(section.rstrip("_23").lower(), VERSE)),
        )
        for section in sections.split()
    ]
    found = form(*named)
    assert (found.letters, found.name) == (letters, name)


def test_twelve_bar_blues() -> None:
    found = form(
        ("chorus", "C7 C7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7"), ("chorus 2", "C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7")
    )
    assert found.name == "twelve-bar blues"


def test_verse_and_chorus_may_share_their_chords() -> None:
    assert form(("verse", VERSE), ("chorus", VERSE)).letters == "AB"


def test_a_changed_verse_is_the_same_letter_changed() -> None:
    found = form(("verse", VERSE), ("verse 2", "C G Am F C G F G"), ("verse 3", VERSE))
    assert [section.varied for section in found.sections] == [False, True, False]


def test_a_chorus_that_does_not_come_back_makes_no_verse_chorus_form() -> None:
    """Common practice: the chorus returns; what is heard once is only a verse and a chorus."""
    once = form(("verse", VERSE), ("chorus", CHORUS))
    assert (once.name, once.letters, once.sureness) == ("", "AB", 0.6)
    assert once.reason == "There is one verse and one chorus, and neither comes back."
    two_verses = form(("verse", VERSE), ("verse 2", VERSE), ("chorus", CHORUS))
    assert (two_verses.name, two_verses.sureness) == ("verse–chorus form", 0.6)
    assert two_verses.reason == "There are two verses, but the chorus comes only once."
    back = form(("verse", VERSE), ("chorus", CHORUS), ("chorus 2", CHORUS))
    assert (back.reason, back.sureness) == ("The chorus comes back.", 0.8)
    whole = form(("verse", VERSE), ("chorus", CHORUS), ("verse 2", VERSE), ("chorus 2", CHORUS))
    assert (whole.reason, whole.sureness) == ("Verses alternate with a chorus that comes back.", 0.95)


def test_one_section_is_no_order_of_sections() -> None:
    found = form(("tune", VERSE))
    assert (found.name, found.reason) == ("", "There is one section.")


def test_nothing_is_no_form() -> None:
    found = form_of([], (), COMMON_TIME)
    assert (found.letters, found.name, found.sections, found.sureness) == ("", "", (), 0.0)


def test_without_chords_names_decide() -> None:
    spans, _ = song(("verse", VERSE), ("chorus", CHORUS), ("verse 2", VERSE))
    found = form_of(spans, (), COMMON_TIME)
    assert (found.letters, found.repeats) == ("ABA", ())


def test_without_chords_no_section_is_said_to_be_changed() -> None:
    """A prime says that the chords are otherwise; nobody knows where none are written."""
    spans, chords = song(("verse", VERSE), ("chorus", CHORUS), ("verse 2", VERSE), ("verse 3", BRIDGE))
    bare = form_of(spans, (), COMMON_TIME)
    assert [section.varied for section in bare.sections] == [False] * 4
    first = [reading for reading in chords if reading.at.end <= spans[1][1].end]
    half = form_of(spans, first, COMMON_TIME)
    assert [section.varied for section in half.sections] == [False] * 4
    whole = form_of(spans, chords, COMMON_TIME)
    assert [section.varied for section in whole.sections] == [False, False, False, True]


def test_sections_that_are_named_by_letters_keep_them() -> None:
    found = form(("intro", VERSE), ("A", VERSE), ("C", CHORUS), ("A2", VERSE), ("C′", CHORUS))
    assert found.letters == "ACAC" and found.named_by_letters
    mixed = form(("A", VERSE), ("bridge", CHORUS), ("A2", VERSE))
    assert mixed.letters == "ABA" and not mixed.named_by_letters
    assert not form(("verse", VERSE), ("chorus", CHORUS)).named_by_letters


def test_sections_that_are_only_numbered_have_no_letters_without_chords() -> None:
    spans, chords = song(("part 1", VERSE), ("part 2", CHORUS), ("part 3", VERSE))
    assert form_of(spans, chords, COMMON_TIME).letters == "ABA"
    bare = form_of(spans, (), COMMON_TIME)
    assert (bare.letters, bare.name) == ("", "")
    named, _ = song(("verse", VERSE), ("part 2", CHORUS), ("bridge", VERSE))
    assert (form_of(named, (), COMMON_TIME).letters, form_of(named, (), COMMON_TIME).name) == ("AB", "")
