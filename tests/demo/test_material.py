"""What the demo episode says about its song is what its parts play.

The scores are read by music21; chord tones come from pychord, Roman numerals from music21's own tables. Figures of
suspensions and the kinds of non-chord tone are those of any harmony textbook (from memory).
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest
from pychord import Chord

from tests.demo.conftest import DEMO, Song, Sounding, read_part

CLAP, SNARE, STICK = 39, 38, 37  # General MIDI percussion key map


def _sounding(name: str, start: Fraction, end: Fraction) -> list[Sounding]:
    return [note for note in read_part(name) if note.onset < end and note.end > start]


def _band(start: Fraction, end: Fraction) -> list[Sounding]:
    return [note for name in ("keys", "bass", "guitar") for note in _sounding(name, start, end)]


def _lead_at(place: Fraction) -> Sounding:
    return next(note for note in read_part("lead") if note.onset <= place < note.end)


def _roman(figure: str, key: str) -> set[str]:
    """Spelled tones of a Roman numeral, as music21 builds it. Keys in small letters are minor."""
    from music21 import roman

    return {pitch.name.replace("-", "b") for pitch in roman.RomanNumeral(figure, key).pitches}


# ---- every chord of the chart is what the band plays


NON_CHORD_TONES = {
    "bass": {
        **{(bar, 4.5): "anticipation" for bar in (3, 54, 56)},
        **{(bar, 4): "passing" for bar in (7, 12, 23, 28)},
        **{(bar, 4.5): "passing" for bar in (8, 24, 16, 20, 32, 49, 53, 40)},
    },
    "guitar": {(bar, 4.5): "anticipation" for bar in (1, 3, 54, 56)},
    "keys": {},
}


@pytest.mark.parametrize("part", ["keys", "bass", "guitar"])
def test_notes_outside_the_chord_are_the_listed_ones(song: Song, part: str) -> None:
    chart = list(song.chart())
    line = [note for note in read_part(part) if note.onset >= 0]
    outside = {}
    for chord, following in zip(chart, [*chart[1:], chart[-1]], strict=True):
        tones = set(Chord(chord.symbol).components())
        for n, note in enumerate(line):
            if chord.start <= note.onset < chord.end and note.name not in tones:
                steps = (note.midi - line[n - 1].midi, line[n + 1].midi - note.midi)
                passing = all(1 <= s <= 2 for s in steps) or all(-2 <= s <= -1 for s in steps)
                early = note.name in Chord(following.symbol).components()
                outside[note.onset] = "passing" if passing else "anticipation" if early else "unexplained"
    assert outside == {song.at(bar, beat): kind for (bar, beat), kind in NON_CHORD_TONES[part].items()}


def test_the_band_plays_every_tone_of_every_chord(song: Song) -> None:
    for chord in song.chart():
        played = {note.name for note in _band(chord.start, chord.end)}
        assert set(Chord(chord.symbol).components()) <= played, chord


def test_the_bass_starts_each_chord_on_its_bass_note(song: Song) -> None:
    for chord in song.chart():
        struck = _sounding("bass", chord.start, chord.start + Fraction(1, 4))
        if chord.start >= song.at(3):  # the bass comes in with the band
            bass_note = chord.symbol.partition("/")[2] or Chord(chord.symbol).root
            assert [note.name for note in struck] == [bass_note], chord


def test_the_chart_fills_the_song_without_a_gap(song: Song) -> None:
    chart = list(song.chart())
    assert chart[0].start == 0
    assert all(a.end == b.start for a, b in pairwise(chart))
    assert chart[-1].end == song.at(60) + 4


# ---- the chords that the episode talks about


@pytest.mark.parametrize(
    ("bar", "figure", "key"),
    [
        (5, "I", "D"),
        (6, "I6", "A"),  # A/C#: the slash is a first inversion
        (7, "vi", "D"),
        (10, "V65/vi", "D"),  # the applied dominant
        (14, "VII", "d"),  # borrowed from D minor
        (15, "IV", "D"),
        (16, "iv", "d"),  # borrowed from D minor
        (36, "V", "D"),
        (37, "vi", "D"),  # the pivot, as it is heard when it comes
        (37, "ii", "A"),  # and as it is heard afterwards
        (38, "ii7", "A"),
        (39, "V7", "A"),
        (40, "I", "A"),
        (45, "V65", "D"),  # the way back
        (46, "I", "D"),
    ],
)
def test_numerals(song: Song, bar: int, figure: str, key: str) -> None:
    chord = next(c for c in song.chart() if c.start == song.at(bar))
    assert set(Chord(chord.symbol).components()) - {"E" if bar == 5 else ""} == _roman(figure, key)


def test_the_applied_dominant_resolves(song: Song) -> None:
    before, after = (_band(song.at(bar), song.at(bar) + 1) for bar in (10, 11))
    assert {note.name for note in after} == _roman("vi", "D")
    leading = [note for note in before if note.name == "A#"]
    assert leading and min(leading, key=lambda n: n.midi).midi + 1 == min(
        n.midi for n in after if n.name == "B"
    )


def test_borrowed_chords_leave_the_key_and_belong_to_the_parallel_minor() -> None:
    from music21 import key

    def notes(tonic: str, mode: str) -> set[str]:
        return {pitch.name.replace("-", "b") for pitch in key.Key(tonic, mode).pitches}

    for symbol in ("C", "Gm"):
        tones = set(Chord(symbol).components())
        assert not tones <= notes("D", "major") and tones <= notes("D", "minor")
    for key_name in ("D", "A"):
        assert set(Chord("Bm").components()) <= notes(key_name, "major")  # the pivot lives in both keys


def test_add9_and_power_chord(song: Song) -> None:
    assert {note.name for note in _band(song.at(5), song.at(6))} == {"D", "F#", "A", "E"}
    riff = _band(song.at(1), song.at(1, 3))
    assert {note.name for note in riff} == {"D", "A"}


def test_the_staircase_in_the_keys(song: Song) -> None:
    for bar, step in ((13, 62), (14, 60), (15, 59), (16, 58), (17, 57)):  # D4 C4 B3 Bb3 A3
        upper = [note.midi for note in _sounding("keys", song.at(bar, 2), song.at(bar, 3)) if note.midi >= 55]
        assert step in upper


# ---- the tune


@pytest.mark.parametrize(
    ("bar", "beat", "chord", "figures"),
    [
        (7, 1, "Bm", "4-3"),
        (13, 1, "D", "9-8"),
        (14, 1, "C", "9-8"),
        (15, 1, "G", "4-3"),
        (17, 1, "D", "4-3"),
        (36, 1, "A", "4-3"),
        (43, 1, "E7sus4", "9-8"),
        (46, 1, "D", "9-8"),
    ],
)
def test_suspensions_in_the_tune(song: Song, bar: int, beat: float, chord: str, figures: str) -> None:
    """Prepared as a tone of the chord before, held over the bar line, resolved down by step to a tone of the chord."""
    place = song.at(bar, beat)
    chart = list(song.chart())
    here = next(c for c in chart if c.start == place)
    before = next(c for c in chart if c.end == place)
    held = _lead_at(place)
    resolution = _lead_at(held.end)
    assert here.symbol == chord
    assert held.onset < place < held.end
    assert held.name in Chord(before.symbol).components()
    assert held.name not in Chord(chord.replace("sus4", "")).components()
    assert resolution.name in Chord(chord).components()
    assert _figures(Chord(chord).root, held, resolution) == figures


def _figures(root: str, held: Sounding, resolution: Sounding) -> str:
    """Letter steps above the root; a second counts as 9 and the octave as 8, as suspensions are named."""
    letters = "CDEFGAB"
    found = [(letters.index(note.name[0]) - letters.index(root[0])) % 7 + 1 for note in (held, resolution)]
    named = [{1: 8, 2: 9}.get(n, n) if found[0] == 2 else n for n in found]
    assert held.midi - resolution.midi in (1, 2)
    return f"{named[0]}-{named[1]}"


def test_no_third_sounds_under_a_suspension_of_the_chorus(song: Song) -> None:
    for bar, third in ((13, "F#"), (14, "E"), (15, "B"), (17, "F#")):
        assert third not in {note.name for note in _band(song.at(bar), song.at(bar, 2))}
        assert third in {note.name for note in _band(song.at(bar, 2), song.at(bar, 3))}


def test_the_flat_sixth_over_six(song: Song) -> None:
    from music21 import interval, pitch

    note, after = _lead_at(song.at(7, 3)), _lead_at(song.at(7, 4.5))
    above = interval.Interval(pitch.Pitch("B3"), pitch.Pitch("G4"))
    assert (note.name, after.name) == ("G", "F#")
    assert above.name == "m6"
    assert note.onset == song.at(7, 3)


def test_the_keys_have_a_suspension_of_their_own(song: Song) -> None:
    sus, home = (_sounding("keys", song.at(12, beat), song.at(12, beat) + 1) for beat in (1, 3))
    before = _sounding("keys", song.at(11, 3), song.at(11, 4))
    d, c_sharp = 62, 61
    assert d in {n.midi for n in before} and d in {n.midi for n in sus}
    assert c_sharp in {n.midi for n in home} and d not in {n.midi for n in home}


def test_the_tune_can_be_sung(song: Song) -> None:
    line = read_part("lead")
    assert min(n.midi for n in line) >= 57 and max(n.midi for n in line) <= 78  # A3 to F#5
    leaps = [abs(a.midi - b.midi) for a, b in pairwise(line) if a.end == b.onset]
    assert max(leaps) <= 12
    assert sum(leap <= 4 for leap in leaps) / len(leaps) > 0.75
    assert [n.onset for n in line if n.midi == 78] == [song.at(42, 4)]  # the one high F#


# ---- form, meter, tempo


def test_keys_change_where_the_project_file_says(song: Song) -> None:
    from music21 import converter

    staff = converter.parse(DEMO / "scores" / "lead.musicxml").parts[0]
    bars = {m.number: m.keySignature.sharps for m in staff.getElementsByClass("Measure") if m.keySignature}
    assert bars == {0: 2, 38: 3, 45: 2}
    assert song.written["key"] == {"1": "D major", "bridge": "A major", "45": "D major"}


@pytest.mark.parametrize("part", ["lead", "keys", "guitar", "bass"])
def test_meter_and_pickup_of_each_part(part: str) -> None:
    from music21 import converter

    for staff in converter.parse(DEMO / "scores" / f"{part}.musicxml").parts:
        lengths = {m.number: m.barDuration.quarterLength for m in staff.getElementsByClass("Measure")}
        assert {bar for bar, length in lengths.items() if length != 4} == {37}
        assert lengths[37] == 2
        assert staff.getElementsByClass("Measure")[0].quarterLength == 1
        assert max(lengths) == 60


ACCENT = 100
"""MIDI velocity from which a stroke counts as part of the backbeat; ghost notes are softer."""


def _midi() -> tuple[list[tuple[Fraction, int]], list[tuple[Fraction, int]]]:
    """Accented strokes (place, key number) and tempo changes (place, microseconds a quarter) of the drum file."""
    from music21 import midi

    file = midi.MidiFile()
    file.open(str(DEMO / "scores" / "drums.mid"))
    file.read()
    file.close()
    strokes, tempos, now = [], [], 0
    for event in file.tracks[0].events:
        if isinstance(event, midi.DeltaTime):
            now += event.time
            continue
        place = Fraction(now, file.ticksPerQuarterNote) - 1  # the file starts with the pickup
        if event.isNoteOn():
            assert event.channel == 10  # General MIDI keeps channel 10 for percussion
            if event.velocity >= ACCENT:
                strokes.append((place, event.pitch))
        elif event.type == midi.MetaEvents.SET_TEMPO:
            tempos.append((place, int.from_bytes(event.data, "big")))
    return strokes, tempos


def test_the_groove_halves_in_the_bridge(song: Song) -> None:
    strokes, _ = _midi()

    def beats(name: str, keys: set[int]) -> set[Fraction]:
        """Beats on which the instruments are struck in most bars of a section."""
        first, last = song.sections[name]
        bars = [bar for bar in range(first, last + 1) if song.bar_length(bar) == 4]
        struck = Counter(
            at - song.at(bar) + 1
            for bar in bars
            for at, key in strokes
            if key in keys and song.at(bar) <= at < song.at(bar) + 4
        )
        return {beat for beat, times in struck.items() if times > len(bars) / 2}

    for name, backbeat in (("verse", STICK), ("chorus", SNARE), ("chorus", CLAP), ("verse 2", SNARE)):
        assert beats(name, {backbeat}) == {2, 4}
    assert beats("bridge", {SNARE}) == {3}
    assert not [at for at, key in strokes if key in (CLAP, STICK) and song.at(38) <= at < song.at(46)]
    claps = [at - song.at(37) + 1 for at, key in strokes if key == CLAP and song.at(37) <= at < song.at(38)]
    assert claps == [2, 2.5]


def test_the_tempo_drifts_a_little(song: Song) -> None:
    bars = list(song.anchors)
    tempos = []
    for first, last in pairwise(bars):
        seconds = song.anchors[last] - song.anchors[first]
        tempos.append(float(60 * (song.at(last) - song.at(first)) / seconds))
    assert len(bars) >= 3 and len({round(tempo, 1) for tempo in tempos}) == len(tempos)
    assert all(92 < tempo < 103 for tempo in tempos)
    assert tempos[3] < min(tempos[:3])  # the bridge leans back
    _, written = _midi()
    assert [60_000_000 / microseconds for _, microseconds in written] == pytest.approx(tempos, abs=0.01)


def test_sections_cover_the_song(song: Song) -> None:
    ranges = list(song.sections.values())
    assert ranges[0][0] == 1 and ranges[-1][1] == 60
    assert all(a[1] + 1 == b[0] for a, b in pairwise(ranges))
    assert len(ranges) >= 4
