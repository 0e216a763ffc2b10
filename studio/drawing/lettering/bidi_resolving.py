"""The second half of the bidirectional algorithm: one isolating run sequence, from classes to levels (W1 to I2)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from unicodedata import normalize

ISOLATES = ("LRI", "RLI", "FSI")
"""The classes of the marks that begin an isolate."""

_MOST_BRACKETS = 63
_NEUTRAL = ("B", "S", "WS", "ON", *ISOLATES, "PDI")
_PAIRS = (
    "()[]{}༺༻༼༽᚛᚜⁅⁆⁽⁾₍₎⌈⌉⌊⌋\u2329\u232a❨❩❪❫❬❭❮❯❰❱❲❳❴❵⟅⟆⟦⟧⟨⟩⟪⟫⟬⟭⟮⟯⦃⦄⦅⦆⦇⦈⦉⦊⦋⦌⦍⦐⦏⦎⦑⦒⦓⦔⦕⦖⦗⦘⧘⧙⧚⧛⧼⧽"
    "⸢⸣⸤⸥⸦⸧⸨⸩⹕⹖⹗⹘⹙⹚⹛⹜〈〉《》「」『』【】〔〕〖〗〘〙〚〛﹙﹚﹛﹜﹝﹞（）［］｛｝｟｠｢｣"
)
_CLOSING = dict(zip(_PAIRS[::2], _PAIRS[1::2], strict=True))


def direction(level: int) -> str:
    """L or R."""
    return "R" if level % 2 else "L"


@dataclass(frozen=True)
class RunSequence:
    """An isolating run sequence: its characters, and the directions before and after it."""

    indices: tuple[int, ...]
    level: int
    before: str
    after: str


def resolve(
    text: str, originals: Sequence[str], kinds: Sequence[str], sequence: RunSequence, found: list[int]
) -> None:
    """Write the levels of a sequence's characters into `found`.

    `originals` are the classes of all of the text's characters, `kinds` the same after overrides.
    """
    _Resolving(text, originals, kinds, sequence).resolve(found)


class _Resolving:
    """One isolating run sequence on its way from classes to levels."""

    def __init__(
        self, text: str, originals: Sequence[str], kinds: Sequence[str], sequence: RunSequence
    ) -> None:
        self._sequence = sequence
        self._characters = [text[index] for index in sequence.indices]
        self._marks = [originals[index] == "NSM" for index in sequence.indices]
        self._kinds = [kinds[index] for index in sequence.indices]
        self._own = direction(sequence.level)

    def resolve(self, found: list[int]) -> None:
        """Write the levels of the sequence into `found`."""
        self._weak()
        self._numbers()
        self._brackets()
        self._neutrals()
        for index, kind in zip(self._sequence.indices, self._kinds, strict=True):
            if kind == "R":  # I1, I2
                found[index] += 1 - self._sequence.level % 2
            elif kind in ("AN", "EN"):
                found[index] += 2 - self._sequence.level % 2
            else:
                found[index] += self._sequence.level % 2

    def _weak(self) -> None:
        """Marks take after their letters, and digits after the letters before them (W1 to W3)."""
        kinds, strong = self._kinds, self._sequence.before
        for place, kind in enumerate(kinds):
            if kind == "NSM":
                before = kinds[place - 1] if place else self._sequence.before
                kinds[place] = "ON" if before in (*ISOLATES, "PDI") else before
            if kinds[place] in ("L", "R", "AL"):
                strong = kinds[place]
            elif kinds[place] == "EN" and strong == "AL":
                kinds[place] = "AN"
        self._kinds = ["R" if kind == "AL" else kind for kind in kinds]

    def _numbers(self) -> None:
        """What stands in and beside numbers belongs to them (W4 to W7)."""
        kinds = self._kinds
        for place in range(1, len(kinds) - 1):
            left, right = kinds[place - 1], kinds[place + 1]
            between = (kinds[place], left, right)
            if between in (("ES", "EN", "EN"), ("CS", "EN", "EN"), ("CS", "AN", "AN")):
                kinds[place] = left
        for start, end in _stretches(kinds, ("ET",)):
            beside = kinds[start - 1 : start] + kinds[end : end + 1]
            kinds[start:end] = ["EN" if "EN" in beside else "ON"] * (end - start)
        strong = self._sequence.before
        for place, kind in enumerate(kinds):
            if kind in ("ES", "CS"):
                kinds[place] = "ON"
            elif kind in ("L", "R"):
                strong = kind
            elif kind == "EN" and strong == "L":
                kinds[place] = "L"

    def _brackets(self) -> None:
        """A pair of brackets goes with what it holds, or with what stands before it (N0)."""
        for opening, closing in sorted(self._pairs()):
            inside = {_strong(kind) for kind in self._kinds[opening + 1 : closing]} & {"L", "R"}
            if self._own in inside:
                self._turn(opening, closing, self._own)
            elif inside:
                other = inside.pop()
                before = map(_strong, reversed(self._kinds[:opening]))
                context = next((kind for kind in before if kind in "LR"), self._sequence.before)
                self._turn(opening, closing, other if context == other else self._own)

    def _turn(self, opening: int, closing: int, direction: str) -> None:
        for place in (opening, closing):
            self._kinds[place] = direction
            place += 1
            while place < len(self._kinds) and self._marks[place]:
                self._kinds[place] = direction
                place += 1

    def _pairs(self) -> Iterator[tuple[int, int]]:
        """Where brackets open and close (BD16)."""
        opened: list[tuple[str, int]] = []
        for place, character in enumerate(self._characters):
            if self._kinds[place] != "ON":
                continue
            if character in _CLOSING:
                if len(opened) == _MOST_BRACKETS:
                    return
                opened.append((normalize("NFD", _CLOSING[character]), place))
                continue
            same = normalize("NFD", character)
            for depth in range(len(opened) - 1, -1, -1):
                if opened[depth][0] == same:
                    yield opened[depth][1], place
                    del opened[depth:]
                    break

    def _neutrals(self) -> None:
        """What has no direction takes that of both its sides, or else that of the embedding (N1, N2)."""
        kinds = self._kinds
        for start, end in _stretches(kinds, _NEUTRAL):
            left = _strong(kinds[start - 1]) if start else self._sequence.before
            right = _strong(kinds[end]) if end < len(kinds) else self._sequence.after
            kinds[start:end] = [left if left == right else self._own] * (end - start)


def _strong(kind: str) -> str:
    return "R" if kind in ("EN", "AN") else kind


def _stretches(kinds: Sequence[str], wanted: tuple[str, ...]) -> list[tuple[int, int]]:
    """Where characters of some classes stand in a row, as (start, end)."""
    found: list[tuple[int, int]] = []
    for place, kind in enumerate(kinds):
        if kind in wanted:
            if found and found[-1][1] == place:
                found[-1] = (found[-1][0], place + 1)
            else:
                found.append((place, place + 1))
    return found
