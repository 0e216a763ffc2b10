"""The sound of a clip: its voice, and the music and the camera beside it, each levelled by itself and then together."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import inf

from studio.sound.bed import add
from studio.sound.ducking import duck, talk_under
from studio.sound.excerpt import clicks_of, music
from studio.sound.fading import SHORTEST, fade
from studio.sound.levelling import Click, factor_of, gain_to, to_target
from studio.sound.loudness import Levels, Quiet, judged, measure
from studio.sound.room_tone import camera_lift
from studio.sound.samples import Samples, silence
from studio.sound.talking import Talk
from studio.timeline.heard import Laid, nearest_sample
from studio.timeline.plan import Plan, SegmentPlan


def clip_samples(plan: Plan, segment: SegmentPlan) -> tuple[Samples, Levels]:
    """Mix what is heard in a clip: samples of shape (length, 2) at 48 kHz, and how loud they are.

    Each piece is brought to the target by itself first, so that a quiet take is not lost under an excerpt; then the
    music makes room for the voice. Clicks make room too, and do not count for the loudness. Peaks are held once, in
    the mix. What lasts longer than the clip ends with it, over its last 5 ms. Beyond the result it needs the memory of
    one piece. Raises SoundError, in words, for what cannot be read or cut.
    """
    mix = silence(samples_at(segment.frames, plan.canvas.rate))
    voice, beside = heard_in(segment)
    camera, ducking = _camera(segment), segment.ducking
    talk: list[Talk] = []
    clicks: list[Click] = []
    quiet, at_target = None, False
    for laid in (voice, *beside) if voice else beside:
        piece = music(laid.cut)
        loudness, left = _turn(piece, laid.cut.lead, laid is camera, plan)
        ticks = [(tick.copy(), laid.at + at) for tick, at in clicks_of(laid.cut, loudness)]
        for sound, at in ((piece, laid.at), *ticks):
            if ducking:
                duck(sound, at, talk, ducking, begun=laid.at)
            _end_with_clip(sound, len(mix) - at)
        if laid is voice and beside and ducking:
            talk = [Talk(one.start + laid.at, one.end + laid.at) for one in talk_under(piece, ducking)]
        add(mix, [(piece, laid.at)])
        clicks += ticks
        quiet, at_target = quiet or left, at_target or (loudness is not None and left is None)
        del piece, sound  # before the next one is made
    # Beside nothing that is at the target, a quiet camera would be brought there after all.
    most_lift = inf if at_target else 0.0
    levels = to_target(mix, plan.loudness, plan.ceiling, lambda _: clicks, most_lift=most_lift)
    return mix, replace(levels, quiet_camera=quiet)


def heard_in(segment: SegmentPlan) -> tuple[Laid | None, tuple[Laid, ...]]:
    """The voice of a clip, and all else that is heard beside it."""
    beside = (segment.camera_sound, segment.excerpt.laid if segment.excerpt else None)
    return segment.voice.laid if segment.voice else None, tuple(piece for piece in beside if piece)


def samples_at(frame: int, rate: Fraction) -> int:
    """The sample nearest to the start of a frame."""
    return nearest_sample(frame / rate)


def _camera(segment: SegmentPlan) -> Laid | None:
    """The camera's own sound, as the voice of a clip or beside it."""
    voice = segment.voice
    return voice.laid if voice and voice.kind == "camera" else segment.camera_sound


def _turn(piece: Samples, lead: int, camera: bool, plan: Plan) -> tuple[float | None, Quiet | None]:
    """Bring a piece, silent up to `lead`, to the target in place; its peaks go over the ceiling by as much as a limiter
    may take off again.

    A camera's own sound is lifted as far as `camera_lift` allows. Gives the loudness that the piece has then, in LUFS,
    and how it was left quiet, if it was.
    """
    found = measure(piece[lead:])
    integrated = judged(piece[lead:], found)
    most_lift = camera_lift(piece, integrated) if camera else inf
    gain = gain_to(found, integrated, plan.loudness, plan.ceiling, most_lift)
    if gain:
        piece *= factor_of(gain)
    if integrated is None:
        return None, None
    return integrated + gain, Quiet(integrated, gain) if plan.loudness - integrated > most_lift else None


def _end_with_clip(sound: Samples, left: int) -> None:
    """Fade a sound out where its clip ends, `left` samples on, if it goes on after that."""
    if 0 < left < len(sound):
        fade(sound[:left], 0, min(SHORTEST, left))
