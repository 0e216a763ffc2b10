"""An excerpt as it is heard: passes mixed, joined, stretched, played, faded, and counted in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import accumulate

from studio.sound import source
from studio.sound.bed import add
from studio.sound.clicks import ABOVE_LOUDNESS, ticks
from studio.sound.error import SoundError
from studio.sound.fading import SHORTEST, fade, faded
from studio.sound.joining import Joined
from studio.sound.loudness import judged
from studio.sound.mixing import at_gain
from studio.sound.samples import Samples, silence
from studio.sound.stretch import refuse, stretch_into
from studio.timeline.heard import RATE, Cut, Pass, Played, Source, Tone

CROSS_FADE = RATE * 10 // 1000
"""Samples of clip time that a cross-fade between two passes takes at most: 10 ms, see `studio.sound.joining`."""
ROUNDING = 2
"""Samples by which a pass may end after its files do: its start and its length are both rounded to a sample."""
FARTHEST_MATCH = 12.0
"""Decibels that matching the passes turns one up or down at most: a pass of nearly nothing stays nearly nothing."""
USUAL = -20.0
"""LUFS that clicks go by where no music sounds that could be measured."""


def render(cut: Cut) -> Samples:
    """All that is heard of a cut, shape (cut.length, 2), at 48 kHz: its music, with its clicks over it.

    The clicks go by the loudness that the music has. Raises SoundError like `music`.
    """
    result = music(cut)
    if cut.clicks:
        add(result, clicks_of(cut, judged(result[cut.lead :])))
    return result


def music(cut: Cut) -> Samples:
    """What is heard of a cut without its clicks, shape (cut.length, 2), at 48 kHz; the lead is silent.

    At speed 1 the first sample after the lead is exactly sample `start` of its sources; at any speed what stands
    `passed` samples into the passes is heard at `cut.at(passed)`. Nothing clips. The same cut and files give the
    same bytes. At speed 1 and no cents, what is soloed and what is muted add up to the mix within -90 dBFS; when
    stretched they do not, see `studio.sound.stretch`.

    Beyond the result itself it needs about 170 MB when stretched, 240 MB under half speed, and less as recorded,
    however long it is; what the program plays is held whole, one instrument and pass at a time. Raises SoundError,
    in words, for a cut without length, fades longer than it, a recording from before its 0, a speed out of bounds, a
    pass that none of its files reaches to the end of, and files that cannot be read.
    """
    _refuse(cut)
    result = silence(cut.length)
    sounding = result[cut.lead :]
    gains = _matching(cut)
    joined = Joined(cut.passes, round(CROSS_FADE * cut.speed), gains)
    if joined.sounds:
        stretch_into(sounding, joined.read, cut.speed, cut.cents)
    for number, gain in enumerate(gains):
        add(sounding, _played(cut, number, gain))
    fade(sounding, cut.fade_in, cut.fade_out)
    return result


def clicks_of(cut: Cut, loudness: float | None) -> Iterator[tuple[Samples, int]]:
    """Each click of a cut, shape (n, 2), and its sample of the cut: its peak stands `click_db` and `ABOVE_LOUDNESS`
    over `loudness`, that of the music in LUFS; None where none is heard that could be measured.

    A click that would ring on after the cut ends with it, over its last 5 ms.
    """
    level = (USUAL if loudness is None else loudness) + cut.click_db + ABOVE_LOUDNESS
    for sound, at in ticks(cut.clicks, level):
        whole = sound[: max(cut.length - at, 0)]
        if 0 < len(whole) < len(sound):
            whole = faded(whole, 0, min(SHORTEST, len(whole)))
        if len(whole):
            yield whole, at


def _refuse(cut: Cut) -> None:
    """Raise SoundError for a cut that cannot be heard."""
    refuse(cut.speed, cut.cents)
    if min((one.length for one in cut.passes), default=0) <= 0 or cut.music <= 0:
        raise SoundError("An excerpt needs a length: its end must come after its start.")
    if min(cut.fade_in, cut.fade_out) < 0 or max(cut.fade_in, cut.fade_out) > cut.music:
        raise SoundError("A fade is longer than its excerpt; make the fade shorter or the excerpt longer.")
    for one in dict.fromkeys(cut.passes):
        paths = [each.path for each in one.sources if isinstance(each, Source)]
        if paths and one.start < 0:
            raise SoundError(
                f"An excerpt cannot start at {one.start / RATE:.3f} s: a recording starts at 0 s."
            )
        if paths and not any(source.reaches(path, one.end - ROUNDING) for path in paths):
            source.read(max(paths, key=source.length), one.end - 1, 1)  # says where the longest of them ends


def _matching(cut: Cut) -> tuple[float, ...]:
    """A factor for each pass: 1, or what brings it to the loudness of the first, heard as far as the shortest."""
    if not cut.matched:
        return (1.0,) * len(cut.passes)
    shortest = min(one.length for one in cut.passes)
    heard = {
        one: judged(music(_alone(cut, replace(one, length=shortest)))) for one in dict.fromkeys(cut.passes)
    }
    first = heard[cut.passes[0]]
    return tuple(_factor(first, heard[one]) for one in cut.passes)


def _factor(wanted: float | None, found: float | None) -> float:
    if wanted is None or found is None:
        return 1.0
    louder = min(max(wanted - found, -FARTHEST_MATCH), FARTHEST_MATCH)
    return float(10 ** (louder / 20))


def _alone(cut: Cut, one: Pass) -> Cut:
    """One pass of a cut, without all that goes around it."""
    return replace(cut, passes=(one,), fade_in=0, fade_out=0, lead=0, clicks=(), matched=False)


def _played(cut: Cut, number: int, gain: float) -> Iterator[tuple[Samples, int]]:
    """What the program plays in a pass: each instrument's sound and its sample of the music.

    Notes are played at the cut's own speed, not stretched. Where another pass follows, they end with a fade as
    long as the cross-fade of recordings; the next pass brings its own first notes.
    """
    one = cut.passes[number]
    starts = tuple(accumulate((each.length for each in cut.passes), initial=0))
    begin, end = (cut.at(starts[edge]) - cut.lead for edge in (number, number + 1))
    for each in one.sources:
        if not isinstance(each, Played):
            continue
        from studio.sound.instrument.play import played

        tones = [heard for tone in each.tones if (heard := _heard(cut, one, starts[number], tone))]
        sound = played(tones, each.sound, each.soundfont, end - begin, cut.cents)
        at_gain(sound, each, one.start, float(cut.speed))
        if gain != 1:
            sound *= gain
        if number + 1 < len(cut.passes):
            fade(sound, 0, min(CROSS_FADE, len(sound)))
        yield sound, begin


def _heard(cut: Cut, one: Pass, starts: int, tone: Tone) -> Tone | None:
    """A tone in samples of its pass as it is heard, cut where the pass is; None when it lies outside of it.

    `starts`: samples of the passes before this one.
    """
    first, last = max(tone.start, one.start), min(tone.start + tone.length, one.end)
    if first >= last:
        return None
    begin, end = (cut.at(starts + edge - one.start) - cut.at(starts) for edge in (first, last))
    return replace(tone, start=begin, length=end - begin)
