"""What else is true of a note that is no chord tone: accented, chromatic, perhaps the chord's own seventh."""

from __future__ import annotations

from dataclasses import replace

from studio.music.songtime import SongTime
from studio.theory.melody.beats import beat_at
from studio.theory.melody.degree import Degree
from studio.theory.melody.scale_degree import NoteInKey, note_in_key
from studio.theory.melody.setting import Setting
from studio.theory.melody.tone import Tone

_BY_STEP = ("passing", "neighbour")
_CHROMATIC = (
    *_BY_STEP,
    "double neighbour",
    "enclosure",
    "appoggiatura",
    "incomplete neighbour",
    "cambiata",
    "escape",
)
_PERHAPS_OF_THE_CHORD = ("passing", "retardation", "escape", "incomplete neighbour", "non-chord tone")


def with_traits(
    tone: Tone, setting: Setting, degree: Degree, in_key: NoteInKey | None, time: SongTime | None
) -> Tone:
    """The tone with what its place in the bar and in the key add to it."""
    accented = is_accented(setting, time)
    if accented and _leans_on(tone, setting):
        tone = replace(tone, kind="appoggiatura", sureness=0.75, runner_up="incomplete neighbour")
    traits = ("accented",) * (accented and tone.kind in _BY_STEP)
    traits += ("chromatic",) * (tone.kind in _CHROMATIC and is_chromatic(setting, degree, in_key))
    runner_up = tone.runner_up or _other_name(tone, setting, degree, weak=time is not None and not accented)
    return replace(tone, traits=traits + tone.traits, runner_up=runner_up)


def _leans_on(tone: Tone, setting: Setting) -> bool:
    """Whether a note is reached by leap and left by step; which way is no matter where it is accented."""
    return tone.kind == "incomplete neighbour" and setting.came.kind == "leap" and setting.goes.kind == "step"


def is_accented(setting: Setting, time: SongTime | None) -> bool:
    """On a downbeat or another strong beat, and stronger in its bar than the note after it.

    Beats 2 and 4 of four are called weak (``beats``), so that nothing there is called accented. Without bars,
    what is struck as the chord changes is accented.
    """
    if time is None or not setting.later:
        return setting.note.onset == setting.at.start
    beat, following = beat_at(setting.span.start, time), beat_at(setting.later[0].onset, time)
    return beat.name in ("downbeat", "strong beat") and beat.weight > following.weight


def is_pushed(setting: Setting, time: SongTime | None) -> bool:
    """Whether a tone of this chord and the next is struck off the beat and held over, most of it in the next."""
    if time is None or not setting.struck or not setting.goes_on or setting.note.end <= setting.at.end:
        return False
    late_enough = setting.early <= setting.note.end - setting.at.end
    return late_enough and beat_at(setting.note.onset, time).name == "offbeat"


def is_chromatic(setting: Setting, degree: Degree, in_key: NoteInKey | None) -> bool:
    """Foreign to the key and a half step from a note beside it; without a key, the letter of a note beside it
    with another accidental (G–G♯–A). So C♮ between B♭ and D is plain in D, and passes over Gm by whole steps.

    A plain second, fourth or sixth of a chord that is itself foreign to the key is of that chord's scale: E♭ over
    B♭7 in F is not chromatic.
    """
    name, beside = setting.pitch.name, (*setting.earlier[:1], *setting.later[:1])
    if in_key is not None:
        near = any(abs(other.pitch.midi - setting.pitch.midi) == 1 for other in beside)
        return near and not in_key.diatonic and not _of_borrowed_scale(setting, degree, in_key)
    return any(other.pitch.name.letter == name.letter and other.pitch.name != name for other in beside)


def _of_borrowed_scale(setting: Setting, degree: Degree, in_key: NoteInKey) -> bool:
    chord_foreign = not all(note_in_key(note, in_key.key).diatonic for note in setting.chord.notes())
    return chord_foreign and degree.label in ("2", "4", "6", "9", "11", "13")


def _other_name(tone: Tone, setting: Setting, degree: Degree, weak: bool) -> str:
    """Butterfield, unit 9a: a note a seventh above a triad may be the chord's seventh or pass by."""
    plain = setting.chord.triad in ("major", "minor", "diminished") and not setting.chord.seventh
    seventh = degree.letters == 6 and degree.label in ("7", "♭7", "♭♭7")
    if plain and seventh and tone.kind.startswith(_PERHAPS_OF_THE_CHORD):
        return "chord tone"
    return "incomplete neighbour" if weak and tone.kind == "appoggiatura" else ""
