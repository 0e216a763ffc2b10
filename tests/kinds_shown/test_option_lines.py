from __future__ import annotations

from typing import Annotated, Literal

import pytest
from pydantic import BeforeValidator, Field

from studio.drawing.kinds import KINDS
from studio.kinds_shown.option_lines import NEEDED, OptionLine, option_lines
from studio.project.callouts import CalloutOptions, GrooveName, PartName, PlaceText


class Manifold(CalloutOptions):
    """One option of each sort."""

    part: PartName = Field(description="who plays")
    others: Annotated[list[PartName], BeforeValidator(lambda written: written)] = Field(default_factory=list)
    against: GrooveName | PlaceText | None = Field(None, description="what it is compared with")
    capo: int = Field(0, ge=0, le=11)
    hand: Literal["right", "left"] = "right"
    shapes: dict[str, str] = Field(default_factory=dict)
    lit: bool = Field(True, alias="lit notes")


def test_options_read_as_people_write_them() -> None:
    assert option_lines(Manifold) == (
        OptionLine("part", "a part", NEEDED, "who plays"),
        OptionLine("others", "a part, or a list", "", ""),
        OptionLine("against", "a groove or a place, as 5-8", "", "what it is compared with"),
        OptionLine("capo", "a whole number, 0 to 11", "0", ""),
        OptionLine("hand", "right or left", "right", ""),
        OptionLine("shapes", "a group of names", "", ""),
        OptionLine("lit notes", "yes or no", "yes", ""),
    )


@pytest.mark.parametrize("name", KINDS)
def test_every_option_of_every_kind_says_what_it_takes_and_what_it_is_for(name: str) -> None:
    for line in option_lines(KINDS[name].Options):
        assert line.takes not in ("", "a value"), line
        assert line.meaning, f"{name}: the option '{line.name}' has no Field(description=...)"
        assert len(line.meaning) <= 200, line
