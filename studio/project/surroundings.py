"""The song as the project file gives it, against which places, times and names are read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from studio.music.place import Place, Span
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError, UnknowableError, unknown_name
from studio.project.fact_text import check_facts
from studio.project.places import Spot, WrittenPlace, read_place
from studio.project.times import is_time_range, read_length, read_time, read_time_range

Value = TypeVar("Value")

WHOLE = "song"


@dataclass(frozen=True)
class Known:
    """What is known of the project so far. None stands for what is wrong in the file: it judges nothing.

    `timed` says whether the seconds of `time` mean anything. `sections` are (first bar, last bar) by name;
    `end` is where the song ends, in quarters; `ask` takes in a question that stands in words.
    """

    rate: Fraction | None = None
    time: SongTime | None = None
    timed: bool = True
    end: Fraction | None = None
    sections: Mapping[str, tuple[int, int]] | None = None
    parts: frozenset[str] | None = None
    stems: frozenset[str] | None = None
    grooves: frozenset[str] | None = None
    facts: frozenset[str] | None = None
    ask: Callable[[str], None] | None = None

    # Times

    def frame_rate(self) -> Fraction:
        return _known(self.rate)

    def seconds(self, text: str) -> Fraction:
        return read_time(text, self.frame_rate)

    def length(self, text: str) -> Fraction:
        return read_length(text, self.frame_rate)

    def seconds_range(self, text: str) -> tuple[Fraction, Fraction]:
        return read_time_range(text, self.frame_rate)

    # Names

    def part(self, name: str) -> str:
        return _one_of("a part of the song", name, self.parts)

    def stem(self, name: str) -> str:
        return _one_of("a stem", name, self.stems)

    def groove(self, name: str) -> str:
        return _one_of("a groove", name, self.grooves)

    def groove_or_span(self, text: str) -> str | Span:
        if text in _known(self.grooves):
            return text
        try:
            return self.span(text)
        except UnknowableError:
            raise
        except MisfitError as misfit:
            raise MisfitError(f"{misfit.sentence.rstrip('.')}; nor is there a groove of that name") from None

    def words(self, text: str) -> str:
        return check_facts(text, lambda: _known(self.facts), lambda question: _known(self.ask)(question))

    # Places

    def span(self, text: str) -> Span:
        """A stretch of song; `song` is all of it.

        Raises MisfitError for one moment, or for what the song does not have.
        """
        if text.strip() == WHOLE:
            return Span(-_known(self.time).pickup, _known(self.end))
        place = read_place(text)
        if place.instant:
            moment = self.resolved(place).start
            time = _known(self.time)
            last = time.place(moment).beat + 1 > time.meter(time.bar_at(moment)).beats
            raise MisfitError(
                f"'{text}' is one moment; write a stretch, such as {_stretch_like(place, last)}"
            )
        return self.resolved(place)

    def instant(self, text: str) -> Fraction:
        """A moment of song. Raises MisfitError for a stretch, or for what the song does not have."""
        place = read_place(text)
        if not place.instant:
            if place.first is None and place.section not in _known(self.sections):
                self.resolved(place)
            first = WrittenPlace(place.section, Spot(place.first.bar if place.first else 1, Fraction(1)))
            raise MisfitError(f"'{text}' is a stretch; write the moment with its beat, such as {first}")
        return self.resolved(place).start

    def stretch(self, text: str) -> tuple[Span, tuple[Fraction, Fraction]]:
        """A stretch of the recording, written as a place or as a range of time: (quarters, seconds)."""
        if is_time_range(text):
            start, end = self.seconds_range(text)
            time = self._clock()
            return Span(time.quarters_at(start), time.quarters_at(end)), (start, end)
        span = self.span(text)
        time = self._clock()
        return span, (time.seconds(span.start), time.seconds(span.end))

    def _clock(self) -> SongTime:
        return _known(self.time if self.timed else None)

    def resolved(self, place: WrittenPlace) -> Span:
        """Where a place is; an instant is a span of no length. Raises MisfitError past the song's end."""
        first, last, limit = self._bars(place)
        time = _known(self.time)
        start = self._moment(first)
        if place.instant:
            end = start
        elif last.beat is None:
            end = time.bar_start(last.bar + 1)
        else:
            end = self._moment(last)
        if end > limit or start >= limit:
            raise MisfitError(self._past(place, limit))
        return Span(start, end)

    def _bars(self, place: WrittenPlace) -> tuple[Spot, Spot, Fraction]:
        """First and last spot counted in the song, and the quarters that they must not pass."""
        if place.section is None:
            assert place.first is not None
            return place.first, place.last or place.first, _known(self.end)
        sections = _known(self.sections)
        if place.section not in sections:
            raise MisfitError(unknown_name("a section of the song", place.section, sections))
        low, high = sections[place.section]
        if place.first is None:
            first, last = Spot(low), Spot(high)
        else:
            offset = max(low, 1) - 1
            first = Spot(place.first.bar + offset, place.first.beat)
            written = place.last or place.first
            last = Spot(written.bar + offset, written.beat)
            if first.bar < low:
                raise MisfitError(f"'{place}' has bar {place.first.bar}; bars of a section count from 1")
        return first, last, _known(self.time).bar_start(high + 1)

    def _moment(self, spot: Spot) -> Fraction:
        try:
            return _known(self.time).quarters(
                Place(spot.bar, Fraction(1) if spot.beat is None else spot.beat)
            )
        except ValueError as error:
            raise MisfitError(str(error)) from None

    def _past(self, place: WrittenPlace, limit: Fraction) -> str:
        time = _known(self.time)
        if place.section is not None:
            low, high = _known(self.sections)[place.section]
            count = high - max(low, 1) + 1
            bars = "which has 1 bar; use 1" if count == 1 else f"which has {count} bars; use 1 to {count}"
            return f"'{place}' is past the end of {place.section}, {bars}"
        if limit <= 0:
            return f"'{place}' is past the end of the song, which has no sections, chords or recording yet"
        last = time.bar_at(limit)
        if time.bar_start(last) == limit:
            last -= 1
        return f"'{place}' is past the end of the song, whose last bar is {last}"


def _known(value: Value | None) -> Value:
    if value is None:
        raise UnknowableError
    return value


def _one_of(what: str, name: str, known: Iterable[str] | None) -> str:
    names = _known(known)
    if name not in names:
        raise MisfitError(unknown_name(what, name, names))
    return name


def _stretch_like(place: WrittenPlace, last: bool) -> str:
    """A stretch from a moment to the next beat, which after the `last` of a bar is the next bar's first; or its bar."""
    assert place.first is not None and place.first.beat is not None
    bar, beat = place.first.bar, place.first.beat
    until = Spot(bar + 1, Fraction(1)) if last else Spot(bar, beat + 1)
    return f"{WrittenPlace(place.section, place.first, until)}, or {WrittenPlace(place.section, Spot(bar))}"
