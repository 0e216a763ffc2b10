"""Finding the key of every chord, where the project does not write it.

All is weighed together: how the chords fit each key (``key_evidence``), their lengths, where V goes home, what
starts and ends a section, the melody's notes; and what it costs to change key (``key_changes``). That gives each
key a share of all ways of hearing the song at each chord (``key_posterior``); keys and readings are then chosen
together (``key_choice``), a stretch that closes in the dominant is given its key (``key_dominants``), and the
changes are set where they are heard (``key_pivots``). Short tonicisations stay in the key around them, and chains
of dominants make no key unless they arrive and stay (``key_motion``). That duration, metrical strength, section
starts and the melody carry much beside the mere set of chords is what Temperley and de Clercq report for rock
(Journal of New Music Research, 2013; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from studio.music.chart import Chart
from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.key_choice import chosen_keys
from studio.theory.harmony.key_dominants import with_closes, with_dominant_keys
from studio.theory.harmony.key_evidence import KEYS
from studio.theory.harmony.key_motion import possible_tonics
from studio.theory.harmony.key_pivots import with_pivots, without_glimpses
from studio.theory.harmony.key_places import KeyPlace, key_places
from studio.theory.harmony.key_posterior import Shares, posterior, steady_path
from studio.theory.harmony.key_reasons import reason
from studio.theory.harmony.key_spelling import spelled
from studio.theory.harmony.key_sureness import sureness

_UNTOLD = 0.5  # the most that a key may be sure whose tonic never sounds, nor a seventh that points to it
_DEFENSIBLE = 0.03  # a key with less of the shares is nobody's second choice


@dataclass(frozen=True, slots=True)
class InferredKey:
    """The key of a span in quarter notes.

    ``sureness``, 0 to 1, comes of the share of all ways of hearing the song that are in this key here, on average
    over the span's chords by their length; ``key_sureness`` has the table. ``runner_up`` is the
    next best key, None where no other is defensible.
    """

    span: Span
    key: Key
    sureness: float
    runner_up: Key | None
    reason: str


def infer_keys(
    chart: Chart,
    sections: Sequence[tuple[str, Span]] = (),
    melody: Sequence[Note] = (),
    time: SongTime | None = None,
) -> tuple[InferredKey, ...]:
    """The keys of a song, in order; neighbouring chords in one key are one span.

    ``sections`` are names with their spans; ``melody`` holds the notes of the written parts, all together;
    ``time`` says where the bars begin. All three may be missing. A song without chords is read from its
    melody; one without either has no keys. Each span goes on up to the next, over what has no chord.
    """
    places = key_places(chart, [span for _, span in sections], melody, time)
    if not places:
        return ()
    shares = posterior(places)
    if any(at.chord is not None for at in chart.chords):
        path, shares = _path(chart, places, shares, time)
    else:
        path = steady_path(shares)
    runs = [list(run) for _, run in groupby(range(len(places)), key=path.__getitem__)]
    starts = [places[run[0]].span.start for run in runs]
    last = max(places[-1].span.end, chart.chords[-1].end) if chart.chords else places[-1].span.end
    spans = [Span(start, end) for start, end in zip(starts, [*starts[1:], last], strict=True)]
    return tuple(
        _inferred(
            places[run[0] : run[-1] + 1], shares[run[0] : run[-1] + 1], path[run[0]], span, sections, melody
        )
        for run, span in zip(runs, spans, strict=True)
    )


def _path(
    chart: Chart, places: Sequence[KeyPlace], shares: Sequence[Shares], time: SongTime | None
) -> tuple[list[int], list[Shares]]:
    """The number of the key at each sounding chord, and the shares that the keys of closed stretches add to."""
    chosen = chosen_keys(chart, shares)
    closed = with_dominant_keys(places, chosen, time)
    told = with_closes(shares, chosen, closed)
    return without_glimpses(places, told, with_pivots(places, closed)), told


def _inferred(
    places: Sequence[KeyPlace],
    shares: Sequence[Shares],
    chosen: int,
    span: Span,
    sections: Sequence[tuple[str, Span]],
    melody: Sequence[Note],
) -> InferredKey:
    mean = _mean(places, shares)
    key = spelled(KEYS[chosen], places, melody)
    second = max((other for other in range(len(KEYS)) if other != chosen), key=mean.__getitem__)
    runner_up = spelled(KEYS[second], places, melody) if mean[second] >= _DEFENSIBLE else None
    sure = min(sureness(mean[chosen]), 1.0 if _is_told(places, key) else _UNTOLD)
    return InferredKey(span, key, round(sure, 2), runner_up, reason(places, key, span, sections))


def _is_told(places: Sequence[KeyPlace], key: Key) -> bool:
    """Whether the tonic sounds in the span or a dominant seventh points to it; melodies need neither."""
    chords = [place.chord for place in places if place.chord is not None]
    return not chords or key.tonic.pc in possible_tonics(chords)


def _mean(places: Sequence[KeyPlace], shares: Sequence[Shares]) -> Shares:
    """The shares of a span: those of its places, by their lengths."""
    total = float(sum(place.span.length for place in places))
    lengths = [float(place.span.length) / total for place in places]
    return [
        sum(length * here[key] for length, here in zip(lengths, shares, strict=True))
        for key in range(len(KEYS))
    ]
