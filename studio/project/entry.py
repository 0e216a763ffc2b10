"""A group of keys in the project file, as a pydantic model."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar

from pydantic import BaseModel, ConfigDict, model_validator


class Entry(BaseModel):
    """A group that refuses unknown keys, and in which a key with nothing after it counts as not written.

    `elsewhere` says of keys that people look for here where they belong.
    """

    elsewhere: ClassVar[Mapping[str, str]] = {}

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    @model_validator(mode="before")
    @classmethod
    def _leave_out_empty(cls, written: Any) -> Any:
        if not isinstance(written, dict):
            return written
        known = key_names(cls)
        return {key: value for key, value in written.items() if value != "" or key not in known}


def key_names(model: type[BaseModel]) -> list[str]:
    """The keys of a group as they are written in the file."""
    return [field.alias or name for name, field in model.model_fields.items()]
