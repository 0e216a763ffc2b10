"""Line clichés and descending basses. The minor line R–7–♭7–6 and the major line 5–♯5–6–♭7 are common practice of
every guitar method; the lament bass is Open Music Theory, "Classical schemas (in a pop context)": the bass goes down
the minor tetrachord 1–♭7–♭6–5, its middle chords free.
"""

import pytest

from studio.theory.progression.cliches import find_lines
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("bars", "key", "kind", "notes", "inside"),
    [
        ("Am AmMaj7 Am7 Am6", "A minor", "line cliché", "A G♯ G F♯", "Am"),
        ("Am AmMaj7 Am7 D9", "A minor", "line cliché", "A G♯ G F♯", "Am"),
        ("Am Am/G# Am/G F#m7b5", "A minor", "line cliché", "A G♯ G F♯", "Am"),
        ("C Caug C6 C7", "C", "line cliché", "G G♯ A B♭", "C"),
        ("C Cmaj7 C7 F", "C", "line cliché", "C B B♭", "C"),
        ("C Cmaj7 C6 C", "C", "line cliché", "C B A", "C"),
        ("Am Am(b6) Am6 Am7", "A minor", "line cliché", "E F F♯ G", "Am"),
        ("Am G F E", "A minor", "lament bass", "A G F E", ""),
        ("Am Em/G F E", "A minor", "lament bass", "A G F E", ""),
        ("Am E/G# Am/G D/F# F E", "A minor", "chromatic lament bass", "A G♯ G F♯ F E", ""),
        ("C G/B Am C/G F", "C", "descending bass", "C B A G F", ""),
        ("C C/B C/A C/G", "C", "descending bass", "C B A G", "C"),
    ],
)
def test_lines(bars: str, key: str, kind: str, notes: str, inside: str) -> None:
    (found,) = find_lines(readings(bars, key))
    assert (found.kind, " ".join(map(str, found.notes)), found.inside) == (kind, notes, inside)


@pytest.mark.parametrize(
    "bars", ["A E F#m D", "C F G C", "Dsus4 D Dsus2 D", "C Am F G", "C Dm Em F G", "C", "F Em Dm C"]
)
def test_plain_progressions_have_none(bars: str) -> None:
    assert find_lines(readings(bars, "C")) == ()


@pytest.mark.parametrize(
    ("bars", "key"),
    [
        # common practice: a line cliché needs one triad that holds; here the chords change
        ("Dm7 G7 Dm7 G7", "D minor"),
        ("Cm7 Fm7 Cm7 Cm7 Fm7 Fm7 Cm7", "C minor"),
        ("Am7 D7 Dm7 G7", "C"),
        ("Dm7 G7 C6 C6", "C"),
        ("Gm11 Am7 Abmaj7 Gm7/C", "F"),
    ],
)
def test_chords_that_change_hold_no_cliche(bars: str, key: str) -> None:
    assert [line for line in find_lines(readings(bars, key)) if line.kind == "line cliché"] == []


def test_silence_breaks_a_line() -> None:
    assert find_lines(readings("Am AmMaj7 N.C. Am7 Am6", "A minor")) == ()
    assert find_lines(()) == ()
