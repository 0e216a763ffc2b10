"""What is said of options that every kind has."""

from __future__ import annotations

from studio.kinds_shown.option_lines import COMMON
from studio.project.callouts import CalloutOptions


def test_every_option_of_every_callout_is_in_the_list_as_it_is_written() -> None:
    written = [field.alias or name for name, field in CalloutOptions.model_fields.items() if name != "kind"]
    assert sorted(name for name, _, _ in COMMON) == sorted(written)
