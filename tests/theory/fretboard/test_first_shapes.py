"""The first answer of the search against what a guitarist plays, in all twelve keys.

Common practice, written down from memory by a guitarist before looking at what the search says; where players differ
the usual ways stand side by side. Under "m7b5", "13" and the like the movable shapes of jazz players are among them.
"""

from __future__ import annotations

import pytest

from studio.music.chord_reader import read_chord
from studio.theory.fretboard.hand_positions import Wishes
from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS
from studio.theory.fretboard.search import find_shapes
from studio.theory.fretboard.tuning import Tuning

ROOTS = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]

PLAYED = {
    "": "x32010 x46664 xx0232 x68886|xx1343 022100 133211|xx3211 244322|xx4322 320003|320033 466544 x02220 x13331 "
    "x24442",
    "m": "x35543 x46654 xx0231 x68876|xx1342 022000 133111|xx3111 244222|xx4222 355333 466444 x02210 x13321 x24432",
    "7": "x32310|x35353 x46464|x4342x xx0212 x68686|xx1323 020100|022130|020130 131211 242322|xx4320 320001 464544 "
    "x02020|x02223 x13131 x21202|x24242",
    "maj7": "x32000 x46564 xx0222 x68786|xx1333 021100 xx3210|132211 243322|xx4321 320002|3x0002 465544 x02120 "
    "x13231 x24342",
    "m7": "x35343 x46454|x42100 xx0211 x68676|xx1322 020000|022030|022033|020030 131111 242222|202220 353333 464444 "
    "x02010 x13121 x24232|x20202",
    "sus2": "x30013|x35533|x30033 x46644 xx0230 x68866|xx1341 024400 xx3011|xx3013 x-9-11-11-9-9|xx4122 "
    "300033|300233|3x0233 xx6344|411144|xx6896 x02200 x13311 x24422",
    "sus4": "x33011|x33013 x46674|9-11-11-11-9-9 xx0233 x68896|xx1344 022200 133311|xx3311 244422 "
    "330013|3x0013|330033 466644 x02230 x13341|688866 x24400|x24452",
    "7sus4": "x35363|x33311 x46474|9-11-9-11-9-9 xx0213 x68696|xx1324 020200|020230|022230 131311 242422 "
    "330011|353533|3x0011 464644 x02030|x02033 x13141|686866 x24252|x22200|x24200|x22202",
    "add9": "x32030|x32033 x43141|x4314x x54230|xx0252|x57770|x54252 x65363|xx1041|x6536x 022102|024100 xx3213 xx4324 "
    "300203|3x0203|320203|300003 xx6546|4x131x x02420 x10311|xx8768 xx9879|x21x22",
    "5": "x355xx x466xx xx023x|x577xx x688xx 022xxx 133xxx 244xxx 355xxx 466xxx x022xx|577xxx x133xx x244xx",
    "6": "x32210|x35555 x46666 xx0202 x68888|xx1313 022120 xx3535|1x023x|100211|xx3231 xx4646|2x434x|2x132x 320000 "
    "xx6868|4x354x|xx6564 x02222 x13333|x10031|x10033 x24444|x21102",
    "m6": "x31213|x3524x x42324|x46353|x42320 xx0201 xx1312 022020 133131|1x013x|1x011x 244242|2x122x "
    "310030|3x233x|355353 466464 x02212 x1302x|688686|6x566x|x13023 x20102",
    "9": "x32333|x32330 x43444 x54555|x54530 x65666|xx1021 020102 131213|xx3243|101011 242324 "
    "300201|3x0201|320201|353435|300001 464546 x02423 x10111|x1013x x21222",
    "m9": "x31333 x42444 x53555 x64666 020002|022032 131113 242224|202120 353335 464446 x02413|575557|x05500 "
    "686668|x11113 x20222",
    "13": "x32355|x35355|8-10-8-9-10-8|8x899x x43466|x46466|x43304 x5457x|x54577|x54507|x54500|x54505 x65688|x68688 "
    "020120|020122|022122 131231|1x123x 242342|2x234x 3x345x|353453|303000|323000|302001 464564|4x456x "
    "x02022|575675|5x567x x13133|686786|x10113 x21244|x24244|797897",
    "dim": "x3454x x4565x|x42020 xx0131 xx1242|x6787x xx2353|0120xx|0120x0 xx3101|xx3464 xx4575|2342xx|xx4212 "
    "xx5686|3453xx xx6797|4564xx x0121x x12320|x1232x x2343x",
    "dim7": "x34242|x31212 x45353|x42323 xx0101 xx1212 012020|xx2323 xx3434|120101|123131 234242|2x121x|xx4545 "
    "345353|xx5656|3x232x xx6767|456464 x01212 x12020|x12323 x20101|x23131",
    "m7b5": "x3434x|x31312 x4545x|x42000 xx0111 xx1222 010030|012030|xx2333 xx3444|1x110x|12110x 202210|2x221x|xx4555 "
    "xx5666|3x332x|3433xx xx6777|4x443x|4544xx x01213|x0101x|x01013 x1212x|x12120 x20201|x2323x",
    "aug": "x32110|x3211x x4322x xx0332|x5433x xx1003|xx1443|x21003 032110 xx3221 xx4332 321003|32100x xx6554 x03221 "
    "x10332 x21003|x21000",
}  # fmt: skip

OTHERWISE = {"Bmaj7": "x21302", "Fadd9": "103011", "Badd9": "x21422", "F13": "101031"}
"""Where our first answer is none of these: right and playable, but a player would look twice."""


@pytest.mark.parametrize("quality", PLAYED)
def test_the_first_answer_is_what_a_guitarist_plays(quality: str) -> None:
    for root, ways in zip(ROOTS, PLAYED[quality].split(), strict=True):
        first = found(root + quality)[0]
        assert first in ways.split("|") or OTHERWISE.get(root + quality) == first, (root + quality, first)


@pytest.mark.parametrize(
    ("chord", "ways"),
    [
        ("D/F#", "200232 2x0232"), ("C/G", "332010 3x2010"), ("G/B", "x20003 x20033"), ("Am/G", "302210 3x2210"),
        ("F/A", "x03211"), ("A/C#", "x42220 x4222x"), ("E/G#", "422100 4x2100"), ("D/A", "x00232"),
        ("C/E", "032010"), ("G/D", "xx0003 xx0433"), ("Am/E", "002210"), ("Am/C", "x32210"), ("F/C", "x33211"),
        ("E/B", "x22100"), ("Bm/A", "x04432 x00432"), ("C/B", "x22010 x2x010"), ("D/C", "x30232"),
        ("G/F#", "220003 2x0033 2x0003"), ("Em/B", "x22000"), ("Em/G", "322000"), ("C/D", "xx0010 xx0013"),
        ("Bb/D", "xx0331"), ("Dm/C", "x30231"), ("Dm/A", "x00231"), ("B/D#", "x64442 x6444x xx1442"),
    ],
)  # fmt: skip
def test_slash_chords_as_they_are_played(chord: str, ways: str) -> None:
    assert found(chord)[0] in ways.split()


@pytest.mark.parametrize(
    ("tuning", "played"),
    [
        # Common practice in each tuning.
        ("drop D", "D:000232 Dm:000231 D7:000212 D5:000xxx E5:222xxx F5:333xxx G5:555xxx A:x02220 C:x32010 Em:222000"),
        ("DADGAD", "Dsus4:000000 D5:000xxx Gsus4:555555 Dm7:000233 Em7:220020 Asus4:x02200 Dm:003200"),
        ("open G", "G:x00000 A:x22222 C:x55555 D:x77777 Gsus4:x00010"),
        ("ukulele", "C:0003 D:2220 F:2010 G:0232 A:2100 Am:2000 Dm:2210 Gm:0231 Bm:4222 Bb:3211 C7:0001 G7:0212"),
        ("mandolin", "G:0023 C:0230 Am:2230 Em:0220 G7:0021"),
        ("banjo", "G:00000 C:02012 Em:02002 A:x2222"),
    ],
)  # fmt: skip
def test_other_tunings_are_played_their_own_way(tuning: str, played: str) -> None:
    first = {chord: found(chord, TUNINGS[tuning])[0] for chord, _, _ in map(cut, played.split())}
    assert first == {chord: shape for chord, _, shape in map(cut, played.split())}


def cut(text: str) -> tuple[str, str, str]:
    return text.partition(":")


@pytest.mark.parametrize("tuning", ["standard", "drop D", "DADGAD", "open G", "7-string"])
@pytest.mark.parametrize("quality", ["", "m", "7", "add9", "sus4", "maj9", "13", "dim7"])
@pytest.mark.slow
def test_without_a_slash_the_root_is_the_lowest_note(tuning: str, quality: str) -> None:
    for root in ROOTS:
        chord = read_chord(root + quality)
        for one in find_shapes(chord, TUNINGS[tuning]):
            bass = one.shape.bass(TUNINGS[tuning], chord)
            assert bass is not None and bass.name == chord.root


def test_where_no_shape_has_the_root_at_the_bottom_another_one_does() -> None:
    """Up to the second fret A♭ lies on the G string alone, and two strings above it do not hold the rest."""
    shapes = find_shapes(read_chord("Ab"), STANDARD, Wishes(highest_fret=2))
    assert shapes[0].shape.text == "xx111x"


@pytest.mark.parametrize("tuning", ["standard", "drop D", "DADGAD", "half step down", "bass"])
def test_power_chords_are_compact(tuning: str) -> None:
    for root in ROOTS:
        first = find_shapes(read_chord(f"{root}5"), TUNINGS[tuning])[0].shape
        assert first.strings == tuple(range(first.strings[0], first.strings[-1] + 1))
        assert len(first.strings) == 3


def found(chord: str, tuning: Tuning = STANDARD) -> list[str]:
    return [one.shape.text for one in find_shapes(read_chord(chord), tuning)]
