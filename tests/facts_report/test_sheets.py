"""What the report says of small songs, row by row. The songs are our own."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.facts_report.small_song import report


def test_one_section_has_no_order_of_sections(tmp_path: Path) -> None:
    rows = report(tmp_path, "| C | F | G7 | C |", key="C major")["Form"]
    assert [row[0] for row in rows] == ["tune"]


def test_the_plan_of_inferred_keys_is_no_surer_than_they_are(tmp_path: Path) -> None:
    chords = {"one": "| C | F | G7 | C |", "two": "| E♭ | A♭ | B♭7 | E♭ |"}
    found = report(tmp_path, chords)
    (plan,) = [row for row in found["Form"] if row[0] == "keys"]
    assert plan[-1] == min(row[3] for row in found["Keys"]) < 1  # type: ignore[type-var]


CHORDS = "K:C\n[CEG]4 [CEG]4 | [CFA]4 [CFA]4 | [B,FG]4 [B,DFG]4 | [CEG]8 |"
TUNE = "K:C\nE2 F2 G4 | A2 G2 F4 | F2 E2 D2 B,2 | C8 |"
BASS = "K:C clef=bass\nC,8 | F,,8 | G,,4 F,,2 G,,2 | C,8 |"


@pytest.mark.parametrize(
    ("parts", "cadence"),
    [
        ({"keys": CHORDS}, "authentic cadence"),
        ({"keys": CHORDS, "bass": BASS}, "authentic cadence"),
        ({"strings": CHORDS, "flute": TUNE}, "perfect authentic cadence"),
        ({"voice": CHORDS, "flute": TUNE}, "imperfect authentic cadence"),
    ],
)
def test_a_part_of_chords_is_no_tune(tmp_path: Path, parts: dict[str, str], cadence: str) -> None:
    """Without a melody nobody says perfect or imperfect, unless a part is named as one: common practice."""
    rows = report(tmp_path, "| C | F | G7 | C |", parts, key="C major")["Progressions"]
    told = [str(row[2]).partition(",")[0] for row in rows if row[1] == "cadence"]
    assert told == [cadence]


def test_what_ends_with_the_song_ends_in_its_last_bar(tmp_path: Path) -> None:
    chords = "| G . Em . | Am . D7 . | G . B7 . | Em . A7 . | D7 . G . |"
    rows = report(tmp_path, chords, key="G major")["Progressions"]
    assert "3.3 to the end of bar 5" in [row[3] for row in rows]


@pytest.mark.parametrize("key", ["C", "Am"])
def test_every_mode_says_why(tmp_path: Path, key: str) -> None:
    tune = f"K:{key}\nC2 ^C2 D2 _E2 | E2 F2 ^F2 G2 |"
    rows = report(tmp_path, "| C | Am |", {"lead": tune}, key="C major")["Part: lead"]
    assert all(row[3] for row in rows if str(row[0]).startswith("mode of"))


def test_a_pattern_has_one_row(tmp_path: Path) -> None:
    kit = {"kick": "x...x...", "snare": "..x...x.", "hat": "xxxxxxxx"}
    rows = report(tmp_path, {"one": "| C | F |", "two": "| G | C |"}, grooves={"kit": kit})["Grooves"]
    assert [row[0] for row in rows] == ["kit"]
