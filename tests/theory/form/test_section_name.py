"""What sections are called (common practice)."""

import pytest

from studio.theory.form.section_name import called, role_of


@pytest.mark.parametrize(
    ("name", "role"),
    [
        ("Verse 2", "verse"), ("verse2", "verse"), ("A2", "a"), ("Chorus II", "chorus"), ("chorus_last", "chorus"),
        ("verse′", "verse"), ("bridge", "bridge"), ("2", ""), ("", ""),
        # words that only end like a number or a remark
        ("remix", "remix"), ("vox", "vox"), ("blast", "blast"),
    ],
)  # fmt: skip
def test_a_section_without_its_number(name: str, role: str) -> None:
    assert role_of(name) == role


def test_a_section_in_a_sentence() -> None:
    assert (called("chorus"), called("verse 2")) == ("the chorus", "verse 2")
