"""Strong and weak beats, against music21's accent weights."""

from fractions import Fraction as F

import pytest

from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.theory.melody.beats import beat_at, beat_in


@pytest.mark.parametrize("written", ["2/4", "3/4", "4/4", "2/2", "3/2", "3/8", "6/8", "9/8", "12/8"])
def test_weights_agree_with_music21(written: str) -> None:
    """music21 10: ``TimeSignature.getAccentWeight`` at each division that it names."""
    from music21 import meter

    ours, theirs = Meter.parse(written), meter.TimeSignature(written)
    eighths = [F(eighth, 2) for eighth in range(int(ours.bar * 2))]
    for offset in eighths:
        weight = theirs.getAccentWeight(float(offset), forcePositionMatch=True, permitMeterModulus=True)
        if weight > float(min(beat_in(ours, at).weight for at in eighths)):
            assert float(beat_in(ours, offset).weight) == weight, (written, offset)


@pytest.mark.parametrize(
    ("written", "names"),
    [
        ("4/4", "downbeat, offbeat, weak beat, offbeat, strong beat, offbeat, weak beat, offbeat"),
        ("3/4", "downbeat, offbeat, weak beat, offbeat, weak beat, offbeat"),
        ("6/8", "downbeat, offbeat, offbeat, weak beat, offbeat, offbeat"),
        ("5/4", "downbeat, offbeat, weak beat, offbeat, weak beat, offbeat, weak beat, offbeat, weak beat, offbeat"),
    ],
)  # fmt: skip
def test_names_of_the_eighths(written: str, names: str) -> None:
    meter = Meter.parse(written)
    assert ", ".join(beat_in(meter, F(eighth, 2)).name for eighth in range(int(meter.bar * 2))) == names


def test_dotted_beats_of_twelve_eight() -> None:
    names = [beat_in(Meter(12, 8), F(3 * beat, 2)).name for beat in range(4)]
    assert names == ["downbeat", "weak beat", "strong beat", "weak beat"]


def test_the_finer_the_weaker_and_never_below_nothing() -> None:
    places = [F(0), F(2), F(1), F(1, 2), F(1, 4), F(1, 8)]
    weights = [beat_in(Meter(4, 4), place).weight for place in places]
    assert weights == sorted(weights, reverse=True)
    assert beat_in(Meter(4, 4), F(1, 1000)).weight == 0


def test_meters_change_and_pickups_end_a_bar() -> None:
    time = SongTime(((1, Meter(4, 4)), (2, Meter(3, 4))), ((F(0), F(0)), (F(4), F(2))), pickup=F(1))
    assert [beat_at(at, time).name for at in (F(-1), F(0), F(4), F(6), F(7))] == [
        "weak beat", "downbeat", "downbeat", "weak beat", "downbeat",
    ]  # fmt: skip
