"""How what is played ends."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.sound.instrument.play import TIMBRES, played
from studio.timeline.heard import RATE, Tone
from studio.timeline.playing.ending import RELEASES, lifted, rung_on

tones = st.lists(
    st.builds(Tone, start=st.integers(0, 900), length=st.integers(1, 2000), midi=st.just(60)), max_size=5
)


def test_the_sounds_fall_silent_in_the_time_that_their_timbres_take() -> None:
    assert {name: float(seconds) for name, seconds in RELEASES.items()} == {
        name: timbre.release for name, timbre in TIMBRES.items()
    }


@pytest.mark.parametrize("sound", TIMBRES)
@pytest.mark.parametrize("length", [RATE // 4, RATE])
def test_nothing_is_cut_at_the_end(sound: str, length: int) -> None:
    """The last five milliseconds, in which an excerpt fades at any rate, are 30 dB under the sound."""
    last = Tone(0, length, 57)
    cut, ended = (
        abs(played(one, sound, "", length)).max(axis=1)
        for one in ((last,), lifted((last,), length, round(RELEASES[sound] * RATE)))
    )
    loudest = cut.max()
    assert ended[-RATE // 200 :].max() < loudest / 30
    assert cut[-RATE // 200 :].max() > loudest / 30


def test_keys_that_are_up_by_then_are_left_alone_and_late_ones_are_held_for_half_of_what_is_left() -> None:
    written = (Tone(0, 500, 60), Tone(0, 1000, 64), Tone(900, 100, 67))
    assert lifted(written, 1000, 200) == (Tone(0, 500, 60), Tone(0, 800, 64), Tone(900, 50, 67))


@given(tones, st.integers(0, 300))
def test_lifting_moves_no_start(written: list[Tone], release: int) -> None:
    found = lifted(written, 1000, release)
    assert [(one.start, one.midi) for one in found] == [(one.start, one.midi) for one in written]
    assert all(1 <= one.length <= before.length for one, before in zip(found, written, strict=True))


def test_in_a_tail_what_is_down_rings_on_and_nothing_is_struck() -> None:
    written = (Tone(0, 400, 60), Tone(500, 500, 64), Tone(600, 700, 67), Tone(1000, 300, 72))
    assert rung_on(written, 1000, 2000) == (Tone(0, 400, 60), Tone(500, 1500, 64), Tone(600, 1400, 67))
