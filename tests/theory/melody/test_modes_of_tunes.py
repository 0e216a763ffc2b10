"""Modes against people: Irish and Scottish tunes whose editors wrote the mode down.

music21's corpus carries O'Neill's Music of Ireland (1850), Aird's Airs and Ryan's Mammoth Collection in ABC
notation, with keys such as "K:Ador" and "K:D Mixolydian". The tonic is given and the mode asked for. In most
tunes it is decided; where the deciding note never sounds, the editor's mode is one of ours. All 5 of the 199
tunes that differ contradict the key above them: in "Ally Croaker's Favorite" (A Dorian) the only C is ♯, in "Paddy
Go Easy" (E Dorian) and "Prince Charles' Jig" (A Mixolydian) the only G is ♯ but for grace notes, and "Cross
Road" and "Crabs in the Skillet" have another tonic than is written.
"""

import re
import warnings
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction as F
from pathlib import Path

import pytest

from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.theory.melody.modes import read_mode

MODES = {"dor": "Dorian", "mix": "Mixolydian", "phr": "Phrygian", "lyd": "Lydian"}
_KEY = re.compile(r"(?mi)^K: ?([A-G])([#b]?) ?(dor|mix|phr|lyd)[a-z]*")


def tunes(collection: str) -> Iterator[tuple[str, NoteName, str]]:
    """The tunes of a collection that are in one modal key, as ABC text, with tonic and mode."""
    import music21

    folder = Path(music21.__file__).parent / "corpus" / collection
    for file in sorted(folder.glob("*.abc")):
        for tune in re.split(r"(?m)^(?=X:)", file.read_text(encoding="utf-8", errors="replace")):
            key = _KEY.search(tune)
            if key is not None and len(re.findall(r"(?m)^K:", tune)) == 1:
                yield tune, NoteName.parse(key[1] + key[2]), MODES[key[3].lower()]


def notes_of(tune: str) -> list[Note]:
    from music21 import converter

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        found = converter.parse(tune, format="abc").flatten().notes
    return [
        Note(
            F(n.offset), F(n.quarterLength), Pitch(NoteName(n.pitch.step, int(n.pitch.alter)), n.pitch.octave)
        )
        for n in found
        if n.isNote and n.quarterLength > 0
    ]


def agreement(collection: str) -> Counter[str]:
    counts: Counter[str] = Counter()
    for tune, tonic, mode in tunes(collection):
        names = [candidate.scale.name for candidate in read_mode(notes_of(tune), tonic).candidates]
        counts["decided" if names == [mode] else "in the set" if mode in names else "other"] += 1
    return counts


@pytest.mark.parametrize(
    ("collection", "least"),
    [
        ("airdsAirs", 1.0),
        pytest.param("oneills1850", 0.97, marks=pytest.mark.slow),
        pytest.param("ryansMammoth", 0.92, marks=pytest.mark.slow),
    ],
)
def test_the_mode_that_the_editor_wrote_is_among_ours(collection: str, least: float) -> None:
    counts = agreement(collection)
    assert counts.total() > 30
    assert (counts["decided"] + counts["in the set"]) / counts.total() >= least
    assert counts["decided"] / counts.total() >= 0.7
