"""How what sounds in an excerpt stands beside one another: how loud, where, and who steps back for whom."""

from __future__ import annotations

from studio.music.songtime import SongTime
from studio.project.model import Excerpt, Featured, Play, StemLevel
from studio.timeline.heard import RATE, Dip, Played, Source, Tone, nearest_sample
from studio.timeline.playing.ending import RELEASES, USUAL_RELEASE, lifted, rung_on

_AROUND = RATE
"""Samples around an excerpt for which a level holds that it has from end to end, as joints reach over its edges."""

BESIDE_A_PART = -7.5
"""dB by which chords are softer beside a part, so that the tune stands three or four over them (measured: five keys
at once are so much louder than one). What a person writes as gain comes on top."""

_BESIDE = "plucked"
"""The sound that nobody need name, and what chords have in its place beside a part, so that the ear holds the two
apart: both die away alike, so that neither swallows the other's long notes, but a strum does not begin as a blow
does."""


def names_of(excerpt: Excerpt) -> tuple[str, ...]:
    """What sounds: the stems, then what is played, each by its name; none where it is the full recording."""
    return (*excerpt.names, *(play.name for play in excerpt.plays))


def _level_of(excerpt: Excerpt, name: str) -> StemLevel:
    """How loud and where something stands; as it is, where nobody says."""
    return excerpt.levels.get(name, StemLevel())


def dips_of(excerpt: Excerpt, name: str, time: SongTime) -> tuple[Dip, ...]:
    """Where something steps back for the featured stem."""
    featured = excerpt.featured
    if featured is None or featured.name == name:
        return ()
    return (_dip(excerpt, featured, time),)


def _dip(excerpt: Excerpt, featured: Featured, time: SongTime) -> Dip:
    over = max(1, nearest_sample(featured.over))
    if featured.span is None:
        start, end = nearest_sample(excerpt.start), nearest_sample(excerpt.end + excerpt.tail)
        return Dip(start - _AROUND, end + _AROUND, featured.by_db, over)
    start, end = (nearest_sample(time.seconds(at)) for at in (featured.span.start, featured.span.end))
    return Dip(start, end, featured.by_db, over)


def stems_of(excerpt: Excerpt, time: SongTime) -> tuple[Source, ...]:
    """The sound files of an excerpt as they stand in its mix: its stems, or the full recording, or none."""
    return tuple(
        Source(media.path.as_posix(), level.gain_db, level.pan, dips_of(excerpt, name, time))
        for name, media in zip(excerpt.names or ("",), excerpt.sources, strict=False)
        for level in (_level_of(excerpt, name),)
    )


def played_of(
    excerpt: Excerpt, play: Play, tones: tuple[Tone, ...], soundfont: str, time: SongTime, last: bool = True
) -> Played:
    """What the program plays in a pass, as it stands in the mix; `soundfont` is the file for a sound out of one.

    Where nothing comes after it (`last`) the keys are up in time to die away; in a tail they ring on.
    """
    level, sound = _level_of(excerpt, play.name), _sound_of(excerpt, play)
    gain = level.gain_db + (BESIDE_A_PART if _accompanies(excerpt, play) else 0)
    file = soundfont if sound.startswith("soundfont") else ""
    dips = dips_of(excerpt, play.name, time)
    return Played(_ended(excerpt, sound, tones, last), sound, file, gain, level.pan, dips)


def _accompanies(excerpt: Excerpt, play: Play) -> bool:
    """Whether these are chords beside a part."""
    return play.what == "chords" and any(other.what == "part" for other in excerpt.plays)


def _sound_of(excerpt: Excerpt, play: Play) -> str:
    """The sound of what is played; chords beside parts have another one where nobody asked for any."""
    named = any(one.named for one in excerpt.plays)
    return _BESIDE if not named and _accompanies(excerpt, play) else play.sound


def _ended(excerpt: Excerpt, sound: str, tones: tuple[Tone, ...], last: bool) -> tuple[Tone, ...]:
    """Tones whose last keys ring on through a tail, come up, or stay down for the pass that follows; a phrase and its
    changed pass end alike."""
    end = nearest_sample(excerpt.end)
    if last and excerpt.tail:
        return rung_on(tones, end, nearest_sample(excerpt.end + excerpt.tail))
    if last or excerpt.instead:
        return lifted(tones, end, nearest_sample(RELEASES.get(sound, USUAL_RELEASE) * excerpt.speed))
    return tones
