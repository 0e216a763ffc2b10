"""Segment ids name files on every system."""

from __future__ import annotations

import pytest

from studio.project.complaints import MisfitError
from studio.project.segment_id import read_segment_id


@pytest.mark.parametrize("text", ["hook", "part-2_b", "9", "console", "com10", "a" * 60])
def test_good_ids(text: str) -> None:
    assert read_segment_id(text) == text


# Names that Windows keeps for devices: Microsoft, "Naming Files, Paths, and Namespaces".
@pytest.mark.parametrize("text", ["CON", "prn", "Aux", "NUL", "com1", "LPT9"])
def test_names_of_windows_devices(text: str) -> None:
    with pytest.raises(MisfitError, match="file name on Windows"):
        read_segment_id(text)


@pytest.mark.parametrize(
    "text", ["", ".", "..", "a.", "a b", "a/b", "a:b", "é", "-a", "a" * 61, "a\n", "con.txt"]
)
def test_names_that_not_every_system_takes(text: str) -> None:
    with pytest.raises(MisfitError):
        read_segment_id(text)
