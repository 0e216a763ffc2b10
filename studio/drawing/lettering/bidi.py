"""Which way each character of a paragraph reads: the Unicode Bidirectional Algorithm (UAX #9), rules P2 to L2.

Own code, because shaping needs the levels: what PyPI offers returns a reordered string, from which a font cannot
be shaped any more, or binds a library of the machine. The tests hold it to Unicode's own cases. The rules are
named as the annex names them. Levels are even for left to right, odd for right to left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from unicodedata import bidirectional

from studio.drawing.lettering.bidi_resolving import ISOLATES, RunSequence, direction, resolve

_DEEPEST = 125
_EMBEDS = {"LRE": None, "RLE": None, "LRO": "L", "RLO": "R"}
_REMOVED = (*_EMBEDS, "PDF", "BN")
ClassOf = Callable[[str], str]


def unicode_class(character: str) -> str:
    """The bidirectional class that Unicode gives a character; L where it gives none."""
    return bidirectional(character) or "L"


def base_level(text: str, class_of: ClassOf = unicode_class) -> int:
    """0 for a paragraph that reads from the left, 1 from the right, as its first strong letter says (P2, P3)."""
    return _first_strong([class_of(character) for character in text]) or 0


def levels(text: str, base: int | None = None, class_of: ClassOf = unicode_class) -> tuple[int, ...]:
    """The level of each character of one line that is a paragraph of its own; `base` is found where it is None."""
    originals = [class_of(character) for character in text]
    start = (_first_strong(originals) or 0) if base is None else base
    matches = _matches(originals)
    found, kinds = _explicit(originals, start, matches)
    kept = [index for index, kind in enumerate(originals) if kind not in _REMOVED]
    for sequence in list(_sequences(kept, found, originals, matches, start)):  # all, before levels change
        resolve(text, originals, kinds, sequence, found)
    return _reset(found, originals, start)


def visual_runs(found: Sequence[int]) -> tuple[tuple[int, int], ...]:
    """Runs of one level as (start, end), from left to right on the line (L2)."""
    edges = [0, *(n for n in range(1, len(found)) if found[n] != found[n - 1]), len(found)]
    runs = [(start, end) for start, end in pairwise(edges) if start < end]
    for level in range(max(found, default=0), 0, -1):
        first = 0
        while first < len(runs):
            last = first
            while last < len(runs) and found[runs[last][0]] >= level:
                last += 1
            runs[first:last] = runs[first:last][::-1]
            first = last + 1
    return tuple(runs)


def _first_strong(kinds: Sequence[str], start: int = 0) -> int | None:
    """The level of the first strong letter that no isolate holds, up to the PDI that ends this one."""
    depth = 0
    for kind in kinds[start:]:
        if kind in ISOLATES:
            depth += 1
        elif kind == "PDI":
            if depth == 0 and start:
                return None
            depth = max(0, depth - 1)
        elif depth == 0 and kind in ("L", "R", "AL"):
            return int(kind != "L")
    return None


def _matches(kinds: Sequence[str]) -> dict[int, int]:
    """Which PDI ends which isolate (BD9)."""
    opened: list[int] = []
    found: dict[int, int] = {}
    for index, kind in enumerate(kinds):
        if kind in ISOLATES:
            opened.append(index)
        elif kind == "PDI" and opened:
            found[opened.pop()] = index
    return found


@dataclass(frozen=True)
class _Status:
    """What is in force inside an embedding, an override or an isolate."""

    level: int
    override: str | None = None
    isolate: bool = False

    def above(self, right: bool) -> int:
        """The next level of a direction."""
        return self.level + (2 if (self.level % 2 == 1) == right else 1)


def _explicit(kinds: Sequence[str], base: int, matches: dict[int, int]) -> tuple[list[int], list[str]]:
    """Levels and classes after the marks that a writer set (X1 to X8)."""
    stack, deep_isolates, deep_embeds = [_Status(base)], 0, 0
    found, changed = [base] * len(kinds), list(kinds)
    for index, kind in enumerate(kinds):
        if kind == "PDI":
            if deep_isolates:
                deep_isolates -= 1
            elif any(status.isolate for status in stack):
                deep_embeds = 0
                while not stack.pop().isolate:
                    pass
        elif kind == "PDF" and not deep_isolates:
            if deep_embeds:
                deep_embeds -= 1
            elif len(stack) > 1 and not stack[-1].isolate:
                stack.pop()
        now = stack[-1]
        found[index] = base if kind == "B" else now.level
        if now.override and kind not in ("B", *_REMOVED):
            changed[index] = now.override
        if kind in _EMBEDS or kind in ISOLATES:
            isolate = kind in ISOLATES
            level = now.above(_is_right(kinds, index))
            if level <= _DEEPEST and not deep_isolates and not deep_embeds:
                stack.append(_Status(level, _EMBEDS.get(kind), isolate))
            elif isolate:
                deep_isolates += 1
            elif not deep_isolates:
                deep_embeds += 1
    return found, changed


def _is_right(kinds: Sequence[str], index: int) -> bool:
    kind = kinds[index]
    return bool(_first_strong(kinds, index + 1)) if kind == "FSI" else kind in ("RLE", "RLO", "RLI")


def _sequences(
    kept: Sequence[int],
    found: Sequence[int],
    kinds: Sequence[str],
    matches: dict[int, int],
    base: int,
) -> Iterator[RunSequence]:
    """The isolating run sequences of a paragraph (X10, BD13)."""
    runs: list[list[int]] = []
    for index in kept:
        if runs and found[runs[-1][-1]] == found[index]:
            runs[-1].append(index)
        else:
            runs.append([index])
    starting = {run[0]: run for run in runs}
    continued = set(matches.values())
    place = {index: number for number, index in enumerate(kept)}
    for run in runs:
        if kinds[run[0]] == "PDI" and run[0] in continued:
            continue
        joined = list(run)
        while kinds[joined[-1]] in ISOLATES and joined[-1] in matches:
            joined += starting[matches[joined[-1]]]
        level, first, last = found[joined[0]], place[joined[0]], place[joined[-1]]
        before = found[kept[first - 1]] if first else base
        is_open = kinds[joined[-1]] in ISOLATES
        after = found[kept[last + 1]] if last + 1 < len(kept) and not is_open else base
        yield RunSequence(tuple(joined), level, direction(max(level, before)), direction(max(level, after)))


def _reset(found: list[int], kinds: Sequence[str], base: int) -> tuple[int, ...]:
    """Space at the end of the line and before tabs reads as the paragraph does (L1); removed marks read as what
    stands before them, so that they part nothing."""
    kept, trailing = [False] * len(kinds), True
    for index in range(len(kinds) - 1, -1, -1):
        if kinds[index] in ("S", "B"):
            trailing = True
        elif kinds[index] not in ("WS", *ISOLATES, "PDI", *_REMOVED):
            trailing = False
        if trailing:
            found[index] = base
        kept[index] = trailing or kinds[index] not in _REMOVED
    for index in range(len(kinds)):
        if not kept[index]:
            found[index] = found[index - 1] if index else base
    return tuple(found)
