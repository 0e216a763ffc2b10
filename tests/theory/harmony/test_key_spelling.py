"""Keys take the chart's side of the circle, and never more than seven accidentals."""

import pytest

from studio.theory.harmony.keys import infer_keys
from tests.theory.charts import chart, line


@pytest.mark.parametrize(
    ("bars", "key"),
    [
        ("F# B C#7 F#", "F♯ major"),
        ("Gb Cb Db7 Gb", "G♭ major"),
        ("D#m G#m A#7 D#m", "D♯ minor"),
        ("Ebm Abm Bb7 Ebm", "E♭ minor"),
        ("C# F# G#7 C#", "C♯ major"),
        ("Db Gb Ab7 Db", "D♭ major"),
        ("G# C# D#7 G#", "A♭ major"),  # eight sharps are nobody's key
        ("Fb Bbb Cb7 Fb", "E major"),
    ],
)
def test_spelling(bars: str, key: str) -> None:
    (found,) = infer_keys(chart(bars))
    assert str(found.key) == key


def test_a_melody_without_chords_spells_its_key() -> None:
    (sharp,) = infer_keys(chart("N.C."), (), line("F#4 G#4 A#4 B4 C#5 B4 A#4 E#4 F#4:4"))
    (flat,) = infer_keys(chart("N.C."), (), line("Gb4 Ab4 Bb4 Cb5 Db5 Cb5 Bb4 F4 Gb4:4"))
    assert (str(sharp.key), str(flat.key)) == ("F♯ major", "G♭ major")
