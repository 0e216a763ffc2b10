"""What sections are called in a sentence, and what they are apart from their number."""

from __future__ import annotations

import re

_NUMBER = re.compile(r"([\s_-]*\d+|[\s_-]+([ivx]+|last|final|reprise))?['′]*$", re.IGNORECASE)


def called(name: str) -> str:
    """As "the chorus", but "verse 2": a numbered section is a name of its own.

    >>> called("chorus"), called("verse 2")
    ('the chorus', 'verse 2')
    """
    return name if name[-1:].isdigit() else f"the {name}"


def role_of(name: str) -> str:
    """A section's name without its number: "verse" for "Verse 2".

    >>> role_of("Verse 2"), role_of("chorus"), role_of("2"), role_of("verse ii"), role_of("remix")
    ('verse', 'chorus', '', 'verse', 'remix')
    """
    return _NUMBER.sub("", name.strip().casefold()).strip()
