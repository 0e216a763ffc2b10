"""What the program plays in an excerpt: in time, in tune, at its level, and beside a recording."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound import SoundError, scratch
from studio.sound.excerpt import render
from studio.timeline.heard import Cut, Dip, Pass, Played, Source, Spoken, Tone
from tests.sound.hearing import cents_off, tone


def _written(path: Path, sound: np.ndarray) -> Source:
    soundfile.write(path, sound, 48_000, subtype="FLOAT")
    return Source(str(path))


PLUCKS = tuple(Tone(24_000 + 12_000 * number, 6000, 57 + number) for number in range(4))


@pytest.mark.parametrize("speed", [F(1, 2), F(4, 5), F(1)])
def test_notes_are_played_where_the_cut_says(speed: F) -> None:
    one = Pass((Played(PLUCKS, "plucked"),), 24_000, 48_000)
    cut = Cut((one, one), 0, 480, speed, lead=24_000)
    heard = render(cut)
    for number in range(2):
        for note in PLUCKS:
            at = cut.at(number * 48_000 + note.start - 24_000)
            before, after = heard[at - 240 : at], heard[at : at + 240]
            assert np.sum(after**2) > 4 * np.sum(before**2)
    first = heard[cut.at(0) : cut.at(48_000) - 1440]
    assert np.array_equal(heard[cut.at(48_000) :][: len(first)], first)  # the repeat is the same to the bit


def test_played_notes_are_tuned_not_stretched() -> None:
    note = Played((Tone(0, 48_000, 69),), "sustained")
    heard = render(Cut((Pass((note,), 0, 48_000),), 0, 0, F(1, 2), cents=20.0))
    assert abs(cents_off(heard[9600:86_400], 440 * 2 ** (20 / 1200))) < 1


def test_what_is_played_has_gain_pan_and_dips_like_a_file() -> None:
    note = Played((Tone(0, 96_000, 60),), "sustained")
    one = Pass((note,), 0, 96_000)
    plain = render(Cut((one,), 0, 0))
    moved = replace(note, gain_db=-6.0, pan=1.0, dips=(Dip(48_000, 96_000, 20.0, 480),))
    heard = render(Cut((replace(one, sources=(moved,)),), 0, 0))
    assert not heard[:, 0].any()
    assert heard[:47_520, 1] == pytest.approx(plain[:47_520, 1] * 0.501187, abs=1e-6)
    assert heard[48_000:, 1] == pytest.approx(plain[48_000:, 1] * 0.0501187, abs=1e-6)


def test_notes_outside_of_the_pass_are_not_played() -> None:
    tones = (Tone(0, 1000, 60), Tone(90_000, 1000, 60), Tone(24_000, 24_000, 69))
    one = Pass((Played(tones, "sustained"),), 20_000, 40_000)
    assert np.array_equal(
        render(Cut((one,), 0, 0)),
        render(Cut((replace(one, sources=(Played(tones[2:], "sustained"),)),), 0, 0)),
    )


def test_what_is_played_may_begin_before_0_but_a_recording_may_not(tmp_path: Path) -> None:
    # A song without a recording whose first bar is at 0 s and has a pickup.
    early = Played((Tone(-24_000, 12_000, 69), Tone(0, 12_000, 57)), "sustained")
    later = replace(early, tones=tuple(replace(tone, start=tone.start + 24_000) for tone in early.tones))
    heard, same = (
        render(Cut((Pass((sound,), start, 48_000),) * 2, 240, 240, F(4, 5)))
        for sound, start in ((early, -24_000), (later, 0))
    )
    assert np.abs(heard[:4800]).max() > 0.01 and np.array_equal(heard, same)
    stem = _written(tmp_path / "stem.wav", tone(220, 2))
    with pytest.raises(SoundError, match=r"cannot start at -0\.500 s: a recording starts at 0 s"):
        render(Cut.of((early, stem), -24_000, 48_000, 0, 0))


def test_a_file_and_what_is_played_sound_together(tmp_path: Path) -> None:
    stem, note = _written(tmp_path / "tone.wav", tone(220, 2)), Played(PLUCKS, "struck")
    both, file, played = (
        render(Cut((Pass(sources, 24_000, 48_000),), 240, 240, F(4, 5)))
        for sources in ((stem, note), (stem,), (note,))
    )
    assert both == pytest.approx(file + played, abs=1e-6)


def test_the_scratch_voice_takes_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    words = np.random.default_rng(5).normal(0, 0.1, (48_000, 2)).astype(np.float32)
    monkeypatch.setattr(scratch, "spoken", lambda one: words)
    heard = render(Cut.of((Spoken("One two three.", 48_000),), 0, 48_000, 0, 0))
    assert np.array_equal(heard, words)
