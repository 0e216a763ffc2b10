"""Captions from scripts: cues that can be read in their time and never lie over a cut.

At most two lines of 42 characters, one to seven seconds each, about 20 characters a second at most (common
practice), as far as the clip leaves them the time: `too_fast` says where it does not. WebVTT is a W3C
recommendation; SubRip has no standard, so only what everything reads is written.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.theory.wording import spaced
from studio.timeline.heard import RATE
from studio.timeline.plan import Plan, SegmentPlan

LINE, LINES = 42, 2
SHORTEST, LONGEST = Fraction(1), Fraction(7)
FASTEST = 20  # characters a second
_CLAUSE_END = (".", "!", "?", "…", ",", ";", ":", "–", "—")
_SENTENCE = re.compile(r"(?<=[.!?…])\s+")


@dataclass(frozen=True)
class Cue:
    """Words on screen from `start` up to `end`, in seconds of the episode."""

    start: Fraction
    end: Fraction
    lines: tuple[str, ...]


def cues(plan: Plan) -> tuple[Cue, ...]:
    """The cues of every segment's script."""
    return tuple(cue for segment in plan.segments for cue in _cues(segment, plan.canvas.rate))


def too_fast(segment: SegmentPlan, rate: Fraction) -> bool:
    """Whether a clip is too short for anyone to say its script, or to read its captions."""
    clip = segment.frames / rate
    if (narrated := _narrated(segment, clip)) is not None:
        return len(segment.script) > FASTEST * narrated[1]
    return segment.reading > clip or len(segment.script) > FASTEST * clip


def _narrated(segment: SegmentPlan, clip: Fraction) -> tuple[Fraction, Fraction] | None:
    """From which second of the clip on a recorded narration is heard, and for how long; None where there is none."""
    if segment.voice is None or segment.voice.kind != "narration":
        return None
    laid = segment.voice.laid
    at = min(Fraction(laid.at, RATE), clip)
    return at, min(Fraction(laid.cut.length, RATE), clip - at)


def _cues(segment: SegmentPlan, rate: Fraction) -> Iterable[Cue]:
    """Cues share by their length the time of the narration, or of a reading from the start of the clip."""
    texts = [text for sentence in _sentences(segment.script) for text in _split(sentence)]
    start, clip = segment.start / rate, segment.frames / rate
    at, said = _narrated(segment, clip) or (Fraction(0), min(max(segment.reading, SHORTEST), clip))
    if not said:
        return
    start += at
    texts = _long_enough(texts, sum(map(len, texts)) / said)
    letters = sum(map(len, texts)) or 1
    done = 0
    for text in texts:
        begin = start + said * done / letters
        done += len(text)
        end = min(start + said * done / letters, begin + LONGEST)
        yield Cue(begin, end, tuple(_lines(text)))


def _sentences(script: str) -> list[str]:
    return [sentence for sentence in _SENTENCE.split(" ".join(spaced(script).split())) if sentence]


def _split(sentence: str) -> list[str]:
    """A sentence in pieces that fit two lines: few, of even length, cut after a clause if one ends near."""
    if _fits(sentence):
        return [sentence]
    words = sentence.split()
    pieces = -(-len(sentence) // (LINE * LINES - 8))
    target = len(sentence) / pieces
    cut = min(range(1, len(words)), key=lambda n: _cost(words, n, target), default=0)
    if not cut:  # one endless word
        width = LINE * LINES
        return [sentence[n : n + width] for n in range(0, len(sentence), width)]
    return _split(" ".join(words[:cut])) + _split(" ".join(words[cut:]))


def _cost(words: list[str], cut: int, target: float) -> float:
    first = " ".join(words[:cut])
    off = abs(len(first) - target)
    return off - (15 if words[cut - 1].endswith(_CLAUSE_END) else 0) + (1000 if not _fits(first) else 0)


def _fits(text: str) -> bool:
    lines = _lines(text)
    return len(lines) <= LINES and all(len(line) <= LINE for line in lines)


def _unevenness(pair: tuple[str, str]) -> int:
    return abs(len(pair[0]) - len(pair[1]))


def _lines(text: str) -> list[str]:
    """One line, or two of near equal length."""
    if len(text) <= LINE:
        return [text]
    words = text.split()
    cuts = [(" ".join(words[:n]), " ".join(words[n:])) for n in range(1, len(words))]
    fitting = [pair for pair in cuts if max(map(len, pair)) <= LINE]
    if fitting:
        first, second = min(fitting, key=_unevenness)
        return [first, second]
    return (
        [text[n : n + LINE] for n in range(0, len(text), LINE)]
        if len(words) == 1
        else [*cuts[len(cuts) // 2]]
    )


def _long_enough(texts: list[str], pace: Fraction) -> list[str]:
    """Cues that would be gone within a second join the one before or after, where both fit together."""
    found: list[str] = []
    for text in texts:
        brief = found and min(len(text), len(found[-1])) / pace < SHORTEST
        if brief and _fits(f"{found[-1]} {text}"):
            found[-1] += f" {text}"
        else:
            found.append(text)
    return found


def subrip(shown: Sequence[Cue]) -> str:
    """The cues as SubRip text."""
    blocks = [
        f"{number}\n{_clock(cue.start, ',')} --> {_clock(cue.end, ',')}\n" + "\n".join(cue.lines) + "\n"
        for number, cue in enumerate(shown, 1)
    ]
    return "\n".join(blocks)


def webvtt(shown: Sequence[Cue]) -> str:
    """The cues as WebVTT text."""
    blocks = [
        f"{_clock(cue.start, '.')} --> {_clock(cue.end, '.')}\n" + "\n".join(map(_escaped, cue.lines)) + "\n"
        for cue in shown
    ]
    return "\n".join(["WEBVTT\n", *blocks])


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _clock(seconds: Fraction, point: str) -> str:
    """Rounded down, so that a cue never reaches past the cut it ends at."""
    thousandths = int(seconds * 1000)
    minutes, rest = divmod(thousandths, 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest // 1000:02}{point}{rest % 1000:03}"
