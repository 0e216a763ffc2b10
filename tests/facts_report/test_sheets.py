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


@pytest.mark.parametrize("key", ["C", "Am"])
def test_every_mode_says_why(tmp_path: Path, key: str) -> None:
    tune = f"K:{key}\nC2 ^C2 D2 _E2 | E2 F2 ^F2 G2 |"
    rows = report(tmp_path, "| C | Am |", {"lead": tune}, key="C major")["Part: lead"]
    assert all(row[3] for row in rows if str(row[0]).startswith("mode of"))


def test_a_pattern_has_one_row(tmp_path: Path) -> None:
    kit = {"kick": "x...x...", "snare": "..x...x.", "hat": "xxxxxxxx"}
    rows = report(tmp_path, {"one": "| C | F |", "two": "| G | C |"}, grooves={"kit": kit})["Grooves"]
    assert [row[0] for row in rows] == ["kit"]
