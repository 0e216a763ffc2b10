"""Words for form."""

from fractions import Fraction as F

import pytest

from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.theory.form.bars import bars_reading
from studio.theory.form.key_plan import key_plan
from studio.theory.form.plan import form_of
from studio.theory.wording.form import (
    bars_words,
    form_name_words,
    form_words,
    key_chords_words,
    key_plan_words,
    letters_words,
    repeat_words,
)
from tests.theory.charts import COMMON_TIME, readings
from tests.theory.form.test_repeats import VERSE, song

CHORUS, BRIDGE = "F G C Am F G C C", "Dm G Em Am Dm G C C7"


def test_a_song_in_a_line() -> None:
    found = form_of(
        *song(
            ("intro", "C G"), ("verse", VERSE), ("chorus", CHORUS), ("verse 2", VERSE), ("chorus 2", f"{CHORUS} G"),
            ("bridge", BRIDGE), ("chorus 3", "F G C Am F G Dm G"), ("outro", "C C"),
        ),
        COMMON_TIME,
    )  # fmt: skip
    assert form_words(found) == "intro, verse–chorus ×2, bridge, chorus, outro"
    assert letters_words(found) == "A B A B′ C B′"
    assert form_name_words(found) == "verse–chorus form with a bridge: A B A B′ C B′"
    assert [repeat_words(repeat, found) for repeat in found.repeats] == [
        "same chords as the verse",
        "as the chorus, but longer",
        "as the chorus, with another ending",
    ]


@pytest.mark.parametrize(
    ("sections", "words"),
    [
        ("verse chorus chorus_2", "verse, chorus ×2"),
        ("verse verse_2 verse_3", "verse ×3"),
        ("verse chorus bridge", "verse, chorus, bridge"),
        ("", "no sections"),
    ],
)
def test_repeats_are_said_once(sections: str, words: str) -> None:
    named = [(section.replace("_", " "), VERSE) for section in sections.split()]
    assert form_words(form_of(*song(*named), COMMON_TIME) if named else form_of([], (), COMMON_TIME)) == words


def test_bars() -> None:
    chords = readings("C G Am F C G F C", "C")
    assert bars_words(bars_reading(COMMON_TIME.bars(1, 8), COMMON_TIME, chords)) == "8 bars, as 4 + 4"
    assert bars_words(bars_reading(COMMON_TIME.bars(1, 4), COMMON_TIME)) == "4 bars"
    assert bars_words(bars_reading(COMMON_TIME.bars(1, 1), COMMON_TIME)) == "1 bar"
    time = SongTime(((1, Meter(4, 4)), (9, Meter(2, 4)), (10, Meter(4, 4))), COMMON_TIME.anchors)
    nine = bars_words(bars_reading(time.bars(1, 9), time, chords))
    assert nine == "9 bars, as 4 + 5: one bar more than eight, bar 9 in 2/4"


def test_keys() -> None:
    sections = [("verse", COMMON_TIME.bars(1, 8)), ("bridge", COMMON_TIME.bars(9, 12))]

    def words(*keys: tuple[int, str]) -> str:
        plan = key_plan([(F(at), Key.parse(key)) for at, key in keys], sections, COMMON_TIME, F(64))
        return key_plan_words(plan)

    assert words((0, "D"), (32, "A"), (48, "D")) == "D major, bridge in A (the dominant), back to D"
    assert words((0, "D"), (32, "Bm")) == "D major, bridge in B minor (the relative minor)"
    assert words((0, "D"), (40, "E")) == "D major, then E (up a whole step)"
    assert words((0, "Bb")) == "B♭ major throughout"
    # Where the key before was not home, home is named: from E♭ to D it is a half step down.
    assert words((0, "C"), (32, "Eb"), (48, "D")) == (
        "C major, bridge in E♭ (up a minor third), then D (up a whole step from C)"
    )
    assert words((0, "C"), (32, "Eb"), (48, "G")) == (
        "C major, bridge in E♭ (up a minor third), then G (the dominant of C)"
    )
    assert words() == "no key"


@pytest.mark.parametrize(
    ("chords", "words"),
    [
        ("C F G C", "all 4 chords belong to it"),
        ("C", "its one chord belongs to it"),
        # D7 is V7 of V, E7 V7 of vi; F minor is of C minor, D♭7 the substitute of G7 (any harmony textbook).
        ("C D7 G C", "3 of 4 chords belong to it; D7 points to another chord of it"),
        ("C D7 G C E7 Am C", "5 of 7 chords belong to it; D7 and E7 point to other chords of it"),
        ("C Fm C G", "3 of 4 chords belong to it; Fm comes from C minor"),
        ("Dm7 Db7 C C", "3 of 4 chords belong to it; D♭7 is a substitute dominant"),
        ("", ""),
    ],
)
def test_what_chords_do_in_one_key(chords: str, words: str) -> None:
    assert key_chords_words(readings(chords, "C") if chords else ()) == words
