"""Scores read through music21, laid on the song's bars, and engraved again."""

from __future__ import annotations

import re
from collections import Counter
from contextlib import suppress
from fractions import Fraction
from pathlib import Path

import pytest
import verovio
from hypothesis import given, settings
from hypothesis import strategies as st
from music21 import chord, converter, corpus, expressions, instrument, key, meter, note, stream, tie

from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note, Part
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError
from studio.project.scores import ScoreSetting, read_score
from studio.project.written_part import WrittenPart

F = Fraction
NONE = F(0)
ANCHORS = ((F(0), F(0)), (F(4), F(2)))


def setting(
    *meters: tuple[int, str], pickup: Fraction = NONE, end: int = 64, in_key: str = ""
) -> ScoreSetting:
    time = SongTime(tuple((bar, Meter.parse(text)) for bar, text in meters), ANCHORS, pickup)
    return ScoreSetting(time, F(end), lambda _: Key.parse(in_key) if in_key else None)


FOUR = setting((1, "4/4"))
ABC = "X:1\nM:4/4\nL:1/4\nK:Em\n"


def texts(part: WrittenPart) -> list[tuple[Fraction, Fraction, str]]:
    return [(note.onset, note.length, str(note.pitch)) for note in part.part.notes]


# Reading


def test_a_piano_piece_has_two_staves_and_its_pickup_before_bar_1() -> None:
    """music21's corpus: Scott Joplin, Maple Leaf Rag, an eighth of pickup in 2/4, four flats."""
    source = Path(str(corpus.getWork("joplin/maple_leaf_rag")))
    part = read_score("keys", source, setting((1, "2/4"), pickup=F(1, 2)))
    assert part.clefs == ("treble", "bass")
    assert part.signature(F(0)) == -4
    assert part.part.notes[0].onset == F(-1, 2)
    score = converter.parse(source).toSoundingPitch()
    heads = Counter(
        (F(element.offset) - F(1, 2), pitch.midi)
        for staff in score.parts
        for element in staff.flatten().notes
        if not element.duration.isGrace
        for head in (element.notes if isinstance(element, chord.Chord) else [element])
        if head.tie is None or head.tie.type == "start"
        for pitch in [head.pitch]
    )
    assert Counter((note.onset, note.pitch.midi) for note in part.part.notes) == heads
    assert {note.staff for note in part.part.notes} == {1, 2}


def test_a_missing_pickup_in_the_song_is_a_complaint() -> None:
    source = Path(str(corpus.getWork("joplin/maple_leaf_rag")))
    with pytest.raises(
        MisfitError, match=r"pickup of 1/2 beats before bar 1, and the song has 0; write pickup: 1/2"
    ):
        read_score("keys", source, setting((1, "2/4")))


def test_a_score_of_several_players_is_a_complaint() -> None:
    """music21's corpus: J. S. Bach, chorale BWV 66.6, four voices."""
    source = Path(str(corpus.getWork("bach/bwv66.6")))
    with pytest.raises(MisfitError, match=r"4 parts \(Soprano, Alto, Tenor, Bass\)"):
        read_score("lead", source, setting((1, "4/4"), pickup=F(1)))


def test_one_voice_of_a_chorale_with_a_pickup(tmp_path: Path) -> None:
    """music21's corpus: J. S. Bach, chorale BWV 66.6, the soprano, a quarter of pickup."""
    voice = corpus.parse("bach/bwv66.6").parts[0]
    file = Path(voice.write("musicxml", tmp_path / "soprano.musicxml"))
    part = read_score("lead", file, setting((1, "4/4"), pickup=F(1)))
    assert texts(part)[:3] == [(F(-1), F(1, 2), "C♯5"), (F(-1, 2), F(1, 2), "B4"), (F(0), F(1), "A4")]
    assert part.signature(F(0)) == 3


def test_ties_join_and_grace_notes_and_chord_symbols_are_left_out(tmp_path: Path) -> None:
    staff = stream.Part([meter.TimeSignature("4/4")])
    held = note.Note("F#4", quarterLength=4)
    held.tie = tie.Tie("start")
    over = note.Note("F#4", quarterLength=1)
    over.tie = tie.Tie("stop")
    staff.append([held, over, note.Note("G4", quarterLength=3).getGrace(), note.Note("A4", quarterLength=3)])
    part = read_score("lead", Path(staff.write("musicxml", tmp_path / "a.musicxml")), FOUR)
    assert texts(part) == [(F(0), F(5), "F♯4"), (F(5), F(3), "A4")]


def test_transposing_instruments_sound_where_they_sound(tmp_path: Path) -> None:
    """A B♭ clarinet sounds a tone below what it reads; a guitar an octave, which its clef says."""
    clarinet = stream.Part(
        [instrument.Clarinet(), meter.TimeSignature("4/4"), note.Note("D5", quarterLength=4)]
    )
    part = read_score("lead", Path(clarinet.write("musicxml", tmp_path / "clarinet.musicxml")), FOUR)
    assert texts(part)[0][2] == "C5"
    guitar = """<score-partwise version="4.0">
      <part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list>
      <part id="P1"><measure number="1">
        <attributes>
          <divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>
          <clef><sign>G</sign><line>2</line></clef>
          <transpose><diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>
        </attributes>
        <note><pitch><step>E</step><octave>4</octave></pitch><duration>4</duration><type>whole</type></note>
      </measure></part></score-partwise>"""
    (tmp_path / "guitar.musicxml").write_text(guitar, encoding="utf-8")
    part = read_score("guitar", tmp_path / "guitar.musicxml", FOUR)
    assert texts(part)[0][2] == "E3" and part.clefs == ("treble 8vb",)


@pytest.mark.parametrize(
    ("player", "clef"),
    # Written an octave above sounding (common practice); programs of the General MIDI Level 1 Sound Set.
    [
        (instrument.AcousticGuitar(), "treble 8vb"),
        (instrument.ElectricGuitar(), "treble 8vb"),
        (instrument.ElectricBass(), "bass 8vb"),
        (instrument.Piano(), "bass"),
    ],
)
def test_a_guitar_or_a_bass_in_midi_has_its_usual_clef(
    player: instrument.Instrument, clef: str, tmp_path: Path
) -> None:
    staff = stream.Part([player, meter.TimeSignature("4/4"), note.Note("E2", quarterLength=4)])
    part = read_score("low", Path(staff.write("midi", tmp_path / "a.mid")), FOUR)
    assert part.clefs == (clef,) and texts(part)[0][2] == "E2"


def test_midi_is_spelled_by_the_songs_key(tmp_path: Path) -> None:
    staff = stream.Part(
        [meter.TimeSignature("4/4"), note.Note("B-4"), note.Note("D5"), note.Note("E-5"), note.Note("F5")]
    )
    file = Path(staff.write("midi", tmp_path / "a.mid"))
    assert [text for *_, text in texts(read_score("lead", file, setting((1, "4/4"), in_key="Bb")))] == [
        "B♭4",
        "D5",
        "E♭5",
        "F5",
    ]
    sharp = read_score("lead", file, setting((1, "4/4"), in_key="F# major"))
    assert texts(sharp)[0][2] == "A♯4"
    assert sharp.signature(F(0)) == 6


def test_midi_over_two_octaves_apart_is_two_hands(tmp_path: Path) -> None:
    staff = stream.Part([meter.TimeSignature("4/4"), chord.Chord(["A2", "C#5", "E5"], quarterLength=4)])
    part = read_score("keys", Path(staff.write("midi", tmp_path / "a.mid")), FOUR)
    assert part.clefs == ("treble", "bass")
    assert [(str(note.pitch), note.staff) for note in part.part.notes] == [("C♯5", 1), ("E5", 1), ("A2", 2)]


@pytest.mark.parametrize("rests", [0, 3])
def test_midi_with_a_pickup_begins_with_it_or_with_a_bar_that_waits_for_it(
    tmp_path: Path, rests: int
) -> None:
    staff = stream.Part([meter.TimeSignature("4/4")])
    if rests:
        staff.append(note.Rest(quarterLength=rests))
    staff.append([note.Note("E4"), note.Note("A4", quarterLength=4)])
    part = read_score("lead", Path(staff.write("midi", tmp_path / "a.mid")), setting((1, "4/4"), pickup=F(1)))
    assert [onset for onset, *_ in texts(part)] == [-1, 0]


def test_abc_in_place() -> None:
    part = read_score("lead", "X:1\nM:4/4\nL:1/4\nK:F#m\nA B c2 | [Ac]2 z f- | f4 |\n", FOUR)
    assert texts(part) == [
        (F(0), F(1), "A4"),
        (F(1), F(1), "B4"),
        (F(2), F(2), "C♯5"),
        (F(4), F(2), "A4"),
        (F(4), F(2), "C♯5"),
        (F(7), F(5), "F♯5"),
    ]


@pytest.mark.parametrize(
    ("said", "clef"),
    # ABC 2.1, 4.6: a clef with -8 sounds an octave lower than it is written.
    [
        ("clef=treble-8", "treble 8vb"),
        ("treble-8", "treble 8vb"),
        ("clef=bass octave=-1", "bass"),
        ("octave=-1", "bass"),
    ],
)
@pytest.mark.parametrize("field", ["K:Em {}\n", "V:1 {}\nK:Em\nV:1\n", "K:Em\nV:1 name=Guitar {}\n"])
def test_abc_sounds_where_its_clef_and_octave_say(said: str, clef: str, field: str) -> None:
    part = read_score("guitar", f"X:1\nM:4/4\nL:1/4\n{field.format(said)}E, B, E F |\n", FOUR)
    assert [name for *_, name in texts(part)] == ["E2", "B2", "E3", "F♯3"]
    assert part.clefs == (clef,) and part.signature(F(0)) == 1


def test_each_voice_of_abc_has_its_own_clef() -> None:
    tune = "X:1\nM:4/4\nL:1/4\nK:C\nV:1\nc4 | d4 |\nV:2 clef=bass-8\nC,4 | D,4 |\n"
    part = read_score("keys", tune, FOUR)
    assert part.clefs == ("treble", "bass 8vb")
    assert [name for *_, name in texts(part)] == ["C5", "C2", "D5", "D2"]


@pytest.mark.parametrize(
    "tune", ["E4 | [M:2/4] F2 | [M:4/4] G4 |", "E4 |\nM:2/4\nF2 |\nM:4/4\nG4 |", "E4|F2|G4|"]
)
def test_abc_changes_its_meter_where_the_song_does(tune: str) -> None:
    song = setting((1, "4/4"), (2, "2/4"), (3, "4/4"))
    assert [(onset, length) for onset, length, _ in texts(read_score("lead", f"{ABC}{tune}\n", song))] == [
        (0, 4),
        (4, 2),
        (6, 4),
    ]


def test_the_last_bar_of_abc_may_give_its_pickup_back() -> None:
    """Common practice: pickup and last bar make one bar together."""
    song = setting((1, "4/4"), pickup=F(1))
    assert [onset for onset, *_ in texts(read_score("lead", ABC + "E | F4 | G3 |\n", song))] == [-1, 0, 4]
    with pytest.raises(MisfitError, match="Bar 2 of lead holds 2 beats, and 4/4 has 4"):
        read_score("lead", ABC + "E | F4 | G2 |\n", song)


@pytest.mark.parametrize(
    ("tune", "onsets"),
    [
        ("|: E | F4 | G3 :|", [-1, 0, 4, 7, 8, 12]),
        ("E | F4 | G3 || A | B4 | c3 |]", [-1, 0, 4, 7, 8, 12]),
        ("F4 | G2 :: A2 | B4 |", [0, 4, 6, 8]),
    ],
)
def test_a_repeat_may_stand_within_a_bar(tune: str, onsets: list[int]) -> None:
    song = setting((1, "4/4"), pickup=F(1) if onsets[0] else F(0), end=16 if onsets[0] else 12)
    assert [onset for onset, *_ in texts(read_score("lead", f"{ABC}{tune}\n", song))] == onsets


def test_a_meter_may_change_after_a_repeat() -> None:
    song = setting((1, "4/4"), (5, "2/4"), end=20)
    part = read_score("lead", f"{ABC}|: E4 | F4 :|\nM:2/4\nG2 | A2 |\n", song)
    assert [onset for onset, *_ in texts(part)] == [0, 4, 8, 12, 16, 18]


@pytest.mark.parametrize("tune", ["|: E | F4 | G2 :|", "E | F4 | G2 || A | B4 |", "E | F4 :| G2 | B4 |"])
def test_what_a_repeat_leaves_open_must_be_filled(tune: str) -> None:
    with pytest.raises(MisfitError, match="of lead holds 2 beats, and 4/4 has 4"):
        read_score("lead", f"{ABC}{tune}\n", setting((1, "4/4"), pickup=F(1)))


def test_signs_that_a_tune_names_itself_are_decorations() -> None:
    """ABC 2.1, 4.16."""
    part = read_score("lead", "X:1\nU:k = !4!\nM:4/4\nL:1/4\nK:C\nvkC2 kuD2 |\n", FOUR)
    assert [name for *_, name in texts(part)] == ["C4", "D4"]
    with pytest.raises(MisfitError, match="'k' in bar 1 of lead is no note of ABC"):
        read_score("lead", "X:1\nM:4/4\nL:1/4\nK:C\nkC2 D2 |\n", FOUR)


@pytest.mark.parametrize(
    ("title", "in_meter", "pickup"),
    [
        ("Almacks", "2/2", F(1)),
        ("Amazon", "2/2", F(1)),
        ("Balkan", "2/4", F(1, 2)),
        ("DickSands", "2/2", F(1)),
    ],
)
def test_a_tune_of_a_book_is_read_as_by_another_reader(title: str, in_meter: str, pickup: Fraction) -> None:
    """music21's corpus, Ryan's Mammoth Collection: hornpipes with repeats that stand within bars, triplets and broken
    rhythm. Theirs is the reading of the text as it stands, ours of the text made plain and held to its bars."""
    source = Path(str(corpus.getWork(f"ryansMammoth/{title}Hornpipe")))
    part = read_score("lead", source, setting((1, in_meter), pickup=pickup, end=0))
    score = converter.parse(source, format="abc", forceSource=True)
    theirs = [
        (F(element.quarterLength), int(pitch.midi))
        for element in score.flatten().notes
        if not element.duration.isGrace
        for pitch in element.pitches
    ]
    assert len(theirs) > 100
    assert Counter((note.length, note.pitch.midi) for note in part.part.notes) == Counter(theirs)


def test_in_a_compound_meter_bars_are_counted_in_its_eighths() -> None:
    with pytest.raises(MisfitError, match="Bar 2 of lead holds 7 eighths, and 6/8 has 6"):
        read_score("lead", "X:1\nM:6/8\nL:1/8\nK:G\nG3 B3 | d3 g4 |\n", setting((1, "6/8")))


def test_a_mistake_in_an_abc_file_is_told_with_its_line(tmp_path: Path) -> None:
    (tmp_path / "tune.abc").write_text(ABC + "E4 | F4 |\nG3 Q | B5 |\n", encoding="utf-8")
    with pytest.raises(MisfitError) as raised:
        read_score("lead", tmp_path / "tune.abc", FOUR)
    first, second = (misfit.sentence for misfit in raised.value.every)
    assert first.startswith("Line 6 of 'tune.abc': 'Q' in bar 3 of lead is no note of ABC")
    assert second.startswith("Line 6 of 'tune.abc': Bar 4 of lead holds 5 beats, and 4/4 has 4")


def test_nothing_of_the_library_s_own_reaches_the_terminal(capfd: pytest.CaptureFixture[str]) -> None:
    for tune in ("E2 Q2 |", "E2 i2 |", "(3EFG z2 | {F}.E4 |", "^ E4 |"):
        with suppress(MisfitError):
            read_score("lead", f"{ABC}{tune}\n", FOUR)
    assert capfd.readouterr() == ("", "")


@settings(max_examples=60, deadline=None)
@given(st.text("ABcz^_=,'2/3|:[](){}<>-\"!.HQ# \nKLMV&", max_size=40))
def test_any_text_after_a_key_is_a_part_or_plain_sentences(tune: str) -> None:
    try:
        part = read_score("lead", f"{ABC}{tune}", FOUR)
    except MisfitError as misfit:
        assert all(one.sentence and "\n" not in one.sentence for one in misfit.every)
        assert all(0 <= one.offset <= len(ABC + tune) for one in misfit.every)
    else:
        assert part.part.notes


@pytest.mark.parametrize(
    ("tune", "expected"),
    # ABC 2.1, 4.12 and 4.14.
    [
        ("E4 |", ()),
        ('"Em"uE2 "@text"vE2 |', ()),
        ("{FG}E4 |", ("grace notes",)),
        (".E2 LE2 |", ("articulations",)),
        ("{F}.E2 !fermata!E2 |", ("grace notes", "articulations", "ornaments or fermatas")),
    ],
)
def test_what_of_abc_is_left_out_is_known(tune: str, expected: tuple[str, ...]) -> None:
    part = read_score("lead", f"{ABC}{tune}\n", FOUR)
    assert part.left_out == expected
    assert all(name == "E4" for *_, name in texts(part))


def test_what_of_a_score_is_left_out_is_known(tmp_path: Path) -> None:
    staff = stream.Part([meter.TimeSignature("4/4")])
    staff.append([note.Note("G4", quarterLength=3).getGrace(), note.Note("A4", quarterLength=4)])
    staff.notes[1].expressions.append(expressions.Fermata())
    part = read_score("lead", Path(staff.write("musicxml", tmp_path / "a.musicxml")), FOUR)
    assert part.left_out == ("grace notes", "ornaments or fermatas")


@pytest.mark.parametrize("in_a_file", [False, True])
def test_an_abc_accidental_holds_to_the_bar_line(in_a_file: bool, tmp_path: Path) -> None:
    """ABC 2.1, 11.3: at every octave, up to the bar line; a tune that names an older version has its rules."""
    tune = "X:1\nM:4/4\nL:1/4\nK:C\n^F A F f | F4 |\n"
    source: Path | str = tune
    if in_a_file:
        source = tmp_path / "tune.abc"
        source.write_text(tune, encoding="utf-8")
    assert [name for *_, name in texts(read_score("lead", source, FOUR))] == ["F♯4", "A4", "F♯4", "F♯5", "F4"]
    older = read_score("lead", "%abc-1.6\n" + tune, FOUR)
    assert [name for *_, name in texts(older)] == ["F♯4", "A4", "F4", "F5", "F4"]


def test_a_tie_carries_its_accidental_over_the_bar_line() -> None:
    part = read_score("lead", "X:1\nM:4/4\nL:1/4\nK:C\n^F4- | F2 F2 |\n", FOUR)
    assert texts(part) == [(F(0), F(6), "F♯4"), (F(6), F(2), "F4")]


def test_voices_inside_a_line_are_a_complaint() -> None:
    """music21 would play them one after the other."""
    with pytest.raises(MisfitError, match="write V:1 and V:2 on lines of their own"):
        read_score("keys", "X:1\nM:4/4\nL:1/4\nK:C\n[V:1] c4 |\n[V:2] C4 |\n", FOUR)


def test_repeats_are_played_out_when_the_song_is_long_enough() -> None:
    tune = "X:1\nM:4/4\nL:1/4\nK:C\nC4 | D4 |: C D E F | G4 :|\n"
    assert len(read_score("lead", tune, setting((1, "4/4"), end=16)).part.notes) == 7
    assert len(read_score("lead", tune, setting((1, "4/4"), end=24)).part.notes) == 12


def test_bars_that_are_not_the_songs_are_a_complaint() -> None:
    with pytest.raises(MisfitError, match="Bar 2 of lead holds 4 beats, and 2/4 has 2"):
        read_score(
            "lead", "X:1\nM:4/4\nL:1/4\nK:C\nC4 | D4 | E4 |\n", setting((1, "4/4"), (2, "2/4"), (3, "4/4"))
        )


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("a.musicxml", b"<score-partwise><part>"),
        ("a.musicxml", b"not xml at all"),
        ("a.musicxml", b""),
        ("a.xml", b"<html><body/></html>"),
        ("a.mxl", b"PK\x03\x04 broken"),
        ("a.mid", b"MThd\x00\x00"),
        ("a.mid", b"garbage"),
        ("a.mid", b""),
        ("a.pdf", b"%PDF"),
        ("a.musicxml", b'<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/hostname">]><a>&b;</a>'),
    ],
)
def test_what_is_no_score_is_one_plain_sentence(tmp_path: Path, name: str, content: bytes) -> None:
    (tmp_path / name).write_bytes(content)
    with pytest.raises(MisfitError) as raised:
        read_score("lead", tmp_path / name, FOUR)
    assert name in raised.value.sentence and "\n" not in raised.value.sentence


def test_reading_a_score_leaves_nothing_behind(tmp_path: Path) -> None:
    """music21 would keep a pickle of what it reads, next to it or in the system's temporary folder."""
    staff = stream.Part([meter.TimeSignature("4/4"), note.Note("C4", quarterLength=4)])
    staff.write("musicxml", tmp_path / "a.musicxml")
    read_score("lead", tmp_path / "a.musicxml", FOUR)
    assert [file.name for file in tmp_path.iterdir()] == ["a.musicxml"]


# Engraving


def drawn_ids(musicxml: str) -> set[str]:
    """Ids of the form n3 or n3-t1 that Verovio keeps in its drawing."""
    toolkit = verovio.toolkit()
    toolkit.setOptions({"breaks": "none", "adjustPageWidth": True, "xmlIdSeed": 1})
    assert toolkit.loadData(musicxml)
    return set(re.findall(r'id="(n\d+(?:-t\d+)?)"', toolkit.renderToSVG(1)))


def _drawn(musicxml: str) -> str:
    toolkit = verovio.toolkit()
    assert toolkit.loadData(musicxml)
    return str(toolkit.renderToSVG(1))


def read_back(musicxml: str) -> Counter[tuple[Fraction, int]]:
    """(onset in the excerpt, MIDI number) of each note that is not tied to one before."""
    score = converter.parse(musicxml, format="musicxml", forceSource=True)
    found: Counter[tuple[Fraction, int]] = Counter()
    for staff in score.parts:
        for element in staff.flatten().notes:
            for head in element.notes if isinstance(element, chord.Chord) else [element]:
                if head.tie is None or head.tie.type in ("start", "let-ring"):
                    found[F(element.offset), head.pitch.midi] += 1
    return found


def test_bars_of_a_piano_piece_read_back_the_same() -> None:
    """music21's corpus: Scott Joplin, Maple Leaf Rag."""
    source = Path(str(corpus.getWork("joplin/maple_leaf_rag")))
    part = read_score("keys", source, setting((1, "2/4"), pickup=F(1, 2)))
    span = part.time.bars(5, 8)
    inside = [note for note in part.part.notes if span.contains(note.onset)]
    text = part.musicxml(span, {})
    assert read_back(text) == Counter((note.onset - span.start, note.pitch.midi) for note in inside)
    heads = {
        f"n{n}" for n, note in enumerate(part.part.notes) if note.onset < span.end and note.end > span.start
    }
    assert {name for name in drawn_ids(text) if "-t" not in name} == heads


def test_a_note_that_is_held_beyond_the_last_bar_has_a_tie_that_leads_out() -> None:
    part = read_score("lead", "X:1\nM:4/4\nL:1/4\nK:C\nC2 D2- | D4- | D4 |\n", FOUR)
    out = [part.musicxml(part.time.bars(1, last)).count('<tied type="let-ring"') for last in (1, 3)]
    assert out == [1, 0]
    assert 'class="lv' in _drawn(part.musicxml(part.time.bars(1, 1)))


def test_engraving_is_the_same_each_time() -> None:
    part = read_score("lead", "X:1\nM:4/4\nL:1/4\nK:A\nA B c d | e4 |\n", FOUR)
    span = Span(F(0), F(8))
    assert part.musicxml(span) == part.musicxml(span)


def test_what_stands_at_the_start_and_under_the_notes(tmp_path: Path) -> None:
    staff = stream.Part([meter.TimeSignature("3/4"), key.KeySignature(3)])
    staff.append(
        [note.Note("A4"), note.Note("B4"), note.Note("C#5"), chord.Chord(["A4", "C#5"], quarterLength=6)]
    )
    part = read_score("lead", Path(staff.write("musicxml", tmp_path / "a.musicxml")), setting((1, "3/4")))
    labels = {part.part.notes[0]: "♭6", part.part.notes[3]: "1", part.part.notes[4]: "3"}
    text = part.musicxml(Span(F(1), F(9)), labels)
    score = converter.parse(text, format="musicxml", forceSource=True)
    opening = score.parts[0].getElementsByClass("Measure")[0]
    assert opening.timeSignature.ratioString == "3/4" and opening.keySignature.sharps == 3
    assert opening.clef.sign == "G" and opening.number == 1
    lyrics = [[lyric.text for lyric in element.lyrics] for element in score.flatten().notes]
    assert lyrics == [["♭6"], [], [], ["3", "1"], []]
    assert drawn_ids(text) == {"n0", "n1", "n2", "n3", "n4", "n3-t1", "n4-t1"}


def test_a_later_bar_starts_with_the_key_that_holds_there(tmp_path: Path) -> None:
    staff = stream.Part()
    for number, sharps in ((1, 3), (2, -2)):
        bar = stream.Measure(number=number)
        bar.append([key.KeySignature(sharps), note.Note("A4", quarterLength=4)])
        if number == 1:
            bar.insert(0, meter.TimeSignature("4/4"))
        staff.append(bar)
    part = read_score("lead", Path(staff.write("musicxml", tmp_path / "a.musicxml")), FOUR)
    assert "<fifths>-2</fifths>" in part.musicxml(part.time.bars(2, 2))
    assert "<fifths>3</fifths>" not in part.musicxml(part.time.bars(2, 2))


TICKS = st.sampled_from(
    [F(1, 4), F(1, 3), F(1, 2), F(2, 3), F(3, 4), F(1), F(5, 4), F(3, 2), F(2), F(5, 2), F(3), F(5)]
)
NOTES = st.builds(
    lambda start, part, length, midi, staff: Note(
        F(start) + part, length, Pitch.from_midi(midi, None), staff
    ),
    st.integers(-1, 12),
    st.sampled_from([F(0), F(1, 4), F(1, 3), F(1, 2), F(2, 3), F(3, 4)]),
    TICKS,
    st.integers(40, 84),
    st.integers(1, 2),
)


SOME_NOTES = st.lists(NOTES, min_size=1, max_size=12, unique_by=lambda note: (note.onset, note.pitch.midi))


@settings(max_examples=8, deadline=None)
@given(notes=SOME_NOTES)
def test_any_notes_can_be_engraved_and_each_head_keeps_its_id(notes: list[Note]) -> None:
    _engraved_and_read_back(notes)


@pytest.mark.slow
@settings(max_examples=60, deadline=None)
@given(notes=SOME_NOTES)
def test_many_notes_can_be_engraved_and_each_head_keeps_its_id(notes: list[Note]) -> None:
    _engraved_and_read_back(notes)


def _engraved_and_read_back(notes: list[Note]) -> None:
    time = SongTime(((1, Meter(4, 4)), (2, Meter(6, 8)), (3, Meter(2, 4))), ANCHORS, F(1))
    part = WrittenPart(Part("any", tuple(notes)), time, ("treble", "bass"), ((F(0), 2),), played=False)
    span = time.bars(0, 5)
    text = part.musicxml(span, {})
    inside = {f"n{n}" for n, note in enumerate(notes) if note.onset < span.end and note.end > span.start}
    assert set(re.findall(r'<note id="(n\d+)"', text)) == inside
    assert Counter(read_back(text)) == Counter(
        (n.onset + 1, n.pitch.midi) for n in notes if span.contains(n.onset)
    )


def test_a_score_in_another_meter_of_the_same_length_is_a_complaint() -> None:
    with pytest.raises(MisfitError, match="meter here is 6/8 at bar 1 of lead, and the song's is 3/4"):
        read_score("lead", "X:1\nM:6/8\nL:1/8\nK:G\nG3 B3 | d3 g3 |\n", setting((1, "3/4")))


def test_in_a_compound_meter_no_sign_hides_a_beat() -> None:
    # Common practice: five eighths from a beat are a dotted quarter tied to a quarter, not a half to an eighth.
    part = read_score("lead", "X:1\nM:6/8\nL:1/8\nK:G\nG5 B | d6 | z e4 g |\n", setting((1, "6/8")))
    score = converter.parseData(part.musicxml(Span(F(0), F(9)), {}), format="musicxml")
    lengths = [float(sign.quarterLength) for sign in score.flatten().notes]
    assert lengths == [1.5, 1.0, 0.5, 3.0, 1.0, 1.0, 0.5]
