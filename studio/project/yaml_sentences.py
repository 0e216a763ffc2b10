"""What PyYAML says about text that is not YAML, said again for a musician."""

from __future__ import annotations

import re

import yaml

_QUOTES = "put the whole value in quotes"
_INDENT = "The lines here do not line up: give keys of one group the same number of spaces before them."

# (pattern in PyYAML's context and problem, sentence). The first that is found is said.
_SENTENCES: tuple[tuple[str, str], ...] = (
    (r"scanning a block scalar", f'Chords that begin with | need quotes in YAML; {_QUOTES}: "| A | E |".'),
    (r"'%' that cannot start", f"A value cannot begin with % in YAML; {_QUOTES}."),
    (r"character '\\t'", "A tab stands here; YAML indents with spaces, so use spaces."),
    (r"cannot start any token", f"A value cannot begin with this character in YAML; {_QUOTES}."),
    (r"quoted scalar.*unexpected end of stream", "A quote is opened here and never closed."),
    (r"quoted scalar.*document separator", "A quote is opened here and not closed before the next '---'."),
    (
        r"double-quoted scalar",
        "In double quotes a backslash begins an escape, and this one is not known; "
        "write '/' in paths, or use single quotes.",
    ),
    (r"flow mapping.*stream end", "A '{' is opened here and never closed."),
    (r"flow sequence.*stream end", "A '[' is opened here and never closed."),
    (r"flow mapping", "A ',' or '}' is missing before this, in the group that '{' opens."),
    (r"flow sequence", "A ',' or ']' is missing before this, in the list that '[' opens."),
    (
        r"mapping values are not allowed",
        "A ':' stands where no key can be: a value that holds ': ' needs quotes, "
        "a key needs a space after its ':', and keys of one group line up.",
    ),
    (r"sequence entries are not allowed", "A '-' begins a list item on a line of its own, under the key."),
    (r"expected the node content", f"A value cannot begin so; {_QUOTES}, or complete what is here."),
    (
        r"expected <block end>, but found '<(scalar|alias|anchor|tag)>'",
        f"Something follows a value that is already complete: {_QUOTES}, "
        "or give this line the indent of the lines around it.",
    ),
    (r"expected <block end>", _INDENT),
    (r"expected '<document start>'", _INDENT),
    (r"could not find expected ':'", "This line needs a ':' after its key, or the indent of the text above."),
    (r"alias", "A '*' begins an alias, which needs a name; if it is part of the text, put it in quotes."),
    (r"anchor", "A '&' begins an anchor, which needs a name; if it is part of the text, put it in quotes."),
    (r"tag", "A '!' begins a tag, which means nothing here; if it is part of the text, put it in quotes."),
    (r"YAML document|directive", "A line that begins with % is an order to YAML; a project needs none."),
)

# Of these the mistake is where the quote or bracket opens, not where the file ends.
_AT_OPENING = re.compile(
    r"quoted scalar.*(end of stream|separator)|flow (mapping|sequence).*stream end|block scalar"
)


_COLOUR = re.compile(r"[:,\[{][ \t]+(#[0-9A-Fa-f]{3,8})\b")
"""A colour without quotes, which YAML takes for a remark."""


def sentence_for(error: yaml.MarkedYAMLError, text: str) -> tuple[int, str]:
    """(character of the file, sentence) for an error of PyYAML's in a text."""
    said = f"{error.context or ''}; {error.problem or ''}"
    mark = error.problem_mark or error.context_mark
    if error.context_mark is not None and _AT_OPENING.search(said):
        mark = error.context_mark
    index = mark.index if mark is not None else 0
    if "flow" in f"{error.context}{error.problem}" or "node content" in said:
        colour = next(reversed([*_COLOUR.finditer(text, 0, index + 1)]), None)
        if colour is not None:
            sentence = f"'#' begins a remark in YAML; put the colour in quotes, as \"{colour[1]}\"."
            return colour.start(1), sentence
    if "unknown escape" in said:
        index -= 1  # PyYAML points behind the backslash
    for pattern, sentence in _SENTENCES:
        if re.search(pattern, said):
            return index, sentence
    return index, "This is not YAML that can be read; compare the line with the ones around it."
