"""The scratch voice: as long as its segment to the sample, the same bytes again, and no word cut."""

from __future__ import annotations

import sys
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.project.lengths import reading_time
from studio.sound import scratch
from studio.sound.error import SoundError
from studio.sound.loudness import measure
from studio.sound.samples import silence
from studio.sound.scratch import spoken
from studio.sound.speech.machine import for_a_machine
from studio.sound.talking import talks
from studio.timeline.heard import RATE, Spoken

SCRIPT = (
    "Listen to the bar lines. Three times running, the band changes chord and the tune does not. It holds its old "
    "note for one more beat, then steps down to join them."
)
SYMBOLS = "Four chords, I–♭VII–IV–iv: A/C♯, then F♯7, Bm7 and Asus4."


@pytest.fixture(autouse=True, scope="module")
def _installed() -> None:
    pytest.importorskip("espeakng_loader", reason="the optional extra 'scratch' is not installed")


def needed(script: str) -> int:
    """The samples that a segment gives its script."""
    return round(reading_time(script) * RATE)


def last_sound(samples: np.ndarray) -> int:
    return int(np.flatnonzero(np.abs(samples).max(axis=1) > 1e-4)[-1])


@pytest.mark.parametrize("script", [SCRIPT, SYMBOLS, "Yes.", "Now one, two, three, four"])
def test_it_takes_as_long_as_its_segment_gives_it_and_fills_most_of_that(script: str) -> None:
    length = needed(script)
    samples = spoken(Spoken(script, length))
    assert samples.shape == (length, 2) and samples.dtype == np.float32
    assert last_sound(samples) > 0.9 * length or script == "Yes."
    assert np.array_equal(samples[:, 0], samples[:, 1])


def test_where_there_is_time_it_does_not_drag_but_leaves_silence_at_the_end() -> None:
    samples = spoken(Spoken(SCRIPT, 60 * RATE))
    slowest = last_sound(samples)
    assert 10 * RATE < slowest < 25 * RATE
    assert not samples[slowest + RATE :].any()


def test_no_word_is_cut_however_little_time_there_is() -> None:
    """Words are islands of sound: as many in a third of the time, and the last of them is not cut off."""
    lists = "Bat. Cat. Dog. Pig. Cow. Hen. Tea. Bee."
    slow, quick = spoken(Spoken(lists, 8 * RATE)), spoken(Spoken(lists, round(2.6 * RATE)))
    assert len(talks(slow)) == len(talks(quick)) == 8
    assert np.abs(quick[-48:]).max() < 0.02


@pytest.mark.parametrize("share", [1.3, 1.9, 5.0])
@pytest.mark.slow
def test_too_much_is_hurried_at_the_same_pitch_and_none_of_it_is_cut(share: float) -> None:
    """However dense a script is, a build is not stopped by it: `check` has said that nobody can say it."""
    lists = "Bat. Cat. Dog. Pig. Cow. Hen. Tea. Bee."
    least = next(n for n in range(1, 60) if _fits(lists, n / 10)) / 10
    hurried = spoken(Spoken(lists, round(least / share * RATE)))
    assert len(hurried) == round(least / share * RATE)
    assert last_sound(hurried) > 0.9 * len(hurried)


def test_no_time_at_all_is_no_sound() -> None:
    assert len(spoken(Spoken("Hello", 0))) == 0
    assert len(spoken(Spoken("Hello", 1))) == 1


DENSE = st.sampled_from(
    ["I–V/vi–vi–ii–V", "vii°7/ii", "F♯7/A♯", "C7(♭9,♯11)", "♭VII–♭VI–V7", "D|C", "Ger6–V6/4–5/3", "A–B–C♯–D", "6/8",
     "8–7–♭7–6", "♯11", "N.C.", "|: C | Am :|", "IVadd9", "1999", "24 %", "off-beat", "the", "a", "I"]
)  # fmt: skip


@settings(max_examples=12, deadline=None)
@given(st.lists(DENSE, min_size=1, max_size=20).map(" ".join))
def test_a_script_full_of_symbols_is_said_in_its_reading_time_without_hurry(script: str) -> None:
    assert _fits(for_a_machine(script, "en"), float(reading_time(script)))


def _fits(script: str, seconds: float) -> bool:
    about, said = scratch._asked(script, "en", seconds, slowest=450)
    return len(said) / 2 / about["rate"] <= seconds


def test_the_same_words_are_the_same_bytes() -> None:
    one, two = (spoken(Spoken(SCRIPT, needed(SCRIPT))) for _ in range(2))
    assert one.tobytes() == two.tobytes()


def test_it_speaks_at_a_level_that_is_like_a_recorded_voice() -> None:
    loudness = measure(spoken(Spoken(SCRIPT, needed(SCRIPT))))
    assert loudness.integrated == pytest.approx(-20.0, abs=1.5)
    assert loudness.true_peak is not None and loudness.true_peak < -1.0


def test_it_begins_and_ends_in_silence_without_a_click() -> None:
    samples = spoken(Spoken(SCRIPT, needed(SCRIPT)))
    end = last_sound(samples)
    assert np.abs(samples[:2]).max() < 1e-3
    assert np.abs(np.diff(samples[end - 48 :, 0])).max() < 0.01


def test_what_it_says_changes_with_the_words_and_the_language() -> None:
    english, german = (spoken(Spoken("Im Takt sind vier.", 2 * RATE, name)) for name in ("en-gb", "de"))
    assert not np.array_equal(english, german)
    assert not np.array_equal(german, spoken(Spoken("Im Takt sind drei.", 2 * RATE, "de")))


def test_symbols_are_said_as_words() -> None:
    length = 8 * RATE
    signs, words = Spoken("A♯ over F♯", length), Spoken("A sharp over F sharp", length)
    assert np.array_equal(spoken(signs), spoken(words))


@pytest.mark.parametrize("script", ["", "  \n ", "…", "— –"])
def test_nothing_to_say_is_silence(script: str) -> None:
    assert np.array_equal(spoken(Spoken(script, RATE)), silence(RATE))


@pytest.mark.parametrize("language", ["xx", "klingonese", "", "../../etc"])
def test_a_language_that_nobody_taught_it_is_refused_with_some_that_it_has(language: str) -> None:
    with pytest.raises(SoundError, match=rf"does not speak '{language}'; among what it speaks are .*de"):
        spoken(Spoken("Hello", RATE, language))


def test_a_language_with_a_slip_is_answered_with_the_nearest() -> None:
    with pytest.raises(SoundError, match="en-gb-scotland"):
        spoken(Spoken("Hello", RATE, "en-scotland"))


def test_a_variant_of_a_voice_may_be_asked_for() -> None:
    plain, other = (spoken(Spoken("Hello there", RATE, name)) for name in ("en", "en+f3"))
    assert not np.array_equal(plain, other)


def test_it_leaves_no_file_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("TMPDIR", "TEMP", "TMP"):
        monkeypatch.setenv(name, str(tmp_path))
    spoken(Spoken("Hello there", RATE))
    assert not list(tmp_path.iterdir())


def test_a_voice_that_dies_is_one_plain_sentence(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    broken = tmp_path / "broken.py"
    broken.write_text("import os\nos.abort()\n")
    monkeypatch.setattr(scratch.speaker, "__file__", str(broken))
    with pytest.raises(SoundError, match="The scratch voice failed"):
        spoken(Spoken("Hello", RATE))


def test_without_the_extra_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "espeakng_loader", None)
    with pytest.raises(SoundError, match="not installed; install the program with its extra 'scratch'"):
        spoken(Spoken("Hello", RATE))


@pytest.mark.slow
def test_a_script_of_ten_minutes_is_said_to_its_end() -> None:
    script = (SCRIPT + " ") * 47
    samples = spoken(Spoken(script, needed(script)))
    assert len(samples) == needed(script) > 9 * 60 * RATE
    assert Fraction(last_sound(samples), len(samples)) > Fraction(9, 10)
